"""What the fabric has to be, as plain data: the plan's side of the comparison.

Whoever has a plan fills these in; the proof itself knows nothing of plans.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction
from typing import Literal

from msgspec import Struct, field

from wale.prove.fabric import Part

Runs = tuple[tuple[int, int], ...]
Motifs = Mapping[str, tuple[tuple[str, ...], ...]]
"""Yarn of each motif's cells: [row from 0][column from 0, counted from the right]."""


class RowFact(Struct, frozen=True):
    """One row as planned.

    Attributes:
        number: from 1 over the whole piece.
        side: "RS", "WS" or "round".
        part: "" or the side of a divided neck.
        stitches: on the needle after it, those that wait included.
        needle: mm as printed ("3.5 mm"), "" where it is not to be compared.
        yarn: of a plain row, or of one in a texture; else "".
        chart, chart_row: what it is worked in; "" and 0 where plain.
        start: chart column (from 1) at which it starts, 0 where plain or not to be compared.
        runs: motif columns (from 0) of all stitches after the row, right to left, as (first column, stitches).
        edges: edge stitches at the right and at the left end.
        waiting: stitches at the right and the left end that short rows leave unworked.
        shaped: at which ends it gains or loses a stitch, "" at none.
        is_even: whether as many stitches are bound off at the one side so far as at the other.
        fabric: name of its gauge.
        steek: yarns of the stitches at the ends of a round that is cut open later, in its order; they are the `edges`.
        bound: stitches that it binds off at its start.
        inside: stitches between its right and its left end and the shaping there, edge stitches apart.
        columns: yarns of a repeat of a corrugated rib, between the `edges`; else ().
        stitch: the plain fabric or the rib that it is worked in, as its line names it ("garter", "rib 2x2"); "" in a
            chart, and where it is not to be compared.
        plain: of a row whose words tell its stitches, how its plain ones look from the right side, k or p; else "".
    """

    number: int
    side: str
    part: Part
    stitches: int
    needle: str = ""
    yarn: str = ""
    chart: str = ""
    chart_row: int = 0
    start: int = 0
    runs: Runs = ()
    edges: tuple[int, int] = (0, 0)
    waiting: tuple[int, int] = (0, 0)
    shaped: Literal["", "both", "left", "right"] = ""
    is_even: bool = True
    fabric: str = ""
    steek: tuple[str, ...] = ()
    bound: int = 0
    inside: tuple[int, int] = (0, 0)
    columns: tuple[str, ...] = ()
    stitch: str = ""
    plain: Literal["", "k", "p"] = ""


class LevelFact(Struct, frozen=True):
    """A width with a name: that of the stitches after a row (0: the cast-on), in the gauge of a fabric.

    Attributes:
        label: as tables name it ("bust").
        drawn: as schematics name it ("lower edge").
        address: as the table of deviations names it, with its wished width in cm (None: written as a count).
        begins: it is that of the stitches with which the row begins.
    """

    label: str
    drawn: str
    row: int
    fabric: str
    address: str = ""
    wish: Fraction | None = None
    begins: bool = False


class LengthFact(Struct, frozen=True):
    """Rows after row `before` up to row `last`, and the length in cm wished for them, or for the height they reach."""

    address: str
    before: int
    last: int
    is_height: bool
    wish: Fraction


class Gauge(Struct, frozen=True):
    """Stitches and rows per cm, and rows per cm before washing (None: not measured)."""

    stitches: Fraction
    rows: Fraction
    on_needles: Fraction | None = None


Sort = tuple[str, str, int, str]
"""Stitches that take yarn alike: fabric, chart, row of its motif from 0, and ""; or fabric, "", 0, and
the yarn, or the yarns of a repeat."""
Range = tuple[Fraction, Fraction, Fraction]
"""Grams: the least, the likely, and the most."""


class Grams(Struct, frozen=True):
    """Grams of a yarn in one stitch, by the weighed swatch and by the loop; None: not known."""

    yarn: str
    by_weight: Range | None
    by_loop: Range | None


class Rate(Struct, frozen=True):
    """What a stitch of a sort takes in some pieces."""

    sort: Sort
    pieces: tuple[str, ...]
    grams: tuple[Grams, ...]


class PutUpFact(Struct, frozen=True):
    """How a yarn is sold: as printed ("cones of 100 g"), grams, and the price with its currency (None: not known)."""

    words: str
    weight: Fraction
    price: Fraction | None
    currency: str


