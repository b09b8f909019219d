"""A garment before and after, number by number: the same address on both sides, one value a size."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from wale.materials import Motif
from wale.regrade.outcome import Garment
from wale.spec import Spec
from wale.write.yarn_needed import yarn_of_size

Kind = Literal["sts", "rows", "repeats", "width", "length", "grams"]
Values = tuple[Fraction | None, ...]


class Side(Struct, frozen=True):
    """One number: its address, what it counts or measures (cm, g), and its value in each size of both sides.

    None: there is no such number, or it is not known.
    """

    address: str
    kind: Kind
    before: Values
    after: Values

    @property
    def differs(self) -> bool:
        """Whether any size has another value."""
        return self.before != self.after


def sides(before: Garment, after: Garment) -> tuple[Side, ...]:
    """Give all numbers of both garments, those of one kind together, for the sizes of the new one.

    What a piece takes over from another unchanged is told once.
    """
    sizes = after.plan.sizes
    old, new = (dict(_numbers(one, sizes)) for one in (before, after))
    nothing: Values = (None,) * len(sizes)
    found = []
    seen = set()
    for address, kind in dict.fromkeys((*old, *new)):
        side = Side(address, kind, old.get((address, kind), nothing), new.get((address, kind), nothing))
        alike = (address.split(".", 1)[-1], kind, side.before, side.after)
        if alike not in seen:
            seen.add(alike)
            found.append(side)
    return tuple(found)


def _numbers(one: Garment, sizes: Sequence[str]) -> Iterator[tuple[tuple[str, Kind], Values]]:
    """Give each number by address and kind, for the sizes named."""
    spec, plan = one.spec, one.plan
    at = [plan.sizes.index(size) if size in plan.sizes else None for size in sizes]

    def chosen(values: Sequence[Fraction | int | None]) -> Values:
        picked = [None if index is None else values[index] for index in at]
        return tuple(None if value is None else Fraction(value) for value in picked)

    every = range(len(plan.sizes))
    for piece in plan.pieces:
        for level in piece.levels:
            yield (level.address, "sts"), chosen(level.counts)
            yield (level.address, "width"), chosen([level.width(size) for size in every])
            motif = _motif(spec, level.swatch)
            if motif is not None:
                repeats = [Fraction(count - level.edges, motif.width) for count in level.counts]
                yield (level.address, "repeats"), chosen(repeats)
        for section in piece.sections:
            yield (section.address, "rows"), chosen(section.rows)
            yield (section.address, "length"), chosen([section.length(size) for size in every])
        if piece.sections:
            yield (piece.name, "length"), chosen(piece.sections[-1].position)
        if piece.top is not None:
            gauge = piece.levels[-1].sts_per_cm
            yield (f"{piece.name}.neck", "sts"), chosen(piece.top.neck)
            yield (f"{piece.name}.neck", "width"), chosen([count / gauge for count in piece.top.neck])
            yield (f"{piece.name}.shoulder", "sts"), chosen(piece.top.shoulder)
    for band in plan.bands:
        yield (band.name, "sts"), chosen(band.stitches)
        yield (band.name, "rows"), chosen(band.rows)
    needs = [{need.yarn: need.grams for need in yarn_of_size(spec, plan, size)} for size in every]
    for yarn in needs[0] if needs else ():
        yield (yarn, "grams"), chosen([each.get(yarn) for each in needs])


def _motif(spec: Spec, swatch: str) -> Motif | None:
    name = spec.swatches[swatch].motif
    return spec.motifs[name] if name is not None else None
