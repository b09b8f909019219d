"""The resolved spec: what the file says, with names looked up, units in cm and g, one value a size.

Given by `resolve`, read by `draft`, the checks and the writer. Lengths are cm, weights g, all exact Fractions.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from functools import cached_property
from typing import Literal

from msgspec import Struct, field

from wale.quantity import show_length, unit_word
from wale.source import Span

Dimension = Literal["length", "stitches", "rows", "number"]


class Constant(Struct, frozen=True):
    """Known before solving: one value a size (cm, or a count)."""

    values: tuple[Fraction, ...]


class Solved(Struct, frozen=True):
    """A value that the solver gives: `back.bust` is the finished width of that level in cm."""

    address: str
    span: Span


class Combine(Struct, frozen=True):
    """Two terms and an operation; folded to `Constant` by `resolve` where both sides are known."""

    op: Literal["+", "-", "*", "/", "min", "max"]
    left: Term
    right: Term


Term = Constant | Solved | Combine


class Measure(Struct, frozen=True):
    """A wished length or an exact count, for every size.

    Attributes:
        words: the text in the file, for formulas in print.
        inputs: spans of the lines that its value comes from (lets, sizes, ease), itself first.
        names: measures named in it, in order (`("bust",)` for `bust/2`); levels take their name from the first.
    """

    term: Term
    dimension: Dimension
    span: Span
    words: str
    inputs: tuple[Span, ...] = ()
    names: tuple[str, ...] = ()

    @property
    def is_count(self) -> bool:
        """Whether it was written as stitches or rows and is kept exactly."""
        return self.dimension in ("stitches", "rows")

    def waits_for(self) -> tuple[str, ...]:
        """Addresses of solved values in it."""
        return tuple(dict.fromkeys(_addresses(self.term)))

    def at(self, size: int, solved: Mapping[str, Fraction] | None = None) -> Fraction:
        """Give its value for a size.

        Raises:
            KeyError: a solved value that it waits for is not in `solved`.
        """
        return _value(self.term, size, solved or {})


def _addresses(term: Term) -> list[str]:
    if isinstance(term, Solved):
        return [term.address]
    if isinstance(term, Combine):
        return _addresses(term.left) + _addresses(term.right)
    return []


def _value(term: Term, size: int, solved: Mapping[str, Fraction]) -> Fraction:
    if isinstance(term, Constant):
        return term.values[size]
    if isinstance(term, Solved):
        return solved[term.address]
    left, right = _value(term.left, size, solved), _value(term.right, size, solved)
    match term.op:
        case "+":
            return left + right
        case "-":
            return left - right
        case "*":
            return left * right
        case "/":
            return left / right
        case "min":
            return min(left, right)
        case "max":
            return max(left, right)


class BodyMeasure(Struct, frozen=True):
    """A bare body measure in cm and where it comes from (table and confidence, or the file)."""

    value: Fraction
    source: str
    confidence: Literal["confirmed", "memory", "estimated", "given"]
    span: Span | None = None


class Size(Struct, frozen=True):
    """One size or one made-to-measure body, with bare measures, ease (cm) and the place of its value by name."""

    name: str
    measures: Mapping[str, BodyMeasure]
    ease: Mapping[str, Fraction]
    span: Span
    made_to_measure: bool = False
    ease_spans: Mapping[str, Span] = field(default_factory=dict)


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


class Motif(Struct, frozen=True, dict=True):
    """A colour motif.

    Attributes:
        rows: bottom row first (knitting order), each left to right as typed, yarn names.
        row_spans: the bar row of each of `rows`.
        marks: (yarn, cell mark as typed) in key order.
        shift: stitches that the repeat above starts along to the left as seen (next repeat), 0 for none.
        wedge: rows get shorter upwards: the chart of one crown wedge.
    """

    name: str
    span: Span
    rows: tuple[tuple[str, ...], ...]
    row_spans: tuple[Span, ...]
    marks: tuple[tuple[str, str], ...]
    shift: int = 0
    wedge: bool = False

    @property
    def width(self) -> int:
        """Stitches of one repeat."""
        return len(self.rows[0])

    @property
    def period(self) -> int:
        """Rows until the motif stands again at the same stitch, shifts counted."""
        step, rows = self.shift % self.width, len(self.rows)
        times = 1
        while step * times % self.width:
            times += 1
        return rows * times

    def charted(self, in_round: bool) -> int:
        """Rows of the chart: one period, or two where its rows are odd and flat work turns their sides over."""
        return self.period * (1 if in_round or self.period % 2 == 0 else 2)

    def cell(self, column: int, row: int) -> str:
        """Give the yarn at a column from 0 counted from the right and a row from 0 counted from the bottom."""
        times, inside = divmod(row, len(self.rows))
        line = self.rows[inside]
        return line[len(line) - 1 - (column - self.shift * times) % len(line)]

    def axes(self) -> tuple[Fraction, ...]:
        """Give the mirror axes of the whole tiling in [0, width), as columns from the right.

        A whole number is the middle of that column's stitch (column 0 first), a half (n + 1/2) the gap after it.
        """
        return self._axes

    @cached_property
    def _axes(self) -> tuple[Fraction, ...]:
        lines = [[self.cell(column, row) for column in range(self.width)] for row in range(self.period)]
        return tuple(
            Fraction(twice, 2)
            for twice in range(2 * self.width)
            if all(line[x] == line[(twice - x) % self.width] for line in lines for x in range(self.width))
        )


class Edge(Struct, frozen=True):
    """Edge stitches on each side of a flat piece and their yarn."""

    stitches: int
    yarn: str | None
    span: Span | None = None


class CastOn(Struct, frozen=True):
    """Cast on `width` in the fabric of a swatch; `narrower` in percent (None: 3 where a folded hem follows)."""

    width: Measure
    swatch: str
    narrower: Fraction | None
    manner: str
    span: Span


class Hem(Struct, frozen=True):
    """A folded hem: facing, one turning row, front of the same depth; `front` names a plain front's swatch."""

    depth: Measure
    front: str | None
    knitted_together: bool
    span: Span


