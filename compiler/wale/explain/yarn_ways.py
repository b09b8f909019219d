"""The grams knitted of a yarn as a formula, by each of the two ways: fabric by fabric.

Where a yarn is bought as the strands of others, or pieces were test-knitted, its grams are told as they were reckoned,
without their parts.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from msgspec import Struct

from wale.explain.book import known
from wale.explain.reason import Input
from wale.plan import Plan
from wale.spec import Spec
from wale.write import yarn_lengths
from wale.write.as_knitted import test_knits
from wale.write.stitch_counts import place_counts, total_counts

Formula = tuple[str, dict[str, Input]]


class Counted(Struct, frozen=True):
    """The yarn of a garment in one size: stitches knitted with and passed by each yarn, fabrics' stitches, their grams.

    `cells` and `weighed` go by (swatch, yarn), `stitches` by swatch; `bought` are yarns that are strands of others.
    """

    spec: Spec
    cells: Mapping[tuple[str, str], tuple[Fraction, Fraction]]
    stitches: Mapping[str, int]
    weighed: yarn_lengths.Lengths
    bought: frozenset[str]


def counted(spec: Spec, plan: Plan, size: int) -> Counted:
    """Count the stitches of a size."""
    counts = total_counts(plan, place_counts(spec, plan, size))
    stitches: dict[str, int] = {}
    for patch, number in counts.items():
        stitches[patch.swatch] = stitches.get(patch.swatch, 0) + number
    cells = yarn_lengths.cells(spec, counts)
    weighed = yarn_lengths.weighed(spec, stitches, yarn_lengths.lengths(spec, counts))
    strands = frozenset(part for _, yarn in cells for part in spec.yarns[yarn].held)
    return Counted(spec, cells, stitches, weighed, strands)


def by_loop(at: Counted, yarn: str, grams: Fraction) -> Formula:
    """Give the formula of the grams by the loop: stitches and strands passed, each by its length, by the yarn's."""
    if any(test_knits(at.spec).values()) or yarn in at.bought:
        return _whole(at.spec, grams)
    parts: list[str] = []
    given: dict[str, Input] = {}
    for number, ((swatch, name), (knitted, passed)) in enumerate(at.cells.items()):
        if name == yarn:
            template, more = _loop(at, f"{number}", swatch, yarn, knitted, passed)
            parts.append(template)
            given |= more
    return " + ".join(parts), given


def by_weight(at: Counted, yarn: str, grams: Fraction) -> Formula:
    """Give the formula of the grams by weight: each fabric's by its swatch, shared among its yarns."""
    if any(test_knits(at.spec).values()) or yarn in at.bought:
        return _whole(at.spec, grams)
    parts: list[str] = []
    given: dict[str, Input] = {}
    for number, ((swatch, name), (knitted, passed)) in enumerate(at.cells.items()):
        if name != yarn:
            continue
        one = at.spec.swatches[swatch]
        if one.weight is None:
            template, more = _loop(at, f"{number}", swatch, yarn, knitted, passed)
        else:
            weight, across, rows = one.weight
            share = at.weighed[swatch, yarn] / (weight * at.stitches[swatch] / (across * rows))
            more = {
                f"all{number}": known(f"stitches in {swatch}", at.stitches[swatch], f"sts in {swatch}"),
                f"weight{number}": known(f"weight of {swatch}", weight, "g", one.span),
                f"of{number}": known(f"stitches of {swatch} that were weighed", across * rows, "sts weighed", one.span),
                f"share{number}": known(f"share of {yarn} in {swatch}", share, yarn, None, 3),
            }
            template = f"{{all{number}}} * {{weight{number}}} / {{of{number}}} * {{share{number}}}"
        parts.append(template)
        given |= more
    return " + ".join(parts), given


def _loop(at: Counted, key: str, swatch: str, yarn: str, knitted: Fraction, passed: Fraction) -> Formula:
    one = at.spec.swatches[swatch]
    per_cm = yarn_lengths.grams_of(at.spec, yarn, Fraction(1))
    usual = yarn_lengths.usual_grams(at.spec, yarn)
    told = f"grams of a cm of {yarn}"
    if per_cm is None and usual is not None:
        per_cm, told = (usual[0] + usual[1]) / 2, f"{told}, the middle of what is usual in its class"
    loop, width = yarn_lengths.loop_length(one), 1 / one.washed.stitches
    given = {
        f"sts{key}": known(f"stitches of {yarn} in {swatch}", knitted, f"sts in {swatch}"),
        f"loop{key}": known(f"yarn in a stitch of {swatch}, from its area", loop, "cm a st", None, 3),
        f"g{key}": known(told, per_cm or Fraction(0), "g a cm", at.spec.yarns[yarn].span, 5),
    }
    if not passed:
        return f"{{sts{key}}} * {{loop{key}}} * {{g{key}}}", given
    given[f"past{key}"] = known(f"stitches that {yarn} passes in {swatch}", passed, "sts passed")
    given[f"wide{key}"] = known(f"width of a stitch of {swatch}", width, "cm wide", one.washed.span, 3)
    return f"({{sts{key}}} * {{loop{key}}} + {{past{key}}} * {{wide{key}}}) * {{g{key}}}", given


def _whole(spec: Spec, grams: Fraction) -> Formula:
    knits = [one for some in test_knits(spec).values() for one in some]
    if knits:
        return "{grams}", {"grams": known("grams, of test-knitted pieces as weighed", grams, "g", knits[0].span)}
    return "{grams}", {"grams": known("grams knitted, of all the yarns that it is a strand of", grams, "g")}
