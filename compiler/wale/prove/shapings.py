"""Shapings at the edges of flat work: rows told first and worked on some rows, and bind-offs where a row starts."""

from __future__ import annotations

from wale.prove import words
from wale.prove.fabric import KNIT, insist
from wale.prove.needle import Needles
from wale.prove.spelling import ON_WRONG_SIDE, SHAPED


class ShapingWork:
    """The shaping rows as they are told, by their side, until they are worked."""

    def __init__(self, needles: Needles) -> None:
        self.needles = needles
        self.told: dict[str, words.ShapingRow] = {}

    def add(self, line: words.ShapingRow) -> None:
        """Take a row."""
        self.told[line.side] = line

    def work(self, line: words.Shaping) -> None:
        """Work the rows of a section, shaped where the line says."""
        needles = self.needles
        insist(bool(self.told), "the shaping row is not told")
        insist(all(row.grows == line.grows for row in self.told.values()), "the shaping row told is another")
        insist(not needles.in_round, "a round has no edges to shape at")
        needles.check_fabric(line.fabric, line.rows)
        on = line.schedule.rows()
        insist(on[-1] <= line.rows, f"the last shaping would be on row {on[-1]} of {line.rows}")
        shaped = frozenset(on)
        for number in range(1, line.rows + 1):
            if number in shaped:
                side = needles.side if needles.side in self.told else ""
                insist(side in self.told, f"the shaping falls on a {needles.side} row")
                self._row(self.told[side])
            else:
                needles.work_row()
        needles.agree((line.after,), (needles.count,), f"there are {needles.count} sts, not {line.after}")
        self.told = {}

    def bind(self, line: words.BindRow) -> None:
        """Bind off at the start of a row and work the others even."""
        needles = self.needles
        insist(not needles.in_round, "a round has no edges to bind off at")
        needles.settle_columns()
        side = needles.side
        insist(side == line.side, f"the next row is a {side} row, not a {line.side} row")
        insist(line.inside == ("work in chart" if needles.chart else "work"), f"one cannot {line.inside} here")
        insist(0 < line.count < needles.count - sum(needles.outside), "there are not so many stitches to bind off")
        if needles.tiles is not None:
            told, expected = line.chart_row, needles.next_chart_row
            insist(told == expected, f"the next chart row is {expected}, not {told}")
            if side == "RS":
                ((column, _),) = needles.runs
                needles.runs = (((column + line.count) % needles.tiles.chart.width, needles.count),)
        else:
            insist(line.chart_row == 0, "the work is in no chart")
        needles.count -= line.count
        needles.bound_off += line.count
        needles.runs = ((needles.runs[0][0], needles.count),)
        needles.work_row()
        needles.agree((line.after,), (needles.count,), f"there are {needles.count} sts, not {line.after}")

    def _row(self, line: words.ShapingRow) -> None:
        """Work a row that changes by a stitch inside the edge stitches at both ends, or at one of them."""
        needles = self.needles
        needles.settle_columns()
        side = needles.side
        for work in filter(None, (line.start, line.end)):
            insist((work in ON_WRONG_SIDE) == (side == "WS"), f"{work} does not belong on a {side} row")
        insist(bool(line.start or line.end), "the line says nowhere how the row is shaped")
        insist(line.more == line.grows, "the stitches become more and fewer at once")
        edges = line.edges if side == "RS" else line.edges[::-1]
        bands = line.bands if side == "RS" else line.bands[::-1]
        is_band = tuple(needles.has_band and own > 0 for own in needles.apart)
        insist(bands == is_band, "edge sts are told where the band stands, or the band where they do")
        insist(needles.has_band or edges[0] == edges[1], "the edge stitches differ")
        told = not needles.chart or edges == needles.outside
        insist(told, f"the ends have {needles.outside} sts outside the chart, not {edges}")
        insist(line.inside == ("work in chart" if needles.chart else "work"), f"one cannot {line.inside} here")
        (first, took), (last, took_last) = (_shaped(work) for work in (line.start, line.end))
        grow = {SHAPED[work][1] == 0 for work in (line.start, line.end) if work}
        insist(grow == {line.grows}, "one end grows and the other shrinks")
        rest = 0 if line.rest is None else line.rest
        upto = line.edges[1] + took_last
        insist(rest == upto, f"{line.end or 'nothing'} and the edge take {upto} sts, not {rest}")
        plain = needles.count - sum(edges) - took - took_last
        insist(plain >= 0, "there are too few stitches to shape")
        fits = all(own in (0, edge) for own, edge in zip(needles.apart, edges, strict=True))
        insist(fits, f"the border or band has {max(needles.apart)} sts, not {max(edges)}")
        looks = needles.looks.get(side, (b"", b""))
        right, left = (look or bytes((KNIT,)) * edge for look, edge in zip(looks, edges, strict=True))
        inner = first + needles.faces(plain) + last
        ops = right + (inner[::-1] if side == "WS" else inner) + left
        change = len(ops) - needles.count
        needles.agree(
            (line.change,), (abs(change),), f"the row changes by {abs(change)} sts, not {line.change}", is_count=False
        )
        ((column, _),) = needles.runs
        if needles.tiles is not None:
            at_right = (len(first) - took) if side == "RS" else (len(last) - took_last)
            column = (column - at_right) % needles.tiles.chart.width
        needles.count = len(ops)
        needles.runs = ((column, len(ops)),)
        chart_row = needles.take_chart_row()
        needles.add(ops, needles.colours(chart_row), chart_row, needles.start_column(side))


def _shaped(work: str) -> tuple[bytes, int]:
    """Give how the stitch of a shaping looks and how many it takes up; nothing where an end is not shaped."""
    look, took = SHAPED[work] if work else (0, 0)
    return (bytes((look,)) if work else b""), took
