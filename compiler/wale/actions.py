"""What is done to a piece, step by step: cast on, hem, rib, fabric, shaping, neck, shoulders, crown.

Given by `resolve` in the order of the lines, part of the `Spec`; read by `draft` and the writer.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct, field

from wale.measure import Measure
from wale.source import Span


class Edge(Struct, frozen=True):
    """Edge stitches on each side of a flat piece and their yarn; `garter` where they are a border of garter."""

    stitches: int
    yarn: str | None
    span: Span | None = None
    garter: bool = False


class Steek(Struct, frozen=True):
    """The stitches of a round that are cut through afterwards: an odd number, the middle one begins the round."""

    stitches: int
    span: Span

    @property
    def ends(self) -> tuple[int, int]:
        """Give how many of them begin a round, the middle one first, and how many end it."""
        return self.stitches - self.stitches // 2, self.stitches // 2


class Buttonholes(Struct, frozen=True):
    """Buttonholes of a band: `each` stitches wide, the outer ones `first` from its ends."""

    number: int
    each: int
    first: Measure
    span: Span


BAND_LOOKS: dict[str, tuple[str, str]] = {"garter": ("kk", "pp"), "rib": ("kp", "kp"), "seed": ("kp", "pk")}
"""Textures of a front band: its stitches by turns from the front edge on, as seen from the right side, on RS and WS."""


class FrontBand(Struct, frozen=True):
    """Stitches at the opening of a half piece that are worked as a band, from the cast-on up to the neck."""

    stitches: int
    texture: str
    span: Span

    def look(self, *, is_right_side: bool) -> str:
        """Give how its stitches look from the right side on a row, from the front edge on."""
        unit = BAND_LOOKS[self.texture][0 if is_right_side else 1]
        return (unit * self.stitches)[: self.stitches]


class Half(Struct, frozen=True):
    """What makes a piece one half of another that opens in the middle, such as a front of a cardigan.

    Attributes:
        hand: which half, as worn. Seen from the right side the left one lies at the right: its right-side rows start
            at the side and end at the opening.
        whole: the piece that both are halves of.
        owner: the first of two halves that mirror each other; its counts are those of both.
        opening: the gap between the halves; less than 0 where bands that are worked along lie on each other.
        band: the band that is worked along with it, or None.
        holes: the buttonholes of that band, or None.
    """

    hand: Literal["left", "right"]
    whole: str
    owner: str
    opening: Measure
    span: Span
    band: FrontBand | None = None
    holes: Buttonholes | None = None

    def ends(self, edge: int) -> tuple[int, int]:
        """Give the stitches at the right and at the left end outside any chart; `edge` are those of a side."""
        front = self.band.stitches if self.band is not None else edge
        return (edge, front) if self.side == "right" else (front, edge)

    @property
    def side(self) -> Literal["left", "right"]:
        """The end of a row, seen from the right side, at which the side edge is."""
        return "right" if self.hand == "left" else "left"

    @property
    def pivot(self) -> int:
        """The stitch at the opening, in halves of a row from its right end: 0 the first, 2 the last."""
        return 2 if self.hand == "left" else 0


class CastOn(Struct, frozen=True):
    """Cast on `width` in the fabric of a swatch; `narrower` in percent (None: 3 where a folded hem follows).

    `label` names its level, and the one that a change of gauge above it makes; "" for the first measure in the width.
    """

    width: Measure
    swatch: str
    narrower: Fraction | None
    manner: str
    span: Span
    label: str = ""


Fold = Literal["purl ridge", "picot", "slipped"]
"""The turning row of a hem: purled, of eyelets, whose fold makes small points, or with every second stitch slipped."""


class Hem(Struct, frozen=True):
    """A folded hem: facing, one turning row, front of the same depth; `front` names a plain front's swatch."""

    depth: Measure
    front: str | None
    knitted_together: bool
    span: Span
    fold: Fold = "purl ridge"


Texture = Literal["rib", "garter", "seed", "moss", "rolled"]
EDGINGS: tuple[Texture, ...] = ("rib", "garter", "seed", "moss", "rolled")
"""Textured edges: their keywords in a file, and the kinds of their sections."""


