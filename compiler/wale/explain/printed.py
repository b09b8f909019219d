"""Every number that a pattern prints, with the address of its reason or the class that it belongs to."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from msgspec import Struct
from msgspec.structs import replace

from wale.explain.book import Draft, Units, printed
from wale.explain.places import walked
from wale.explain.structure import covered, masks
from wale.explain.tokens import Group, groups
from wale.explain.walk import Spoken
from wale.pattern import Pattern
from wale.plan import Plan
from wale.spec import Spec

TOLD = (".shaping[", ".run[")
"""In addresses of numbers that are never searched: the form of their table tells which is which."""


_ENDS = re.compile(r"[.\[]")


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
        """Sort the reasons by what they print; numbers are compared in the sizes of which there are any."""
        self._plan, self._rules = plan, masks(spec)
        self._said: dict[str, dict[str, str]] = {}
        self._units: dict[tuple[str, str], str] = {}
        self._order: dict[str, int] = {}
        self._drafted: set[tuple[str, str]] = set()
        self._by_text: dict[tuple[str, str], list[str]] = {}
        for one in drafts:
            self._drafted.add((head_of(one.address), one.size))
            if any(part in one.address for part in TOLD):
                continue
            text = printed(one, units)
            self._said.setdefault(one.address, {})[one.size] = text
            self._units[one.address, one.size] = one.unit
            self._order.setdefault(one.address, len(self._order))
            self._by_text.setdefault((one.size, text), []).append(one.address)
        self._begins = {address: beginnings(address) for address in self._said}

    def numbers(self, text: str, spoken: Spoken) -> list[tuple[Group, str, str]]:
        """Give each number of a text with its address, or its class; both empty where none is found."""
        found: list[tuple[Group, str, str]] = []
        hidden = list(covered(self._rules, text))
        used: dict[str, int] = {}
        exact = iter(spoken.exact)
        for group in groups(text, len(spoken.sizes)):
            kind = next((one for start, end, one in hidden if start <= group.start < end), spoken.kind)
            told = next(exact, "") if spoken.each or not kind else ""
            if kind == "row" and spoken.exact[:1] == ("",):
                next(exact, "")
            address = "" if kind else told or self._address(group, spoken, used)
            used[address] = used.get(address, 0) + 1
            found.append((group, address, kind))
        return found

    def _address(self, group: Group, spoken: Spoken, used: dict[str, int]) -> str:
        names = [self._plan.sizes[size] for size in spoken.sizes]
        figures = group.figures if len(group.figures) == len(names) else group.figures[:1] * len(names)
        if spoken.any_size:
            figures = group.figures[:1] * len(names)
        pairs = list(zip(names, figures, strict=True))
        tiers = {beginning: tier for tier, beginning in reversed(list(enumerate(spoken.scope)))}
        for name, figure in pairs:
            best: tuple[tuple[int, int, int], str] | None = None
            for size in (name, ""):
                for address in self._called(size, figure, spoken):
                    tier = min((tiers[one] for one in self._begins[address] if one in tiers), default=None)
                    if tier is None or (group.units and self._units[address, size] not in group.units):
                        continue
                    rank = (tier, used.get(address, 0), self._order[address])
                    if (best is None or rank < best[0]) and (spoken.any_size or self._prints(address, pairs)):
                        best = (rank, address)
            if best is not None:
                return best[1]
        return ""

    def _called(self, size: str, figure: str, spoken: Spoken) -> list[str]:
        """The numbers of that text; messages leave ".0" out."""
        found = self._by_text.get((size, figure), [])
        return [*found, *self._by_text.get((size, f"{figure}.0"), [])] if spoken.any_size else found

    def sizes_of(self, address: str, figures: str, spoken: Spoken) -> tuple[int, ...]:
        """Give the sizes that a number is printed for: of a text of some sizes, the first of which it is true."""
        said = self._said.get(address, {})
        if not spoken.any_size or "" in said:
            return spoken.sizes
        return tuple(size for size in spoken.sizes if said.get(self._plan.sizes[size]) in (figures, f"{figures}.0"))[:1]

    def _prints(self, address: str, pairs: Iterable[tuple[str, str]]) -> bool:
        """Whether a number is printed so in all sizes of which there are reasons of its piece."""
        said, head = self._said[address], head_of(address)
        if "" in said:
            return all(text == said[""] for _, text in pairs)
        return all(said.get(name) == text for name, text in pairs if (head, name) in self._drafted)


def head_of(address: str) -> str:
    """Give what an address begins with: a piece, a band, or another owner of numbers."""
    return _ENDS.split(address, maxsplit=1)[0]


def beginnings(address: str) -> tuple[str, ...]:
    """Give all that an address begins with: of `back.shape[1].rows` itself, `back.shape[1]` and so on, and ""."""
    return (address, *(address[: end.start()] for end in _ENDS.finditer(address)), "")


def each(texts: tuple[str, ...], spoken: Spoken) -> list[tuple[str, Spoken]]:
    """Give each cell of a row with its own size; a text as it is."""
    if len(texts) == 1:
        return [(texts[0], spoken)]
    return [(text, replace(spoken, sizes=(size,))) for text, size in zip(texts, spoken.sizes, strict=True)]


def numbers(pattern: Pattern, spec: Spec, plan: Plan, sizes: Sequence[int], drafts: Iterable[Draft]) -> list[Printed]:
    """Give every number of a pattern's text in reading order, numbers of sections and steps apart.

    Args:
        sizes: indexes of the printed sizes.
        drafts: reasons of those sizes.
    """
    finder, found = Finder(spec, plan, drafts, spec.units), []

    def visit(texts: tuple[str, ...], spoken: Spoken) -> tuple[str, ...]:
        for text, said in each(texts, spoken):
            for group, address, kind in finder.numbers(text, said):
                alone = len(group.figures) > 1
                for place, figures in enumerate(group.figures):
                    mine = said.sizes[place : place + 1] if alone else finder.sizes_of(address, figures, said)
                    found.append(Printed(figures, mine, address, kind, text))
        return texts

    walked(pattern, spec, plan, sizes, visit)
    return found
