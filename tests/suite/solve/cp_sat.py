"""A model put to a general constraint solver (OR-Tools CP-SAT), written apart from the solver under test."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from math import ceil, floor, lcm
from typing import Any

from ortools.sat.python import cp_model

from wale.solve.model import Conflict, Model, Rule, Solution, Unknown, Wish

Terms = Sequence[tuple[int, str]]
PATIENCE = 1
"""Seconds of one search, as the general solver counts them: the same on every machine."""


class Undecided(Exception):
    """The general solver could neither find nor exclude anything better in time."""


def cp_optimum(model: Model, known: Mapping[str, int] | None = None) -> Fraction | None:
    """Give the least cost, None where no assignment keeps all rules.

    Args:
        known: an assignment that keeps the rules; what costs more is not looked at.
    """
    costs = [_optimum(part, known) for part in _parts(model)]
    return None if None in costs else sum(filter(None, costs), Fraction(0))


def _parts(model: Model) -> list[Model]:
    """Cut where neither rule nor wish ties: each part has its own denominator, so its costs fit into 64 bits.

    Rules on several unknowns that hold within their bounds, whatever they are, tie nothing.
    """
    bounds = _bounds(model)
    rules = [rule for rule in model.rules if len(rule.terms) == 1 or not _always(rule, bounds)]
    ties = [{key for _, key in tie.terms} for tie in (*rules, *model.wishes)]
    groups = [{one.key} for one in model.unknowns]
    for tie in ties:
        touched = [group for group in groups if group & tie]
        groups = [group for group in groups if not group & tie] + [set().union(*touched)]
    return [
        Model(
            tuple(one for one in model.unknowns if one.key in group),
            tuple(rule for rule in rules if rule.terms[0][1] in group),
            tuple(wish for wish in model.wishes if wish.terms[0][1] in group),
        )
        for group in groups
    ]


def _always(rule: Rule, bounds: Mapping[str, tuple[int, int]]) -> bool:
    """Say whether a rule holds for all values within bounds."""
    ends = [sorted(factor * bound for bound in bounds[key]) for factor, key in rule.terms]
    low, high = (sum(end) for end in zip(*ends, strict=True))
    return (
        rule.modulus == 1 and (rule.lower is None or low >= rule.lower) and (rule.upper is None or high <= rule.upper)
    )


def _optimum(model: Model, known: Mapping[str, int] | None) -> Fraction | None:
    task, places = _task(model.unknowns, model.rules)
    bounds = _bounds(model)
    if any(low > high for low, high in bounds.values()):
        return None
    # one denominator for all wishes: costs become whole numbers
    forms = [_whole(wish) for wish in model.wishes]
    scale = lcm(*(denominator for _, _, _, denominator in forms))
    costs = []
    for terms, constant, weight, denominator in forms:
        low = constant + sum(min(f * bounds[key][0], f * bounds[key][1]) for f, key in terms)
        high = constant + sum(max(f * bounds[key][0], f * bounds[key][1]) for f, key in terms)
        for rule in model.rules:
            low, high = _cut(rule, terms, constant, low, high)
        weight *= scale // denominator
        if low > high or not terms:
            continue
        price = task.new_int_var(0, weight * max(low * low, high * high), "price")
        if len(terms) == 1:
            # the cost of each value from a list: far faster than a product
            (factor, key), (first, last) = terms[0], bounds[terms[0][1]]
            prices = [weight * (factor * value + constant) ** 2 for value in range(first, last + 1)]
            task.add_element(places[key] - first, prices, price)
        else:
            miss = task.new_int_var(low, high, "miss")
            task.add(miss == sum(f * places[key] for f, key in terms) + constant)
            square = task.new_int_var(0, max(low * low, high * high), "square")
            task.add_multiplication_equality(square, [miss, miss])
            task.add(price == weight * square)
        costs.append(price)
    if known is not None:
        most = sum((wish.cost(known) for wish in model.wishes), Fraction(0)) * scale
        assert most.denominator == 1
        task.add(sum(costs) <= int(most))
    if costs:
        task.minimize(sum(costs))
    solver, status = _solve(task)
    if status == cp_model.INFEASIBLE:
        return None
    found = {key: solver.value(place) for key, place in places.items()}
    # the objective is told as a float; the exact cost is that of the values
    return sum((wish.cost(found) for wish in model.wishes), Fraction(0))


def cp_feasible(unknowns: Sequence[Unknown], rules: Iterable[Rule]) -> bool:
    """Say whether some assignment keeps the rules."""
    task, _ = _task(unknowns, rules)
    return _solve(task)[1] != cp_model.INFEASIBLE


def disagreement(model: Model, answer: Solution | Conflict) -> str:
    """Say where an answer differs from the general solver's, empty where it doesn't.

    Raises:
        Undecided: the general solver did not finish.
    """
    if isinstance(answer, Conflict):
        best = cp_optimum(model)
        return "" if best is None else f"a conflict of {len(answer.rules)}, but {best} can be had"
    broken = [rule.why for rule in model.rules if not rule.holds(answer.values)]
    if broken:
        return f"broken: {', '.join(broken)}"
    if any(not one.lower <= answer.values[one.key] <= one.upper for one in model.unknowns):
        return "a value lies outside its bounds"
    real = sum((wish.cost(answer.values) for wish in model.wishes), Fraction(0))
    if real != answer.cost:
        return f"the values cost {real}, not {answer.cost}"
    best = cp_optimum(model, answer.values)
    return "" if best == real else f"costs {real}, the best {best}"


def looseness(model: Model, conflict: Conflict) -> str:
    """Say why a conflict is none, or is not a smallest one; empty where it is."""
    if cp_feasible(model.unknowns, conflict.rules):
        return "its rules can all hold"
    for dropped in conflict.rules:
        if not cp_feasible(model.unknowns, [rule for rule in conflict.rules if rule is not dropped]):
            return f"it clashes without `{dropped.why}` too"
    return ""


def _task(unknowns: Sequence[Unknown], rules: Iterable[Rule]) -> tuple[cp_model.CpModel, dict[str, cp_model.IntVar]]:
    task = cp_model.CpModel()
    places, bounds = {}, {}
    for one in unknowns:
        places[one.key] = task.new_int_var(one.lower, one.upper, one.key)
        bounds[one.key] = (one.lower, one.upper)
    for rule in rules:
        total = sum(factor * places[key] for factor, key in rule.terms)
        if rule.lower is not None:
            task.add(total >= rule.lower)
        if rule.upper is not None:
            task.add(total <= rule.upper)
        if rule.modulus > 1:
            most = sum(abs(factor) * max(map(abs, bounds[key])) for factor, key in rule.terms) + abs(rule.residue)
            times = task.new_int_var(-most, most, "times")
            task.add(total == rule.modulus * times + rule.residue)
    return task, places


def _bounds(model: Model) -> dict[str, tuple[int, int]]:
    """Give the bounds of the unknowns, cut by the rules on one unknown of factor 1."""
    bounds = {one.key: (one.lower, one.upper) for one in model.unknowns}
    for rule in model.rules:
        if len(rule.terms) == 1 and rule.terms[0][0] == 1:
            low, high = bounds[rule.terms[0][1]]
            low = low if rule.lower is None else max(low, rule.lower)
            high = high if rule.upper is None else min(high, rule.upper)
            bounds[rule.terms[0][1]] = (low, high)
    return bounds


def _cut(rule: Rule, terms: Terms, constant: int, low: int, high: int) -> tuple[int, int]:
    """Cut the bounds of a sum by a rule on the same sum, or on a multiple: the solver's numbers have 64 bits."""
    if not terms or [key for _, key in rule.terms] != [key for _, key in terms]:
        return low, high
    times = Fraction(terms[0][0], rule.terms[0][0])
    if times <= 0 or any(factor != times * other for (factor, _), (other, _) in zip(terms, rule.terms, strict=True)):
        return low, high
    if rule.lower is not None:
        low = max(low, ceil(times * rule.lower) + constant)
    if rule.upper is not None:
        high = min(high, floor(times * rule.upper) + constant)
    return low, high


def _whole(wish: Wish) -> tuple[Terms, int, int, int]:
    """Give factors, constant and weight as whole numbers, and what the weighed square is to be divided by."""
    scale = lcm(wish.constant.denominator, *(factor.denominator for factor, _ in wish.terms))
    terms = [(int(factor * scale), key) for factor, key in wish.terms if factor]
    return terms, int(wish.constant * scale), wish.weight.numerator, wish.weight.denominator * scale * scale


def _solve(task: cp_model.CpModel) -> tuple[cp_model.CpSolver, Any]:
    solver = cp_model.CpSolver()
    solver.parameters.random_seed = 1
    solver.parameters.relative_gap_limit = 0
    solver.parameters.absolute_gap_limit = 0
    solver.parameters.num_workers = 1
    solver.parameters.max_deterministic_time = PATIENCE
    status = solver.solve(task)
    if status not in (cp_model.OPTIMAL, cp_model.INFEASIBLE):
        raise Undecided(solver.status_name(status))
    return solver, status
