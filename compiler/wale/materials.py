"""What a garment is knitted from: yarns, swatches with their gauges, and motifs.

Given by `resolve`, part of the `Spec`. Lengths are cm, weights g, all exact.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cached_property

from msgspec import Struct

from wale.motifs import changes
from wale.motifs.symmetry import mirror_axes
from wale.motifs.tiling import Tiling, period
from wale.source import Span
from wale.stitches import LEANLESS, OTHER_LEAN


class PutUp(Struct, frozen=True):
    """How a yarn is sold: weight in g, kind (cone, ball, skein), price and currency where given."""

    weight: Fraction
    kind: str
    price: Fraction | None = None
    currency: str = ""


class Yarn(Struct, frozen=True):
    """A yarn. `metres_per_100g` is of one strand; `strands` are held together.

    Attributes:
        metres_per_100g: None where the count does not say it.
        held: the yarns that it is made of, a strand each, where it is bought as those; else empty.
        classes: weight classes that it may be of, where the count says no more (wraps per inch, class).
    """

    name: str
    span: Span
    colour: str
    count: str
    fibre: str
    metres_per_100g: Fraction | None
    strands: int = 1
    put_ups: tuple[PutUp, ...] = ()
    on_hand: Fraction | None = None
    held: tuple[str, ...] = ()
    classes: tuple[int, ...] = ()


class Gauge(Struct, frozen=True):
    """Stitches and rows per cm, exact, with the span of the line that states it.

    `over` are the stitches and rows that were counted for it, None where it was not counted on a swatch.
    """

    stitches: Fraction
    rows: Fraction
    span: Span
    over: tuple[int, int] | None = None


class Swatch(Struct, frozen=True):
    """A fabric: what was knitted, on which needle, and how it measured.

    Attributes:
        stitch: "stockinette", "garter", "rib 1x1", "rib 2x2", or "motif".
        motif: name of the motif when `stitch` is "motif".
        yarns: names, main colour first.
        washed: the gauge, off the needle where it was never washed; `counted` is off the needle before washing.
        weight: (g, stitches, rows) of the weighed swatch.
        stretch: width pulled / width at rest, e.g. Fraction(128, 100).
        edge_stretch: the same of its cast-on or bind-off edge, which may give less.
    """

    name: str
    span: Span
    in_round: bool
    stitch: str
    motif: str | None
    yarns: tuple[str, ...]
    needle_mm: Fraction
    washed: Gauge
    counted: Gauge | None = None
    weight: tuple[Fraction, int, int] | None = None
    stretch: Fraction | None = None
    edge_stretch: Fraction | None = None

    @property
    def is_washed(self) -> bool:
        """Whether its gauge was measured after washing."""
        return self.counted is None or self.washed.span != self.counted.span


Origin = tuple[tuple[str, str], ...]
"""What is told of a motif's origin: `source`, `rights` or `credit`, and the words."""


class Motif(Struct, frozen=True, dict=True):
    """A motif: of yarns, or of stitches in one yarn, which is a texture.

    Attributes:
        rows: bottom row first (knitting order), each left to right as typed: names of yarns, or of
            stitches (`wale.stitches`).
        row_spans: the bar row of each of `rows`.
        marks: (yarn or stitch, cell mark as typed) in key order.
        shift: stitches that the repeat above starts along to the left as seen (next repeat), 0 for none.
        wedge: rows get shorter upwards: the chart of one crown wedge.
        origin: what is told of where it comes from, that of motifs it is made of included.
    """

    name: str
    span: Span
    rows: tuple[tuple[str, ...], ...]
    row_spans: tuple[Span, ...]
    marks: tuple[tuple[str, str], ...]
    shift: int = 0
    wedge: bool = False
    origin: Origin = ()
    is_texture: bool = False

    @property
    def width(self) -> int:
        """Stitches of one repeat."""
        return len(self.rows[0])

    @cached_property
    def period(self) -> int:
        """Rows until the motif stands again at the same stitch, shifts counted."""
        return period(self.rows, self.shift)

    @cached_property
    def tiling(self) -> Tiling:
        """What it covers the fabric with."""
        return Tiling(self.rows, self.shift)

    @property
    def captioned(self) -> tuple[Tiling, tuple[Fraction, ...] | None]:
        """What its chart's note tells the symmetries of: the tiling, and the only axes where it has a direction."""
        return self.tiling, self.true_axes if self.is_directed else None

    def charted(self, in_round: bool) -> int:
        """Rows of the chart: one period, or two where its rows are odd and flat work turns their sides over."""
        return self.period * (1 if in_round or self.period % 2 == 0 else 2)

    def cell(self, column: int, row: int) -> str:
        """Give the yarn or stitch at a column from 0, from the right, and a row from 0, from the bottom."""
        times, inside = divmod(row, len(self.rows))
        line = self.rows[inside]
        return line[len(line) - 1 - (column - self.shift * times) % len(line)]

    @property
    def mirrors(self) -> bool:
        """Whether it is its own mirror image, in which stitches of a texture lean the other way."""
        if self.wedge:
            return all(row == row[::-1] for row in self.rows)
        return bool(self.true_axes)

    @property
    def true_axes(self) -> tuple[Fraction, ...]:
        """The axes of `axes` about which it is its own mirror image, stitches of a texture leaning the other way."""
        cells = [(column, row) for row in range(self.period) for column in range(self.width)]
        return tuple(
            axis
            for axis in self.axes()
            if all(self.cell(int(2 * axis) - x, y) == OTHER_LEAN.get(one := self.cell(x, y), one) for x, y in cells)
        )

    @property
    def is_directed(self) -> bool:
        """Whether it has stitches that look otherwise upside down: those of lace, cables, and slipped ones."""
        return self.is_texture and any(one not in ("knit", "purl") for row in self.rows for one in row)

    def axes(self) -> tuple[Fraction, ...]:
        """Give the mirror axes of the whole tiling in [0, width), as columns from the right; a texture's leans apart.

        A whole number is the middle of that column's stitch (column 0 first), a half (n + 1/2) the gap after it.
        """
        return self._axes

    @cached_property
    def _axes(self) -> tuple[Fraction, ...]:
        return mirror_axes(changes.recoloured(self.tiling, LEANLESS) if self.is_texture else self.tiling)
