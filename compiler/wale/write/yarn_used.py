"""Yarn used by rows, by two ways that do not know of each other, each with the bounds between which it lies.

By weight: the weighed swatch's grams a stitch; its scale is right to half a gram (common practice, no source). By loop:
the yarn in a stitch from its area, and carried strands (`yarn_lengths`). A yarn known by its weight class alone has the
lengths that are usual in the class, and counts only where its fabric was not weighed. The constant of the area, 23.1,
is that of fully relaxed plain wool; wet relaxed it is 21.6 (Munden 1959, from memory). Carried strands take 1.0 to 1.2
stitch widths, and twisting makes a folded yarn up to 3 % heavier than its count (common practice, no source).
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from fractions import Fraction

from msgspec import Struct

from wale.plan import Plan
from wale.spec import Spec
from wale.write import yarn_lengths
from wale.write.stitch_counts import Patch, place_counts, total_counts

SCALE_G = Fraction(1, 2)
KS_WET = Fraction(216, 10)
CARRIED_MOST = Fraction(12, 10)
TAKE_UP = Fraction(3, 100)
ZERO = Fraction(0)


class Spread(Struct, frozen=True):
    """A figure and the bounds between which it lies."""

    low: Fraction
    middle: Fraction
    high: Fraction

    def __add__(self, other: Spread) -> Spread:
        return Spread(self.low + other.low, self.middle + other.middle, self.high + other.high)

    def times(self, factor: int | Fraction) -> Spread:
        """Give it so many times."""
        return self if factor == 1 else Spread(self.low * factor, self.middle * factor, self.high * factor)


NONE = Spread(ZERO, ZERO, ZERO)


class Use(Struct, frozen=True):
    """Grams of one yarn by both ways; None: not known. What was not weighed is reckoned by the loop in both."""

    by_weight: Spread | None = NONE
    by_loop: Spread | None = NONE

    def __add__(self, other: Use) -> Use:
        by_loop = _sum(self.by_loop, other.by_loop)
        if self.by_weight is self.by_loop and other.by_weight is other.by_loop:
            return Use(by_loop, by_loop)
        return Use(_sum(self.by_weight, other.by_weight), by_loop)

    def times(self, factor: int | Fraction) -> Use:
        """Give it so many times."""
        if factor == 1:
            return self
        weight, loop = self.by_weight, self.by_loop
        return Use(weight.times(factor) if weight else None, loop.times(factor) if loop else None)

    @property
    def known(self) -> tuple[Spread, ...]:
        """The ways that are known, by weight first."""
        return tuple(way for way in (self.by_weight, self.by_loop) if way is not None)

    @property
    def spread(self) -> Spread | None:
        """From the least of both ways to the most, the larger middle between; None: not known."""
        ways = self.known
        if not ways:
            return None
        return Spread(min(way.low for way in ways), max(way.middle for way in ways), max(way.high for way in ways))


def _sum(one: Spread | None, other: Spread | None) -> Spread | None:
    return one + other if one is not None and other is not None else None


Uses = dict[str, Use]
"""By yarn as it is bought."""
Correct = Callable[[Use, Fraction], Use]
"""Corrects the use of so many cm of a yarn."""


def parts_of(spec: Spec, name: str) -> tuple[str, ...]:
    """Give the yarns that are bought for a yarn: itself, or those that it is made of, a strand each."""
    return spec.yarns[name].held or (name,)


def shares(spec: Spec, name: str) -> dict[str, Fraction] | None:
    """Give the share of a yarn's weight in each yarn that it is made of; None where a length is not known."""
    parts = parts_of(spec, name)
    if len(set(parts)) == 1:
        return {parts[0]: Fraction(1)}
    heavy: dict[str, Fraction] = {}
    for part in parts:
        grams = yarn_lengths.grams_of(spec, part, Fraction(1))
        if grams is None:
            return None
        heavy[part] = heavy.get(part, ZERO) + grams
    whole = sum(heavy.values(), ZERO)
    return {part: grams / whole for part, grams in heavy.items()}


def split(spec: Spec, name: str, use: Use) -> Uses:
    """Give the use of a yarn by the yarns that are bought for it."""
    if not spec.yarns[name].held:
        return {name: use}
    found = shares(spec, name)
    if found is None:
        return dict.fromkeys(parts_of(spec, name), Use(None, None))
    return {part: use.times(share) for part, share in found.items()}