class YarnFact(Struct, frozen=True):
    """What a yarn is reckoned with in a size beside its stitches.

    Attributes:
        is_weighed: whether any fabric of it was weighed.
        ends: g of cast-ons, bind-offs, seams, ends and pom-poms; `swatches` are g of the swatches.
        margin: share to have ready beyond that.
        per_100g: metres, None where they are not known.
        on_hand: g.
    """

    yarn: str
    is_weighed: bool
    ends: Fraction
    swatches: Fraction
    margin: Fraction
    per_100g: Fraction | None
    on_hand: Fraction
    put_ups: tuple[PutUpFact, ...]


class SizeYarn(Struct, frozen=True):
    """The yarn of one size: what each sort of stitch takes, and each yarn that is bought."""

    rates: tuple[Rate, ...]
    yarns: tuple[YarnFact, ...]


class PieceFacts(Struct, frozen=True):
    """One piece (or band) in one size as planned.

    Attributes:
        edge_yarn: yarn of the edge stitches, "" where there are none.
        mirrors: the motif mirrors about the piece's centre line, so every row over the whole width does.
        held: stitches left on holders at the left and the right shoulder.
        bound_off, drawn, live: stitches bound off, drawn together, or left on the needle at the end.
        marks: named places and the rows knitted before them.
        hem_join: row above the fold on which the cast-on edge is knitted in, or 0.
        cast_on_yarn, bind_off_yarn: yarns of the cast-on and of the last bind-off, "" where they are not compared.
        seams: edge stitches of both sides that lie outside its finished widths.
        levels, lengths: what has a name, or a wish.
        make: how often it is knitted.
        picked: how many stitches a band picks up along which edge, in order.
        marked, mitres: stitches of its round on which a band turns a corner, and the rounds that decrease there.
        stitches: of each sort, as the yarn is reckoned from them; empty where they are not compared.
        steek: its first and its last stitches of every round that are cut away later.
        hole_row, holes: the row on which buttonholes are bound off, and (stitches from the right, their own) of each.
        shoulder_seam, neck_seam: stitches of a shoulder and of the neck that lie outside their finished widths.
        waiting: stitches that stay on holders for another piece.
        underarms: those of them that are grafted.
        joined: stitches of other pieces that it begins with, (count, piece) from the start of the round.
        anew: rows before a place from which lengths count anew, and its name ("heel"); None without one.
        aside: rows that add nothing to its length, as rows before them and the last of them.
        apart: how the stitches of a border or a band look from the right side (k, p), at the right and the left end, on
            RS and on WS rows; empty where none stand apart.
        apart_to: the last row on which they stand.
        band_holes: buttonholes in a band worked along: row, stitches of the band worked before it, and its own.
        eyelets, slips: yarn overs and slipped stitches in the row of its fold.
        twisted: rows of rib whose knit stitches are twisted.
        cord: stitches of the cord with which it is bound off, or 0.
        starts: where the start of the round moves: the rows worked before, and the stitches.
        divided: rows that place markers, and the stitches before each marker, in working order.
        insets: pockets opened: row, (first, last) stitch of each place from where the row starts, and the lining.
        textures: its textured edges, each with its first and last row.
    """

    piece: str
    size: str
    cast_on: int
    rows: tuple[RowFact, ...]
    edge_yarn: str = ""
    mirrors: bool = False
    held: tuple[int, int] = (0, 0)
    bound_off: int = 0
    drawn: int = 0
    live: int = 0
    marks: tuple[tuple[str, int], ...] = ()
    hem_join: int = 0
    cast_on_yarn: str = ""
    bind_off_yarn: str = ""
    seams: int = 0
    levels: tuple[LevelFact, ...] = ()
    lengths: tuple[LengthFact, ...] = ()
    make: int = 1
    picked: tuple[tuple[int, str], ...] = ()
    stitches: Mapping[Sort, int] = field(default_factory=dict)
    steek: tuple[int, int] = (0, 0)
    waiting: tuple[int, ...] = ()
    underarms: tuple[int, ...] = ()
    joined: tuple[tuple[int, str], ...] = ()
    shoulder_seam: int = 0
    neck_seam: int = 0
    hole_row: int = 0
    holes: tuple[tuple[int, int], ...] = ()
    anew: tuple[int, str] | None = None
    aside: tuple[tuple[int, int], ...] = ()
    apart: tuple[tuple[str, str], ...] = ()
    apart_to: int = 0
    band_holes: tuple[tuple[int, int, int], ...] = ()
    insets: tuple[tuple[int, tuple[tuple[int, int], ...], str], ...] = ()
    starts: tuple[tuple[int, int], ...] = ()
    divided: tuple[tuple[int, tuple[int, ...]], ...] = ()
    textures: tuple[tuple[str, int, int], ...] = ()
    eyelets: int = 0
    slips: int = 0
    twisted: int = 0
    marked: tuple[int, ...] = ()
    mitres: tuple[int, ...] = ()
    cord: int = 0


