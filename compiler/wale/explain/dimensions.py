"""The addresses behind the rows of tables: finished measures, rings, yarn, and the dimensions of schematics."""

from __future__ import annotations

import re

from wale.actions import EDGINGS
from wale.plan import PiecePlan, Plan
from wale.spec import Spec

_RINGS = (
    (re.compile(r"the facing of the (?P<piece>.+)'s hem"), "facing-of-the-hem"),
    (re.compile(r"the (?P<piece>.+)'s ribbed cast-on"), "rib-at-the-cast-on"),
    (re.compile(r"the (?P<piece>.+)'s cast-on edge"), "cast-on-edge"),
    (re.compile(r"the (?P<piece>.+)'s (?P<level>sleeve|cuff)"), ""),
    (re.compile(r"the (?P<piece>.+) at the hip, not pulled"), "hip-at-rest"),
    (re.compile(r"the (?P<piece>.+) at the (?P<level>.+)"), ""),
    (re.compile(r"the (?P<piece>.+)'s width as a hood"), "hood"),
    (re.compile(r"the neck opening"), "neck-opening"),
    (re.compile(r"the (?P<piece>.+) itself"), "body"),
    (re.compile(r"the (?P<piece>.+)"), "band"),
)
_APART = re.compile(r"(?P<piece>.+) (?P<way>to|from) the \S+")
_YARN = {
    "to have ready, g": ("ready",),
    "the same in m": ("metres",),
    "knitted, by the swatch's weight, g": ("by-weight",),
    "knitted, by the loop, g": ("by-loop",),
    "the garment takes, g": ("least", "most"),
}
_DIMENSIONS = {
    "hem": "hem.depth",
    "armhole edge": "armhole-edge",
    "length": "length",
    "length to high point": "length",
    "neck width": "neck.width",
    "half the neck width": "neck.width",
    "neck depth": "neck.depth",
    "placket": "placket.length",
    "placket width": "placket.width",
    "shoulder": "shoulders.width",
    "slope": "shoulders.slope",
}
_BANDS = {
    "from fold to front edge": "hood.half",
    "neck to seam": "depth",
    "along the edges": "along",
    "depth behind": "depth",
    "depth in front": "collar.depth",
}
"""Of schematics of hoods and collars."""


def finished_scope(plan: Plan, label: str) -> tuple[str, ...]:
    """Give the addresses of a row of finished measurements, or of the rings ("the neck opening, over the head")."""
    if label.startswith("the "):
        return _ring_scope(label)
    if label.startswith("ease at the "):
        measure = label.removeprefix("ease at the ")
        levels = (one.level for piece in plan.pieces for one in piece.girths)
        worn = tuple(f"{one.address}.ease" for one in levels if measure in one.measure.names)
        return (*(f"{one.name}.{measure}.ease" for one in plan.pieces), *worn)
    name, _, what = label.rpartition(", ")
    piece, _, level = name.partition(", ")
    if what == "length":
        apart = _APART.fullmatch(name)
        anew = plan.piece(apart["piece"]) if apart is not None else None
        return _apart(anew, apart["way"]) if anew is not None and apart is not None else (f"{name}.length",)
    if what == "wide" and name.endswith(" neck") and plan.piece(name.removesuffix(" neck")) is not None:
        return (f"{name.removesuffix(' neck')}.neck.width",)
    end = "around" if what == "around" else "width"
    owners = [piece] if level else [one.name for one in plan.pieces]
    owner = plan.piece(piece)
    aside = [one.level.address for one in owner.girths if one.level.label == level] if owner is not None else []
    return tuple(f"{address}.{end}" for address in aside) or tuple(f"{owner}.{level or name}.{end}" for owner in owners)


def _apart(piece: PiecePlan, way: str) -> tuple[str, ...]:
    """Give the address of a length up to the place from which lengths count anew, or from there on."""
    assert piece.anew is not None
    return (f"{piece.name}.length" if way == "from" else f"{piece.sections[piece.anew - 1].address}.position",)


def _ring_scope(label: str) -> tuple[str, ...]:
    ring = label.rpartition(", over the ")[0] or label
    for pattern, name in _RINGS:
        found = pattern.fullmatch(ring)
        if found is not None:
            parts = found.groupdict()
            address = f"ring.{parts.get('piece', 'body')}.{name or parts['level'].replace(' ', '-')}"
            return (f"{address}.pulled", f"{address}.passes", "ring")
    return ("ring",)


def yarn_scope(spec: Spec, label: str) -> tuple[str, ...]:
    """Give the addresses of a row of the yarn table: its own number, then what its label names."""
    name, _, what = label.partition(", ")
    if what in _YARN:
        return tuple(f"yarn.{name}.{one}" for one in _YARN[what])
    kind, found = what.removesuffix(" to buy"), []
    for number, one in enumerate(spec.yarns[name].put_ups, 1):
        put_up = f"yarn.{name}.put-up[{number}]"
        last = "to-buy" if what.endswith(" to buy") else "needed"
        if what.startswith("cost of all"):
            found.append(f"{put_up}.cost")
        elif kind.startswith(f"{one.kind}s of "):
            found += [f"{put_up}.{last}", f"{put_up}.weight"]
    return tuple(found)


def dimension_scope(plan: Plan, drawn: str, name: str) -> tuple[str, ...]:
    """Give the addresses of a dimension of a schematic: of each piece that it draws."""
    found = [f"{band.name}.{_BANDS[name]}" for band in plan.bands if band.name == drawn.lower() and name in _BANDS]
    for piece in plan.pieces:
        if piece.name.lower() not in drawn.lower().split(" and "):
            continue
        own = name.removesuffix(" around").removesuffix(" across").replace(" ", "-")
        levels = {level.label: level.address for level in piece.levels}
        if name in _DIMENSIONS:
            found.append(f"{piece.name}.{_DIMENSIONS[name]}")
        elif own in levels:
            found.append(f"{levels[own]}.width")
        elif name in (*EDGINGS, "crown"):
            found += [f"{one.address}.length" for one in piece.sections if one.kind == name]
        elif piece.anew is not None and name in (f"{way} {piece.sections[piece.anew].folds}" for way in ("to", "from")):
            found += _apart(piece, name.partition(" ")[0])
        elif name.startswith("to "):
            begins = next((i for i, one in enumerate(piece.sections) if name == f"to {one.kind}"), 0)
            below = [f"{piece.sections[begins - 1].address}.position"] if begins else []
            found += [f"{piece.name}.{name.removeprefix('to ')}.height", *below]
        elif name == "sleeve top":
            found.append(f"{piece.levels[-1].address}.width")
        elif name == "around":
            found += [f"{level.address}.width" for level in piece.levels if level.label == "body"]
        else:
            found.append(f"{piece.levels[0].address}.width")
    return tuple(found)
