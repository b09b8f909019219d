"""No text raises; every code point has an owner; a sound file comes back byte for byte."""

from hypothesis import given, settings
from hypothesis import strategies as st

from wale.parse.parser import parse
from wale.parse.tree import Block, Statement, Tree
from wale.problems.problem import Problem
from wale.source import Source

SAMPLE = """-- our sample
wale 1

pattern "Millrace"
    about   "A pullover in two colours"   -- worked flat
    units   cm

-- two yarns
yarn rye
    count    2/8 Nm wool
    colour   #8a5a2b
swatch easy, worked flat
    counted  40 sts = 13.9 cm,   -- off the needle
        -- and its rows

        40 rows = 12.0 cm
motif grist
    key |-| rye, |x| flour
    | - -- x - |   -- last row
sizes women XS S 2XL
    ease bust 18 (19, 20 1/2) cm
let armhole = max(armhole-depth,
    upper-arm/2)
piece back, worked flat
    cast on hip/2 in facing
    shape   to back.bust - 10 cm over 5 1/2 inch
    -- nothing more

join
"""
# Signs that the grammar knows, so that fuzzing gets past the first one.
SIGNS = st.text(
    st.sampled_from(list('wale 1\n piece back \n    in,()|-+*/="#0123456789.½×–“”_\t\r\u00a0\u202e\0éa\u0301𝒳\u2028'))
)


def statements(tree: Tree) -> list[Statement]:
    found = [tree.edition] if tree.edition else []
    for part in tree.parts:
        found += [part.head, *part.body] if isinstance(part, Block) else [part]
    return sorted(found, key=lambda statement: statement.span.start)


def rebuild(tree: Tree) -> str:
    """Put a file together from statements and trivia, taking only white space from the source."""
    text, pieces, at = tree.source.text, [], 0
    for statement in statements(tree):
        for line in statement.trivia.above:
            pieces.append(line + "\n")
        start = text.rfind("\n", 0, statement.span.start) + 1
        pieces += [text[start : statement.span.start], tree.source.cut(statement.span)]
        end = text.find("\n", statement.span.end)
        rest = text[statement.span.end : end]
        gap = rest[: len(rest) - len(rest.lstrip())] if statement.trivia.trailing else rest
        assert gap.strip() == ""
        pieces += [gap, statement.trivia.trailing, "\n"]
        at = end
    assert at <= len(text)
    return "".join(pieces) + "".join(line + "\n" for line in tree.tail)


def visible(text: str) -> str:
    """Take white space out, and the invisible signs that E111 reports at the edge of a word."""
    return "".join(sign for sign in text if not sign.isspace() and sign not in "\u00ad\u200b\u2060\ufeff")


def check_cover(text: str) -> list[Problem]:
    """Parse; assert that the gaps between statements and dropped lines hold exactly the trivia and white space."""
    tree, problems = parse(Source("t.wale", text))
    kept = statements(tree)
    marks: list[tuple[int, int, Statement | None]] = [(s.span.start, s.span.end, s) for s in kept]
    marks += [(span.start, span.end, None) for span in tree.dropped]
    gaps, notes, at = [], [], 0
    for start, end, statement in sorted(marks, key=lambda mark: mark[:2]):
        assert start >= at or statement is None
        gaps.append(text[at:start])
        if statement is not None:
            notes += [*statement.trivia.above, statement.trivia.trailing]
        at = max(at, end)
    gaps.append(text[at:])
    notes += tree.tail
    assert visible("".join(gaps)) == visible("".join(notes))
    assert bool(tree.dropped) <= bool(problems)
    for found in problems:
        for place in [label.span for label in found.labels] + [e.span for fix in found.fixes for e in fix.edits]:
            assert 0 <= place.start <= place.end <= len(text)
    return problems


def test_sample_comes_back_byte_for_byte() -> None:
    tree, problems = parse(Source("t.wale", SAMPLE))
    assert problems == []
    assert rebuild(tree) == SAMPLE


@settings(max_examples=150, deadline=None)
@given(st.text())
def test_any_text(text: str) -> None:
    check_cover(text)


@settings(max_examples=300, deadline=None)
@given(SIGNS)
def test_any_text_of_known_signs(text: str) -> None:
    check_cover(text)


@settings(max_examples=150, deadline=None)
@given(st.lists(st.tuples(st.integers(0, len(SAMPLE)), st.integers(0, 6), SIGNS), min_size=1, max_size=4))
def test_mutated_sample(changes: list[tuple[int, int, str]]) -> None:
    text = SAMPLE
    for start, length, new in changes:
        text = text[:start] + new[:5] + text[start + length :]
    check_cover(text)


@settings(max_examples=100, deadline=None)
@given(st.integers(0, len(SAMPLE)), SIGNS)
def test_safe_fixes_come_to_rest(at: int, new: str) -> None:
    """Applying the first safe fix, again and again, ends at a text that has none."""
    text = SAMPLE[:at] + new[:4] + SAMPLE[at:]
    for _ in range(30):
        fixes = [fix for found in check_cover(text) for fix in found.fixes if fix.grade == "safe"]
        if not fixes:
            break
        mended = text
        for edit in sorted(fixes[0].edits, key=lambda edit: edit.span.start, reverse=True):
            mended = mended[: edit.span.start] + edit.text + mended[edit.span.end :]
        assert mended != text
        text = mended
    assert not any(fix.grade == "safe" for found in check_cover(text) for fix in found.fixes)


def test_lone_surrogates_do_not_raise() -> None:
    _, problems = parse(Source("t.wale", "wale 1\njoin \ud800\n"))
    assert [found.code for found in problems] == ["E110"]


def test_a_line_of_the_greatest_length_is_refused_whole() -> None:
    _, problems = parse(Source("t.wale", "wale 1\nlet a = " + "1 + (" * 39_000))
    assert [found.code for found in problems] == ["E131"]