class JoinFact(Struct, frozen=True):
    """Edges that are joined: shoulders need the same stitches, sides the same rows, armholes a sleeve (named first).

    With `held` the first piece begins with what the others hold, underarms apart, which are grafted to each other. Two
    halves at an opening are mirror images, `in_colour` too where the motif of the whole piece mirrors, `in_stitches`
    but where it is a texture that does not. At a `pocket` the second piece, a lining, has as many live stitches as the
    first one puts on each holder.
    """

    edge: Literal["shoulders", "sides", "armholes", "held", "opening", "pocket"]
    pieces: tuple[str, ...]
    in_colour: bool = True
    in_stitches: bool = True


Together = Mapping[str, tuple[tuple[tuple[int, ...], ...], ...]]


class Facts(Struct, frozen=True):
    """Everything planned.

    Attributes:
        pieces: one for each piece, band and size.
        motifs: over a whole period each; the own charts of crown wedges too, rows getting shorter.
        joins: seams between pieces.
        gauges: of each fabric by its name.
        bodies: pieces whose sides are joined, so that their widths together go round.
        bare: measures of each size's body in cm, by name.
        openings: cm between the halves of a body that opens, by size, as far as it counts as width.
        heights: rows of each motif, which its chart may hold more than once.
        yarn: by size; empty where it is not compared.
        together: by texture and row of its motif, the columns (from 0) of what is worked together or not at all.
    """

    pieces: tuple[PieceFacts, ...]
    motifs: Motifs
    joins: tuple[JoinFact, ...] = ()
    gauges: Mapping[str, Gauge] = field(default_factory=dict)
    bodies: tuple[str, ...] = ()
    bare: Mapping[str, Mapping[str, Fraction]] = field(default_factory=dict)
    heights: Mapping[str, int] = field(default_factory=dict)
    yarn: Mapping[str, SizeYarn] = field(default_factory=dict)
    openings: Mapping[str, Fraction] = field(default_factory=dict)
    together: Together = field(default_factory=dict)


class PrintedPiece(Struct, frozen=True):
    """A piece or band as printed.

    Attributes:
        steps: its numbered steps in order; a remark, which instructs nothing, is "".
        refer: the line in front that refers to another piece's first steps, or "".
        first: number of its first step.
        remarks: beside each step the remark that stands in its place, else "".
        lists: what tells where rows start after a shaping: steps before it, the size, and `3: 157 sts, 1/11; ...`.
    """

    name: str
    steps: tuple[str, ...]
    refer: str = ""
    first: int = 1
    remarks: tuple[str, ...] = ()
    lists: tuple[tuple[int, str, str], ...] = ()


class PrintedTable(Struct, frozen=True):
    """A table as printed: its kind, its unit of length in cm, and its rows (heading, a cell for each size).

    Attributes:
        pieces: those that a schematic stands for.
    """

    kind: Literal["finished", "deviations", "schematic", "yarn"]
    unit: Fraction
    rows: tuple[tuple[str, tuple[str, ...]], ...]
    pieces: tuple[str, ...] = ()


class PrintedSheet(Struct, frozen=True):
    """A sheet row by row of a piece in one size: how it begins, and its lines."""

    piece: str
    size: str
    begin: str
    lines: tuple[str, ...]


class PrintedWhole(Struct, frozen=True):
    """A chart of every stitch of a piece in one size.

    Attributes:
        first: the piece's row that its first row is.
        rows: bottom row first, from where RS rows begin, for a left hand the left: the yarn of each stitch, with its
            shaping ("ssk in rye"); "" is none.
    """

    piece: str
    size: str
    first: int
    rows: tuple[tuple[str, ...], ...]


class Printed(Struct, frozen=True):
    """What the pattern prints: sizes in the order of the brackets, steps, charts in words (name, rows), tables.

    `sheets` and `wholes` are row by row and stitch by stitch, where they were asked for. `hand` is the hand for which
    all of it is worded: with the left it makes the mirror image.
    """

    sizes: tuple[str, ...]
    pieces: tuple[PrintedPiece, ...]
    charts: tuple[tuple[str, tuple[tuple[str, str], ...]], ...] = ()
    tables: tuple[PrintedTable, ...] = ()
    sheets: tuple[PrintedSheet, ...] = ()
    wholes: tuple[PrintedWhole, ...] = ()
    hand: Literal["right", "left"] = "right"
