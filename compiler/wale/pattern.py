"""The pattern as a document: what every output renders, and nothing else is printed.

Format-neutral: no HTML, no widths of columns. Texts are plain; the renderers escape.
"""

from __future__ import annotations

import re
from typing import Literal

from msgspec import Struct

_BEGIN, _MIDDLE, _END = "\ue000", "\ue001", "\ue002"
"""Marks of private use around a link; in a text of a spec they do no harm, for words are escaped and ids are slugs."""
LINK = re.compile(f"{_BEGIN}([^{_MIDDLE}]*){_MIDDLE}([^{_END}]*){_END}")
"""A link in a text, for the web page only: the address that it leads to, and its words."""


def linked(address: str, words: str) -> str:
    """Make words a link to the paragraph of an address."""
    return f"{_BEGIN}{address}{_MIDDLE}{words}{_END}"


def unlinked(text: str) -> str:
    """Give a text as it is printed, without what its links lead to."""
    return LINK.sub(r"\2", text) if _BEGIN in text else text


class Paragraph(Struct, frozen=True):
    """Running text. `strong` is a short lead ("Next row (RS):") set bold before it.

    `address` names it on a page.
    """

    text: str
    strong: str = ""
    address: str = ""


class Steps(Struct, frozen=True):
    """Instructions in order, one item a line, numbered from `start` on."""

    items: tuple[Paragraph, ...]
    title: str = ""
    start: int = 1


class Bullets(Struct, frozen=True):
    """An unordered list."""

    items: tuple[Paragraph, ...]


class Definitions(Struct, frozen=True):
    """Terms with their meaning (abbreviations, legend, yarns)."""

    items: tuple[tuple[str, str], ...]


class Table(Struct, frozen=True):
    """A table whose first column holds row headings.

    Attributes:
        caption: what it shows, always present.
        header: column headings, the first for the heading column.
        rows: cells as printed; each row as long as the header.
        note: small print below.
    """

    caption: str
    header: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


class Caution(Struct, frozen=True):
    """A boxed warning ("Caution", "Please check") that must be seen."""

    title: str
    text: str


class ChartColour(Struct, frozen=True):
    """One yarn of a chart: printed name, `#rrggbb`, and its mark on the chart ("" = empty cell)."""

    name: str
    colour: str
    mark: str


class ChartStart(Struct, frozen=True):
    """Where pieces and sizes start: text ("back XS, M; sleeve L") and the chart column, from 1 as the chart counts."""

    text: str
    column: int


class Chart(Struct, frozen=True):
    """A stitch chart, seen from the right side.

    Attributes:
        name: title.
        rows: bottom row first; each row left to right as seen on the page, indexes into `colours`; -1 is no stitch.
        colours: yarns that occur, or stitches.
        cell_ratio: width of a cell / its height, true to the gauge.
        flat: odd rows are right-side rows numbered on the right, even rows on the left; False: all on the right.
        repeat: (first column, last column, first row, last row) from 1 at the lower right; the marked repeat. None
            where every stitch of a piece is drawn.
        starts: where pieces and sizes start, on the first row.
        words: the chart in words, row by row, bottom first: (row label, text).
        notes: how the repeat above is shifted, and the like.
        centre: where the centre line runs, in columns from the right edge (80.5: through stitch 81); 0 for none.
        from_left: for a left-handed knitter: columns count from the left, and all that is said of left and right above
            is the other way round, but that rows are given as seen on the page.
        changed: cells that are framed, for they differ from another version: (row, column) as the chart counts.
        is_texture: its cells are stitches, not colours.
    """

    name: str
    rows: tuple[tuple[int, ...], ...]
    colours: tuple[ChartColour, ...]
    cell_ratio: float
    flat: bool
    repeat: tuple[int, int, int, int] | None
    starts: tuple[ChartStart, ...] = ()
    words: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()
    centre: float = 0.0
    from_left: bool = False
    changed: tuple[tuple[int, int], ...] = ()
    is_texture: bool = False

    def worked(self, number: int) -> tuple[int, ...]:
        """Give the cells of a row (from 1) in the order in which they are worked."""
        row = self.rows[number - 1]
        is_wrong = self.flat and number % 2 == 0
        return row if is_wrong is not self.from_left else row[::-1]


