"""Smallest clashes, worked out by hand."""

from __future__ import annotations

import pytest

from wale.solve import conflict
from wale.solve.conflict import refute, smallest_conflict
from wale.solve.eliminate import Unsure
from wale.solve.exact import solve
from wale.solve.model import Conflict, Model, Rule, Unknown


def model(keys: str, *rules: Rule, upper: int = 400) -> Model:
    return Model(tuple(Unknown(key, 1, upper) for key in keys), rules, ())


def rule(why: str, *terms: tuple[int, str], **bounds: int) -> Rule:
    return Rule(terms, why, "order" if why == "order" else "join", **bounds)


def whys(answer: object) -> list[str]:
    assert isinstance(answer, Conflict)
    return [rule.why for rule in answer.rules]


def test_the_first_declared_of_two_clashes_is_kept() -> None:
    # 10 and 11 clash, so do 10 and 12, and 11 and 12: later rules go first
    exact = [rule(f"count {n}", (1, "a"), lower=n, upper=n) for n in (10, 11, 12)]
    assert whys(solve(model("a", *exact))) == ["count 10", "count 11"]


def test_parities_in_a_ring_clash_without_any_bound() -> None:
    # a = b = c (mod 2) and a + c odd; the tolerances are not needed
    same = [rule(f"{x}{y} alike", (1, x), (-1, y), modulus=2) for x, y in ("ab", "bc")]
    odd = rule("ac differ", (1, "a"), (1, "c"), modulus=2, residue=1)
    wide = [rule("tolerance", (1, x), lower=50, upper=70) for x in "abc"]
    assert whys(solve(model("abc", *wide, *same, odd))) == ["ab alike", "bc alike", "ac differ"]


def test_order_passes_a_clash_on_through_sizes() -> None:
    # S >= 30 and XL <= 20 clash only through every order rule between them; order elsewhere does not matter
    order = [rule("order", (1, y), (-1, x), lower=0) for x, y in ("SM", "ML", "LX", "st")]
    ends = (rule("wide S", (1, "S"), lower=30), rule("narrow XL", (1, "X"), upper=20))
    assert whys(solve(model("SMLXst", *ends, *order))) == ["wide S", "narrow XL", "order", "order", "order"]


def test_a_clash_that_only_trying_finds() -> None:
    # three counts of two values, each pair different: two values cannot do for three; a - b = 1 (mod 2) says "differ"
    differ = [rule(f"{x}{y}", (1, x), (-1, y), modulus=2, residue=1) for x, y in ("ab", "bc", "ac")]
    assert whys(solve(model("abc", *differ, upper=2))) == ["ab", "bc", "ac"]


def test_a_sum_that_cannot_be_reached() -> None:
    # 6 a + 10 b + 15 c = 29 has no solution in whole numbers >= 1 (the least is 31), and bounds are no members
    assert whys(solve(model("abc", rule("29 in all", (6, "a"), (10, "b"), (15, "c"), lower=29, upper=29)))) == [
        "29 in all"
    ]


def test_bounds_that_leave_no_value_need_no_rule() -> None:
    assert solve(Model((Unknown("a", 5, 4),), (), ())) == Conflict(())


def test_a_rule_without_unknowns_clashes_alone() -> None:
    assert whys(solve(model("a", rule("nothing is 3", (0, "a"), lower=3)))) == ["nothing is 3"]


def test_a_model_that_can_be_solved_has_no_conflict() -> None:
    with pytest.raises(ValueError, match="can all hold"):
        smallest_conflict(model("a"))


def test_out_of_patience_a_rule_is_kept_and_the_set_still_clashes(monkeypatch: pytest.MonkeyPatch) -> None:
    # no guess and no trial is allowed: that `ab` and `bc` alone can hold is not seen, so each stays; the three
    # clash, as above
    monkeypatch.setattr(conflict, "_PATIENCE", -400)
    monkeypatch.setattr(conflict, "_TRIALS", 0)
    differ = [rule(f"{x}{y}", (1, x), (-1, y), modulus=2, residue=1) for x, y in ("ab", "bc", "ac")]
    clash = model("abc", *differ, upper=2)
    with pytest.raises(Unsure):
        refute(clash, [0, 1], 0)
    assert whys(smallest_conflict(clash)) == ["ab", "bc", "ac"]
