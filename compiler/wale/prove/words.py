"""What a printed line says, for one size: plain records of words and figures, nothing worked out yet."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

Side = Literal["RS", "WS", ""]
"""The side that faces the knitter as printed; "" where the line names none."""


class CastOn(Struct, frozen=True):
    """Cast on; `joined` to a round."""

    count: int
    yarn: str
    needle: str
    manner: str
    joined: bool


class Needles(Struct, frozen=True):
    """Change to other needles."""

    needle: str


class BindOff(Struct, frozen=True):
    """Bind off all stitches; `words` say how and in what."""

    count: int
    words: str

    @property
    def yarn(self) -> str:
        """Give the yarn that the words begin with, or "" where they say only how."""
        return self.words[3:].partition(",")[0] if self.words.startswith("in ") else ""


class Cord(Struct, frozen=True):
    """Bind off with a cord of `cord` stitches, `slipped` back after each repeat; `last` are bound off at its end."""

    yarn: str
    cord: int
    count: int
    stitches: Stitches
    slipped: int
    times: int
    last: int


class PlainRows(Struct, frozen=True):
    """Rows or rounds of a hem in a plain fabric; `from_right` where the line says that a RS row begins."""

    part: str
    rows: int
    in_round: bool
    fabric: Fabric
    from_right: bool


class Repeat(Struct, frozen=True):
    """Stitches in brackets and how often they are worked."""

    stitches: Stitches
    times: int


class Stitch(Struct, frozen=True):
    """`k`, `p` with how many stitches, or one of `k2tog`, `p2tog`, `m1`, `m1p` once; of a
    `yarn` where the line names one."""

    work: str
    count: int
    yarn: str = ""


Stitches = tuple[Stitch | Repeat, ...]


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


class HemJoin(Struct, frozen=True):
    """Knit the cast-on edge in on a row above the fold; `side` "" in the round."""

    row: int
    side: Side


class Mark(Struct, frozen=True):
    """Mark a place after the last row; `in_round` where the line marks the start of the next round."""

    name: str
    in_round: bool


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


class Fabric(Struct, frozen=True):
    """What rows are worked in: a chart, or a stitch in one yarn.

    `spans` are its chart rows where the line tells them: (from, to, 0), or (0, 0, times) for all its rows.
    """

    chart: str = ""
    spans: tuple[tuple[int, int, int], ...] = ()
    stitch: str = ""
    yarn: str = ""


class Work(Struct, frozen=True):
    """Rows or rounds worked even."""

    rows: int
    in_round: bool
    fabric: Fabric


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


class Top(Struct, frozen=True):
    """Neck and shoulders begin with the next row; `chart_row` 0 where plain."""

    chart_row: int
    fabric: Fabric
    is_half: bool = False


class ShoulderRows(Struct, frozen=True):
    """Short-row turns (at the ends of rows) or stepped bind-offs (at their starts) of both shoulders.

    Attributes:
        turns: short rows; False: bound off.
        right, left: the first row on either shoulder, with the side printed.
        first: stitches of the first group; `then` are (stitches, times) on every second row after.
    """

    turns: bool
    right: int
    right_side: Side
    left: int
    left_side: Side
    first: int
    then: tuple[tuple[int, int], ...]

    def groups(self) -> tuple[int, ...]:
        """Give the stitches of each turn or step, from the armhole edge."""
        return (self.first, *(group for group, times in self.then for _ in range(times)))


class NeckEdge(Struct, frozen=True):
    """How a neck's edge is shaped where rows of a side start, from row `start` on.

    Either `runs` are bound off, (stitches, times) on every 2nd row; or one stitch is decreased by `decrease` inside
    `edge` stitches, on row `start` and then on every so-manieth row, (interval, times).
    """

    side: Side
    start: int
    runs: tuple[tuple[int, int], ...]
    decrease: str = ""
    edge: int = 0

    def steps(self) -> dict[int, int]:
        """Give the stitches that go on each row."""
        if not self.decrease:
            sizes = [stitches for stitches, times in self.runs for _ in range(times)]
            return {self.start + 2 * number: size for number, size in enumerate(sizes)}
        rows = [self.start]
        for interval, times in self.runs:
            rows += [rows[-1] + interval * (number + 1) for number in range(times)]
        return dict.fromkeys(rows, 1)


class HalfNeck(Struct, frozen=True):
    """The neck of a half piece: bound off at the start of a row, then shaped at its edge."""

    row: int
    side: Side
    bind_off: int
    shaping: NeckEdge | None


class HalfShoulder(Struct, frozen=True):
    """Short-row turns (at the ends of rows) or stepped bind-offs (at their starts) of the shoulder of a half piece."""

    turns: bool
    row: int
    side: Side
    first: int
    then: tuple[tuple[int, int], ...]

    def groups(self) -> tuple[int, ...]:
        """Give the stitches of each turn or step, from the armhole edge."""
        return (self.first, *(group for group, times in self.then for _ in range(times)))


class Before(Struct, frozen=True):
    """Rows 1 to `last` of the top over the whole width."""

    last: int


class NeckRow(Struct, frozen=True):
    """The row that divides the work.

    `work` stitches before the neck: counted with those that wait, on the needle that `counted` names, or without a
    shoulder's own bind-off on this row where the line says so. `turns` where it ends with a turn.
    """

    side: Side
    row: int
    work: int
    bind_off: int
    counted: Literal["", "left", "right"] = ""
    after_step: bool = False
    turns: bool = False


class NeckSide(Struct, frozen=True):
    """One side of the neck, and how its neck edge is shaped."""

    name: Literal["left", "right"]
    row: int
    side: Side
    shaping: NeckEdge | None


class Close(Struct, frozen=True):
    """The last row of a side: over all its stitches, which then wait on a holder."""

    row: int
    side: Side
    stitches: int


class Hold(Struct, frozen=True):
    """After a row the stitches of a side wait on a holder."""

    row: int
    stitches: int


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


class PickUp(Struct, frozen=True):
    """Stitches picked up along (count, edge), and `joined` to a round."""

    needle: str
    yarn: str
    picked: tuple[tuple[int, str], ...]
    total: int
    joined: bool = True


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
    """A row in rib on which buttonholes are bound off: stitches worked, then (bound off, worked) by turns."""

    side: Side
    first: int
    then: tuple[tuple[int, int], ...]
    after: int


class HoleClose(Struct, frozen=True):
    """The row in rib on which so many stitches are cast on over each buttonhole."""

    side: Side
    each: int
    after: int


class Keep(Struct, frozen=True):
    """Stitches of a round put on holders, (count, whether it is an underarm) each, from the start of the round."""

    kept: tuple[tuple[int, bool], ...]


class Gather(Struct, frozen=True):
    """Begin with the held stitches of other pieces, (count, piece) from the start of the round."""

    needle: str
    yarn: str
    taken: tuple[tuple[int, str], ...]
    total: int


class Refer(Struct, frozen=True):
    """Begin with the first `last` steps of another piece; the piece's own steps are numbered from `following`."""

    last: int
    piece: str
    following: int


class ChartRow(Struct, frozen=True):
    """A chart's row as it is worked; `same_as` a row told before, or None.

    Attributes:
        stretches: runs of (stitches, yarn), and how often they are worked.
        begun: so many stitches along the row `same_as` it begins.
    """

    number: int
    side: Side
    stretches: tuple[tuple[tuple[tuple[int, str], ...], int], ...]
    same_as: int | None
    begun: int = 0


End = CastOn | Needles | BindOff | Cord | PickUp | Keep | Gather | Refer
PlainLine = PlainRows | EvenRow | Turning | RibRow | RibRows | TextureRow | TextureRows
HoleLine = HoleRow | HoleClose
MitreLine = Mitre | MitreRounds
FabricLine = Border | BeginChart | Plain | Edge | Steek | Work
ShapedLine = ShapingRow | Shaping | BindRow | Mark | HemJoin
TopLine = ShoulderRows | Before | NeckRow | NeckSide | Close | Hold | HalfNeck | HalfShoulder
CrownLine = CrownPlain | CrownChart | Wedges | DecreaseRound | Crown | Draw
Instruction = End | PlainLine | HoleLine | MitreLine | FabricLine | ShapedLine | Top | TopLine | CrownLine
