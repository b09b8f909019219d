"""What a swatch tells by itself: its shape in and out of the wash, its weight, its yarn, its give, and what it lacks.

Input: the spec and one of its swatches. Output: exact Fractions, None where something was not measured.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.checks.floats import most_stitches, row_floats
from wale.checks.swatches import usual_ratio
from wale.checks.used import swatches_of
from wale.materials import Gauge, Swatch
from wale.shaping import fabric
from wale.spec import Spec
from wale.write.stitch_counts import Patch
from wale.write.yarn_lengths import grams_of, lengths

FEWEST_STITCHES = 20
SHORTEST_CM = Fraction(10)
"""A gauge is to be counted over 10 cm in the middle of a swatch of about 15 cm
(https://stolenstitches.com/blogs/knit-basics/how-to-block-and-measure-a-knitted-swatch); 20 sts: our choice."""
SQUARE_METRE = 10_000


class Longest(Struct, frozen=True):
    """The longest strand of a motif: its yarn, the stitches it passes, their width, and where strands are to be caught.

    Attributes:
        limit: most stitches that a strand may pass uncaught.
        rows: chart rows, from 1, of strands beyond the limit.
    """

    yarn: str
    stitches: int
    cm: Fraction
    limit: int
    rows: tuple[int, ...]


class Facts(Struct, frozen=True):
    """One swatch measured.

    Attributes:
        used: whether the spec's pieces and bands name it.
        ratio: rows to a stitch; `usual` the least and greatest usual, None where no figure is known.
        change: share by which it grew in the wash, across and upwards; None: not measured before and after.
        weighed: g of a square metre by its weight; `reckoned` by the loop and the carried strands.
        by_width, by_height: cm of yarn in a stitch by the width and by the height of the stitch alone.
        tightness: tightness factor of the main yarn.
        give, edge_give: width pulled / width at rest, less 1, of the fabric and of its edge.
        longest: None where no strand is carried.
        miscount: share of the width that half a stitch of miscounting leaves; None where nothing was counted.
        unknown: what was not measured or not well enough, in words.
    """

    swatch: Swatch
    used: bool
    ratio: Fraction
    usual: tuple[Fraction, Fraction] | None
    change: tuple[Fraction, Fraction] | None
    weighed: Fraction | None
    reckoned: Fraction | None
    by_width: Fraction
    by_height: Fraction
    tightness: Fraction | None
    give: Fraction | None
    edge_give: Fraction | None
    longest: Longest | None
    miscount: Fraction | None
    unknown: tuple[str, ...]

    @property
    def is_plausible(self) -> bool | None:
        """Whether a stitch has a usual shape, None where no figure is known."""
        return None if self.usual is None else self.usual[0] <= self.ratio <= self.usual[1]


def facts(spec: Spec, swatch: Swatch) -> Facts:
    """Give what a swatch tells by itself."""
    gauge = swatch.washed
    tex = _tex(spec, swatch)
    return Facts(
        swatch,
        swatch in swatches_of(spec),
        gauge.rows / gauge.stitches,
        usual_ratio(swatch),
        _change(swatch),
        _weighed(swatch),
        _reckoned(spec, swatch),
        fabric.loop_by_width(gauge.stitches),
        fabric.loop_by_height(gauge.rows),
        None if tex is None else fabric.tightness(tex, fabric.loop_length(gauge.stitches, gauge.rows)),
        None if swatch.stretch is None else swatch.stretch - 1,
        None if swatch.edge_stretch is None else swatch.edge_stretch - 1,
        longest_float(spec, swatch),
        miscount(gauge),
        _unknown(spec, swatch),
    )


def miscount(gauge: Gauge) -> Fraction | None:
    """Give the share of every width by which it misses where half a stitch too few was counted.

    A swatch of n stitches that was counted as n - 1/2 gives a garment that is n / (n - 1/2) times as wide: 1 / (2n - 1)
    more. Half a stitch too many leaves a little less. Example: 40 sts leave 1/79, 1.4 cm in 108 cm.
    """
    return None if gauge.over is None else Fraction(1, 2 * gauge.over[0] - 1)


def longest_float(spec: Spec, swatch: Swatch) -> Longest | None:
    """Give the longest strand that is carried in a swatch's motif, the lowest row's first; None where none is."""
    if swatch.motif is None:
        return None
    motif, most = spec.motifs[swatch.motif], most_stitches(spec, swatch)
    if motif.is_texture:
        return None
    runs = [(row, yarn, run) for row in range(len(motif.rows)) for yarn, _, run in row_floats(motif, row)]
    if not runs:
        return None
    _, yarn, stitches = max(runs, key=lambda one: one[2])
    due = dict.fromkeys(row + 1 for row, _, run in runs if run > most)
    return Longest(yarn, stitches, stitches / swatch.washed.stitches, most, tuple(due))


def _tex(spec: Spec, swatch: Swatch) -> Fraction | None:
    yarn = spec.yarns[swatch.yarns[0]]
    return None if not yarn.metres_per_100g else 100_000 * yarn.strands / yarn.metres_per_100g


def _change(swatch: Swatch) -> tuple[Fraction, Fraction] | None:
    before, after = swatch.counted, swatch.washed
    if before is None or not swatch.is_washed:
        return None
    return before.stitches / after.stitches - 1, before.rows / after.rows - 1


def _weighed(swatch: Swatch) -> Fraction | None:
    if swatch.weight is None:
        return None
    grams, stitches, rows = swatch.weight
    return grams / (stitches * rows) * swatch.washed.stitches * swatch.washed.rows * SQUARE_METRE


def _reckoned(spec: Spec, swatch: Swatch) -> Fraction | None:
    """Give g of a square metre by the loop: its stitches, shared among the motif's rows."""
    stitches = swatch.washed.stitches * swatch.washed.rows * SQUARE_METRE
    patches: dict[Patch, int | Fraction] = {Patch(swatch.name, None, 0, swatch.yarns[0]): stitches}
    if swatch.motif is not None:
        rows = len(spec.motifs[swatch.motif].rows)
        patches = {Patch(swatch.name, swatch.motif, row, ""): stitches / rows for row in range(rows)}
    grams = [grams_of(spec, yarn, length) for (_, yarn), length in lengths(spec, patches).items()]
    known = [one for one in grams if one is not None]
    return sum(known, Fraction(0)) if len(known) == len(grams) else None


def _unknown(spec: Spec, swatch: Swatch) -> tuple[str, ...]:
    words = []
    if not swatch.is_washed:
        words.append("never washed: the garment may change in its first wash")
    elif swatch.counted is None:
        words.append("not measured before washing: how it changes in the wash")
    if swatch.stretch is None:
        words.append("never stretched: whether it goes on")
    if swatch.weight is None:
        words.append("never weighed: its yarn is reckoned by the loop alone")
    over = swatch.washed.over
    if over is not None:
        sides = ((over[0], swatch.washed.stitches, "sts"), (over[1], swatch.washed.rows, "rows"))
        for number, gauge, word in sides:
            if number < FEWEST_STITCHES or number / gauge < SHORTEST_CM:
                words.append(f"counted over {number} {word} only: count at least 10 cm and {FEWEST_STITCHES} {word}")
    bare = [name for name in swatch.yarns if not spec.yarns[name].metres_per_100g]
    if bare:
        words.append(f"no length of {' and '.join(bare)} is given: its tightness, and exact grams by the loop")
    return tuple(words)
