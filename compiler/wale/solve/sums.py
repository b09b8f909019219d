"""Running sums: auxiliary unknowns that keep long sums cheap.

A sum over ten sections (`work to 40 cm` measures from the fold) would tie ten unknowns together. With one auxiliary
unknown for each partial sum, every rule has at most three terms, and the state between two sections is one number.
Sums that share sections share their partial sums: a stretch is the difference of two partial sums of a longer one.
The definitions are equalities, so solutions are the same as before.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import groupby
from math import gcd

from wale.solve.domains import Linear, Store, Terms

_LONGEST = 3
_WIDEST = 20_000


class RunningSums:
    """Partial sums over an open store of domains.

    Args:
        store: domains of the unknowns; those of partial sums are appended.
        forms: all sums of the model; those of more than three terms get partial sums.
    """

    def __init__(self, store: Store, forms: Iterable[Terms]) -> None:
        self.store = store
        self.definitions: list[Linear] = []
        self._partial: dict[tuple[tuple[int, int], ...], int] = {}
        self._chains: dict[int, list[tuple[int, ...]]] = {}
        self._summed: set[int] = set()
        self._known: dict[Terms, Terms] = {}
        long = [form for form in forms if len(form) > _LONGEST]
        runs = {run for form in long for side in _sides(form) for _, run in _runs(side) if len(run) > 1}
        for run in sorted(runs, key=lambda run: (-len(run), run)):
            if self._find(run) is None:
                for number in run:
                    self._chains.setdefault(number, []).append(run)
        for form in long:
            self.rewrite(form)

    def rewrite(self, form: Terms) -> Terms:
        """Give an equal sum of at most three terms."""
        if len(form) <= _LONGEST and sum(number in self._summed for _, number in form) < 2:
            return form
        if form not in self._known:
            self._known[form] = self._rewrite(form)
        return self._known[form]

    def _rewrite(self, form: Terms) -> Terms:
        shared = gcd(*(factor for factor, _ in form))
        sides = [self._pieces(tuple((factor // shared, number) for factor, number in side)) for side in _sides(form)]
        if sum(map(len, sides)) > _LONGEST:
            # what is added and what is taken away: two sums that rules of one sign share
            sides = [((1, self._sum(side)),) if len(side) > 1 else side for side in sides]
        else:
            sides = [((1, self._partial[side]),) if side in self._partial else side for side in sides]
        added, taken = sides
        pieces: dict[int, int] = {}
        for sign, side in ((shared, added), (-shared, taken)):
            for factor, number in side:
                pieces[number] = pieces.get(number, 0) + sign * factor
        return tuple((factor, number) for number, factor in pieces.items() if factor)

    def _pieces(self, form: Terms) -> Terms:
        """Put the sum of each run of equal factors in the run's place."""
        pieces: dict[int, int] = {}

        def add(factor: int, number: int) -> None:
            pieces[number] = pieces.get(number, 0) + factor

        for factor, run in _runs(form):
            found = self._find(run) if len(run) > 1 else None
            if found is None:
                for number in run:
                    add(factor, number)
                continue
            chain, start = found
            add(factor, self._sum(tuple((1, number) for number in chain[: start + len(run)])))
            if start:
                add(-factor, self._sum(tuple((1, number) for number in chain[:start])))
        return tuple((factor, number) for number, factor in pieces.items() if factor)

    def _find(self, run: Sequence[int]) -> tuple[tuple[int, ...], int] | None:
        for chain in self._chains.get(run[0], ()):
            start = chain.index(run[0])
            if chain[start : start + len(run)] == tuple(run):
                return chain, start
        return None

    def _sum(self, terms: Terms) -> int:
        """Give the number of the unknown that equals the sum, defining it and all partial sums before it."""
        known = terms[0][1] if terms[0][0] == 1 else self._define((), terms[0])
        for count in range(2, len(terms) + 1):
            head = terms[:count]
            known = (
                self._partial[head] if head in self._partial else self._define(((1, known),), terms[count - 1], head)
            )
        return known

    def _define(self, before: Terms, last: tuple[int, int], key: Terms | None = None) -> int:
        key = key or (last,)
        if key in self._partial:
            return self._partial[key]
        parts = (*before, last)
        number = len(self.store.domains)
        totals: Sequence[int] = (0,)
        reason = 0
        for factor, part in parts:
            domain = self.store.domains[part]
            reason |= self.store.reasons[part]
            if len(totals) * len(domain) <= _WIDEST:
                totals = sorted({total + factor * value for total in totals for value in domain})
            else:
                ends = (factor * domain[0], factor * domain[-1])
                totals = range(totals[0] + min(ends), totals[-1] + max(ends) + 1)
        self.store.domains.append(totals)
        self.store.reasons.append(reason)
        self.definitions.append(Linear(((-1, number), *parts), 0, 0))
        self._partial[key] = number
        self._summed.update(part for _, part in key)
        return number


def _sides(form: Terms) -> tuple[Terms, Terms]:
    """Cut a sum into what is added and what is taken away, both with positive factors."""
    added = tuple((factor, number) for factor, number in form if factor > 0)
    return added, tuple((-factor, number) for factor, number in form if factor < 0)


def _runs(form: Terms) -> list[tuple[int, tuple[int, ...]]]:
    """Cut a sum where the factor changes."""
    return [(factor, tuple(number for _, number in run)) for factor, run in groupby(form, key=lambda term: term[0])]
