"""Lines of hems, ribs, textured edges, mitres and buttonholes."""

from __future__ import annotations

from msgspec import Struct

from wale.prove.words.rows import Schedule
from wale.prove.words.stitches import Fabric, Side, Stitches


class PlainRows(Struct, frozen=True):
    """Rows or rounds of a hem in a plain fabric; `from_right` where the line says that a RS row begins."""

    part: str
    rows: int
    in_round: bool
    fabric: Fabric
    from_right: bool


class EvenRow(Struct, frozen=True):
    """A row that gains or loses stitches evenly.

    `crown_round` is its round where it opens a crown, else 0; `yarn` is its own where the line names one.
    """

    side: Side
    crown_round: int
    grows: bool
    change: int
    stitches: Stitches
    after: int
    yarn: str


class Turning(Struct, frozen=True):
    """The fold of a hem: a ridge, which is a knitted WS row or a purled round, or eyelets or slips told in stitches."""

    side: Side
    stitches: Stitches = ()


class RibRow(Struct, frozen=True):
    """One row of a rib worked flat."""

    side: Side
    stitches: Stitches


class RibRows(Struct, frozen=True):
    """Rows of the rib defined before, a `begins` row first; in the round `stitches` stand in the line itself."""

    rows: int
    knit: int
    purl: int
    stitches: Stitches | None
    yarn: str
    begins: Side = ""
    twisted: bool = False
    corrugated: bool = False


class TextureRow(Struct, frozen=True):
    """One of the rows that a textured edge repeats; `side` "" in the round."""

    texture: str
    number: int
    side: Side
    stitches: Stitches


class TextureRows(Struct, frozen=True):
    """Rows of the texture defined before, which repeats `of` rows, from its row `start` on."""

    texture: str
    rows: int
    in_round: bool
    of: int
    start: int
    yarn: str


class Mitre(Struct, frozen=True):
    """Stitches of the round that are marked, and how many fewer a mitre round leaves."""

    marked: tuple[int, ...]
    fewer: int


class MitreRounds(Struct, frozen=True):
    """Rounds of a band up to the last one, some of them mitre rounds; `after` stitches at the end."""

    schedule: Schedule
    rounds: int
    after: int


class HoleRow(Struct, frozen=True):
    """A row on which buttonholes are bound off: stitches worked, then (bound off, worked) by turns.

    `texture`: "rib" or another one whose rows are told, in which it is worked.
    """

    texture: str
    side: Side
    first: int
    then: tuple[tuple[int, int], ...]
    after: int


class HoleClose(Struct, frozen=True):
    """The row on which so many stitches are cast on over each buttonhole."""

    texture: str
    side: Side
    each: int
    after: int


class CollarTurns(Struct, frozen=True):
    """Short rows of a collar, each longer than the one before it on that side.

    Attributes:
        texture: whose rows are told, in which they are worked.
        sides, left: of the first row and of the row after it: how many stitches wait at its end.
        more: rows that turn after them, and by how many stitches farther each than the one before on that side.
    """

    texture: str
    sides: tuple[Side, Side]
    left: tuple[int, int]
    more: tuple[tuple[int, int], ...]


class CollarClose(Struct, frozen=True):
    """The two rows on which the turns are closed, and the stitches after them."""

    after: int
