"""The resolved spec: what the file says, with names looked up, units in cm and g, one value a size.

Given by `resolve`, read by `draft`, the checks and the writer. Lengths are cm, weights g, all exact Fractions.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Literal

from msgspec import Struct, field

from wale.actions import Buttonholes, Edge, Half, Rib, Steek, Step
from wale.materials import Motif, Swatch, Yarn
from wale.measure import Dimension, Measure
from wale.quantity import show_length, unit_word
from wale.source import Span


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


class Knitted(Struct, frozen=True):
    """What one copy of a piece or band took in a test knit: g in a size, and hours where they were noted."""

    size: str
    grams: Fraction
    hours: Fraction | None
    span: Span


class Piece(Struct, frozen=True):
    """One knitted piece, steps in order; `knitted` are its test knits, at most one a size.

    A piece in the round with a `steek` is cut open after knitting; one with a `half` is half of another.
    """

    name: str
    span: Span
    in_round: bool
    make: int
    edge: Edge
    steps: tuple[Step, ...]
    knitted: tuple[Knitted, ...] = ()
    steek: Steek | None = None
    half: Half | None = None

    @property
    def is_tube(self) -> bool:
        """Whether it stays a closed ring: worked in the round and not cut open."""
        return self.in_round and self.steek is None


class Seam(Struct, frozen=True):
    """Join edges: (piece, edge) pairs such as ("back", "shoulders"); `manner` as written."""

    edges: tuple[tuple[str, str], ...]
    manner: str
    span: Span


class SetIn(Struct, frozen=True):
    """Sew a sleeve's top, or its shaped cap, into the armholes."""

    piece: str
    span: Span
    edge: Literal["top", "cap"] = "top"


class SewnOn(Struct, frozen=True):
    """Sew a pocket onto a piece, or a lining behind it.

    Attributes:
        up: from the fold or cast-on of the piece to the pocket's lower edge, of one that is inset to its opening.
        aside: from the middle of the piece, or from the opening of a half, to the pocket's nearer side; None: it lies
            in the middle.
        is_inset: the piece is the lining, whose last stitches take the place of as many that wait on a holder.
    """

    piece: str
    onto: str
    up: Measure
    aside: Measure | None
    span: Span
    is_inset: bool = False


Join = Seam | SetIn | SewnOn


class Collar(Struct, frozen=True):
    """A shawl collar; `front`: how deep it is along the fronts, None where it fills the opening that it lies in."""

    front: Measure | None


PLACKET_EDGES = ("right-placket", "left-placket")
"""Edges of a placket, right and left as worn."""


class Band(Struct, frozen=True):
    """A band picked up along edges and worked in rib; `cord` are the stitches of a cord at its end, or 0.

    `hood`: how wide it becomes on its first row, where it is one; it is folded in half and joined at its end.
    `is_open`: along a closed neck it is worked flat and opens in front; `overlap` are the stitches of a hood at both
    ends that lie on each other there. `end`: the band whose end it is picked up along too, or "".
    """

    name: str
    span: Span
    edges: tuple[tuple[str, str], ...]
    swatch: str
    rib: Rib
    manner: str = "loosely in rib"
    knitted: tuple[Knitted, ...] = ()
    buttonholes: Buttonholes | None = None
    make: int = 1
    mitred: bool = False
    folded: bool = False
    cord: int = 0
    hood: Measure | None = None
    collar: Collar | None = None
    is_open: bool = False
    overlap: int = 0
    end: str = ""


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
        return self.text.replace("{}", f"{first}{more} {unit_word(units, first + more)}")


class Spec(Struct, frozen=True):
    """One garment, ready to be drafted. Sizes come first, made-to-measure bodies after them.

    Attributes:
        group: women, men, children, babies, or "" for a table of the file's own.
        width_tolerance, length_tolerance: largest deviation in cm on a piece's width and on a length.
        float_limit: (value, dimension): cm or stitches.
        preferences: weights by the name of a level or of a length's measure, or `even-steps`; 1 where none is given.
        version, changes: the version as it is written, and what it changes, a sentence each, in the file's order.
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
    joins: tuple[Join, ...]
    bands: tuple[Band, ...]
    assumptions: tuple[Assumption, ...] = ()
    width_tolerance: Fraction = Fraction(3, 2)
    length_tolerance: Fraction = Fraction(3, 2)
    float_limit: tuple[Fraction, Dimension] = field(default=(Fraction(5, 2), "length"))
    preferences: Mapping[str, tuple[Fraction, Span]] = field(default_factory=dict)
    version: str = ""
    changes: tuple[str, ...] = ()

    def weight(self, *names: str, default: Fraction = Fraction(1)) -> Fraction:
        """Give the weight that the file prefers for the first of some names that it mentions."""
        return next((self.preferences[name][0] for name in names if name in self.preferences), default)

    def coloured(self, motif: str | None) -> bool:
        """Say whether a motif is there and in colours, no texture."""
        return motif is not None and not self.motifs[motif].is_texture

    @property
    def size_names(self) -> tuple[str, ...]:
        """Names in size order."""
        return tuple(size.name for size in self.sizes)

    @property
    def buttonholes(self) -> tuple[Buttonholes, ...]:
        """Buttonholes of front bands that are worked along, then of bands that are picked up."""
        along = [piece.half.holes for piece in self.pieces if piece.half is not None]
        return tuple(one for one in (*along, *(band.buttonholes for band in self.bands)) if one is not None)