class Rib(Struct, frozen=True):
    """Ribbing of `knit` x `purl` stitches over `depth`; `needle_mm` None keeps the swatch's needle."""

    depth: Measure
    knit: int
    purl: int
    needle_mm: Fraction | None
    span: Span


class Fit(Struct, frozen=True):
    """How the repeat meets the counts.

    Attributes:
        kind: "whole" repeats, "half" repeats, "centred", "edge" (from the edge), or "plain" (no motif, no wish).
        at: names of the levels where it is asked; empty for each level.
        axis: "stitch", "gap" or "first", None: whichever the motif has.
        tolerance: own tolerance of these levels in cm, or None.
        seams: "mirrored" or "unbroken".
        meets: (piece, mark) whose chart row this piece's last row meets, or None.
        is_centred: whether the file says `centred` as well.
    """

    kind: Literal["whole", "half", "centred", "edge", "plain"]
    span: Span
    at: tuple[str, ...] = ()
    axis: Literal["stitch", "gap", "first"] | None = None
    tolerance: Fraction | None = None
    seams: Literal["mirrored", "unbroken"] = "mirrored"
    meets: tuple[str, str] | None = None
    is_centred: bool = False


class Fabric(Struct, frozen=True):
    """From here on the piece is worked in this swatch's fabric; `motif` None is plain stockinette."""

    swatch: str
    motif: str | None
    fit: Fit
    span: Span


class Work(Struct, frozen=True):
    """Work even: for `length`, or (`to`) until the piece measures `length` from the fold or cast-on."""

    length: Measure
    to: bool
    span: Span


class Shape(Struct, frozen=True):
    """Increase or decrease at both edges to `width` over `over` (plain rows after the last one included)."""

    width: Measure
    over: Measure
    any_row: bool
    label: str
    span: Span


class Mark(Struct, frozen=True):
    """A named place, e.g. `underarm`."""

    name: str
    span: Span


class Neck(Struct, frozen=True):
    """A shaped neck, `depth` measured down from the high point of the shoulder."""

    width: Measure
    depth: Measure
    curve: Literal["round", "square"]
    span: Span


class Shoulders(Struct, frozen=True):
    """Sloped shoulders: `slope` is the drop from neck to tip, by short rows or bound off in steps."""

    slope: Measure
    manner: Literal["short rows", "steps"]
    span: Span


class BindOff(Struct, frozen=True):
    """Bind off all stitches."""

    manner: str
    span: Span


class Crown(Struct, frozen=True):
    """A crown of wedges over a length: in the pattern, plain (one yarn), or from a wedge chart."""

    wedges: int
    over: Measure
    manner: Literal["in pattern", "plain", "chart"]
    chart: str | None
    yarn: str | None
    span: Span


