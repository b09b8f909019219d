"""Problems as text for a terminal or a log.

Input: problems and the sources they point into. Output: per problem a header, the place, the lines at fault with marks
under the words, what to do, and each line as it would read when mended. Colour changes no character of it.
"""

from __future__ import annotations

import textwrap
import unicodedata
from bisect import bisect_left
from collections.abc import Mapping, Sequence

from msgspec import Struct

from wale.problems.problem import Fix, Label, Problem
from wale.source import Source, Span

TAB_STOP = 4
LEAST_WIDTH = 40
MAX_PLACES = 6
LONGEST = 8
"""How many times the room of a line's code points are looked at, about the marks."""
_STYLES = {"error": "bold red", "warning": "bold yellow", "caution": "bold magenta", "note": "bold blue"}
_FIRST_MARK, _OTHER_MARK = "^", "~"

Piece = tuple[str, str]
Row = list[Piece]


def show(problems: Sequence[Problem], sources: Mapping[str, Source], *, colour: bool, width: int) -> str:
    """Give problems as text, in the order given.

    Args:
        problems: what to show.
        sources: the files by the name in their spans; a place in an unknown file is shown without its lines.
        colour: whether to add ANSI colours; the text is otherwise the same.
        width: columns of the terminal, taken as at least 40.

    Returns:
        Lines ending in a newline, a blank line between two problems; "" for no problems.
    """
    width = max(width, LEAST_WIDTH)
    blocks = ["".join(_paint(row, colour) + "\n" for row in _rows(found, sources, width)) for found in problems]
    return "\n".join(blocks)


def _paint(row: Row, colour: bool) -> str:
    if not colour:
        return "".join(text for text, _ in row).rstrip()
    from rich.color import ColorSystem
    from rich.style import Style

    return "".join(
        Style.parse(style).render(text, color_system=ColorSystem.STANDARD) if style else text for text, style in row
    )


def _rows(found: Problem, sources: Mapping[str, Source], width: int) -> list[Row]:
    style = _STYLES[found.severity]
    head = f"{found.severity}[{found.code}]: "
    rows: list[Row] = []
    for number, text in enumerate(_wrap(found.message, width, len(head))):
        rows.append([(head if number == 0 else "    ", style), (text, "bold")])
    places = _places(found, sources)
    margin = max((len(str(place.line)) for place in places), default=0) + 4
    if found.labels:
        rows.append(
            [(f"  at {_where(found.labels[0].span, sources)}{', size ' * bool(found.size)}{found.size}", "dim")]
        )
    elif found.size:
        rows.append([(f"  in size {found.size}", "dim")])
    rows += _quoted(places, sources, margin, width, style)
    if found.help:
        for number, text in enumerate(_wrap(found.help, width, 8)):
            rows.append([("        " if number else "  help: ", "bold"), (text, "")])
    for fix in found.fixes:
        rows += _mended(fix, sources, margin, width)
    return rows


def _wrap(text: str, width: int, indent: int) -> list[str]:
    clean = " ".join(_printable(text).split())
    return textwrap.wrap(clean, max(width - indent, 20), break_on_hyphens=False) or [""]


def _where(span: Span, sources: Mapping[str, Source]) -> str:
    source = sources.get(span.file)
    if source is None:
        return _printable(span.file)
    line, column = source.place(min(span.start, len(source.text)))
    return f"{_printable(span.file)}:{line}:{column}"


class _Place(Struct, frozen=True):
    """One label's part in one line: columns from 0, half-open."""

    file: str
    line: int
    start: int
    end: int
    text: str
    is_first: bool


def _places(found: Problem, sources: Mapping[str, Source]) -> list[_Place]:
    places = []
    for number, label in enumerate(found.labels[:MAX_PLACES]):
        source = sources.get(label.span.file)
        if source is not None:
            places.append(_place(label, source, number == 0))
    first_file = places[0].file if places else ""
    return sorted(places, key=lambda place: (place.file != first_file, place.file, place.line, place.start))


def _place(label: Label, source: Source, is_first: bool) -> _Place:
    """Cut a label to its first line; a range over several lines is marked to the end of that line."""
    size = len(source.text)
    line, column = source.place(min(label.span.start, size))
    length = min(label.span.end, size) - min(label.span.start, size)
    end = min(column - 1 + length, max(len(source.line(line)), column - 1))
    return _Place(label.span.file, line, column - 1, end, label.text, is_first)


def _quoted(places: list[_Place], sources: Mapping[str, Source], margin: int, width: int, style: str) -> list[Row]:
    """Quote each line with a place once, its marks below it."""
    rows: list[Row] = []
    for number, place in enumerate(places):
        before = places[number - 1] if number else None
        source = sources[place.file]
        if before is None or (before.file, before.line) != (place.file, place.line):
            if before is not None and before.file != place.file:
                rows.append([(f"  and {_where_line(place)}", "dim")])
            elif before is not None and place.line > before.line + 1:
                rows.append([(" " * (margin - 1) + ":", "dim")])
            group = [other for other in places if (other.file, other.line) == (place.file, place.line)]
            view = _View(source.line(place.line), group[0].start, group[-1].end, width - margin - 2)
            rows.append([(f"{place.line:>{margin}}  ", "dim"), (view.text, "")])
        mark = _FIRST_MARK if place.is_first else _OTHER_MARK
        left, right = view.cell(place.start), view.cell(place.end)
        signs = mark * max(right - left, 1)
        mark_style = style if place.is_first else "cyan"
        gap = " " * (margin + 2 + left)
        words = _printable(place.text)
        if not words or len(gap) + len(signs) + 1 + _cells(words) <= width:
            rows.append([(gap, ""), (f"{signs} {words}".rstrip(), mark_style)])
        else:
            rows.append([(gap, ""), (signs, mark_style)])
            rows += [[(" " * (margin + 2), ""), (text, mark_style)] for text in _wrap(words, width, margin + 2)]
    return rows


