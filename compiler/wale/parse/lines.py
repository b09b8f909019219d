"""From text to logical lines: where statements start, what continues them, which comments are theirs.

Only indentation, comments and first words count here. Input: a source. Output: logical lines in file order, each with
the trivia that it owns, and problems of indentation.
"""

from __future__ import annotations

import re

from msgspec import Struct, field

from wale.problems.problem import Edit, Fix, Label, Problem, problem
from wale.source import Source, Span

HEADS = ("pattern", "yarn", "swatch", "motif", "sizes", "body", "piece", "join", "band", "make", "construction")
TAB_STOP = 4

# A digit's inch mark opens no string; a string or a bar row may hold `--`.
_COMMENT = re.compile(
    r"""(?<=[0-9])["″]|"[^"\n]*"|"[^"“”\n]*[“”]|[“„«‟][^"“”«»\n]*["“”»]|\|[^|\n]*\||(?P<comment>(?<!\S)--)""",
)
_INDENT = re.compile(r"[^\S\r\n]*")
_FIRST = re.compile(r"[^\s,()|\"=#*/+]+")


class Line(Struct):
    """One logical line under construction: the code of its physical lines, in code points of the source."""

    indent: int
    first: str
    owner: int
    parts: list[tuple[int, int]]
    above: tuple[str, ...]
    inner: list[str] = field(default_factory=list)
    trailing: str = ""

    @property
    def start(self) -> int:
        """Offset of the first word."""
        return self.parts[0][0]

    @property
    def end(self) -> int:
        """Offset after the last word."""
        return self.parts[-1][1]


class Layout(Struct):
    """All logical lines of a file.

    `Line.owner` is the index of the line at the left edge that a body line stands under, -1 for a line at the left
    edge itself, -2 for an indented line with nothing above it to belong to.
    """

    lines: list[Line]
    tail: tuple[str, ...]
    problems: list[Problem]


def comment_start(line: str) -> int:
    """Give the offset in one physical line where its comment starts, or the line's length."""
    if "--" in line:
        for match in _COMMENT.finditer(line):
            if match["comment"]:
                return match.start()
    return len(line)


def lay_out(source: Source) -> Layout:
    """Join physical lines to logical ones and settle which block each belongs to."""
    lines: list[Line] = []
    problems: list[Problem] = []
    odd_margins: list[tuple[Span, int]] = []
    pending: list[str] = []
    owner, body_indent = -2, 0
    offset = 0
    for raw in source.text.removesuffix("\n").split("\n") if source.text else ():
        text = raw.removesuffix("\r")
        start, offset = offset, offset + len(raw) + 1
        margin = _INDENT.match(text).end()  # type: ignore[union-attr]
        if start == 0 and text.startswith("\ufeff"):
            margin = 1 + _INDENT.match(text[1:]).end()  # type: ignore[union-attr]
        cut = comment_start(text)
        code_end = len(text[:cut].rstrip())
        comment = text[cut:].rstrip()
        if code_end <= margin:
            pending.append(text)
            continue
        space = text[:margin].lstrip("\ufeff")
        indent = len(space.expandtabs(TAB_STOP))
        if space.strip(" "):
            odd_margins.append((Span(source.name, start + margin - len(space), start + margin), indent))
        place = (start + margin, start + code_end)
        if indent and owner >= 0 and _continues(lines, owner, body_indent, indent):
            last = lines[-1]
            notes = [last.trailing, *pending]
            last.inner += [note.strip() for note in notes if note.strip()]
            last.parts.append(place)
            last.trailing, pending = comment, []
            continue
        word = _FIRST.match(text, margin)
        line = Line(indent, word[0] if word else "", -1, [place], tuple(pending), trailing=comment)
        pending = []
        if indent == 0:
            owner, body_indent = len(lines), 0
        else:
            line.owner = owner
            if owner >= 0 and body_indent == 0:
                body_indent = indent
            elif owner >= 0 and indent != body_indent:
                problems.append(_uneven(source, lines[owner + 1], line, body_indent))
        lines.append(line)
    if odd_margins:
        problems.append(_margins(odd_margins))
    return Layout(lines, tuple(pending), problems)


def _continues(lines: list[Line], owner: int, body_indent: int, indent: int) -> bool:
    """Say whether a line so far in continues the one above."""
    if lines[owner].first == "let":
        return True
    return body_indent > 0 and indent > body_indent


def _uneven(source: Source, first: Line, line: Line, body_indent: int) -> Problem:
    here = Span(source.name, line.start, line.end)
    margin = Span(source.name, source.text.rfind("\n", 0, line.start) + 1, line.start)
    return Problem(
        "E106",
        f"this line stands {line.indent} spaces in, the lines of its block {body_indent}",
        (
            Label(here, "not in line with its block"),
            Label(Span(source.name, first.start, first.end), "the block's first line"),
        ),
        help="The lines of a block start in one column; a line that stands deeper continues the one above.",
        fixes=(Fix(f"move it to {body_indent} spaces", (Edit(margin, " " * body_indent),), "safe"),),
    )


def _margins(margins: list[tuple[Span, int]]) -> Problem:
    more = f", and of {len(margins) - 1} more" if len(margins) > 1 else ""
    return problem(
        "E107",
        f"the margin of this line{more} holds tabs or other signs than plain spaces",
        margins[0][0],
        f"counted as {margins[0][1]} spaces",
        help="Indent with spaces: a tab is as wide as each program likes.",
        fixes=(Fix("use spaces", tuple(Edit(span, " " * width) for span, width in margins), "safe"),),
    )
