"""The pattern as plain text that reads well aloud: no drawn boxes, charts as their words, wide tables as sentences."""

from __future__ import annotations

from collections.abc import Iterable
from textwrap import TextWrapper

from wale.outputs import chart as charts
from wale.outputs.chart_grid import start_groups
from wale.outputs.document import code_parts, size_line
from wale.outputs.tabled import figure_columns
from wale.pattern import (
    Bullets,
    Caution,
    Chart,
    Charts,
    Definitions,
    Drawing,
    Drawings,
    Paragraph,
    Part,
    Pattern,
    Schematic,
    Section,
    Steps,
    Table,
)


def render(pattern: Pattern, width: int = 80) -> str:
    """The whole pattern in lines of at most `width` characters (a longer word or table cell stays whole)."""
    head = [pattern.title, size_line(pattern.sizes), *_wrap(pattern.about, width)]
    blocks = [[line for line in head if line]]
    if pattern.drawing is not None:
        blocks.append(_part(pattern.drawing, pattern.sizes, width))
    for number, section in enumerate(pattern.sections, 1):
        blocks += _section(number, section, pattern.sizes, width)
    blocks.append(_wrap(f"Made with {pattern.compiler}.", width))
    return "\n".join("\n".join([*block, ""]) for block in blocks if block)


def _section(number: int, section: Section, sizes: tuple[str, ...], width: int) -> list[list[str]]:
    return [["", f"{number}. {section.title}"], *(_part(part, sizes, width) for part in section.parts)]


def _wrap(text: str, width: int, first: str = "", hang: str | None = None) -> list[str]:
    """`text` in lines; `first` opens the first line, `hang` (blanks of the same length if None) all others.

    What stands between backticks is set in quotes.
    """
    later = " " * len(first) if hang is None else hang
    plain = "".join(f'"{part}"' if is_code else part for part, is_code in code_parts(text))
    wrapper = TextWrapper(
        width, initial_indent=first, subsequent_indent=later, break_long_words=False, break_on_hyphens=False
    )
    return wrapper.wrap(plain)


def _part(part: Part, sizes: tuple[str, ...], width: int) -> list[str]:
    match part:
        case Paragraph():
            return _wrap(_said(part), width)
        case Steps():
            title = _wrap(f"{part.title}:", width) if part.title else []
            numbered = enumerate(part.items, part.start)
            return title + [line for n, item in numbered for line in _wrap(_said(item), width, f"{n}. ")]
        case Bullets():
            return [line for item in part.items for line in _wrap(_said(item), width, "- ")]
        case Definitions():
            return [line for term, meaning in part.items for line in _wrap(f"{term}: {meaning}", width, hang="    ")]
        case Table():
            return _table(part, width)
        case Caution():
            return _wrap(f"{part.title.upper()}: {part.text}", width)
        case Chart():
            return _chart(part, width)
        case Charts():
            head = _wrap(f"{part.title}. {part.note}", width)
            return head + [line for one in part.items for line in _chart(one, width)]
        case Schematic():
            return _schematic(part, sizes, width)
        case Drawing():
            return _wrap(f"Drawing: {part.words}.", width)
        case Drawings():
            told = [f"{one.caption}: {one.words}." for one in part.items]
            head = _wrap(f"{part.title}. {part.note}", width)
            return head + [line for one in told for line in _wrap(one, width, "- ")]


def _said(paragraph: Paragraph) -> str:
    return f"{paragraph.strong} {paragraph.text}".strip()


def _table(table: Table, width: int) -> list[str]:
    """Aligned columns where they fit, else a sentence for each row: "Bust: XS 94, S 100.", "Bust: size 2: 63.2."."""
    every = (table.header, *table.rows)
    wide = [max(len(row[i]) for row in every) for i in range(len(table.header))]
    is_narrow = sum(wide) + 2 * (len(wide) - 1) <= width
    unit = f" ({table.header[0]})" if table.header[0] and not is_narrow else ""
    lines = _wrap(f"{table.caption}{unit}:", width)
    if is_narrow:
        right = figure_columns(table)
        for row in every:
            cells = (cell.rjust(wide[i]) if i and right[i] else cell.ljust(wide[i]) for i, cell in enumerate(row))
            lines.append("  ".join(cells).rstrip())
    else:
        heads = [f"size {head}:" if head.isdecimal() else head for head in table.header[1:]]
        for row in table.rows:
            said = ", ".join(f"{head} {cell}".strip() for head, cell in zip(heads, row[1:], strict=True) if cell)
            lines += _wrap(f"{row[0]}: {said}.", width, hang="    ")
    if table.note:
        lines += _wrap(table.note, width)
    return lines


def _chart(chart: Chart, width: int) -> list[str]:
    across, up = len(chart.rows[0]), len(chart.rows)
    lines = _wrap(f"Chart {chart.name}: {across} stitches, {up} rows. {charts.describe(chart)}", width)
    for group in start_groups(chart):
        lines += _wrap(f"Start in column {group.column}: {group.text}.", width, hang="    ")
    for note in chart.notes:
        lines += _wrap(note, width)
    for label, text in chart.words or _rows(chart):
        lines += _wrap(f"{label.removesuffix(':')}: {text}", width, hang="    ")
    return lines


def _rows(chart: Chart) -> Iterable[tuple[str, str]]:
    """The rows of a chart that has no words of its own, as they are worked: "Row 1: 3 rye, 2 flour." """
    names = {-1: "no stitch", **{i: colour.name for i, colour in enumerate(chart.colours)}}
    kind = "Row" if chart.flat else "Round"
    for number in range(1, len(chart.rows) + 1):
        runs: list[tuple[int, int]] = []
        for cell in chart.worked(number):
            if runs and runs[-1][0] == cell:
                runs[-1] = (cell, runs[-1][1] + 1)
            else:
                runs.append((cell, 1))
        yield f"{kind} {number}:", ", ".join(f"{count} {names[cell]}" for cell, count in runs) + "."


def _schematic(schematic: Schematic, sizes: tuple[str, ...], width: int) -> list[str]:
    rows = tuple((f"{d.letter} {d.name}", *d.values) for d in schematic.dimensions)
    return _table(Table(schematic.caption, ("", *schematic.columns(sizes)), rows), width)
