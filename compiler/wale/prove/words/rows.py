"""Lines of the fabric and its shaping, and the rows of a chart."""

from __future__ import annotations

from msgspec import Struct

from wale.prove.words.stitches import Fabric, Side


class BeginChart(Struct, frozen=True):
    """A chart begins on the next row or round; `wrong` is the column where WS rows start, 0 in the round.

    `yarn` is what a texture is worked in, "" for a chart in colours.
    """

    chart: str
    side: Side
    row: int
    right: int
    wrong: int
    width: int
    yarn: str = ""


class ChartRow(Struct, frozen=True):
    """A chart's row as it is worked; `same_as` a row told before, or None.

    Attributes:
        stretches: runs of (stitches, yarn), and how often they are worked.
        begun: so many stitches along the row `same_as` it begins.
        is_texture: its runs are of a texture's stitches in the place of yarns.
    """

    number: int
    side: Side
    stretches: tuple[tuple[tuple[tuple[int, str], ...], int], ...]
    same_as: int | None
    begun: int = 0
    is_texture: bool = False


class Plain(Struct, frozen=True):
    """Go on in a plain fabric."""

    fabric: Fabric


class Edge(Struct, frozen=True):
    """Edge stitches at each end of every row."""

    stitches: int
    yarn: str


class Border(Struct, frozen=True):
    """So many stitches at both ends of every row are knitted on both sides."""

    stitches: int


class Steek(Struct, frozen=True):
    """The first and the last stitches of every round, outside any chart; `yarns` in which they take turns."""

    first: int
    last: int
    yarns: tuple[str, ...]


class Work(Struct, frozen=True):
    """Rows or rounds worked even."""

    rows: int
    in_round: bool
    fabric: Fabric


class Schedule(Struct, frozen=True):
    """Shape on row `first`, then on every `interval`-th row so many `times`."""

    first: int
    then: tuple[tuple[int, int], ...]

    def rows(self) -> tuple[int, ...]:
        """Give the rows, from 1."""
        found = [self.first]
        for interval, times in self.then:
            found += [found[-1] + interval * number for number in range(1, times + 1)]
        return tuple(found)


class ShapingRow(Struct, frozen=True):
    """How a row is shaped: edge stitches, `start` after them, the rest to the last `rest` stitches, `end`.

    `rest` None: "to the end". `start` or `end` "": that end is not shaped. `edges` are the edge stitches said at the
    start and at the end of the row.
    """

    grows: bool
    side: Side
    edges: tuple[int, int]
    start: str
    inside: str
    rest: int | None
    end: str
    change: int
    more: bool


class Shaping(Struct, frozen=True):
    """Rows worked even but for the shaping rows; `after` stitches at the end."""

    grows: bool
    schedule: Schedule
    fabric: Fabric
    rows: int
    after: int


class BindRow(Struct, frozen=True):
    """A row that binds off stitches at its start; `chart_row` 0 where plain, `after` stitches at its end."""

    side: Side
    count: int
    inside: str
    chart_row: int
    after: int


class Mark(Struct, frozen=True):
    """Mark a place after the last row; `in_round` where the line marks the start of the next round."""

    name: str
    in_round: bool


class HemJoin(Struct, frozen=True):
    """Knit the cast-on edge in on a row above the fold; `side` "" in the round."""

    row: int
    side: Side