class PomPom(Struct, frozen=True):
    """A pom-pom tied on so that it comes off for washing."""

    diameter: Measure
    yarn: str
    span: Span


class Note(Struct, frozen=True):
    """A line that the designer writes freely."""

    text: str
    span: Span


Action = CastOn | Hem | Rib | Fabric | Work | Shape | Mark | Neck | Shoulders | BindOff | Crown | PomPom | Note


class Step(Struct, frozen=True):
    """An action with its stable address: `back.cast-on`, `back.shape[2]`. `front, as back` keeps the back's address."""

    address: str
    action: Action


class Piece(Struct, frozen=True):
    """One knitted piece, steps in order."""

    name: str
    span: Span
    in_round: bool
    make: int
    edge: Edge
    steps: tuple[Step, ...]


class Seam(Struct, frozen=True):
    """Join edges: (piece, edge) pairs such as ("back", "shoulders"); `manner` as written."""

    edges: tuple[tuple[str, str], ...]
    manner: str
    span: Span


class SetIn(Struct, frozen=True):
    """Sew a sleeve's top into the armholes."""

    piece: str
    span: Span


class Band(Struct, frozen=True):
    """A band picked up along edges and worked in rib."""

    name: str
    span: Span
    edges: tuple[tuple[str, str], ...]
    swatch: str
    rib: Rib
    manner: str = "loosely in rib"


class Assumption(Struct, frozen=True):
    """A default that was used, printed in the pattern; `source` names the rule's source or `common practice`.

    `{}` in `text` stands for `values`, lengths in cm: one a size, or one for all. `sources`, where given, are one a
    size, "" for a size that it does not hold for.
    """

    text: str
    source: str = "common practice, no source"
    span: Span | None = None
    values: tuple[Fraction, ...] = ()
    sources: tuple[str, ...] = ()

    def holds(self, sizes: Sequence[int] | None = None) -> bool:
        """Say whether it holds for any of some sizes (None: of all)."""
        return not self.sources or bool(self.origin(sizes))

    def origin(self, sizes: Sequence[int] | None = None) -> str:
        """Give the sources of some sizes (None: of all), each once."""
        if not self.sources:
            return self.source
        chosen = self.sources if sizes is None else [self.sources[size] for size in sizes]
        return "; ".join(dict.fromkeys(one for one in chosen if one))

    def said(self, sizes: Sequence[int] | None = None, units: str = "cm") -> str:
        """Give the text with the values of some sizes (None: of all) in bracket notation, in `units` (cm, inch)."""
        if not self.values:
            return self.text
        chosen = self.values if sizes is None or len(self.values) == 1 else [self.values[size] for size in sizes]
        first, *rest = (show_length(value, units).removesuffix(".0") for value in chosen)
        more = f" ({', '.join(rest)})" if any(value != first for value in rest) else ""
        return self.text.replace("{}", f"{first}{more} {unit_word(units)}")


class Spec(Struct, frozen=True):
    """One garment, ready to be drafted. Sizes come first, made-to-measure bodies after them.

    Attributes:
        group: women, men, children, babies, or "" for a table of the file's own.
        width_tolerance, length_tolerance: largest deviation in cm on a piece's width and on a length.
        float_limit: (value, dimension): cm or stitches.
        preferences: weights by the name of a level or of a length's measure, or `even-steps`; 1 where none is given.
    """

    title: str
    about: str
    paper: Literal["A4", "letter"]
    units: Literal["cm", "inch"]
    group: str
    sizes: tuple[Size, ...]
    yarns: Mapping[str, Yarn]
    swatches: Mapping[str, Swatch]
    motifs: Mapping[str, Motif]
    pieces: tuple[Piece, ...]
    joins: tuple[Seam | SetIn, ...]
    bands: tuple[Band, ...]
    assumptions: tuple[Assumption, ...] = ()
    width_tolerance: Fraction = Fraction(3, 2)
    length_tolerance: Fraction = Fraction(3, 2)
    float_limit: tuple[Fraction, Dimension] = field(default=(Fraction(5, 2), "length"))
    preferences: Mapping[str, tuple[Fraction, Span]] = field(default_factory=dict)

    def weight(self, *names: str, default: Fraction = Fraction(1)) -> Fraction:
        """Give the weight that the file prefers for the first of some names that it mentions."""
        return next((self.preferences[name][0] for name in names if name in self.preferences), default)

    @property
    def size_names(self) -> tuple[str, ...]:
        """Names in size order."""
        return tuple(size.name for size in self.sizes)
