"""Every number that a pattern prints, with the address of its reason or the class that it belongs to."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct

from wale.explain.book import Draft, Units, printed
from wale.explain.places import Spoken, walked
from wale.explain.structure import covered, masks
from wale.explain.tokens import Group, groups
from wale.pattern import Pattern
from wale.plan import Plan
from wale.spec import Spec

TOLD = (".shaping[", ".run[")
"""In addresses of numbers that are never searched: the form of their table tells which is which."""


class Printed(Struct, frozen=True):
    """A number in print.

    Attributes:
        figures: as printed: "171", "+7.7", "2 1/2".
        sizes: indexes of the sizes that it holds for.
        address: of its reason; "" where it belongs to a class or nothing is known.
        kind: its class of `structure.CLASSES`, or "".
        text: what it stands in.
    """

    figures: str
    sizes: tuple[int, ...]
    address: str
    kind: str
    text: str


class Finder:
    """Finds the reasons of printed numbers: by what the text speaks of, the unit beside them, and all their sizes."""

    def __init__(self, spec: Spec, plan: Plan, drafts: Iterable[Draft], units: Units = "cm") -> None:
        """Sort the reasons by what they print."""
        self._plan, self._rules = plan, masks(spec)
        self._said: dict[str, dict[str, str]] = {}
        self._units: dict[tuple[str, str], str] = {}
        self._order: dict[str, int] = {}
        self._by_text: dict[tuple[str, str], list[str]] = {}
        for one in drafts:
            text = printed(one, units)
            self._said.setdefault(one.address, {})[one.size] = text
            self._units[one.address, one.size] = one.unit
            self._order.setdefault(one.address, len(self._order))
            if not any(part in one.address for part in TOLD):
                self._by_text.setdefault((one.size, text), []).append(one.address)

    def numbers(self, text: str, spoken: Spoken) -> list[tuple[Group, str, str]]:
        """Give each number of a text with its address, or its class; both empty where none is found."""
        found: list[tuple[Group, str, str]] = []
        hidden = list(covered(self._rules, text))
        used: dict[str, int] = {}
        exact = iter(spoken.exact)
        for group in groups(text, len(spoken.sizes)):
            kind = next((one for start, end, one in hidden if start <= group.start < end), spoken.kind)
            told = next(exact, "") if not kind else ""
            if kind == "chart row":
                next(exact, "")
            address = "" if kind else told or self._address(group, spoken, used)
            used[address] = used.get(address, 0) + 1
            found.append((group, address, kind))
        return found

    def _address(self, group: Group, spoken: Spoken, used: dict[str, int]) -> str:
        names = [self._plan.sizes[size] for size in spoken.sizes]
        figures = group.figures if len(group.figures) == len(names) else group.figures[:1] * len(names)
        best: tuple[tuple[int, int, int], str] | None = None
        for name in (names[0], ""):
            for address in self._by_text.get((name, figures[0]), ()):
                tier = _tier(address, spoken.scope)
                if tier is None or (group.units and self._units[address, name] not in group.units):
                    continue
                said = self._said[address]
                if any(said.get(one, said.get("")) != text for one, text in zip(names, figures, strict=True)):
                    continue
                rank = (tier, used.get(address, 0), self._order[address])
                if best is None or rank < best[0]:
                    best = (rank, address)
        return best[1] if best is not None else ""


def _tier(address: str, scope: Sequence[str]) -> int | None:
    for number, beginning in enumerate(scope):
        if not beginning or address == beginning or address.startswith((f"{beginning}.", f"{beginning}[")):
            return number
    return None


def numbers(pattern: Pattern, spec: Spec, plan: Plan, sizes: Sequence[int], drafts: Iterable[Draft]) -> list[Printed]:
    """Give every number of a pattern's text in reading order, numbers of sections and steps apart.

    Args:
        sizes: indexes of the printed sizes.
        drafts: reasons of those sizes.
    """
    finder, found = Finder(spec, plan, drafts, spec.units), []

    def visit(text: str, spoken: Spoken) -> str:
        for group, address, kind in finder.numbers(text, spoken):
            alone = len(group.figures) > 1
            for place, figures in enumerate(group.figures):
                mine = spoken.sizes[place : place + 1] if alone else spoken.sizes
                found.append(Printed(figures, mine, address, kind, text))
        return text

    walked(pattern, spec, plan, sizes, visit)
    return found
