"""The order of the outcomes: each criterion decides where those before are equal."""

from __future__ import annotations

import random
from fractions import Fraction

from msgspec.structs import replace
from support import EXAMPLES, checked

from wale.problems.problem import Problem
from wale.swatching.compare import compare
from wale.swatching.garment import Outcome
from wale.swatching.ranking import CRITERIA, rank


def base() -> Outcome:
    """An outcome of one size that goes on, misses by 0.5 cm, gives 30 % and takes 400 g."""
    done = checked((EXAMPLES / "first-cowl.wale").read_text("utf-8"))
    assert done.spec is not None
    found = compare(done.spec, done.plan, (0,)).outcomes[0]
    (size,) = found.sizes
    (ring,) = size.tightest.values()
    ring = replace(ring, verdict="goes on")
    size = replace(size, worst_cm=Fraction(1, 2), grams=400, tightest={"head": ring})
    return replace(found, swatch=replace(found.swatch, stretch=Fraction(13, 10)), sizes=(size,))


BASE = base()


def sized(**changes: object) -> Outcome:
    return replace(BASE, sizes=(replace(BASE.sizes[0], **changes),))  # type: ignore[arg-type]


def ringed(verdict: str) -> Outcome:
    return sized(tightest={"head": replace(BASE.sizes[0].tightest["head"], verdict=verdict)})


def stretched(ratio: Fraction | None) -> Outcome:
    return replace(BASE, swatch=replace(BASE.swatch, stretch=ratio))


WORSE = [
    sized(grams=405),
    sized(grams=None),
    stretched(Fraction(129, 100)),
    stretched(None),
    sized(worst_cm=Fraction(6, 10)),
    ringed("not known"),
    ringed("too tight"),
    replace(BASE, refusals=(Problem("E301", "no count fits", size="M"),), sizes=()),
]
"""Each is worse than the one before it, by the criteria as documented."""


def test_each_criterion_outweighs_all_later_ones() -> None:
    ordered = [BASE, *WORSE]
    for seed in range(20):
        shuffled = random.Random(seed).sample(ordered, len(ordered))
        assert [place.outcome for place in rank(shuffled)] == ordered


def test_a_later_merit_does_not_mend_an_earlier_fault() -> None:
    light = replace(ringed("too tight"), sizes=(replace(ringed("too tight").sizes[0], worst_cm=Fraction(0), grams=5),))
    assert [place.outcome for place in rank((light, BASE))] == [BASE, light]


def test_the_reason_names_what_puts_one_behind_another() -> None:
    first, second = rank((BASE, sized(worst_cm=Fraction(9, 10))))
    assert "Behind" not in first.why
    assert "0.9 cm against a largest miss of 0.5 cm" in second.why
    (_, refused) = rank((BASE, WORSE[-1]))
    assert "cannot be planned (size M): no count fits" in refused.why


def test_equals_keep_their_order_and_say_so() -> None:
    twin = replace(BASE, remarks=("twin",))
    assert [place.outcome for place in rank((twin, BASE))] == [twin, BASE]
    assert "Equal to" in rank((twin, BASE))[1].why


def test_a_miss_counts_to_the_millimetre() -> None:
    """0.52 and 0.48 cm both round to 0.5 cm, so the give decides."""
    nearer = replace(stretched(Fraction(12, 10)), sizes=(replace(BASE.sizes[0], worst_cm=Fraction(48, 100)),))
    farther = sized(worst_cm=Fraction(52, 100))
    assert [place.outcome for place in rank((nearer, farther))] == [farther, nearer]


def test_there_are_five_criteria() -> None:
    assert len(CRITERIA) == 5
