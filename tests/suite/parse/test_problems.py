"""Each code of syntax is met, alone, and each safe fix makes its code go away."""

import pytest

from wale.parse.parser import MAX_CHARACTERS, MAX_LINES, parse
from wale.problems.codes import CODES
from wale.problems.problem import Problem
from wale.source import Source

TOP = "wale 1\npiece back\n    work 2 cm\n"

# code, text, and the text after its safe fix (None: no safe fix)
CASES: list[tuple[str, str, str | None]] = [
    ("E101", "-- mine\njoin\n", "wale 1\n-- mine\njoin\n"),
    ("E101", "", "wale 1\n"),
    ("E101", "\ufeffjoin\r\n", "\ufeffwale 1\r\njoin\r\n"),
    ("E102", "wale 7\n", None),
    ("E102", "wale 1 cm\n", None),
    ("E103", "wale 1\njoin\nwale 1 -- again\nband a\n", "wale 1\njoin\nband a\n"),
    ("E104", "wale 1\npeice back\n    work 2 cm\n", None),
    ("E104", TOP + "work 3 cm\nbind off\n", None),
    ("E104", TOP + "| - x |\n", None),
    ("E105", "wale 1\n    work 2 cm\n", None),
    ("E106", TOP + "  bind off\n", TOP + "    bind off\n"),
    ("E107", "wale 1\njoin\n\tseam a\n\tseam b\n", "wale 1\njoin\n    seam a\n    seam b\n"),
    ("E107", "wale 1\njoin\n\u00a0 seam a\n", "wale 1\njoin\n  seam a\n"),
    ("E108", TOP + "<<<<<<< ours\n    work 2 cm\n=======\n    work 3 cm\n>>>>>>> theirs\n", None),
    ("E110", "wale 1\njoin -- a\u202eb\u0000\n", None),
    ("E110", "wale 1\njoin\rband a\n", None),
    ("E111", TOP + "    work 2 × hip\n", TOP + "    work 2 * hip\n"),
    ("E111", TOP + "    rib 2 cm, 2×2\n", TOP + "    rib 2 cm, 2x2\n"),
    ("E111", TOP + "    work hip − 2 cm\n", TOP + "    work hip - 2 cm\n"),
    ("E111", TOP + "    work hip – 2 cm\n", TOP + "    work hip - 2 cm\n"),
    ("E111", TOP + "    work 5½inch\n", TOP + "    work 5 1/2 inch\n"),
    ("E111", TOP + "    about “old -- mill”\n", TOP + '    about "old -- mill"\n'),
    ("E111", TOP + "    work\u00a02\u00a0cm\n", TOP + "    work 2 cm\n"),
    ("E111", TOP + '    work 5" -- tall "x"\n', TOP + '    work 5 inch -- tall "x"\n'),
    ("E111", TOP + "    work １２ cm\n", TOP + "    work 12 cm\n"),
    ("E112", TOP + "    upper_arm 3 cm\n", TOP + "    upper-arm 3 cm\n"),
    ("E112", TOP + "    work 2 cm; flat\n", None),
    ("E112", TOP + "    work 2 ☃\n", None),
    ("E112", TOP + "    work 2 [3] cm\n", None),
    ("E113", TOP + '    about "old\n', None),
    ("E114", TOP + "    | - x\n", None),
    ("E115", TOP + "    colour #fa0\n", TOP + "    colour #ffaa00\n"),
    ("E115", TOP + "    colour #12345\n", None),
    ("E116", TOP + "    in grist\n", None),
    ("E116", TOP + "    2 cm\n", None),
    ("E117", TOP + "    work hip (19, 20) cm\n", None),
    ("E117", TOP + "    work 2 cm,, flat\n", None),
    ("E118", TOP + "    work 2 cm,\n", None),
    ("E118", TOP + "    work 2 cm - \n    bind off\n", None),
    ("E119", TOP + "    work (hip + 2 cm\n", None),
    ("E119", TOP + "    work hip)\n", None),
    ("E120", TOP + "    work 10cm\n", TOP + "    work 10 cm\n"),
    ("E120", TOP + "    work 2.5mm, 5in\n", TOP + "    work 2.5 mm, 5 inch\n"),
    ("E121", TOP + "    work 3,5 cm\n", TOP + "    work 3.5 cm\n"),
    ("E121", TOP + "    work 3,5cm\n", TOP + "    work 3.5 cm\n"),
    ("E121", TOP + "    work 18 (19,20,21) cm\n", TOP + "    work 18 (19, 20, 21) cm\n"),
    ("E121", TOP + "    work 18 (19,5, 20) cm\n", None),
    ("E121", TOP + "    work 1,000 sts\n", None),
    ("E121", TOP + "    work .5 cm\n", TOP + "    work 0.5 cm\n"),
    ("E122", TOP + "    work 5 in\n", TOP + "    work 5 inch\n"),
    ("E122", TOP + "    work 5 1/2 in, flat\n", TOP + "    work 5 1/2 inch, flat\n"),
    ("E122", TOP + "    work 18 (19, 20) in\n", TOP + "    work 18 (19, 20) inch\n"),
    ("E122", TOP + "    work 5 in grist\n", None),
    ("E123", TOP + "    work hip +2 cm\n", TOP + "    work hip + 2 cm\n"),
    ("E123", TOP + "    work 2-3 cm\n", None),
    ("E124", TOP + "    work 5 3/2 cm\n", None),
    ("E124", TOP + "    work 5/0 cm\n", None),
    ("E125", TOP + "    work 18 cm (19, 20)\n", TOP + "    work 18 (19, 20) cm\n"),
    ("E125", TOP + "    work 18(19, 20) cm\n", TOP + "    work 18 (19, 20) cm\n"),
    ("E130", "wale 1\n" + "\n" * MAX_LINES, None),
    ("E130", "wale 1\n--" + "a" * MAX_CHARACTERS, None),
    ("E131", TOP + "    work " + "(" * 51 + "hip" + ")" * 51 + "\n", None),
    ("E131", TOP + "    work 1" + " + 1" * 101 + "\n", None),
    ("E131", TOP + "    work " + "a" * 10_000 + "\n", None),
    ("E132", TOP + "    work 1234567890123 sts\n", None),
    ("E132", TOP + "    count 1/1234567890123\n", None),
]


