"""From the parse tree of a line typed in by hand to its record, one builder for each kind of line."""

from __future__ import annotations

from collections.abc import Callable

from wale.prove.hand_words import (
    Act,
    ActKind,
    Again,
    Between,
    Do,
    Extent,
    Group,
    HandCastOn,
    HandLine,
    HandRow,
    HandRows,
    Told,
    Work,
)
from wale.prove.trees import Node
from wale.prove.words import Side

_WORKS = {"knit": "k", "purl": "p", "slip": "sl"}
_END = Extent("end")
ACTS: dict[str, ActKind] = {
    "turn": "turn",
    "cast": "cast",
    "bound": "bound",
    "picked": "picked",
    "held": "held",
    "set_aside": "set_aside",
    "waste": "waste",
    "place": "place",
    "slip": "slip",
    "remove": "remove",
}
"""By the name of the grammar's rule."""


def _work_name(node: Node, kind: str = "WORK") -> str:
    word = node.text(kind).lower()
    return _WORKS.get(word, word)


def _is_round(node: Node) -> bool:
    return node.text("ROW").lower().startswith("round")


def _times(node: Node) -> int:
    return {"": 0, "once": 1, "twice": 2}[node.text("ONCE").lower()] or node.figures()[0]


def _extent(node: Node) -> Extent | None:
    """Give how far a stitch or group goes, or None where nothing is said."""
    times, extent = node.one("times"), node.one("extent")
    if times is not None:
        return Extent("times", _times(times))
    if extent is None:
        return None
    if extent.text("TO_END"):
        return _END
    if extent.text("TO_DOUBLE"):
        return Extent("double")
    number = next(iter(extent.figures()), 0)
    return Extent("marker" if not extent.text("STS") or extent.text("BEFORE") else "last", number)


def _works(node: Node | None) -> tuple[Work, ...]:
    found: list[Work] = []
    while node is not None:
        found.append(_work(node.trees[-1]))
        node = node.one("works")
    return tuple(found[::-1])


def _work(node: Node) -> Work:
    match node.data:
        case "stitches":
            return _stitches(node)
        case "group":
            return Group(_works(node.one("works")), _extent(node) or _END)
        case "star":
            extent = _extent(node) or _END
            if extent.far == "times":
                extent = Extent("times", extent.number + 1)
            return Group(_works(node.one("works")), extent)
        case kind:
            number = next(iter(node.figures()), 0)
            return Act(ACTS[kind], number, _work_name(node) or "k")


def _stitches(node: Node) -> Do:
    if node.text("SHAPED"):
        return Do(_work_name(node, "SHAPED"), _extent(node) or Extent("times", 1))
    figures = node.figures()
    return Do(_work_name(node), Extent("times", figures[0]) if figures else _extent(node) or _END)


def _counts(node: Node | None) -> tuple[int, ...]:
    counts = node.one("counts") if node is not None else None
    return tuple(counts.figures()) if counts is not None else ()


def _after(node: Node) -> tuple[int, ...]:
    return _counts(node.one("after"))


def _numbers(node: Node) -> tuple[int, ...]:
    numbers = node.one("numbers")
    if numbers is None:
        return ()
    span = numbers.one("span")
    if span is None:
        return tuple(numbers.figures())
    first, last = span.figures()
    return tuple(range(first, last + 1))


def _row(node: Node) -> HandLine:
    sides: dict[str, Side] = {"": "", "(RS)": "RS", "(WS)": "WS"}
    side = sides[node.text("SIDE").upper()]
    return HandRow(_numbers(node), _is_round(node), side, _works(node.one("works")), _after(node))


def _rows_in(node: Node) -> HandLine:
    kind = node.one("kind")
    if kind is None:
        name = {"k": "knit", "p": "purl"}.get(_work_name(node), "knit")
        return HandRows(node.figures()[0], _is_round(node), name, after=_after(node))
    rib = kind.text("RIB").split("x") if kind.text("RIB") else ("0", "0")
    name = (kind.text("STOCKINETTE") or kind.text("GARTER") or "rib").lower()
    return HandRows(node.figures()[0], _is_round(node), name, (int(rib[0]), int(rib[1])), _after(node))


def _again(node: Node) -> HandLine:
    numbers = _numbers(node)
    last = 0 if numbers else next(iter(node.figures()), 1)
    until, times = node.one("until"), node.one("times")
    if until is not None:
        return Again(numbers, last, 0, until.figures()[0], bool(until.text("ROW")), _after(node))
    assert times is not None
    return Again(numbers, last, _times(times), after=_after(node))


def _cast_on(node: Node) -> HandLine:
    total = next(iter(node.figures()), 0)
    return HandCastOn(_counts(node), node.text("NAME"), node.text("NEEDLE"), total, node.has("ring"))


def _put(node: Node) -> HandLine:
    return Between("put", next(iter(node.figures()), 0), node.text("WHICH").lower() or "all")


def _bind_off(node: Node) -> HandLine:
    number = next(iter(node.figures()), 0)
    return Between("bind", number, "last" if node.text("LAST") else "all")


def _waste_middle(node: Node) -> Between:
    last, first, back = node.figures()
    return Between("waste", other=last + first, back=back)


def _take_out(node: Node) -> HandLine:
    below, above = node.figures()
    return Between("open", below, other=above)


def _graft(node: Node) -> HandLine:
    number, other = node.figures()
    return Between("graft", number, other=other)


HAND_BUILDERS: dict[str, Callable[[Node], HandLine]] = {
    "row": _row,
    "even": lambda node: HandRows(node.figures()[0], _is_round(node), "even", after=_after(node)),
    "rows_in": _rows_in,
    "again": _again,
    "stated": lambda node: Told(_counts(node)),
    "cast_on": _cast_on,
    "join": lambda node: Between("join"),
    "back_and_forth": lambda node: Between("flat", node.figures()[0]),
    "start_here": lambda node: Between("start", node.figures()[0]),
    "put": _put,
    "waste_place": lambda node: Between("waste", node.figures()[0], other=node.figures()[1]),
    "waste_middle": _waste_middle,
    "take_up": lambda node: Between("take", node.figures()[0]),
    "take_out": _take_out,
    "pick_up": lambda node: Between("pick", node.figures()[0]),
    "bind_off": _bind_off,
    "draw": lambda node: Between("draw", next(iter(node.figures()), 0)),
    "graft": _graft,
}
"""By the name of the grammar's rule."""