class Charts(Struct, frozen=True):
    """Charts to compare, side by side where there is room; `note` stands before them."""

    title: str
    note: str
    items: tuple[Chart, ...]


class Dimension(Struct, frozen=True):
    """A dimension line: letter, name, ends in cm (x right, y up), and the value of each printed size as printed."""

    letter: str
    name: str
    start: tuple[float, float]
    end: tuple[float, float]
    values: tuple[str, ...]


class Schematic(Struct, frozen=True):
    """A piece laid flat: outline (closed polygon, cm, of the middle printed size), fold or band lines, dimensions.

    Attributes:
        size: the size whose outline is drawn.
        lines: dashed lines inside (fold, where the rib ends, underarm marks).
        unit: the word for the unit of the dimensions' values.
        before: the outline of an old version, laid over the new one. The dimensions are then those that differ, and
            their values what each was, what it is, and the difference.
    """

    name: str
    size: str
    outline: tuple[tuple[float, float], ...]
    lines: tuple[tuple[tuple[float, float], tuple[float, float]], ...]
    dimensions: tuple[Dimension, ...]
    unit: str = "cm"
    before: tuple[tuple[float, float], ...] = ()

    def columns(self, sizes: tuple[str, ...]) -> tuple[str, ...]:
        """Give the headings of the dimensions' values: the sizes printed, or the two versions."""
        return ("old", "new", "change") if self.before else sizes

    @property
    def caption(self) -> str:
        """What the table of its measures shows."""
        if self.before:
            return f"{self.name}, size {self.size}: measures that differ, in {self.unit}"
        return f"{self.name}: finished measures in {self.unit}"


class DrawnPart(Struct, frozen=True):
    """One part of the garment's drawing: polygon in cm, filled by a motif (rows of colours) or one colour.

    `tile` is a motif as rows of `#rrggbb`, bottom row first, left to right; `cell` its stitch (width, height) in cm.
    `origin` is the lower left corner of one tile in the drawing (None: centred in the part), and `turn` the degrees by
    which the tiling is turned anticlockwise about it.
    """

    outline: tuple[tuple[float, float], ...]
    tile: tuple[tuple[str, ...], ...]
    cell: tuple[float, float]
    origin: tuple[float, float] | None = None
    turn: float = 0.0


class Drawing(Struct, frozen=True):
    """The garment as it looks laid flat, back parts first, or a patch of fabric; `words` is its alternative text.

    `caption` is printed below it, and `ruler` is the unit ("cm" or "inch") of a ruler along its edges, "" for none.
    """

    parts: tuple[DrawnPart, ...]
    words: str
    caption: str = ""
    ruler: str = ""


class Drawings(Struct, frozen=True):
    """Drawings to compare: side by side, all at one scale; `note` stands before them."""

    title: str
    note: str
    items: tuple[Drawing, ...]


Part = Paragraph | Steps | Bullets | Definitions | Table | Caution | Chart | Charts | Schematic | Drawing | Drawings


class Section(Struct, frozen=True):
    """A headed section; `id` is stable (`materials`, `back`, `making-up`)."""

    id: str
    title: str
    parts: tuple[Part, ...]


class Pattern(Struct, frozen=True):
    """The whole document. `paper` is A4 or letter; `sizes` are those printed, in order; `hand` is whose it is."""

    title: str
    about: str
    sizes: tuple[str, ...]
    paper: str
    drawing: Drawing | None
    sections: tuple[Section, ...]
    compiler: str
    language: str = "en"
    keywords: tuple[str, ...] = ()
    hand: Literal["right", "left"] = "right"
