"""Lines where stitches come and go."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from wale.prove import words
from wale.prove.trees.node import Node, stitches_of, yarn_of


def _cast_on(node: Node) -> words.CastOn:
    manner = node.one("manner")
    words_of_manner = manner.text("NAME") if manner is not None else ""
    return words.CastOn(node.figures()[0], node.text("NAME"), node.text("NEEDLE"), words_of_manner, node.has("join"))


def _cord(node: Node) -> words.Cord:
    cord, count, slipped, times, last = node.figures()
    return words.Cord(yarn_of(node), cord, count, stitches_of(node.one("stitches")), slipped, times, last)


def _pick_up(node: Node) -> words.PickUp:
    picked = tuple((tree.figures()[0], tree.text("PLACE")) for tree in node.within("pick"))
    return words.PickUp(node.text("NEEDLE"), node.text("NAME"), picked, node.figures()[0], node.has("joined"))


def _keep(node: Node) -> words.Keep:
    return words.Keep(tuple((tree.figures()[0], bool(tree.text("UNDERARM"))) for tree in node.within("kept")))


def _gather(node: Node) -> words.Gather:
    taken = tuple((tree.figures()[0], tree.text("NAME")) for tree in node.within("taken"))
    return words.Gather(node.text("NEEDLE"), node.text("NAME"), taken, node.figures()[0])


BUILDERS: dict[str, Callable[[Node], Any]] = {
    "cast_on": _cast_on,
    "needles": lambda node: words.Needles(node.text("NEEDLE")),
    "bind_off": lambda node: words.BindOff(node.figures()[0], node.text("WORDS").strip()),
    "cord": _cord,
    "pick_up": _pick_up,
    "keep": _keep,
    "gather": _gather,
    "refer": lambda node: words.Refer(node.figures()[0], node.text("NAME"), node.figures()[1]),
}
"""By the name of the grammar's rule."""
