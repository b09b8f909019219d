"""A whole file on the page: its blocks, what stands between them, and what is left as it is.

Input: a source, its logical lines and the problems of parsing it. Output: its text in the one layout. A block with a
line that cannot be read keeps its text; what only its layout is blamed for (columns, tabs) is mended by printing it.
"""

from __future__ import annotations

from bisect import bisect_left

from msgspec import Struct
from msgspec.structs import replace

from wale.format.blocks import INDENT, body_lines, head_line, let_lines
from wale.format.columns import with_comments
from wale.format.rows import Row, row_of, tidied
from wale.format.spacing import tokens_of
from wale.parse.lines import Line, lay_out
from wale.parse.parser import EDITION
from wale.parse.reader import code_of
from wale.problems.problem import Problem
from wale.source import Source, Span

MOST_SIGNS = 3_000
"""A longer logical line is left as it is."""

_OF_LAYOUT = ("E101", "E106", "E107")
"""Problems of what stands in which column, and of a first line that is missing."""


class Group(Struct, frozen=True):
    """What stands at one place of the left edge: a line and those that it owns; no rows where it is left as it is."""

    above: tuple[str, ...]
    word: str
    span: Span
    rows: tuple[Row, ...] = ()

    @property
    def is_kept(self) -> bool:
        """Whether its text is left as it is."""
        return not self.rows

    @property
    def is_block(self) -> bool:
        """Whether it has a head and indented lines."""
        return not self.is_kept and self.word not in (EDITION, "let")


def printed(source: Source, problems: list[Problem], dropped: tuple[Span, ...]) -> tuple[str, tuple[Span, ...]]:
    """Give a file's text in the one layout, and the places of what was left as it is.

    Args:
        source: the file, with LF line ends and without a byte order mark.
        problems: what is wrong with its syntax.
        dropped: places that are not in its tree.
    """
    layout = lay_out(source)
    bad = [found.labels[0].span.start for found in problems if found.code not in _OF_LAYOUT]
    groups = _groups(source, layout.lines, sorted(bad + [span.start for span in dropped]))
    lines: list[str] = []
    before: Group | None = None
    at = 0
    while at < len(groups):
        group = groups[at]
        after = at + 1
        while group.word == "let" and after < len(groups) and _runs_on(group, groups[after]):
            after += 1
        lines += _between(before, group.above, group)
        lines += _group_lines(source, groups[at:after])
        before, at = groups[after - 1], after
    lines += _between(before, layout.tail, None)
    return "".join(line + "\n" for line in lines), tuple(group.span for group in groups if group.is_kept)


def _groups(source: Source, lines: list[Line], bad: list[int]) -> list[Group]:
    """Part logical lines into blocks; those with one of the offsets `bad` are kept."""
    heads = [i for i, line in enumerate(lines) if line.owner < 0]
    groups = []
    for first, after in zip(heads, [*heads, len(lines)][1:], strict=True):
        start = source.text.rfind("\n", 0, lines[first].start) + 1
        end = source.text.find("\n", lines[after - 1].end)
        span = Span(source.name, start, len(source.text) if end < 0 else end)
        next_bad = bisect_left(bad, span.start)
        is_broken = next_bad < len(bad) and bad[next_bad] <= span.end
        rows = () if is_broken else _rows(source, lines[first:after])
        groups.append(Group(lines[first].above, lines[first].first, span, rows))
    return groups


def _rows(source: Source, lines: list[Line]) -> tuple[Row, ...]:
    """Take the lines of a block apart; nothing where one is too long."""
    rows = []
    for line in lines:
        code = code_of(source, line)
        tokens = tokens_of(code) if len(code) <= MOST_SIGNS else None
        if tokens is None:
            return ()
        rows.append(row_of(source, line, tokens))
    return tuple(rows)


def _runs_on(group: Group, below: Group) -> bool:
    """Say whether a `let` line stands together with the one above it."""
    return not group.is_kept and not below.is_kept and below.word == "let" and "" not in below.rows[0].above


def _group_lines(source: Source, groups: list[Group]) -> list[str]:
    """Give the lines of a block or of `let` lines that stand together, without what stands above."""
    group = groups[0]
    if group.is_kept:
        return source.cut(group.span).split("\n")
    first = replace(group.rows[0], above=())
    if group.word == "let":
        return with_comments(let_lines([first, *(other.rows[0] for other in groups[1:])]))
    return with_comments([head_line(first)]) + with_comments(body_lines(list(group.rows[1:])))


def _between(before: Group | None, notes: tuple[str, ...], below: Group | None) -> list[str]:
    """Give the comments and blank lines between two blocks.

    Indented comments right below a block end it; all others belong to what stands below.
    """
    ending: tuple[str, ...] = ()
    if before is not None and (before.is_block or before.is_kept):
        left = next((i for i, note in enumerate(notes) if note.strip() and not note[0].isspace()), len(notes))
        last = max((i for i in range(left) if notes[i].strip()), default=-1)
        ending, notes = notes[: last + 1], notes[last + 1 :]
    margin = " " * INDENT if before is not None and before.is_block else ""
    lines = [note and margin + note for note in tidied(ending)]
    own = tidied(notes)
    has_blank = own[:1] == ("",)
    own = own[has_blank:]
    if below is None:
        own = own[: len(own) - (own[-1:] == ("",))]
        if not own:
            return lines
    if before is None:
        return [*lines, *own]
    is_loose = before.is_kept or (below is not None and below.is_kept)
    return [*lines, *([""] if has_blank or not is_loose else []), *own]