def add(uses: Iterable[Uses]) -> Uses:
    """Give the sum of uses, by yarn."""
    found: Uses = {}
    for one in uses:
        for name, use in one.items():
            found[name] = found[name] + use if name in found else use
    return found


class _Rate(Struct, frozen=True):
    """Grams of one yarn in one fabric: by the loop for each stitch knitted or passed, and by weight for each of those.

    `scale` is None where the fabric was not weighed; `loop` where the yarn's length is not known.
    """

    stitch: Spread
    passed: Spread
    loop: Spread | None
    scale: Spread | None


class Rates:
    """Grams a stitch of all that is knitted in one size of a garment; `places` and `total` are its stitches."""

    def __init__(self, spec: Spec, plan: Plan, size: int) -> None:
        """Weigh the fabrics of a whole garment, so that their parts sum to it."""
        self.places = place_counts(spec, plan, size)
        self.total = counts = total_counts(plan, self.places)
        stitches: dict[str, int] = {}
        for patch, number in counts.items():
            stitches[patch.swatch] = stitches.get(patch.swatch, 0) + number
        self._spec = spec
        self._found = yarn_lengths.lengths(spec, counts)
        self._weighed = yarn_lengths.weighed(spec, stitches, self._found)
        self._rates: dict[tuple[str, str], _Rate] = {}
        self.is_weighed = {part for _, yarn in self._weighed for part in parts_of(spec, yarn)}

    def of(self, counts: Mapping[Patch, int], correct: Correct | None = None) -> Uses:
        """Give the yarn of some stitches, corrected where a test knit says more."""
        return add(
            split(self._spec, name, use if correct is None else correct(use, length))
            for name, use, length in self._uses(counts)
        )

    def whole(self, counts: Mapping[Patch, int]) -> tuple[Use, Fraction]:
        """Give the yarn of some stitches, all yarns together, and its cm."""
        uses = list(self._uses(counts))
        return sum((use for _, use, _ in uses), Use()), sum((length for *_, length in uses), ZERO)

    def _uses(self, counts: Mapping[Patch, int]) -> Iterable[tuple[str, Use, Fraction]]:
        for key, (knitted, passed) in yarn_lengths.cells(self._spec, counts).items():
            rate = self._rate(key)
            length = rate.stitch.times(knitted) + rate.passed.times(passed) if passed else rate.stitch.times(knitted)
            yield key[1], _use(rate, length), length.middle

    def _rate(self, key: tuple[str, str]) -> _Rate:
        if key not in self._rates:
            swatch = self._spec.swatches[key[0]]
            loop, width = yarn_lengths.loop_length(swatch), yarn_lengths.CARRIED / swatch.washed.stitches
            grams = yarn_lengths.grams_of(self._spec, key[1], Fraction(1))
            scale = None
            if key in self._weighed and swatch.weight is not None:
                rate, error = self._weighed[key] / self._found[key], min(Fraction(1), SCALE_G / swatch.weight[0])
                scale = Spread(rate * (1 - error), rate, rate * (1 + error))
            self._rates[key] = _Rate(
                Spread(yarn_lengths.loop_length(swatch, KS_WET), loop, loop),
                Spread(width, width, CARRIED_MOST / swatch.washed.stitches),
                _by_length(self._spec, key[1], grams, scale is not None),
                scale,
            )
        return self._rates[key]


def _use(rate: _Rate, length: Spread) -> Use:
    by_loop = None
    if rate.loop is not None:
        by_loop = Spread(length.low * rate.loop.low, length.middle * rate.loop.middle, length.high * rate.loop.high)
    if rate.scale is None:
        return Use(by_loop, by_loop)
    return Use(rate.scale.times(length.middle), by_loop)


def _by_length(spec: Spec, name: str, grams: Fraction | None, is_weighed: bool) -> Spread | None:
    """Give grams a cm of a yarn, take-up at the most; without its length by those usual in its class.

    None: weighed, or the class has an open end.
    """
    if grams is not None:
        return Spread(grams, grams, grams * (1 + TAKE_UP))
    usual = yarn_lengths.usual_grams(spec, name)
    if usual is None or is_weighed:
        return None
    return Spread(usual[0], (usual[0] + usual[1]) / 2, usual[1] * (1 + TAKE_UP))