def _where_line(place: _Place) -> str:
    return f"{_printable(place.file)}:{place.line}:{place.start + 1}"


def _mended(fix: Fix, sources: Mapping[str, Source], margin: int, width: int) -> list[Row]:
    """Show a fix: its title, then the first lines as they would read."""
    title, *more = _wrap(fix.title, width, 8)
    rows: list[Row] = [[("   fix: ", "bold green"), (title, "")], *([(" " * 8 + text, "")] for text in more)]
    lines: dict[tuple[str, int], None] = {}
    for edit in fix.edits:
        source = sources.get(edit.span.file)
        if source is not None and edit.span.end <= len(source.text):
            lines.setdefault((edit.span.file, source.place(edit.span.start)[0]))
    for file, line in list(lines)[:MAX_PLACES]:
        source = sources[file]
        start = source.line_starts[line - 1]
        end = start + len(source.line(line))
        edits = sorted(
            (edit for edit in fix.edits if edit.span.file == file and source.place(edit.span.start)[0] == line),
            key=lambda edit: edit.span.start,
            reverse=True,
        )
        text, first = source.text[start : max(end, *(edit.span.end for edit in edits))], start
        for edit in edits:
            text = text[: edit.span.start - start] + edit.text + text[edit.span.end - start :]
            first = edit.span.start
        for number, new in enumerate(text.split("\n") if text.strip() else []):
            view = _View(new.rstrip("\r"), first - start if number == 0 else 0, first - start, width - margin - 2)
            rows.append([(f"{line + number:>{margin}}> ", "green"), (view.text, "")])
    return rows


def _printable(text: str) -> str:
    """Give text without signs that steer a terminal; line ends stay."""
    if text.isascii() and text.replace("\n", "").isprintable():
        return text
    return "".join("\ufffd" if _steers(sign) else sign for sign in text)


def _steers(sign: str) -> bool:
    return unicodedata.category(sign) in ("Cc", "Cf", "Cs", "Zl", "Zp") and sign not in "\n\u200c\u200d"


def _cell_width(sign: str) -> int:
    if unicodedata.combining(sign) or unicodedata.category(sign) in ("Mn", "Me") or sign in "\u200c\u200d":
        return 0
    return 2 if unicodedata.east_asian_width(sign) in "WF" else 1


def _cells(text: str) -> int:
    if text.isascii():
        return len(text)
    return sum(_cell_width(sign) for sign in text)


class _View:
    """One source line made fit to print: tabs opened, hidden signs shown, cut to the terminal around the marks."""

    def __init__(self, line: str, start: int, end: int, room: int) -> None:
        # Of a line far longer than any terminal only the part around the marks is looked at.
        most = LONGEST * room
        self._skipped = max(0, start - most // 2) if len(line) > most else 0
        is_cut = len(line) > self._skipped + most
        line = line[self._skipped : self._skipped + most]
        start, end = start - self._skipped, end - self._skipped
        glyphs: list[str] = []
        cells = [0]
        for sign in "" if line.isascii() and line.isprintable() else line:
            glyph = " " * (TAB_STOP - cells[-1] % TAB_STOP) if sign == "\t" else _printable(sign)
            glyphs.append(glyph)
            cells.append(cells[-1] + _cells(glyph))
        # The cell where each code point starts; in plain text each is one cell.
        self._cells: Sequence[int] = cells if glyphs else range(len(line) + 1)
        glyphs = glyphs or list(line)
        self._from, self._room = 0, room
        if self._cells[-1] <= room and not (self._skipped or is_cut):
            self.text = "".join(glyphs)
            return
        marked = min(self._cells[min(end, len(line))] - self._cells[min(start, len(line))], room // 2)
        wish = self._cells[min(start, len(line))] - (room - marked) // 2
        first = bisect_left(self._cells, wish) if 0 < wish <= self._cells[-1] else 0
        self._from = self._cells[first] - (1 if first or self._skipped else 0)
        last = first
        while last < len(line) and self._cells[last + 1] - self._from < room:
            last += 1
        cut = "…" if last < len(line) or is_cut else ""
        self.text = ("…" if first or self._skipped else "") + "".join(glyphs[first:last]) + cut

    def cell(self, column: int) -> int:
        """Give the printed cell of a column of the line, kept inside what is printed."""
        inside = max(0, min(column - self._skipped, len(self._cells) - 1))
        cell = self._cells[inside] - self._from
        return max(0, min(cell, self._room))