class Rib(Struct, frozen=True):
    """An edging over `depth`: a rib, or another texture whose rows repeat.

    Attributes:
        knit, purl: stitches of one repeat across; `purl` 0 where any number of stitches does.
        needle_mm: None keeps the swatch's needle.
        texture: what it is worked in.
        twisted: its knit stitches are worked through the back loop.
        purls: the yarn of its purl columns where it is corrugated, or None: it is in one yarn.
    """

    depth: Measure
    knit: int
    purl: int
    needle_mm: Fraction | None
    span: Span
    texture: Texture = "rib"
    twisted: bool = False
    purls: str | None = None

    def columns(self, yarn: str) -> tuple[str, ...]:
        """Give the yarn of each stitch of a repeat of a corrugated rib whose knit columns are in `yarn`; else ()."""
        return (yarn,) * self.knit + (self.purls,) * self.purl if self.purls is not None else ()

    @property
    def multiple(self) -> tuple[int, int] | None:
        """Give the stitches of a repeat that the count must fit, or None where any count does."""
        return (self.knit, self.purl) if self.purl else None


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
        at_plainest: whether rounds start at the motif's plainest column.
    """

    kind: Literal["whole", "half", "centred", "edge", "plain"]
    span: Span
    at: tuple[str, ...] = ()
    axis: Literal["stitch", "gap", "first"] | None = None
    tolerance: Fraction | None = None
    seams: Literal["mirrored", "unbroken"] = "mirrored"
    meets: tuple[str, str] | None = None
    is_centred: bool = False
    at_plainest: bool = False


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
    """Increase or decrease at both edges to `width` over `over` (plain rows after the last one included).

    `over` None: over the rows with which the sleeve's cap fits its armhole.
    """

    width: Measure
    over: Measure | None
    any_row: bool
    label: str
    span: Span


class Evenly(Struct, frozen=True):
    """Reach a width evenly on one row or round: with more stitches (`grows`), or with fewer.

    The width is that of the line, or where it names none `percent` of what was wished for at the level `of` below.
    """

    width: Measure | None
    grows: bool
    label: str
    span: Span
    percent: Fraction = Fraction(100)
    of: str = ""


class BindSides(Struct, frozen=True):
    """Bind off `width` at each side, over two rows; `label` names the level above."""

    width: Measure
    label: str
    span: Span


class Mark(Struct, frozen=True):
    """A named place, e.g. `underarm`."""

    name: str
    span: Span


Curve = Literal["round", "square", "V", "scoop", "boat"]
"""Forms of a neck: steps that shrink, straight sides above a straight edge, sides that slope evenly to a point,
straight sides above a rounded bottom, or straight across with a curve at both ends."""
DECREASED: tuple[Curve, ...] = ("V", "scoop")
"""Those whose sides go by single decreases, not by bind-offs."""


class Placket(Struct, frozen=True):
    """A slit below the middle of a neck: the stitches bound off at its foot, and its rows up to the neck."""

    width: Measure
    length: Measure
    span: Span


class Neck(Struct, frozen=True):
    """A shaped neck, `depth` measured down from the high point of the shoulder to the upper end of its placket."""

    width: Measure
    depth: Measure
    curve: Curve
    span: Span
    placket: Placket | None = None


class Shoulders(Struct, frozen=True):
    """Sloped shoulders: `slope` is the drop from neck to tip, by short rows or bound off in steps."""

    slope: Measure
    manner: Literal["short rows", "steps"]
    span: Span


class BindOff(Struct, frozen=True):
    """Bind off all stitches, or with a cord of so many (0: without one)."""

    manner: str
    span: Span
    cord: int = 0


class Hold(Struct, frozen=True):
    """Leave the stitches live for another piece, `underarm` of them apart: at one side, of a body at both."""

    underarm: Measure
    span: Span


class Joining(Struct, frozen=True):
    """Begin with the held stitches of a body and of the sleeves at its two sides, in the fabric of a swatch."""

    body: str
    sleeve: str
    swatch: str
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


class Tassel(Struct, frozen=True):
    """A tassel of a length, sewn on."""

    length: Measure
    yarn: str
    span: Span


class Coursed(Struct, frozen=True):
    """A course told row by row, by its line ("heel flap"); `given` by the words before its slots."""

    form: str
    span: Span
    given: Mapping[str, Measure] = field(default_factory=dict)


class Note(Struct, frozen=True):
    """A line that the designer writes freely."""

    text: str
    span: Span


Action = (
    CastOn
    | Hem
    | Rib
    | Fabric
    | Work
    | Shape
    | Evenly
    | BindSides
    | Mark
    | Neck
    | Shoulders
    | BindOff
    | Hold
    | Joining
    | Crown
    | PomPom
    | Tassel
    | Coursed
    | Note
)


class Step(Struct, frozen=True):
    """An action with its stable address: `back.cast-on`, `back.shape[2]`. `front, as back` keeps the back's address."""

    address: str
    action: Action
