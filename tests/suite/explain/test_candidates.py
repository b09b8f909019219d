"""The counts beside the chosen one: right neighbours, true costs, conflicts in words."""

import pytest

from wale.explain import weigh
from wale.solve.model import Model, Rule, Solution


def weighed(example, size, *addresses):
    reasons = example.of(size)
    return {one.address: one for one in weigh(example.models, [reasons[address] for address in addresses])}


@pytest.mark.parametrize("size", ["XS", "M", "3XL"])
def test_the_chosen_is_the_cheapest_shown(pullover, size):
    asked = ("back.cast-on", "back.bust", "sleeve.armhole", "back.shape[1].rows", "sleeve.work[1].rows")
    for reason in weighed(pullover, size, *asked).values():
        chosen = [one for one in reason.candidates if one.is_chosen]
        assert len(reason.candidates) == 3 and [one.count for one in chosen] == [reason.value]
        assert chosen[0].costs_more == 0 and chosen[0].deviation == reason.deviation
        assert all(one.costs_more is None or one.costs_more >= 0 for one in reason.candidates)


def test_neighbours_keep_the_remainder(pullover):
    """A back centred on a stitch with an edge stitch on each side is odd, so 159 and 163 stand beside 161."""
    counts = [one.count for one in weighed(pullover, "M", "back.bust")["back.bust"].candidates]
    assert counts == [159, 161, 163]


def test_costs_are_those_of_the_whole_model(pullover):
    """The part of the model that is solved anew gives the same difference as the whole does."""
    from wale.solve.exact import solve

    models = pullover.models
    for address, model in (("sleeve.wrist", models.widths), ("sleeve.work[1].rows", models.lengths)):
        reason = weighed(pullover, "S", address)[address]
        best = solve(model)
        assert isinstance(best, Solution)
        for one in reason.candidates:
            fixed = Rule(((1, reason.unknown),), "", "exact", one.count, one.count)
            other = solve(Model(model.unknowns, (*model.rules, fixed), model.wishes))
            assert isinstance(other, Solution) and one.costs_more == other.cost - best.cost


def test_counts_that_cannot_be_name_the_rules(pullover):
    """One row is the turning row, and nothing else."""
    reason = weighed(pullover, "M", "back.hem.turning.rows")["back.hem.turning.rows"]
    assert [one.count for one in reason.candidates] == [0, 1]
    assert reason.candidates[0].costs_more is None and reason.candidates[0].conflict == ("one turning row",)


def test_whole_repeats_are_a_repeat_apart(hat):
    """156 sts are 13 repeats of 12; the next whole repeats are 144 and 168, over 2.1 cm off the wish."""
    reason = weighed(hat, "medium", "hat.head")["hat.head"]
    below, chosen, above = reason.candidates
    assert (below.count, chosen.count, above.count) == (144, 156, 168)
    assert below.costs_more is None and any("within 2.1 cm" in rule for rule in below.conflict)


def test_derived_numbers_are_not_weighed(pullover):
    assert weighed(pullover, "M", "back.shape[1].first")["back.shape[1].first"].candidates == ()
