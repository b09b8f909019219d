"""Lines of the fabric and its shaping, and the rows of a chart."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from wale.prove import words
from wale.prove.trees.node import Node, needed_fabric_of, schedule_of, stitches_of


def _shaping_row(node: Node) -> words.ShapingRow:
    beside = node.one("edge_sts"), node.one("last_sts")
    edges = [tree.figures()[0] if tree is not None else 0 for tree in beside]
    first, last = (tree is not None and tree.text("BESIDE") == "band" for tree in beside)
    start, end = (
        tree.text("SHAPED") if tree is not None else "" for tree in (node.one("at_start"), node.one("at_end"))
    )
    rest = node.one("to_last")
    return words.ShapingRow(
        node.text("GROWTH") == "Each increase",
        node.side(),
        (edges[0], edges[1]),
        start,
        node.text("INSIDE"),
        next(iter(rest.figures()), None) if rest is not None else None,
        end,
        node.figures()[0],
        node.text("DIFFERENCE") == "more",
        (first, last),
    )


def _edge_and_band(node: Node) -> words.Edge:
    side = node.one("beside_band")
    return words.Edge(side.figures()[0] if side is not None else 0, node.text("NAME"), node.figures()[0])


def _inset(node: Node) -> words.Inset:
    row, live = node.figures()
    slots = tuple((first, last) for first, last in (tree.figures() for tree in node.within("slot")))
    return words.Inset(row, node.side(), slots, live, node.text("NAME"))


def _front_band(node: Node) -> words.FrontBand:
    first, second = node.all("ROW_END")
    counts, texture = node.figures(), node.text("BAND_TEXTURE")
    right, wrong = (next(node.within(name)).one("stitches") for name in ("on_rs", "on_ws"))
    return words.FrontBand((first, second), (counts[0], counts[1]), texture, stitches_of(right), stitches_of(wrong))


def _band_holes(node: Node) -> words.BandHoles:
    first, *told = node.figures()
    return words.BandHoles(schedule_of(node, first), *told)


def _shaping(node: Node) -> words.Shaping:
    first, rows, after = node.figures()
    grows = node.text("CHANGE") == "increase"
    return words.Shaping(grows, schedule_of(node, first), needed_fabric_of(node), rows, after)


def _bind_row(node: Node) -> words.BindRow:
    count, after = node.figures()
    where = node.one("at_chart_row")
    return words.BindRow(node.side(), count, node.text("INSIDE"), where.figures()[0] if where is not None else 0, after)


def _stripes(node: Node) -> tuple[str, ...]:
    stripes = node.one("stripes")
    return tuple(stripes.all("NAME")) if stripes is not None else ()


def _begin_rows(node: Node) -> words.BeginChart:
    row, right, wrong, width = node.figures()
    return words.BeginChart(node.text("NAME"), node.side(), row, right, wrong, width, _of_yarn(node))


def _begin_rounds(node: Node) -> words.BeginChart:
    row, right, width = node.figures()
    return words.BeginChart(node.text("NAME"), "", row, right, 0, width, _of_yarn(node))


def _of_yarn(node: Node) -> str:
    yarn = node.one("of_yarn")
    return yarn.text("NAME") if yarn is not None else ""


def _cell(node: Node) -> tuple[int, str]:
    """Give how many cells, and of what: a yarn, or a texture's stitch as it is worked; a cable's all, or those told."""
    figure = next(iter(node.figures()), 1)
    if node.text("CABLE"):
        part = node.one("cable_part")
        return part.figures()[0] if part is not None else figure, f"cable {figure} {node.text('HAND')}"
    return figure, node.text("NAME") or node.text("WORK") or node.text("SLIP") or node.text("SHAPED")


def _chart_row(node: Node) -> words.ChartRow:
    cells, same = node.one("cells"), node.one("as_row")
    assert cells is not None
    stretches, has_yarns = [], False
    for part in cells.trees:
        times = part.figures()[0] if part.data == "cells_again" else 1
        cell = [part] if part.data == "cell" else [*part.within("cell")]
        has_yarns = has_yarns or any(one.text("NAME") for one in cell)
        stretches.append((tuple(map(_cell, cell)), times))
    told = same.figures() if same is not None else []
    like, begun = told[0] if told else None, told[1] if len(told) > 1 else 0
    return words.ChartRow(node.figures()[0], node.side(), tuple(stretches), like, begun, not has_yarns)


BUILDERS: dict[str, Callable[[Node], Any]] = {
    "hem_join": lambda node: words.HemJoin(node.figures()[0], node.side()),
    "mark_row": lambda node: words.Mark(node.text("NAME"), False),
    "mark_round": lambda node: words.Mark(node.text("NAME"), True),
    "border": lambda node: words.Border(node.figures()[0]),
    "begin_rows": _begin_rows,
    "begin_rounds": _begin_rounds,
    "plain": lambda node: words.Plain(needed_fabric_of(node)),
    "edge": lambda node: words.Edge(node.figures()[0], node.text("NAME")),
    "edge_and_band": _edge_and_band,
    "front_band": _front_band,
    "band_holes": _band_holes,
    "steek": lambda node: words.Steek(node.figures()[0], node.figures()[1], _stripes(node)),
    "work": lambda node: words.Work(node.figures()[0], node.text("ROWS").startswith("round"), needed_fabric_of(node)),
    "shaping_row": _shaping_row,
    "shaping": _shaping,
    "bind_row": _bind_row,
    "inset": _inset,
    "chart_row": _chart_row,
}
"""By the name of the grammar's rule."""
