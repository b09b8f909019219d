"""Lines of crowns."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from wale.prove import words
from wale.prove.trees.node import Node, fabric_of, schedule_of


def _wedges(node: Node) -> words.Wedges:
    columns = node.one("wedge_columns")
    count, stitches = node.figures()
    return words.Wedges(count, stitches, tuple(columns.figures()) if columns is not None else ())


def _decrease_round(node: Node) -> words.DecreaseRound:
    count, change = node.figures()
    more = node.text("DIFFERENCE") == "more"
    return words.DecreaseRound(count, node.text("INSIDE"), node.text("SHAPED"), change, more)


def _crown(node: Node) -> words.Crown:
    first, rounds, after = node.figures()
    return words.Crown(schedule_of(node, first), fabric_of(node), rounds, after)


BUILDERS: dict[str, Callable[[Node], Any]] = {
    "crown_plain": lambda node: words.CrownPlain(node.text("NAME")),
    "crown_chart": lambda node: words.CrownChart(node.text("NAME")),
    "wedges": _wedges,
    "decrease_round": _decrease_round,
    "crown": _crown,
    "draw": lambda node: words.Draw(node.figures()[0]),
}
"""By the name of the grammar's rule."""
