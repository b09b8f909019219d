"""The same counts at another gauge, nothing solved anew: widths and lengths are counts / gauge.

For `--keep counts` where no spec can hold the counts, because pieces no longer meet: what would come out is told all
the same.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from wale.plan import BandPlan, Level, PiecePlan, Plan, Section
from wale.regrade.keeping import Take
from wale.spec import Spec


def as_they_are(spec: Spec, plan: Plan, takes: Mapping[str, Take]) -> tuple[Spec, Plan]:
    """Give the spec and the plan with other gauges and every count as it is.

    The swatches keep their names; what is known of the new ones beside the gauge is taken from the spec's swatch of the
    new name, else it is not known.
    """
    swatches = dict(spec.swatches)
    for name, take in takes.items():
        other = spec.swatches.get(take.name)
        if other is None or take.name == name:
            bare = replace(spec.swatches[name], counted=None, weight=None, stretch=None, edge_stretch=None)
            swatches[name] = replace(bare, washed=take.gauge)
        else:
            swatches[name] = replace(other, name=name, span=spec.swatches[name].span)
    bands = {band.name: band.swatch for band in spec.bands}
    pieces = tuple(_piece(piece, takes) for piece in plan.pieces)
    picked = tuple(_band(band, takes.get(bands.get(band.name, ""))) for band in plan.bands)
    return replace(spec, swatches=swatches), replace(plan, pieces=pieces, bands=picked, models=None)


def _piece(piece: PiecePlan, takes: Mapping[str, Take]) -> PiecePlan:
    levels = tuple(_level(level, takes.get(level.swatch)) for level in piece.levels)
    sections: list[Section] = []
    position = [section.position[0] * 0 for section in piece.sections[:1]] * len(piece.levels[0].counts)
    for section in piece.sections:
        take = takes.get(section.swatch)
        gauge = section.rows_per_cm if take is None else take.gauge.rows
        # what lies below the fold has no length from it
        if any(section.position):
            position = [at + rows / gauge for at, rows in zip(position, section.rows, strict=True)]
        sections.append(replace(section, rows_per_cm=gauge, position=tuple(position)))
    return replace(piece, levels=levels, sections=tuple(sections))


def _level(level: Level, take: Take | None) -> Level:
    return level if take is None else replace(level, sts_per_cm=take.gauge.stitches)


def _band(band: BandPlan, take: Take | None) -> BandPlan:
    return band if take is None else replace(band, sts_per_cm=take.gauge.stitches, rows_per_cm=take.gauge.rows)
