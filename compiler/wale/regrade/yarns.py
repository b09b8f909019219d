"""Another yarn for a garment: the swatches that were knitted in it take the place of those in the main yarn.

A yarn tells no gauge: where no swatch was knitted in it, nothing is regraded, and what its thickness makes likely is
only told.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import isqrt

from wale.checks.used import swatches_of
from wale.materials import Swatch, Yarn
from wale.parse.tree import Name, Small, Tree
from wale.problems.problem import Edit, Problem
from wale.quantity import round_half_up
from wale.regrade.given import given, worked
from wale.regrade.text import parts_of
from wale.spec import Spec
from wale.swatching.compare import why_not


def takers(spec: Spec, main: Swatch, yarn: str) -> tuple[dict[str, Swatch], list[str]] | Problem:
    """Give for each swatch in the main yarn the one in another yarn that takes its place.

    Returns:
        By the old swatch's name, the new one, and in words what stays in the old yarn; E312 where no swatch in the
        yarn can take the place of the main fabric's.
    """
    old = main.yarns[0]
    found: dict[str, Swatch] = {}
    stays = []
    for swatch in swatches_of(spec):
        if swatch.yarns[0] != old:
            continue
        others = [one for one in spec.swatches.values() if one.yarns[0] == yarn and one.in_round == swatch.in_round]
        alike = [one for one in others if (one.stitch, one.motif) == (swatch.stitch, swatch.motif)]
        if swatch.motif is not None:
            alike = alike or [one for one in others if one.motif is not None and not why_not(spec, swatch, one)]
            alike = alike or [one for one in others if swatch == main and not why_not(spec, swatch, one)]
        if alike:
            found[swatch.name] = alike[0]
        else:
            stays.append(f"what is worked on {swatch.name} stays in {old}, for no swatch like it is in {yarn}")
    if main.name not in found:
        return _no_swatch(main, spec.yarns[old], spec.yarns[yarn])
    return found, stays


def _no_swatch(main: Swatch, old: Yarn, new: Yarn) -> Problem:
    way = "in the round" if main.in_round else "flat"
    message = f"no swatch in {new.name}, worked {way}, can take the place of `{main.name}`"
    return Problem("E312", message, help=f"Knit one and add its block. {_likely(main, old, new)}".rstrip())


def _likely(main: Swatch, old: Yarn, new: Yarn) -> str:
    """Say what gauge a yarn's thickness makes likely: stitches and rows go with the root of its length by weight.

    Source: a yarn of the same kind is as thick as the root of its weight per length (docs/maths.md#yarn-in-a-stitch).
    """
    if old.metres_per_100g is None or new.metres_per_100g is None:
        return ""
    ratio = Fraction(new.metres_per_100g * old.strands, old.metres_per_100g * new.strands)
    root = Fraction(isqrt(ratio.numerator * 10**12 // ratio.denominator), 10**6)
    sts, rows = (round_half_up(10 * each * root) for each in (main.washed.stitches, main.washed.rows))
    return (
        f"By its thickness alone about {sts} sts and {rows} rows in 10 cm are likely, which is no gauge: "
        f'`--gauge "{sts} sts, {rows} rows in 10 cm"` would show what comes of it.'
    )


def recoloured(tree: Tree, old: str, new: str) -> list[Edit]:
    """Put a yarn in another's place where a piece is edged, crowned or tied with it."""
    found: list[Name | None] = [*given(tree)]
    for statement, taken in worked(tree, "piece"):
        if statement.keyword.text in ("edge", "crown", "pom-pom", "tassel"):
            names = (_last(part) for part in parts_of(statement))
            found += [name for name in names if name is not None and name.text not in taken]
    return [Edit(name.span, new) for name in found if name is not None and name.text == old]


def _last(part: Sequence[object]) -> Name | None:
    last = part[-1] if part else None
    before = part[-2] if len(part) > 1 else None
    return last if isinstance(last, Name) and isinstance(before, Small) and before.text == "in" else None
