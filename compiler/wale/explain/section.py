"""The reasons of one size as a section of the pattern, and a link to them on each step. For HTML only.

Nothing is weighed here: formula, deviation and rules. Steps belong to the reasons of their section of the piece; the
stitches that a section ends on stand with it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping, Sequence

from msgspec.structs import replace

from wale.explain import explained
from wale.explain.reason import Reason
from wale.explain.show import with_unit
from wale.pattern import Bullets, Paragraph, Part, Pattern, Section, Steps
from wale.plan import PiecePlan, Plan
from wale.quantity import show_signed
from wale.spec import Spec

TITLE = "Why these numbers"
LEFT_OUT = (".shaping[", ".figure[")
"""Numbers of tables and of single rows, whose many reasons are all alike."""
_PAGE = re.compile(r" \(docs/[^)]*\)")
TOP = ("neck", "shoulders", "top")


def with_reasons(pattern: Pattern, spec: Spec, plan: Plan, sizes: Sequence[int]) -> Pattern:
    """Give the pattern with a last section of reasons, and on each step the address of its own (`Paragraph.why`).

    Args:
        sizes: indexes of the printed sizes; the middle one is told, as the drawing shows it.
    """
    size = sizes[len(sizes) // 2]
    groups = _groups(plan, explained(spec, plan, None, (size,))[0])
    told = f"The calculation of size {plan.sizes[size]}"
    told += "; the other sizes go the same way." if len(sizes) > 1 else "."
    parts: list[Part] = [Paragraph(f"{told} Wishes are unrounded; got is what the whole number makes of them.")]
    for name, reasons in groups.items():
        parts.append(Paragraph("", name, _why(name)))
        parts.append(Bullets(tuple(_item(one) for one in reasons)))
    linked = tuple(replace(one, parts=tuple(_linked(part, groups) for part in one.parts)) for one in pattern.sections)
    return replace(pattern, sections=(*linked, Section("why", TITLE, tuple(parts))))


def _why(group: str) -> str:
    return f"why.{group}"


def _groups(plan: Plan, reasons: Iterable[Reason]) -> dict[str, list[Reason]]:
    """Put reasons with the part of the piece whose steps print them."""
    homes = {level: home for piece in plan.pieces for level, home in _homes(piece).items()}
    groups: dict[str, list[Reason]] = {}
    for one in reasons:
        if " = " not in one.formula or any(part in one.address for part in LEFT_OUT):
            continue
        groups.setdefault(_group(one.address, homes), []).append(one)
    return groups


def _homes(piece: PiecePlan) -> dict[str, str]:
    """Give the section that ends on each level; the first level is cast on."""
    found = {piece.levels[0].address: f"{piece.name}.cast-on"}
    for section in piece.sections:
        if section.even_start is not None:
            found.setdefault(piece.levels[section.first].address, section.address)
        if section.first != section.last:
            found.setdefault(piece.levels[section.last].address, section.address)
    return found


def _group(address: str, homes: Mapping[str, str]) -> str:
    parts = address.split(".")
    for length in range(len(parts), 1, -1):
        home = homes.get(".".join(parts[:length]))
        if home is not None:
            return home
    if len(parts) > 1 and parts[1] in TOP:
        return f"{parts[0]}.top"
    if len(parts) > 3 and parts[1] == "hem":
        return ".".join(parts[:3])
    return ".".join(parts[:2]) if len(parts) > 2 else parts[0]


def _item(reason: Reason) -> Paragraph:
    text = reason.formula
    if reason.deviation is not None:
        text += f"; got {show_signed(reason.deviation, 2)} cm"
    if reason.rounding:
        rules = "; ".join(reason.rounding)
        text += f". Rules: {_PAGE.sub('', rules)}"
    return Paragraph(f"{text}.", f"{reason.address}: {with_unit(reason)}.")


def _linked(part: Part, groups: Mapping[str, Sequence[Reason]]) -> Part:
    if not isinstance(part, Steps):
        return part
    return replace(part, items=tuple(replace(one, why=_link(one.address, groups)) for one in part.items))


def _link(slot: str, groups: Mapping[str, Sequence[Reason]]) -> str:
    """Give the reasons of a step: of its own address or of the longest beginning that has some."""
    parts = slot.split(".")
    for length in range(len(parts), 0, -1):
        name = ".".join(parts[:length])
        if name in groups:
            return _why(name)
    return ""
