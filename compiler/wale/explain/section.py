"""Reasons on the web page: each number of the pattern is a link to its reason, which stands in a last section.

One size is told, the middle one of those printed; where a line is for other sizes only, the first of those. A number
in brackets or in a row of a table leads to the same reason in all sizes. Nothing is weighed here.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence

from msgspec.structs import replace

from wale.explain import drafted, told
from wale.explain.book import Draft
from wale.explain.piece_places import sizes_told
from wale.explain.places import walked
from wale.explain.printed import Finder, each, head_of
from wale.explain.reason import Reason
from wale.explain.show import with_unit
from wale.explain.tokens import Group, groups
from wale.explain.walk import Spoken
from wale.pattern import Bullets, Paragraph, Part, Pattern, Section, Steps, linked
from wale.plan import Plan
from wale.quantity import show_signed
from wale.spec import Spec

TITLE = "Why these numbers"
LEFT_OUT = re.compile(r"chart\.[^.\[]+\[|.*\.shaping\[(?!1\])|.*\.fixed\[")
"""Numbers of charts' words and of tables of shaping rows, whose many reasons are all alike, so that only the first is
told; and those that stand in the words of a course."""
_PAGE = re.compile(r" \(docs/[^)]*\)")


def with_reasons(pattern: Pattern, spec: Spec, plan: Plan, sizes: Sequence[int]) -> Pattern:
    """Give the pattern with its numbers linked, and a last section of the reasons that they lead to.

    Args:
        sizes: indexes of the printed sizes.
    """
    middle = sizes[len(sizes) // 2]
    others = _others(pattern, plan, middle)
    drafts, models = drafted(spec, plan, None, (middle,), "", others, charts_in_words=False)
    finder, used = Finder(spec, plan, drafts, spec.units), dict[str, None]()

    def visit(texts: tuple[str, ...], spoken: Spoken) -> tuple[str, ...]:
        if spoken.kind or spoken.is_made or _is_left_out(spoken, middle):
            return texts
        said = each(texts, spoken)
        place = spoken.sizes.index(middle) if len(texts) > 1 else 0
        found = finder.numbers(*said[place])
        addresses = ["" if LEFT_OUT.match(address) else address for _, address, _ in found]
        used.update(dict.fromkeys(address for address in addresses if address))
        if len(texts) == 1:
            return (_linked(texts[0], [group for group, _, _ in found], addresses),)
        others = (list(groups(text, 1)) for text in texts)
        return tuple(_linked(text, mine, addresses) for text, mine in zip(texts, others, strict=True))

    made = walked(pattern, spec, plan, sizes, visit)
    chosen = _chosen(drafts, used, plan.sizes[middle])
    parts = _parts(told(chosen, models, spec.units), plan.sizes[middle], several=len(sizes) > 1)
    return replace(made, sections=(*made.sections, Section("why", TITLE, parts)))


def _others(pattern: Pattern, plan: Plan, middle: int) -> list[tuple[int, str]]:
    """A size, as few as may be, of each line that is not for the middle one, with its piece."""
    lines: list[tuple[str, tuple[str, ...]]] = []
    for section in pattern.sections:
        for part in section.parts:
            for item in part.items if isinstance(part, Steps) else ():
                names = sizes_told(item.strong)
                if names and plan.sizes[middle] not in names:
                    lines.append((section.id.partition("-")[2], names))
    found: list[tuple[int, str]] = []
    while lines:
        choices = dict.fromkeys((owner, name) for owner, names in lines for name in names)
        owner, name = max(choices, key=lambda one: sum(one[0] == owner and one[1] in names for owner, names in lines))
        lines = [(mine, names) for mine, names in lines if mine != owner or name not in names]
        found.append((plan.sizes.index(name), owner))
    return found


def _is_left_out(spoken: Spoken, middle: int) -> bool:
    if not spoken.exact:
        return False
    return bool(LEFT_OUT.match(spoken.exact[0])) or (".shaping[" in spoken.exact[0] and middle not in spoken.sizes)


def _linked(text: str, groups: Sequence[Group], addresses: Sequence[str]) -> str:
    """Link each number, with its brackets, to its reason."""
    parts, done = [], 0
    for group, address in zip(groups, addresses, strict=False):
        if address:
            parts += [text[done : group.start], linked(f"why.{address}", text[group.start : group.stop])]
            done = group.stop
    return "".join([*parts, text[done:]])


def _chosen(drafts: Iterable[Draft], used: Iterable[str], middle: str) -> list[Draft]:
    """A draft of each address that is led to: of the middle size, or of all, else of the first size that has it."""
    wanted, found = set(used), dict[str, Draft]()
    for one in drafts:
        if one.address in wanted and (one.address not in found or one.size == middle):
            found[one.address] = one
    return list(found.values())


def _parts(reasons: Sequence[Reason], middle: str, *, several: bool) -> tuple[Part, ...]:
    words = f"The calculation of size {middle}"
    words += "; the other sizes go the same way." if several else "."
    parts: list[Part] = [Paragraph(f"{words} Wishes are unrounded; got is what the whole number makes of them.")]
    owners: dict[str, list[Paragraph]] = {}
    for one in reasons:
        owners.setdefault(head_of(one.address), []).append(_item(one, middle))
    for name, items in owners.items():
        parts += [Paragraph("", name), Bullets(tuple(items))]
    return tuple(parts)


def _item(reason: Reason, middle: str) -> Paragraph:
    text = reason.formula
    if reason.deviation is not None:
        text += f"; got {show_signed(reason.deviation, 2)} cm"
    if reason.rounding:
        rules = "; ".join(reason.rounding)
        text += f". Rules: {_PAGE.sub('', rules)}"
    whose = "" if reason.size in ("", middle) else f", size {reason.size}"
    return Paragraph(f"{text}.", f"{reason.address}{whose}: {with_unit(reason)}.", f"why.{reason.address}")
