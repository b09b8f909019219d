"""The values that each unknown may still take, and how rules narrow them.

Input: linear rules over numbered unknowns, and a list of domains (sorted sequences of integers, by number).
Output: smaller domains that keep every solution, with the rules that made them smaller.
Narrowing looks at the ends of domains (bounds of a sum) and at residues (modulus of a sum); it is sound, not complete:
an empty domain proves that there is no solution, the converse is left to `eliminate`.
"""

from __future__ import annotations

from bisect import bisect_left, bisect_right
from collections import deque
from collections.abc import Iterable, Sequence
from math import gcd

from msgspec import Struct

Domain = Sequence[int]
Terms = tuple[tuple[int, int], ...]


class Linear(Struct, frozen=True):
    """A rule over numbered unknowns: lower <= sum(factor * x) <= upper and sum = residue (mod modulus).

    Attributes:
        terms: (factor, number) pairs, factors not 0, numbers different.
        origin: bit set of the rules of the model that it stands for; 0 for the definition of a running sum.
        is_order: whether it orders neighbouring sizes; such rules are tried last.
    """

    terms: Terms
    lower: int | None = None
    upper: int | None = None
    modulus: int = 1
    residue: int = 0
    origin: int = 0
    is_order: bool = False

    @property
    def scope(self) -> tuple[int, ...]:
        """The numbers of its unknowns."""
        return tuple(number for _, number in self.terms)

    def admits(self, total: int) -> bool:
        """Say whether the sum may be `total`."""
        return (
            (self.lower is None or total >= self.lower)
            and (self.upper is None or total <= self.upper)
            and (total - self.residue) % self.modulus == 0
        )


class Store(Struct):
    """Domains by number, and by number the bit set of the rules that narrowed them.

    Narrowing replaces domains, it never changes one in place, so a shallow copy is a save point.
    """

    domains: list[Domain]
    reasons: list[int]

    def copy(self) -> Store:
        """Give a save point."""
        return Store(self.domains[:], self.reasons[:])


class Narrowing:
    """The rules that narrow, with the rules that watch each unknown."""

    def __init__(self, rules: Sequence[Linear], count: int) -> None:
        self.rules = rules
        self.watching: list[list[int]] = [[] for _ in range(count)]
        for place, rule in enumerate(rules):
            for _, number in rule.terms:
                self.watching[number].append(place)

    def run(self, store: Store, changed: Iterable[int] | None = None) -> int | None:
        """Narrow to a fixed point.

        Args:
            store: domains and reasons, replaced as they shrink.
            changed: numbers whose domains shrank since the last run; None to look at every rule.

        Returns:
            None, or the bit set of rules that leave some unknown no value.
        """
        if changed is None:
            first = range(len(self.rules))
        else:
            first = sorted({place for number in changed for place in self.watching[number]})  # type: ignore[assignment]
        queue = deque(first)
        waiting = set(first)
        while queue:
            place = queue.popleft()
            waiting.discard(place)
            rule = self.rules[place]
            shrunk, clash = _narrow(rule, store)
            if clash is not None:
                return clash
            for number in shrunk:
                for other in self.watching[number]:
                    if other not in waiting:
                        waiting.add(other)
                        queue.append(other)
        return None


def _blame(rule: Linear, store: Store) -> int:
    blame = rule.origin
    for _, number in rule.terms:
        blame |= store.reasons[number]
    return blame


def _narrow(rule: Linear, store: Store) -> tuple[list[int], int | None]:
    """Give the numbers whose domains shrank, and the clash if one became empty."""
    shrunk: list[int] = []
    domains = store.domains
    least = most = 0
    for factor, number in rule.terms:
        domain = domains[number]
        if not domain:
            return shrunk, _blame(rule, store)
        if factor > 0:
            least += factor * domain[0]
            most += factor * domain[-1]
        else:
            least += factor * domain[-1]
            most += factor * domain[0]
    lower, upper = rule.lower, rule.upper
    if (lower is not None and most < lower) or (upper is not None and least > upper):
        return shrunk, _blame(rule, store)
    if (lower is not None and least < lower) or (upper is not None and most > upper):
        for factor, number in rule.terms:
            domain = domains[number]
            low, high = domain[0] * factor, domain[-1] * factor
            if factor < 0:
                low, high = high, low
            # the term lies in [floor, ceiling], whatever the others do
            floor = low if lower is None else max(low, lower - most + high)
            ceiling = high if upper is None else min(high, upper - least + low)
            if floor == low and ceiling == high:
                continue
            if factor > 0:
                kept = domain[bisect_left(domain, -(-floor // factor)) : bisect_right(domain, ceiling // factor)]
            else:
                kept = domain[bisect_left(domain, -(ceiling // -factor)) : bisect_right(domain, -floor // -factor)]
            if len(kept) < len(domain):
                shrunk.append(number)
                blame = _blame(rule, store)
                domains[number] = kept
                store.reasons[number] = blame
                if not kept:
                    return shrunk, blame
    if rule.modulus > 1:
        return _narrow_residues(rule, store, shrunk)
    return shrunk, None


def _narrow_residues(rule: Linear, store: Store, shrunk: list[int]) -> tuple[list[int], int | None]:
    domains, modulus = store.domains, rule.modulus
    if len(rule.terms) == 1:
        [(factor, number)] = rule.terms
        kept = _congruent(domains[number], factor, rule.residue, modulus)
        if len(kept) < len(domains[number]):
            shrunk.append(number)
            domains[number] = kept
            store.reasons[number] |= rule.origin
        return shrunk, None if kept else store.reasons[number]
    open_terms = sum(len(domains[number]) > 1 for _, number in rule.terms)
    if open_terms > 2 or (open_terms == 2 and len(rule.terms) > 2):
        return shrunk, None
    for factor, number in rule.terms:
        others = {0}
        for other, sibling in rule.terms:
            if sibling != number:
                others = {(total + other * value) % modulus for total in others for value in domains[sibling]}
        if len(others) == modulus:
            continue
        wanted = {(rule.residue - total) % modulus for total in others}
        kept = [value for value in domains[number] if factor * value % modulus in wanted]
        if len(kept) < len(domains[number]):
            shrunk.append(number)
            blame = _blame(rule, store)
            domains[number] = kept
            store.reasons[number] = blame
            if not kept:
                return shrunk, blame
    return shrunk, None


def _congruent(domain: Domain, factor: int, residue: int, modulus: int) -> Domain:
    """Give the values with factor * value = residue (mod modulus)."""
    if not isinstance(domain, range):
        return [value for value in domain if (factor * value - residue) % modulus == 0]
    period = modulus // gcd(modulus, factor * domain.step)
    for start in range(min(period, len(domain))):
        if (factor * domain[start] - residue) % modulus == 0:
            return domain[start::period]
    return ()


def components(scopes: Iterable[Sequence[int]], numbers: Iterable[int]) -> list[list[int]]:
    """Give the groups of numbers that the scopes tie together, each sorted, by first member."""
    root = {number: number for number in numbers}

    def find(number: int) -> int:
        while root[number] != number:
            root[number] = root[root[number]]
            number = root[number]
        return number

    for scope in scopes:
        for number in scope[1:]:
            one, two = find(scope[0]), find(number)
            if one != two:
                root[max(one, two)] = min(one, two)
    groups: dict[int, list[int]] = {}
    for number in sorted(root):
        groups.setdefault(find(number), []).append(number)
    return list(groups.values())
