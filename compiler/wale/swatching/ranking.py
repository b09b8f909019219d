"""The order of the outcomes, by stated criteria, with the reason in words for each place."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from msgspec import Struct

from wale.quantity import round_half_up, show_decimal
from wale.swatching.garment import Outcome


class Criterion(Struct, frozen=True):
    """What is asked: in words, as numbers of which the smaller is better, and as a figure to print.

    `behind` says what puts one behind another; without it their figures do.
    """

    words: str
    key: Callable[[Outcome], tuple[int, ...]]
    figure: Callable[[Outcome], str]
    behind: str = ""


class Place(Struct, frozen=True):
    """One place of the order, from 1; `why` tells how it stands, and what puts it behind the one before."""

    number: int
    outcome: Outcome
    why: str


def rank(outcomes: Sequence[Outcome]) -> tuple[Place, ...]:
    """Put the best first; between equals the order given stays."""
    ordered = sorted(outcomes, key=lambda one: [criterion.key(one) for criterion in CRITERIA])
    befores = [None, *ordered]
    return tuple(Place(i, one, _why(one, befores[i - 1])) for i, one in enumerate(ordered, 1))


def worst(one: Outcome) -> Fraction:
    """Give the largest miss in cm over all sizes."""
    return max((size.worst_cm for size in one.sizes), default=Fraction(0))


def rings_with(one: Outcome, verdict: str) -> tuple[str, ...]:
    """Give in words the parts of the body whose deciding ring has a verdict, with the sizes where it is not all."""
    parts: dict[str, list[str]] = {}
    for size in one.sizes:
        for part, ring in size.tightest.items():
            if ring.verdict == verdict:
                parts.setdefault(part, []).append(size.size)
    whole = len(one.sizes)
    return tuple(part if len(sizes) == whole else f"{part} ({', '.join(sizes)})" for part, sizes in parts.items())


def grams_of_all(one: Outcome) -> int | None:
    """Give the grams of all sizes together, None where one is not known."""
    grams = [size.grams for size in one.sizes]
    return None if None in grams or not grams else sum(each for each in grams if each is not None)


def _number(one: Outcome, verdict: str) -> int:
    return sum(ring.verdict == verdict for size in one.sizes for ring in size.tightest.values())


def _give(one: Outcome) -> int | None:
    return None if one.swatch.stretch is None else round_half_up((one.swatch.stretch - 1) * 100)


def _least(value: int | None) -> tuple[int, ...]:
    """Put what is not known behind all that is."""
    return (1, 0) if value is None else (0, value)


def _rings(one: Outcome) -> str:
    tight, unknown = rings_with(one, "too tight"), rings_with(one, "not known")
    words = []
    if tight:
        words.append(f"too tight for {', '.join(tight)}")
    if unknown:
        words.append(f"not known whether it passes {', '.join(unknown)}")
    if not words and not any(size.tightest for size in one.sizes):
        return "no ring that must pass a part of the body"
    return " and ".join(words) or "every ring goes on"


def _grams(one: Outcome) -> str:
    grams = grams_of_all(one)
    if grams is None:
        return "a weight that is not known"
    return f"{grams} g" + (" in all sizes together" if len(one.sizes) > 1 else "")


def _given(one: Outcome) -> str:
    give = _give(one)
    return "a give that is not known" if give is None else f"a give of {give} %"


def _compiles(one: Outcome) -> str:
    return "all sizes" if one.compiles else "not all sizes"


CRITERIA = (
    Criterion("all sizes can be planned", lambda one: (int(not one.compiles),), _compiles),
    Criterion(
        "no ring is too tight, and of as few as may be it is not known",
        lambda one: (_number(one, "too tight"), _number(one, "not known")),
        _rings,
        "more of its rings are too tight or not known",
    ),
    Criterion(
        "the largest miss of a width or length in this fabric is smallest, to the millimetre",
        lambda one: (round_half_up(worst(one) * 10),),
        lambda one: f"a largest miss of {show_decimal(worst(one))} cm",
    ),
    Criterion(
        "the fabric gives most, to the whole per cent",
        lambda one: _least(None if (give := _give(one)) is None else -give),
        _given,
    ),
    Criterion(
        "it takes the fewest grams, all sizes together",
        lambda one: _least(grams_of_all(one)),
        _grams,
    ),
)
"""In this order; the next is asked only where the ones before are equal."""


def _why(one: Outcome, before: Outcome | None) -> str:
    if not one.compiles:
        first = one.refusals[0] if one.refusals else None
        size = f" (size {first.size})" if first is not None and first.size else ""
        return f"cannot be planned{size}: {first.message if first is not None else 'no plan was found'}."
    told = ", ".join(criterion.figure(one) for criterion in CRITERIA[1:])
    if before is None:
        return f"{told}."
    telling = next((each for each in CRITERIA if each.key(one) != each.key(before)), None)
    if telling is None:
        return f"{told}. Equal to {before.swatch.name}, which stands before it in the file."
    behind = telling.behind or f"{telling.figure(one)} against {telling.figure(before)}"
    return f"{told}. Behind {before.swatch.name}: {behind}."
