"""The needles of the machine: stitches with their motif columns, the fabric in work, and the rows that come off."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct, field

from wale.prove.charts import Charts, Palette, Tiles
from wale.prove.fabric import (
    KNIT,
    PURL,
    Part,
    Row,
    Stated,
    insist,
)
from wale.prove.spelling import MOST_STITCHES, spelled
from wale.prove.words import Fabric as Worked
from wale.prove.words import Stitches

Runs = tuple[tuple[int, int], ...]
MOST_ROWS = 100_000
"""The longest piece that the machine knits."""


class Needles(Struct):
    """The state of the work; rows are numbered from 1, right-side rows are odd.

    `opened` is a plain row above a chart, or above rows told one by one, in which stitches were evened out: the first
    of what comes after it. `outside` are stitches at the right and at the left end beside a chart, `apart` those of a
    border or a band, which have `looks` of their own on each side's rows. `band_hole` are the stitches before a
    buttonhole on its row, and its own. In a top stitches keep their places: `narrowed` of them have gone at its right
    and its left side, as `sides` tells row by row (row, side, stitches).
    """

    charts: Charts
    palette: Palette = field(default_factory=Palette)
    in_round: bool = False
    needle: str = ""
    count: int = 0
    cast_on: int = 0
    yarn: str = ""
    stitch: str = ""
    chart: str = ""
    tiles: Tiles | None = None
    next_chart_row: int = 0
    start: tuple[int, int] | None = None
    outside: tuple[int, int] = (0, 0)
    edge_yarn: str = ""
    apart: tuple[int, int] = (0, 0)
    looks: dict[str, tuple[bytes, bytes]] = field(default_factory=dict)
    has_band: bool = False
    hole_rows: tuple[int, ...] = ()
    band_hole: tuple[int, int] = (0, 0)
    band_holes: list[tuple[int, int, int]] = field(default_factory=list)
    openings: list[tuple[int, Runs, str]] = field(default_factory=list)
    insets: list[tuple[int, Runs, str]] = field(default_factory=list)
    steek: tuple[int, int] = (0, 0)
    stripes: tuple[str, ...] = ()
    runs: Runs = ()
    rows: list[Row] = field(default_factory=list)
    done: int = 0
    held: dict[Part, int] = field(default_factory=dict)
    bound_off: int = 0
    drawn: int = 0
    line: int = 0
    marks: list[tuple[str, int]] = field(default_factory=list)
    fold: int = 0
    hem_join: int = 0
    is_strict: bool = True
    stated: list[Stated] = field(default_factory=list)
    holders: list[int] = field(default_factory=list)
    added: int = 0
    starts: list[tuple[int, int]] = field(default_factory=list)
    divided: list[tuple[int, tuple[int, ...]]] = field(default_factory=list)
    shift: int = 0
    knitted: int = 0
    cast_on_yarn: str = ""
    bind_off_yarn: str = ""
    parts: list[tuple[str, int, int]] = field(default_factory=list)
    crown: int = -1
    opened: int = -1
    neck_row: int = 0
    neck: int = 0
    slit: tuple[int, int] = (0, 0)
    stepped: dict[Part, int] = field(default_factory=dict)
    picked: tuple[tuple[int, str], ...] = ()
    underarms: tuple[int, ...] = ()
    joined: tuple[tuple[int, str], ...] = ()
    is_half: bool = False
    late: int = 0
    gaps: Runs = ()
    hole_row: int = 0
    holes: Runs = ()
    deeper: int = 0
    marked: tuple[int, ...] = ()
    mitres: tuple[int, ...] = ()
    cord: int = 0
    narrowed: tuple[int, int] = (0, 0)
    sides: list[tuple[int, str, int]] = field(default_factory=list)

    @property
    def side(self) -> str:
        """Side of the next row."""
        return "round" if self.in_round else ("WS" if (self.done + self.shift) % 2 else "RS")

    def agree(self, told: tuple[int, ...], found: tuple[int, ...], message: str, *, is_count: bool = True) -> None:
        """Hold what the text states against what is there: the proof stops where they differ, a trial goes on.

        Args:
            is_count: it is the stitches at a point, not a difference or a label.

        Raises:
            Contradiction: they differ, and the machine is strict.
        """
        insist(told == found or not self.is_strict, message)
        if not self.is_strict and (is_count or told != found):
            self.stated.append(Stated(self.line, self.done, told, found, message if told != found else ""))

    def take_held(self, count: int) -> None:
        """Take stitches off a holder: one that holds so many, else a part of one that holds more."""
        fitting = next((place for place, held in enumerate(self.holders) if held == count), None)
        if fitting is None:
            fitting = next((place for place, held in enumerate(self.holders) if held > count), None)
        wait = " and ".join(map(str, self.holders)) or "no"
        insist(fitting is not None, f"{wait} sts wait on holders, not {count}")
        assert fitting is not None
        self.holders[fitting] -= count
        self.holders = [held for held in self.holders if held]

    def yarn_colours(self, count: int) -> bytes:
        """Give the colours of stitches that are all in the yarn in work."""
        return bytes((self.palette.index(self.yarn),)) * count

    def set_count(self, count: int, yarn: str, needle: str) -> None:
        """Put the first stitches on the needle."""
        insist(self.cast_on == 0, "the stitches are on the needle already")
        insist(count > 0, "there are no stitches")
        insist(count <= MOST_STITCHES, f"{count} sts are more than anybody knits")
        self.count = self.cast_on = count
        self.yarn, self.needle = yarn, needle
        self.cast_on_yarn = yarn
        self.runs = ((-1, count),)

    def go_plain(self, fabric: Worked) -> None:
        """Go on in a plain fabric."""
        self.yarn, self.stitch, self.chart, self.tiles = fabric.yarn, fabric.stitch, "", None
        self.outside = (0, 0)
        self.runs = ((-1, self.count),)

    @property
    def ends(self) -> tuple[int, int]:
        """Stitches outside the chart at the right and at the left end: the steek, or the edge."""
        return self.steek if any(self.steek) else self.outside

    def begin_steek(self, first: int, last: int, yarns: tuple[str, ...]) -> None:
        """Set the first and the last stitches of every round apart."""
        insist(self.in_round and not self.chart, "a steek is told where a round begins that has no chart yet")
        insist(not any(self.steek), "the steek is told already")
        insist(0 < last < first and first == last + 1, "the first stitch of the round is not the middle of the steek")
        insist(first + last < self.count, "there are only stitches of the steek")
        self.steek, self.stripes = (first, last), yarns

    def begin_chart(self, name: str, row: int, right: int, wrong: int, width: int, yarn: str) -> None:
        """Begin a chart; where its columns stand is settled with its first row, once the edge is known.

        Args:
            yarn: of a texture, "" for a chart in colours.
        """
        chart = self.charts.get((name, not self.in_round))
        insist(chart is not None, f"there is no chart {name}")
        assert chart is not None
        insist(all(len(row) == chart.width for row in chart.rows), "the chart's rows are not equally wide")
        insist(width == chart.width, f"the chart has {chart.width} columns, not {width}")
        insist(1 <= right <= width and (self.in_round or 1 <= wrong <= width), "there is no such column")
        insist(1 <= row <= len(chart.rows), f"the chart has no row {row}")
        self.chart, self.tiles, self.next_chart_row = name, Tiles(chart, self.palette), row
        insist(self.tiles.is_texture == bool(yarn), "a texture is told with its yarn, and a chart in colours without")
        insist(not (yarn and any(self.steek)), "a steek has no texture")
        self.yarn = yarn or self.yarn
        self.start, self.outside = (right, wrong), (0, 0)

    def settle_columns(self) -> None:
        """Lay the chart's columns over the stitches when its first row is worked."""
        if self.tiles is None or self.start is None:
            return
        right, wrong = self.start
        width, self.start = self.tiles.chart.width, None
        first = (right - 1 - self.ends[0]) % width
        inside = self.count - sum(self.outside)
        insist(inside > 0, "there are only edge stitches")
        if not self.in_round:
            insist(
                all(own in (0, told) for own, told in zip(self.apart, self.outside, strict=True)),
                "the border or band is worked in the chart",
            )
            last = (right - 1 + inside - 1) % width + 1
            insist(last == wrong, f"from column {right} on, WS rows start at column {last}, not {wrong}")
        self.runs = ((first, self.count),)

    def check_fabric(self, fabric: Worked, rows: int) -> None:
        """See that a run of rows goes on in the fabric in work, on the chart rows that it names."""
        if not fabric.chart:
            insist(not self.chart, f"the work is in chart {self.chart}, not in {fabric.stitch}")
            same = not self.stitch or (self.stitch, self.yarn) == (fabric.stitch, fabric.yarn)
            insist(same, f"the work is in {self.stitch} in {self.yarn}, not in {fabric.stitch} in {fabric.yarn}")
            self.stitch, self.yarn = fabric.stitch, fabric.yarn
            return
        insist(fabric.chart == self.chart, f"the work is not in chart {fabric.chart}")
        assert self.tiles is not None
        height, expected, told = len(self.tiles.chart.rows), self.next_chart_row, 0
        for first, last, times in fabric.spans if rows else ():
            first, last = (1, height) if times else (first, last)
            insist(first == expected, f"the next chart row is {expected}, not {first}")
            insist(first <= last <= height, f"the chart has no rows {first} to {last}")
            told += (last - first + 1) * max(times, 1)
            expected = last % height + 1
        insist(told == rows, f"{told} chart rows are told for {rows} rows")

    def take_chart_row(self, row: int | None = None) -> int:
        """Give the next chart row (or check a given one) and go on to the one after; 0 where plain."""
        if self.tiles is None:
            return 0
        height = len(self.tiles.chart.rows)
        row = row if row is not None else self.next_chart_row
        told = self.tiles.chart.sides[row - 1]
        if told and told != self.side and not self.in_round:
            insist(False, f"row {row} of the chart is a {told} row, but this is a {self.side} row")
        self.next_chart_row = row % height + 1
        return row

    def pass_chart_row(self) -> None:
        """Go past a chart row on a row that is worked plain in a yarn of its own."""
        if self.tiles is not None:
            self.settle_columns()
            self.next_chart_row = self.next_chart_row % len(self.tiles.chart.rows) + 1

    def colours(self, chart_row: int) -> bytes:
        """Give the colours of all stitches on the needle on a chart row."""
        if self.tiles is None:
            return bytes((self.palette.index(self.yarn),)) * self.count
        if self.tiles.is_texture:
            cells = bytes((self.palette.index(self.yarn),)) * self.count
        else:
            cells = self.tiles.cut(chart_row, self.runs)
        if any(self.steek):
            striped = self._striped(self.tiles.chart.rows[chart_row - 1])
            first, last = self.steek
            return striped[last:] + cells[first : len(cells) - last] + striped[:last]
        right, left = self.outside
        if not right + left:
            return cells
        edge = bytes((self.palette.index(self.edge_yarn),))
        low, high = self.narrowed[0], len(cells) - self.narrowed[1]
        return cells[:low] + edge * right + cells[low + right : high - left] + edge * left + cells[high:]

    def textured(self, ops: bytes, chart_row: int, spans: Sequence[tuple[int, int]] = ()) -> bytes:
        """Give the plain stitches of a row the faces of a texture's chart, the edge stitches' apart.

        Args:
            ops: the stitches worked.
            spans: their places on the needle; empty where they are all that are on it.
        """
        if self.tiles is None or not self.tiles.is_texture or not chart_row:
            return ops
        width, faces = self.tiles.chart.width, self.tiles.cut(chart_row, self.runs)
        places = [place for low, high in spans or ((0, self.count),) for place in range(low, high)]
        worked = {place: at for at, place in enumerate(places) if ops[at] == KNIT}
        right, left = (beside + gone for beside, gone in zip(self.outside, self.narrowed, strict=True))
        worked = {place: at for place, at in worked.items() if right <= place < self.count - left}
        made = bytearray(ops)
        for place, at in worked.items():
            made[at] = faces[place]
        # what is worked together and not all there is knitted
        first = self.runs[0][0]
        for group in self.tiles.together[chart_row - 1]:
            for start in range((group[0] - first) % width - width, self.count, width):
                whole = range(start, start + len(group))
                if not worked.keys() >= set(whole):
                    for place in whole:
                        if place in worked:
                            made[worked[place]] = KNIT
        return bytes(made)

    def _striped(self, row: tuple[str, ...]) -> bytes:
        """Give the colours of the steek beside a chart row, from the first of its stitches that end the round."""
        insist(set(row) <= {*self.stripes, row[0]}, "the words name no yarn for the steek")
        turns = [yarn for yarn in self.stripes if yarn in row] or [row[0]]
        return bytes(self.palette.index(turns[number % len(turns)]) for number in range(sum(self.steek)))

    def plain(self, chart_row: int) -> str:
        """Give the plain fabric of a row; "" of one in a chart."""
        return "" if chart_row else self.stitch

    def start_column(self, side: str) -> int:
        """Give the chart column (from 1) at which a row over all stitches starts, the edge passed over."""
        if self.tiles is None:
            return 0
        width = self.tiles.chart.width
        if side != "WS":
            return (self.runs[0][0] + self.ends[0]) % width + 1
        first, length = self.runs[-1]
        return (first + length - 1 - self.outside[1]) % width + 1

    def add(
        self,
        ops: bytes,
        colours: bytes,
        chart_row: int,
        start: int,
        waiting: int = 0,
        begun: int = 0,
        rib: str = "",
    ) -> None:
        """Take a row off.

        Args:
            waiting: stitches at its right end that were not worked.
            begun: stitches that were there before it.
            rib: what it is, where it is no row of the plain fabric in work.
        """
        ops = self.textured(ops, chart_row)
        self.grow(len(ops))
        self.button()
        self.open_pockets()
        chart = self.chart if chart_row else ""
        self.rows.append(
            Row(
                self.done + 1,
                self.side,
                "",
                ops,
                colours,
                self.runs,
                waiting,
                self.count,
                chart,
                chart_row,
                start,
                self.needle,
                self.line,
                begun=begun,
                stitch=rib or self.plain(chart_row),
            )
        )
        self.done += 1

    def part(self, name: str, first: int) -> None:
        """Note that the rows from `first` on are a part of a hem, or a rib."""
        self.parts.append((name, first, self.done))

    def lengthen_part(self) -> None:
        """Note that the row just worked ends the part below it, where one ends there."""
        if self.parts and self.parts[-1][2] == self.done - 1:
            name, first, _ = self.parts[-1]
            self.parts[-1] = (name, first, self.done)

    def grow(self, stitches: int) -> None:
        """Count a row's stitches.

        Raises:
            Contradiction: the piece is larger than anybody knits.
        """
        self.knitted += stitches
        insist(self.knitted <= MOST_STITCHES and self.done < MOST_ROWS, "the piece is larger than anybody knits")

    def work_row(self) -> None:
        """Work one row even: stockinette, plain or in the chart."""
        self.settle_columns()
        chart_row = self.take_chart_row()
        right, left = self.looks.get(self.side, (b"", b""))
        ops = right + self.faces(self.count - len(right) - len(left)) + left
        self.add(ops, self.colours(chart_row), chart_row, self.start_column(self.side))

    def faces(self, count: int) -> bytes:
        """Give how plain stitches of the next row look: garter has its purl ridges, a rib its columns."""
        if not self.chart and self.stitch.startswith("rib"):
            knit, purl = map(int, self.stitch.removeprefix("rib ").split("x"))
            return ((bytes((KNIT,)) * knit + bytes((PURL,)) * purl) * (count // (knit + purl) + 1))[:count]
        ridge = not self.chart and self.stitch == "garter" and (self.done + self.shift) % 2 == 1
        return bytes((PURL if ridge else KNIT,)) * count

    def begin_border(self, stitches: int) -> None:
        """Set stitches at both ends of every row apart, which are knitted on both sides."""
        insist(not self.in_round and not self.done, "a border is told below the cast-on of flat work")
        insist(0 < 2 * stitches < self.count, "there are only border stitches")
        ridge, plain = bytes((PURL,)) * stitches, bytes((KNIT,)) * stitches
        self.apart, self.looks = (stitches, stitches), {"RS": (plain, plain), "WS": (ridge, ridge)}

    def edges(self, side: int) -> tuple[int, int]:
        """Give the ends of the stitches between those apart: `side` edge stitches where no border or band stands."""
        right, left = self.apart
        return (0 if right else side, 0 if left else side)

    def open_pockets(self) -> None:
        """Put stitches on holders where the next row opens a pocket, and those of a lining in their place."""
        for row, slots, lining in [one for one in self.openings if one[0] == self.done + 1]:
            below = self.rows[-1].stitches if self.rows else self.cast_on
            insist(all(last <= below for _, last in slots), f"there are only {below} sts on the needle")
            for first, last in slots:
                self.holders.append(last - first + 1)
                self.added += last - first + 1
            self.insets.append((row, slots, lining))

    def button(self) -> None:
        """Work the buttonhole of the next row, where it has one: it is bound off, and as many are cast on there."""
        row = self.done + 1
        if row in self.hole_rows:
            insist(row % 2 == 1, f"row {row} is no RS row")
            before, off = self.band_hole
            self.bound_off += off
            self.added += off
            self.band_holes.append((row, before, off))

    def spell(self, stitches: Stitches, side: str, count: int = 0) -> bytes:
        """Work a row's words over all stitches and give how it looks from the right side.

        Args:
            side: "RS", "WS" or "round": which way it runs, and which shaped stitches it may hold.
            count: stitches that they take; 0: those on the needle.
        """
        ops, taken = spelled(stitches, side)
        count = count or self.count
        insist(taken == count, f"the words take {taken} sts, but {count} are on the needle")
        return ops
