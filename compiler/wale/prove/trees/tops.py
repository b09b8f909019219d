"""Lines of necks and shoulders."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal

from wale.prove import words
from wale.prove.trees.node import Node, needed_fabric_of, pairs_of, schedule_of
from wale.prove.words import Side


def _top(node: Node) -> words.Top:
    chart_row = node.one("at_chart_row")
    return words.Top(
        chart_row.figures()[0] if chart_row is not None else 0, needed_fabric_of(node), node.has("one_shoulder")
    )


def _half_neck(node: Node) -> words.HalfNeck:
    off = node.one("run_sts")
    assert off is not None
    return words.HalfNeck(node.figures()[0], node.side(), off.figures()[0], _neck_edge(node))


def _neck_edge(node: Node) -> words.NeckEdge | None:
    edge = node.one("neck_edge")
    if edge is None:
        return None
    decrease, figures = edge.text("SHAPED"), edge.figures()
    if not decrease:
        return words.NeckEdge(edge.side(), figures[0], pairs_of(edge, "run"))
    return words.NeckEdge(edge.side(), figures[1], pairs_of(edge, "every"), decrease, figures[0])


def _half_steps(node: Node) -> words.HalfShoulder:
    first = node.one("run_sts")
    assert first is not None
    more = pairs_of(node, "more_steps")
    return words.HalfShoulder(False, node.figures()[0], node.side(), first.figures()[0], more)


def _turns(node: Node) -> words.ShoulderRows:
    *_, first = node.figures()
    return words.ShoulderRows(True, *_shoulders(node), first, pairs_of(node, "more_turns"))


def _shoulders(node: Node) -> tuple[int, Side, int, Side]:
    """Give row and side at the right shoulder, then at the left, whichever is told first; row 0 where one is not."""
    told = dict(zip(node.all("HAND"), zip(node.figures(), node.sides(), strict=False), strict=False))
    return (*told.get("right", (0, "")), *told.get("left", (0, "")))


def _steps(node: Node) -> words.ShoulderRows:
    first = node.one("run_sts")
    assert first is not None
    more = pairs_of(node, "more_steps")
    return words.ShoulderRows(False, *_shoulders(node), first.figures()[0], more)


def _neck_row(node: Node) -> words.NeckRow:
    told = node.one("counted") or node.one("after_step")
    row, *work, off = node.figures()
    work = told.figures() if told is not None else work
    counted = node.one("counted")
    needle = _hand(counted.text("HAND")) if counted is not None else ""
    bind, start, end = node.one("neck_bind"), node.one("neck_start"), node.one("neck_end")
    first = bind.one("run_sts") if bind is not None else None
    return words.NeckRow(
        node.side(),
        row,
        work[0],
        off,
        needle,
        node.has("after_step"),
        node.has("to_turn"),
        first.figures()[0] if first is not None else 0,
        _side_decrease(start, "RS", starts=True) if start is not None else None,
        _side_decrease(end, "RS", starts=False) if end is not None else None,
        end.figures()[0] if end is not None else 0,
    )


def _side_decrease(node: Node, side: Side, *, starts: bool) -> words.SideDecrease:
    edge = node.one("edge_sts") or node.one("last_sts")
    inner = node.one("at_start") or node.one("at_end") or node
    stitches, is_band = (0, False) if edge is None else (edge.figures()[0], edge.text("BESIDE") == "band")
    return words.SideDecrease(side, starts, inner.text("SHAPED"), stitches, is_band)


def _side_edge(node: Node) -> words.SideEdge:
    name = node.text("SIDE_EDGE").split()[0].lower()
    works = tuple(_side_work(tree) for tree in node.within("side_bind", "side_shaping", "side_mark"))
    return words.SideEdge(_hand(name) if name != "side" else "", works)


def _side_work(node: Node) -> words.SideWork:
    if node.data == "side_mark":
        return words.SideWork((node.figures()[0],), mark=node.text("NAME"))
    if node.data == "side_bind":
        off = node.one("run_sts")
        assert off is not None
        return words.SideWork((node.figures()[0],), node.side(), off.figures()[0])
    told = tuple(
        _side_decrease(tree, tree.side(), starts=tree.data == "side_start")
        for tree in node.within("side_start", "side_end")
    )
    return words.SideWork(schedule_of(node, node.figures()[0]).rows(), decreases=told)


def _hand(text: str) -> Literal["left", "right"]:
    return "left" if text == "left" else "right"


def _neck_side(node: Node) -> words.NeckSide:
    row = next(iter(node.figures()), 0)
    name = _hand(node.text("NECK_SIDE").split()[0].lower())
    return words.NeckSide(name, row, node.side(), _neck_edge(node))


BUILDERS: dict[str, Callable[[Node], Any]] = {
    "top": _top,
    "turns": _turns,
    "steps": _steps,
    "half_neck": _half_neck,
    "half_turns": lambda node: words.HalfShoulder(
        True, node.figures()[0], node.side(), node.figures()[1], pairs_of(node, "more_turns")
    ),
    "half_steps": _half_steps,
    "before": lambda node: words.Before(node.figures()[0]),
    "neck_row": _neck_row,
    "first_side": _neck_side,
    "second_side": _neck_side,
    "side_edge": _side_edge,
    "close": lambda node: words.Close(node.figures()[0], node.side(), node.figures()[1]),
    "hold": lambda node: words.Hold(*node.figures()),
}
"""By the name of the grammar's rule."""
