"""A tree as one size sees it, and what lines of several kinds are made of."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING

from wale.prove import words
from wale.prove.words import Side, Stitches

if TYPE_CHECKING:
    from lark import Token, Tree


class Node:
    """A tree seen by one size: figures give that size's number."""

    __slots__ = ("_size", "_tokens", "data", "trees")

    def __init__(self, tree: Tree[Token], size: int) -> None:
        self._size = size
        self.data = str(tree.data)
        self._tokens = [child for child in tree.children if isinstance(child, str)]
        self.trees = [Node(child, size) for child in tree.children if not isinstance(child, str)]

    def figures(self) -> list[int]:
        """Give all figures of the node itself, once and twice among them."""
        return [self._number(token) for token in self._tokens if token.type in ("FIGURE", "ORDINAL", "ONCE")]

    def _number(self, token: str) -> int:
        if token in ("once", "twice"):
            return 1 if token == "once" else 2
        first, _, rest = token.partition(" (")
        text = first if not rest or not self._size else rest.rstrip(")").split(", ")[self._size - 1]
        return int(text.rstrip("stndrh"))

    def all(self, kind: str) -> list[str]:
        """Give the texts of all tokens of a kind."""
        return [str(token) for token in self._tokens if token.type == kind]

    def text(self, kind: str) -> str:
        """Give the text of the first token of a kind, or "" for none."""
        return next(iter(self.all(kind)), "")

    def sides(self) -> list[Side]:
        """Give the sides named, in order."""
        names: dict[str, Side] = {"(RS)": "RS", "(WS)": "WS", "RS": "RS", "WS": "WS"}
        return [names[token] for token in self._tokens if token.type in ("SIDE", "RS_OR_WS")]

    def side(self) -> Side:
        """Give the first side named, or "" for none."""
        return next(iter(self.sides()), "")

    def within(self, *kinds: str) -> Iterator[Node]:
        """Give the subtrees of some kinds in order."""
        return (tree for tree in self.trees if tree.data in kinds)

    def one(self, kind: str) -> Node | None:
        """Give the first subtree of a kind, or None."""
        return next(self.within(kind), None)

    def has(self, kind: str) -> bool:
        """Say whether there is a subtree of a kind."""
        return self.one(kind) is not None


def stitches_of(node: Node | None) -> Stitches:
    """Give the stitches that are told one after the other."""
    assert node is not None
    found: list[words.Stitch | words.Repeat] = []
    for tree in node.trees:
        if tree.data == "repeat":
            found.append(words.Repeat(stitches_of(tree.one("stitches")), tree.figures()[0]))
        elif tree.text("WORK"):
            work = f"{tree.text('WORK')} {tree.text('LOOP')}".rstrip()
            found.append(words.Stitch(work, tree.figures()[0], tree.text("NAME")))
        elif tree.text("SLIP"):
            found.append(words.Stitch("sl", tree.figures()[0]))
        else:
            shaped = words.Stitch(tree.text("SHAPED"), 1)
            times = next(iter(tree.figures()), 1)
            found.append(shaped if times == 1 else words.Repeat((shaped,), times))
    return tuple(found)


def fabric_of(node: Node) -> words.Fabric | None:
    """Give what rows are worked in, or None where the line does not say it."""
    for tree in node.within("chart_fabric", "plain_fabric"):
        if tree.data == "chart_fabric":
            return words.Fabric(tree.text("NAME"), spans_of(tree.one("chart_rows")))
        return words.Fabric(stitch=tree.text("STITCH"), yarn=tree.text("NAME"))
    return None


def spans_of(node: Node | None) -> tuple[tuple[int, int, int], ...]:
    """Give the chart rows that the line tells."""
    if node is None:
        return ()
    found = [(node.figures()[0], node.figures()[0], 0)] if node.figures() else []
    for tree in node.within("span", "all_rows", "whole_chart"):
        first, *last = tree.figures()
        found.append((first, (last or [first])[0], 0) if tree.data == "span" else (0, 0, first))
    return tuple(found)


def needed_fabric_of(node: Node) -> words.Fabric:
    """Give what rows are worked in, which the line says."""
    fabric = fabric_of(node)
    assert fabric is not None
    return fabric


def schedule_of(node: Node, first: int) -> words.Schedule:
    """Give the rows of a shaping, the first one named."""
    then = []
    for tree in node.within("every", "every_round"):
        figures = tree.figures()
        then.append((1, figures[0]) if tree.data == "every_round" else (figures[0], figures[1]))
    return words.Schedule(first, tuple(then))


def pairs_of(node: Node, kind: str) -> tuple[tuple[int, int], ...]:
    """Give both figures of each part of a kind."""
    return tuple((figures[0], figures[1]) for figures in (tree.figures() for tree in node.within(kind)))


def yarn_of(node: Node) -> str:
    """Give the yarn that the line names, or "" for none."""
    yarn = node.one("in_yarn")
    return yarn.text("NAME") if yarn is not None else ""
