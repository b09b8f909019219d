"""The rounds of a crown in a motif: the yarn of each stitch, and which stitches stand upon which."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from msgspec import Struct

from wale.actions import Crown
from wale.checks.catching import Mark
from wale.draft.motifs import column
from wale.materials import Motif
from wale.plan import PiecePlan, Section
from wale.spec import Spec


class CrownRound(Struct, frozen=True):
    """A round in a motif.

    Attributes:
        number: of the crown's rounds, from 1; 0 is the one below.
        wedge: stitches of a wedge.
        columns: the chart's column of each stitch, from 0 at the right.
        width: columns of the chart's row.
        row: the chart's row, from 0.
        yarns: the yarn of each stitch.
    """

    number: int
    wedge: int
    columns: tuple[int, ...]
    width: int
    row: int
    yarns: tuple[str, ...]

    def gaps(self) -> Iterator[tuple[str, int, int, bool]]:
        """Give (yarn, stitch from 0 where a strand starts, stitches passed, whether the columns break in it)."""
        last: dict[str, int] = {}
        breaks = [0]
        for before, after in pairwise(self.columns):
            breaks.append(breaks[-1] + ((after - before) % self.width != 1 % self.width))
        for place, yarn in enumerate(self.yarns):
            before = last.get(yarn, place)
            if place - before > 1:
                yield yarn, before + 1, place - before - 1, breaks[place] > breaks[before]
            last[yarn] = place


def crown_motif(spec: Spec, section: Section | None) -> Motif | None:
    """Give the motif in which a crown is worked, its own chart or that of the piece; None where it is plain."""
    if section is None or not isinstance(section.step.action, Crown):
        return None
    action = section.step.action
    if action.manner == "chart" and action.chart is not None:
        return spec.motifs[action.chart]
    if action.manner == "in pattern" and section.fabric is not None and section.fabric.motif is not None:
        return spec.motifs[section.fabric.motif]
    return None


def crown_rounds(piece: PiecePlan, section: Section, motif: Motif, size: int) -> Iterator[CrownRound]:
    """Give the round below the crown where it is in the same motif, then those of the crown that follow the motif."""
    plan, count = piece.crown, piece.levels[section.first].counts[size]
    assert plan is not None
    start, wedges = plan.start[size], plan.wedges
    lost = dict(plan.decrease_rounds[size])
    first = 1 if count == start else 2
    if motif.wedge:
        for number in range(first, plan.rounds[size] + 1):
            yarns = motif.rows[number - first][::-1]
            columns = tuple(range(len(yarns)))
            yield CrownRound(number, len(yarns), columns * wedges, len(yarns), number - first, yarns * wedges)
        return
    assert section.chart_start is not None
    width, row = motif.width, section.chart_start[size] - 1
    origin = column(section, width, count, 0, size)
    below = piece.sections[piece.sections.index(section) - 1]
    length, has_below = start // wedges, below.fabric == section.fabric and below.rows[size] > 0
    for number in range(plan.rounds[size] + 1):
        length = lost[number] // wedges if number in lost else length
        if number < first and (number or first > 1 or not has_below):
            continue
        columns = tuple(
            (origin + wedge * (start // wedges) + at) % width for wedge in range(wedges) for at in range(length)
        )
        yarns = tuple(motif.cell(one, row + number) for one in columns)
        yield CrownRound(number, length, columns, width, (row + number) % motif.period, yarns)


def beneath(rounds: Mapping[int, CrownRound], mark: Mark) -> list[Mark]:
    """Give the stitches upon which one of a crown stands: the last of a wedge takes in those that it loses."""
    number, place = mark
    if number - 1 not in rounds:
        return []
    own, below = rounds[number].wedge, rounds[number - 1].wedge
    wedge, at = divmod(place, own)
    lost = below - own if at == own - 1 else 0
    return [(number - 1, wedge * below + one) for one in range(at, at + lost + 1)]


def above(rounds: Mapping[int, CrownRound], mark: Mark) -> str | None:
    """Give the yarn of the stitch that stands upon one of a crown, None where the crown ends."""
    number, place = mark
    if number + 1 not in rounds:
        return None
    over = rounds[number + 1]
    wedge, at = divmod(place, rounds[number].wedge)
    return over.yarns[wedge * over.wedge + min(at, over.wedge - 1)]
