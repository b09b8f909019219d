"""Lines of necks and shoulders."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from wale.prove.words.stitches import Fabric, Side


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


class SideDecrease(Struct, frozen=True):
    """A decrease inside `edge` stitches, named as those of a band or not, where rows of a side start or end."""

    side: Side
    starts: bool
    decrease: str
    edge: int
    is_band: bool = False


class SideWork(Struct, frozen=True):
    """What goes at a side edge: `bind_off` stitches at the start of a row, or one st by decreases on some rows.

    Or nothing goes, and it is marked after a row.
    """

    rows: tuple[int, ...]
    side: Side = ""
    bind_off: int = 0
    decreases: tuple[SideDecrease, ...] = ()
    mark: str = ""


class SideEdge(Struct, frozen=True):
    """How a side edge is shaped while the neck is worked; `name` "" in a half piece, which has one."""

    name: Literal["", "left", "right"]
    works: tuple[SideWork, ...]


class Before(Struct, frozen=True):
    """Rows 1 to `last` of the top over the whole width."""

    last: int


class NeckRow(Struct, frozen=True):
    """The row that divides the work.

    `work` stitches before the neck: counted with those that wait, on the needle that `counted` names, or without a
    shoulder's own bind-off on this row where the line says so. `turns` where it ends with a turn. `off` are bound off
    at its start; `start` and `end` are decreases at the sides, the latter over the `last` stitches.
    """

    side: Side
    row: int
    work: int
    bind_off: int
    counted: Literal["", "left", "right"] = ""
    after_step: bool = False
    turns: bool = False
    off: int = 0
    start: SideDecrease | None = None
    end: SideDecrease | None = None
    last: int = 0


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