def problems_of(text: str) -> list[Problem]:
    return parse(Source("t.wale", text))[1]


def apply(text: str, found: Problem) -> str:
    """Apply the first safe fix of a problem."""
    (fix,) = [fix for fix in found.fixes if fix.grade == "safe"]
    for edit in sorted(fix.edits, key=lambda edit: edit.span.start, reverse=True):
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return text


@pytest.mark.parametrize(("code", "text", "mended"), CASES)
def test_code_is_met_alone_and_its_safe_fix_mends_it(code: str, text: str, mended: str | None) -> None:
    (found,) = problems_of(text)
    assert found.code == code
    assert found.labels and all(0 <= label.span.start <= label.span.end <= len(text) for label in found.labels)
    if mended is None:
        assert not any(fix.grade == "safe" for fix in found.fixes)
    else:
        assert apply(text, found) == mended
        assert problems_of(mended) == []


def test_each_code_of_syntax_has_a_case() -> None:
    assert {code for code in CODES if code.startswith("E1")} == {code for code, _, _ in CASES}


def test_no_message_speaks_of_the_parser() -> None:
    for _, text, _ in CASES:
        for found in problems_of(text):
            words = " ".join((found.message, found.help, *(label.text for label in found.labels)))
            for name in ("oken", "WORD", "LPAR", "RPAR", "NUMBER", "$END", "nvalid"):
                assert name not in words


def test_a_bad_line_hides_no_other() -> None:
    text = TOP + "    work 2 cm;\n    bind off\nyarn rye\n    count 2/\n    strands 1\n"
    tree, problems = parse(Source("t.wale", text))
    assert [found.code for found in problems] == ["E112", "E118"]
    assert [len(part.body) for part in tree.parts if hasattr(part, "body")] == [2, 1]


def test_a_slip_in_a_head_leaves_the_block() -> None:
    tree, problems = parse(Source("t.wale", "wale 1\npiece back, worked; flat\n    work 2 cm\n"))
    assert [found.code for found in problems] == ["E112"]
    (block,) = tree.parts
    assert hasattr(block, "body") and len(block.body) == 1
    assert tree.source.cut(block.head.span) == "piece back"


def test_places_of_a_mended_line_are_those_typed() -> None:
    tree, problems = parse(Source("t.wale", "wale 1\nlet a = 5½ inch + hip\n"))
    assert [found.code for found in problems] == ["E111"]
    (let,) = tree.parts
    total = let.items[2]  # type: ignore[union-attr]
    assert [tree.source.cut(total.left.span), tree.source.cut(total.right.span)] == ["5½ inch", "hip"]  # type: ignore[union-attr]


@pytest.mark.parametrize("sign", "[]{}")
def test_of_other_brackets_is_said_that_brackets_are_round(sign: str) -> None:
    (found,) = problems_of(TOP + f"    work 2 {sign}3 cm\n")
    assert found.code == "E112" and found.help.startswith("Brackets are round: `53 (58) cm`")


@pytest.mark.parametrize(
    ("line", "owners"),
    [
        ("cast on 20 cm in plain", "`cast` begins a line of a `piece` block."),
        ("rib 3 cm, 2x2", "`rib` begins a line of a `piece` or `band` block."),
        ("measure bust 90 cm", "`measure` begins a line of a `sizes` or `body` block."),
        ("needle 4 mm", "`needle` begins a line of a `swatch` block."),
        ("peice back", ""),
    ],
)
def test_a_line_at_the_left_edge_is_told_its_block(line: str, owners: str) -> None:
    """The blocks stand in docs/language.md: what a piece, band, size or swatch takes."""
    (found,) = parse(Source("a.wale", f"wale 1\n\n{line}\n"))[1]
    assert found.code == "E104" and found.help.startswith(owners)
    assert "begins a line" in found.help or not owners
