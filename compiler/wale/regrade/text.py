"""Edits of a spec's text: replaced words, lines turned into comments, blocks added; all else stays to the letter."""

from __future__ import annotations

from collections.abc import Sequence
from difflib import SequenceMatcher
from fractions import Fraction

from wale.parse.lines import comment_start
from wale.parse.tree import Block, Item, Statement, Tree
from wale.problems.problem import Edit
from wale.quantity import show_length, unit_word
from wale.source import Source, Span


def length_list(values: Sequence[Fraction], units: str, places: int = 2) -> str:
    """Write lengths of cm, one a size, in the unit of the pattern; one where all are the same."""
    # a tenth of a millimetre is four thousandths of an inch
    texts = [show_length(value, units, places + (units == "inch")) for value in values]
    texts = [text.rstrip("0").rstrip(".") for text in texts]
    return size_list(texts, unit_word(units, texts[0] if len(set(texts)) == 1 else ""))


def size_list(texts: Sequence[str], unit: str) -> str:
    """Write values as a list of sizes has them: "80 (96) cm"; one where all are the same."""
    first, *others = texts
    return f"{first} ({', '.join(others)}) {unit}" if set(others) - {first} else f"{first} {unit}"


def edited(source: Source, edits: Sequence[Edit], start: int = 0, end: int | None = None) -> str:
    """Give a text, or the part of it from `start` to `end`, with edits made.

    Args:
        edits: of this source, not overlapping, all inside the part; the order does not count, but for two that stand
            at the same place: the one given first comes first. Comments between replaced lines go below.
    """
    parts, at = [], start
    for edit in sorted(edits, key=lambda one: (one.span.start, one.span.end)):
        parts += [source.text[at : edit.span.start], edit.text, _notes(source, edit.span)]
        at = edit.span.end
    return "".join((*parts, source.text[at:end]))


def _notes(source: Source, span: Span) -> str:
    """Give the comments inside a span, each at the end of a line, and the margin of the line that continues."""
    first, last = source.place(span.start)[0], source.place(span.end)[0]
    found = []
    for number in range(first, last):
        whole = source.line(number)
        start = span.start - source.line_starts[number - 1] if number == first else 0
        note = whole[max(start, comment_start(whole)) :].strip()
        found += [note] if note.startswith("--") else []
    if not found:
        return ""
    whole = source.line(first)
    gap = line_end(source) + whole[: len(whole) - len(whole.lstrip())] + "    "
    return "".join(f"{' ' if index == 0 else gap}{note}" for index, note in enumerate(found)) + gap


def line_end(source: Source) -> str:
    """Give what ends the lines of a text."""
    return "\r\n" if "\r\n" in source.text else "\n"


def end_of_line(source: Source, offset: int) -> int:
    """Give where the line of an offset ends, its line end left out."""
    found = source.text.find("\n", offset)
    end = len(source.text) if found < 0 else found
    return end - 1 if end > offset and source.text[end - 1] == "\r" else end


def margin(source: Source, statement: Statement) -> str:
    """Give the white space before a statement."""
    start = source.line_starts[source.place(statement.span.start)[0] - 1]
    return source.text[start : statement.span.start]


def rewritten(source: Source, statement: Statement, words: str) -> Edit:
    """Replace all that follows a statement's keyword."""
    start = statement.items[0].span.start if statement.items else statement.span.end
    return Edit(Span(source.name, start, statement.span.end), words)


def commented(source: Source, statement: Statement, why: str) -> list[Edit]:
    """Turn a statement into a comment that begins with `why`, if any; each of its lines, where it is continued."""
    first, last = (source.place(offset)[0] for offset in (statement.span.start, statement.span.end))
    edits = [Edit(Span(source.name, statement.span.start, statement.span.start), f"-- {why}: " if why else "-- ")]
    for number in range(first + 1, last + 1):
        line = source.line(number)
        code = line.lstrip()
        if code and not code.startswith("--"):
            place = source.line_starts[number - 1] + len(line) - len(code)
            edits.append(Edit(Span(source.name, place, place), "-- "))
    return edits


def as_typed(typed: str, old: str, new: str) -> str:
    """Give a new text with the lines that it has from the old one as they were typed.

    Args:
        typed: the file as it lies there; `old` is the same in composed characters and without a byte order mark.
    """
    if typed == old:
        return new
    typed_lines, old_lines, new_lines = (text.split("\n") for text in (typed, old, new))
    for block in SequenceMatcher(None, old_lines, new_lines, autojunk=False).get_matching_blocks():
        new_lines[block.b : block.b + block.size] = typed_lines[block.a : block.a + block.size]
    return "\n".join(new_lines)


def block_of(tree: Tree, kind: str, name: str) -> Block | None:
    """Give the block of a kind and name in one file."""
    for part in tree.parts:
        if isinstance(part, Block) and part.head.keyword.text == kind:
            items = part.head.items
            if items and getattr(items[0], "text", None) == name:
                return part
    return None


def blocks(tree: Tree, *kinds: str) -> tuple[Block, ...]:
    """Give the blocks of some kinds in order."""
    return tuple(part for part in tree.parts if isinstance(part, Block) and part.head.keyword.text in kinds)


def line(block: Block, keyword: str) -> Statement | None:
    """Give the line of a block that starts with a keyword."""
    return next((one for one in block.body if one.keyword.text == keyword), None)


def parts_of(statement: Statement) -> tuple[tuple[Item, ...], ...]:
    """Give what stands between the commas of a statement."""
    return (statement.items, *statement.options)
