"""Yarn in stitches: its length by the loop, its grams, and the grams of weighed fabrics shared among their yarns.

The yarn in a stitch follows from the stitch's area (`wale.shaping.fabric`), plus one stitch width for each stitch that
a carried yarn passes (common practice, no source). Rib and garter are reckoned like plain knitting.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from wale.materials import Swatch, Yarn
from wale.shaping import fabric
from wale.shaping.amounts import grams_by_length
from wale.spec import Spec
from wale.write.stitch_counts import Patch
from wale.yarn import metres_range, weight_classes

Lengths = dict[tuple[str, str], Fraction]
"""By (swatch, yarn)."""


CARRIED = Fraction(1)
"""Stitch widths of yarn for each stitch that a carried yarn passes; common practice, no source."""


def loop_length(swatch: Swatch, ks: Fraction = fabric.KS) -> Fraction:
    """Give the yarn in one stitch of a fabric in cm, floats apart, to a millionth; `ks` is that of its state."""
    return fabric.root(ks / (swatch.washed.stitches * swatch.washed.rows))


def loop_grams(spec: Spec, swatch: Swatch) -> Fraction | None:
    """Give the grams that the weighed stitches of a swatch should weigh by the loop, or None: not known."""
    if swatch.weight is None:
        return None
    stitches = Fraction(swatch.weight[1] * swatch.weight[2])
    patches: dict[Patch, int | Fraction] = {Patch(swatch.name, None, 0, swatch.yarns[0]): stitches}
    if swatch.motif is not None and spec.coloured(swatch.motif):
        rows = len(spec.motifs[swatch.motif].rows)
        patches = {Patch(swatch.name, swatch.motif, row, ""): stitches / rows for row in range(rows)}
    grams = [grams_of(spec, yarn, length) for (_, yarn), length in lengths(spec, patches).items()]
    return None if any(one is None for one in grams) else sum((one for one in grams if one), Fraction(0))


def cells(spec: Spec, counts: Mapping[Patch, int | Fraction]) -> dict[tuple[str, str], tuple[Fraction, Fraction]]:
    """Give by swatch and yarn the stitches knitted with it and those that it passes behind."""
    knitted: dict[tuple[str, str, int], int | Fraction] = {}
    passed: dict[tuple[str, str, int], int | Fraction] = {}
    for patch, number in counts.items():
        row = spec.motifs[patch.motif].rows[patch.row] if patch.motif is not None else tuple(patch.yarn.split())
        for yarn in dict.fromkeys(row):
            key, mine = (patch.swatch, yarn, len(row)), row.count(yarn)
            knitted[key] = knitted.get(key, 0) + number * mine
            passed[key] = passed.get(key, 0) + number * (len(row) - mine)
    found: dict[tuple[str, str], tuple[Fraction, Fraction]] = {}
    for (swatch, yarn, width), number in knitted.items():
        own = Fraction(number, width), Fraction(passed[swatch, yarn, width], width)
        before = found.get((swatch, yarn))
        found[swatch, yarn] = own if before is None else (before[0] + own[0], before[1] + own[1])
    return found


def lengths(spec: Spec, counts: Mapping[Patch, int | Fraction]) -> Lengths:
    """Give cm of yarn (all its strands as one) by swatch and yarn."""
    return {
        key: knitted * loop_length(spec.swatches[key[0]]) + CARRIED * passed / spec.swatches[key[0]].washed.stitches
        for key, (knitted, passed) in cells(spec, counts).items()
    }


def grams_of(spec: Spec, yarn: str, length_cm: Fraction) -> Fraction | None:
    """Give the grams of a length of a yarn, all its strands as one; None where its metres are not known."""
    metres = spec.yarns[yarn].metres_per_100g
    return grams_by_length(length_cm * spec.yarns[yarn].strands, metres) if metres else None


def usual_metres(yarn: Yarn) -> tuple[Fraction, Fraction] | None:
    """Give the least and most metres per 100 g that are usual in a yarn's class; None: known, or not bounded.

    Where only the class is known (wraps per inch, class): the table of classes in docs/yarn.md, common practice.
    """
    if yarn.metres_per_100g is not None or not yarn.classes:
        return None
    low, high = metres_range([each for each in weight_classes() if each.number in yarn.classes])
    return (low, high) if low is not None and high is not None else None


def usual_grams(spec: Spec, name: str) -> tuple[Fraction, Fraction] | None:
    """Give the least and most grams of a cm of a yarn known by its class alone, all its strands as one."""
    yarn = spec.yarns[name]
    usual = usual_metres(yarn)
    if usual is None:
        return None
    low, high = (grams_by_length(Fraction(yarn.strands), metres) for metres in usual)
    return high, low


def weighed(spec: Spec, stitches: Mapping[str, int], found: Lengths) -> Lengths:
    """Share the grams of each weighed fabric among its yarns: by loop grams, or by length where they are not known."""
    result: Lengths = {}
    for name, number in stitches.items():
        weight = spec.swatches[name].weight
        if weight is None:
            continue
        grams = weight[0] * number / (weight[1] * weight[2])
        mine = {key: length for key, length in found.items() if key[0] == name}
        by_loop = {key: grams_of(spec, key[1], length) for key, length in mine.items()}
        shares = {key: by_loop[key] or length for key, length in mine.items()}
        if any(one is None for one in by_loop.values()):
            shares = mine
        whole = sum(shares.values(), Fraction(0))
        result.update({key: grams * share / whole for key, share in shares.items()})
    return result
