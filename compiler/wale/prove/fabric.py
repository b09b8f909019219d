"""What comes off the needles: rows as bytes of stitches and colours, seen from the right side, right to left."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

KNIT, PURL, LEFT_DEC, RIGHT_DEC, LEFT_INC, RIGHT_INC, INC, TWISTED, CENTRED_DEC = b"kpLRlrmtC"
SLIPPED, LEFT_CROSS, RIGHT_CROSS, LEFT_DEEP, RIGHT_DEEP = b"s<>{}"
"""Stitches as they look from the right side: plain, purled, decreases and increases by their lean, other increases,
knit stitches twisted through the back loop, and three stitches knitted to one with the middle one on top; then stitches
that are slipped, those of cables, and three stitches of lace knitted to one, by their lean."""

Part = Literal["", "left", "right"]
"""The whole width, or one side of a divided neck."""


class Row(Struct, frozen=True):
    """One row or round.

    Attributes:
        number: from 1 over the whole piece.
        side: "RS", "WS" or "round".
        part: which part of a divided piece.
        ops: the stitches worked (bound-off ones apart), as they look from the right side.
        colours: of `ops`, indexes into the fabric's palette.
        runs: (motif column from 0, stitches) of neighbours whose columns follow each other; column -1 where plain.
        waiting: stitches at the right end that were not worked.
        stitches: all of the part that are on the needle after the row, waiting ones included.
        chart, chart_row: what it was worked in; "" and 0 where plain.
        start: chart column (from 1) of the first stitch that the row makes, the edge passed over; 0 where plain.
        needle: as printed.
        line: index of the instruction.
        gone: stitches of the shoulder at the right end, or of a half piece's shoulder, that are bound off.
        begun: stitches on the needle before a row that words tell stitch by stitch, else 0.
        stitch: the plain fabric or the rib that it goes on in ("stockinette", "rib 2x2"); "" in a chart.
    """

    number: int
    side: str
    part: Part
    ops: bytes
    colours: bytes
    runs: tuple[tuple[int, int], ...]
    waiting: int
    stitches: int
    chart: str
    chart_row: int
    start: int
    needle: str
    line: int
    gone: int = 0
    begun: int = 0
    stitch: str = ""

    def column(self, stitch: int) -> int:
        """Give the motif column (from 0) of a worked stitch, or -1 where plain."""
        for start, length in self.runs:
            if stitch < length:
                return start + stitch if start >= 0 else -1
            stitch -= length
        raise IndexError(stitch)


class Fabric(Struct, frozen=True):
    """One piece in one size, knitted.

    Attributes:
        palette: yarns by colour index.
        held: stitches on holders of the left and the right side.
        bound_off, drawn: stitches that were bound off, or that the yarn was drawn through.
        live: stitches that are still on the needle.
        marks: named places and the rows knitted before them.
        hem_join: row above the fold on which the cast-on edge is knitted in, or 0.
        cast_on_yarn, bind_off_yarn: yarns of the cast-on and of the last bind-off, "" where none is named.
        fold: row that is the fold of a hem, or 0.
        parts: hem parts and ribs, each with its first and last row.
        crown: the row before the first round of a crown, -1 without one.
        neck_row, neck: the row that divides the work, 0 without a neck, and all stitches bound off for the neck.
        slit: rows worked beside a slit below the neck and the stitches of its foot, (0, 0) without one.
        shoulders: stitches of the left and the right shoulder, held or bound off.
        picked: stitches picked up along edges, in order.
        steek: stitches at the start and at the end of every round that are cut away later.
        is_half: it has one shoulder, and half a neck.
        marked, mitres: stitches of a round on which a band turns a corner, and the rounds that decrease there.
        hole_row, holes: the row on which buttonholes are bound off, and (stitches from the right, their own) of each.
        band_holes: buttonholes in a band worked along: row, stitches of the band worked before it, and its own.
        insets: pockets opened: row, (first, last) stitch of each place from where the row starts, and the lining.
        deeper: stitches that decreases of three together took besides one each.
        late: rows by which its shoulder ends later than one at the other end of the rows would.
        added: stitches cast on or picked up after the first row.
        waiting: stitches on other holders, in the order in which they were put there.
        underarms: those of them that are underarms, to be grafted.
        cord: stitches of the cord with which it is bound off, or 0.
        starts: where the start of the round moves: the rows worked before, and the stitches.
        divided: rows that place markers, and the stitches before each marker, in working order.
        sides: what goes at the side edges while a neck is worked: row, side ("right" or "left") and stitches.
        joined: stitches of other pieces that it begins with, (count, piece) from the start of the round.
    """

    piece: str
    size: str
    palette: tuple[str, ...]
    cast_on: int
    rows: tuple[Row, ...]
    held: tuple[int, int]
    bound_off: int
    drawn: int
    live: int
    marks: tuple[tuple[str, int], ...]
    hem_join: int
    cast_on_yarn: str
    bind_off_yarn: str
    fold: int = 0
    parts: tuple[tuple[str, int, int], ...] = ()
    crown: int = -1
    neck_row: int = 0
    neck: int = 0
    slit: tuple[int, int] = (0, 0)
    shoulders: tuple[int, int] = (0, 0)
    picked: tuple[tuple[int, str], ...] = ()
    steek: tuple[int, int] = (0, 0)
    added: int = 0
    waiting: tuple[int, ...] = ()
    underarms: tuple[int, ...] = ()
    joined: tuple[tuple[int, str], ...] = ()
    is_half: bool = False
    late: int = 0
    hole_row: int = 0
    holes: tuple[tuple[int, int], ...] = ()
    deeper: int = 0
    marked: tuple[int, ...] = ()
    mitres: tuple[int, ...] = ()
    cord: int = 0
    sides: tuple[tuple[int, str, int], ...] = ()
    band_holes: tuple[tuple[int, int, int], ...] = ()
    insets: tuple[tuple[int, tuple[tuple[int, int], ...], str], ...] = ()
    starts: tuple[tuple[int, int], ...] = ()
    divided: tuple[tuple[int, tuple[int, ...]], ...] = ()

    def colour(self, row: Row, stitch: int) -> str:
        """Give the yarn of a worked stitch."""
        return self.palette[row.colours[stitch]]


class Finding(Struct, frozen=True):
    """A row that cannot be worked as printed, or that comes out otherwise than planned.

    Attributes:
        row: number over the whole piece, or 0.
        line: the printed line, or "".
    """

    piece: str
    size: str
    row: int
    line: str
    message: str


class Stated(Struct, frozen=True):
    """Stitches that the text states at a point, and those that are there.

    Attributes:
        line: index of the instruction.
        row: rows worked so far.
        told, found: in all, or between the markers.
        message: how they differ, or "".
    """

    line: int
    row: int
    told: tuple[int, ...]
    found: tuple[int, ...]
    message: str


class Contradiction(Exception):
    """The text cannot be worked here; the message says why."""


def insist(holds: bool, message: str) -> None:
    """Stop knitting unless something holds.

    Raises:
        Contradiction: it doesn't.
    """
    if not holds:
        raise Contradiction(message)
