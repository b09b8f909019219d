"""Lines of crowns."""

from __future__ import annotations

from msgspec import Struct

from wale.prove.words.rows import Schedule
from wale.prove.words.stitches import Fabric


class CrownPlain(Struct, frozen=True):
    """The crown goes on in stockinette."""

    yarn: str


class CrownChart(Struct, frozen=True):
    """The crown goes on in a chart of one wedge."""

    chart: str


class Wedges(Struct, frozen=True):
    """The round divided; `columns` where the wedges start in the chart: none, one for all, or one each."""

    wedges: int
    stitches: int
    columns: tuple[int, ...]


class DecreaseRound(Struct, frozen=True):
    """A round that takes a stitch at the end of each wedge."""

    wedges: int
    inside: str
    shaped: str
    change: int
    more: bool


class Crown(Struct, frozen=True):
    """Rounds of a crown; `fabric` None where the line names none."""

    schedule: Schedule
    fabric: Fabric | None
    rounds: int
    after: int


class Draw(Struct, frozen=True):
    """The yarn drawn through the last stitches."""

    count: int
