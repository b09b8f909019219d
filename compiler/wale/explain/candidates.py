"""Counts weighed against their neighbours: the model is solved anew with one count fixed."""

from __future__ import annotations

from collections.abc import Collection, Iterable, Mapping
from fractions import Fraction
from functools import cache
from math import lcm

from msgspec import Struct
from msgspec.structs import replace

from wale.explain.book import show
from wale.explain.reason import Candidate, Reason
from wale.plan import Plan
from wale.solve.eliminate import Unsure
from wale.solve.exact import solve
from wale.solve.model import Conflict, Model, Rule, Solution, Wish


class Models(Struct, frozen=True):
    """Both models of a garment, and the counts that solved them; the widths' may speak of rows too."""

    widths: Model
    lengths: Model
    counts: Mapping[str, int]

    def of(self, unknown: str) -> Model:
        """Give the model that an unknown belongs to."""
        return self.lengths if any(one.key == unknown for one in self.lengths.unknowns) else self.widths

    def why(self, unknowns: Collection[str]) -> dict[str, list[str]]:
        """Give the rules of some unknowns in words."""
        found: dict[str, list[str]] = {}
        for model in (self.widths, self.lengths):
            for rule in model.rules:
                mine = [key for _, key in rule.terms if key in unknowns]
                words = rule_words(rule) if mine else ""
                for key in mine:
                    told = found.setdefault(key, [])
                    if words not in told:
                        told.append(words)
            for wish in model.wishes:
                if wish.weight != 1 and wish.terms[-1][1] in unknowns and _is_of_one_size(wish):
                    found.setdefault(wish.terms[-1][1], []).append(f"its wish weighs {show(wish.weight)}, as preferred")
        return found

    def modulus(self, unknown: str) -> int:
        """Give what the rules of an unknown's own divide it by; 1 where there are none."""
        if not unknown:
            return 1
        own = (rule for rule in self.of(unknown).rules if rule.terms == ((1, unknown),) and rule.modulus > 1)
        return lcm(*(rule.modulus for rule in own))


def models_of(plan: Plan, counts: Mapping[str, int]) -> Models:
    """Give the models that the plan solves, with its counts."""
    assert plan.models is not None, "the planner solved them"
    return Models(*plan.models, counts)


def rule_words(rule: Rule) -> str:
    """Say a rule; of a multiple, the remainder too."""
    if rule.modulus > 1 and len(rule.terms) == 1:
        left = f", remainder {rule.residue}" if rule.residue else ""
        return f"{rule.why} (divided by {rule.modulus}{left or ' without remainder'})"
    return rule.why


def weigh(models: Models, reasons: Iterable[Reason]) -> tuple[Reason, ...]:
    """Give the reasons with the candidates of solved counts; inherited counts are solved once."""

    @cache
    def weighed(unknown: str) -> tuple[Candidate, ...]:
        return _candidates(models, unknown)

    return tuple(replace(one, candidates=weighed(one.unknown)) if one.unknown else one for one in reasons)


def _candidates(models: Models, unknown: str) -> tuple[Candidate, ...]:
    part, chosen = _connected(models.of(unknown), unknown), models.counts[unknown]
    found = []
    for count in (_next(part, unknown, chosen, -1), chosen, _next(part, unknown, chosen, 1)):
        if count == chosen:
            found.append(Candidate(count, True, _deviation(part, unknown, models.counts), Fraction(0)))
        elif count is not None:
            found.append(_tried(part, unknown, count, models.counts))
    return tuple(found)


def _tried(part: Model, unknown: str, count: int, counts: Mapping[str, int]) -> Candidate:
    """Solve a part of the model with a count fixed."""
    fixed = Rule(((1, unknown),), f"{count} tried", "exact", lower=count, upper=count)
    try:
        result = solve(Model(part.unknowns, (*part.rules, fixed), part.wishes))
    except Unsure:
        result = Conflict((Rule((), "the search for it was given up", "exact"),))
    if isinstance(result, Solution):
        best = sum((wish.cost(counts) for wish in part.wishes), Fraction(0))
        return Candidate(count, False, _deviation(part, unknown, result.values), result.cost - best)
    deviation = _deviation(part, unknown, {**counts, unknown: count})
    clash = tuple(dict.fromkeys(rule_words(rule) for rule in result.rules if rule != fixed))
    return Candidate(count, False, deviation, None, clash or ("it lies outside its bounds",))


def _next(part: Model, unknown: str, count: int, step: int) -> int | None:
    """Give the next count that obeys the unknown's own remainders, or None where its bounds end."""
    bounds = next(one for one in part.unknowns if one.key == unknown)
    own = [rule for rule in part.rules if rule.terms == ((1, unknown),) and rule.modulus > 1]
    count += step
    while bounds.lower <= count <= bounds.upper:
        if all((count - rule.residue) % rule.modulus == 0 for rule in own):
            return count
        count += step
    return None


def _deviation(part: Model, unknown: str, counts: Mapping[str, int]) -> Fraction | None:
    """Give what the wish of an unknown misses, in cm: of a running length, the one that ends with it."""
    wish = next((one for one in part.wishes if one.terms[-1][1] == unknown and _is_of_one_size(one)), None)
    return sum((factor * counts[key] for factor, key in wish.terms), wish.constant) if wish is not None else None


def _is_of_one_size(wish: Wish) -> bool:
    """Whether a wish is about a length; even steps between sizes are about three sizes."""
    return len({key.rsplit("@", 1)[1] for _, key in wish.terms}) == 1


def _connected(model: Model, unknown: str) -> Model:
    """Give the part of a model that an unknown is tied to by rules and wishes; the rest costs the same anyway."""
    ties: list[Rule | Wish] = [*model.rules, *model.wishes]
    by_key: dict[str, list[int]] = {}
    for number, tie in enumerate(ties):
        for _, key in tie.terms:
            by_key.setdefault(key, []).append(number)
    reached, waiting = {unknown}, [unknown]
    while waiting:
        for number in by_key.get(waiting.pop(), ()):
            new = [key for _, key in ties[number].terms if key not in reached]
            reached.update(new)
            waiting += new
    return Model(
        tuple(one for one in model.unknowns if one.key in reached),
        tuple(rule for rule in model.rules if rule.terms[0][1] in reached),
        tuple(wish for wish in model.wishes if wish.terms[0][1] in reached),
    )
