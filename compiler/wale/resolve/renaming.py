"""Lines of a construction with its own names put in the place of those that it was written with.

What is a name, and of what, is told by the shapes of the lines: a word of the language stays, whatever names there are.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from typing import Any, TypeVar

from msgspec import Struct, field
from msgspec.structs import replace

from wale.parse.tree import Binary, Block, Call, Equals, Item, Name, Negative, Number, Statement
from wale.resolve import joins, pieces, steps
from wale.resolve.shapes import Match, Shape, kind_of, match
from wale.source import Span

HEADS = {**pieces.HEAD, **joins.BAND_HEAD, "join": Shape({"join": ()})}
BODIES = {"piece": steps.LINES, "join": joins.JOIN_LINES, "band": joins.BAND_LINES}
"""The blocks that a construction may hold, beside `let` lines."""

_KINDS = {
    "YARN": "yarn",
    "SWATCH": "swatch",
    "MOTIF": "motif",
    "PIECE": "piece",
    **dict.fromkeys(("WIDTH", "LENGTH", "DEPTH", "VALUE"), "value"),
}
"""What the names in a slot are names of."""

Node = TypeVar("Node")


class Renames(Struct):
    """New names by kind and name in the construction; `used` are those that were met, `left` has all others."""

    names: dict[tuple[str, str], str]
    used: set[tuple[str, str]] = field(default_factory=set)
    left: dict[tuple[str, str], Span] = field(default_factory=dict)

    def block(self, block: Block) -> Block:
        """Give a block with new names."""
        kind = block.head.keyword.text
        body = tuple(self._statement(one, BODIES[kind], "") for one in block.body)
        return replace(block, head=self._statement(block.head, HEADS, kind), body=body)

    def let(self, statement: Statement) -> Statement:
        """Give a `let` line with new names; one that does not read as one stays as it is."""
        items = statement.items
        if len(items) < 2 or not isinstance(items[0], Name) or not isinstance(items[1], Equals):
            return statement
        return replace(statement, items=(*items[:2], *(self._item(one, "value") for one in items[2:])))

    def _statement(self, statement: Statement, shapes: dict[str, Shape], own: str) -> Statement:
        """Give a statement with new names; `own` is the kind of the slot `NAME` in its head."""
        shape = shapes.get(statement.keyword.text)
        if shape is None:
            return statement
        forms = shape.forms
        items = self._counted(statement.items)
        head, form = self._part(forms, (statement.keyword, *items), statement.span, own)
        listed = (shape.listed,) if shape.listed else ()
        further = (*forms.get(form, ()), *listed)
        options = tuple(
            self._part(further, self._counted(self._ribbed(part)), statement.span, "")[0] for part in statement.options
        )
        return replace(statement, items=head[1:], options=options)

    def _ribbed(self, items: tuple[Item, ...]) -> tuple[Item, ...]:
        """Give an option with the rib in its place, where it is the name of one alone."""
        match items:
            case (Name(text) as item,) if ("rib", text) in self.names:
                return (replace(item, text=self._name(text, "rib")),)
            case _:
                return items

    def _counted(self, items: tuple[Item, ...]) -> tuple[Item, ...]:
        """Give a part of a line with numbers in the place of names of counts, the unit behind one being its own."""
        found: list[Item] = []
        for index, item in enumerate(items):
            if index and isinstance(item, Name) and isinstance(number := found[-1], Number) and number.unit is None:
                found[-1] = replace(number, unit=item.text, span=number.span.to(item.span), unit_span=item.span)
            elif isinstance(item, Name) and ("count", item.text) in self.names:
                found.append(Number(Fraction(self._name(item.text, "count")), None, item.span))
            else:
                found.append(item)
        return tuple(found)

    def _part(self, forms: Iterable[str], items: Sequence[Item], place: Span, own: str) -> tuple[tuple[Item, ...], str]:
        """Give the items of one part, and the form that they have, "" where they have none."""
        for form in forms:
            found = match(form, items, place)
            if isinstance(found, Match):
                kinds = {**_KINDS, "NAME": own}
                by_start = {
                    item.span.start: kinds.get(kind_of(slot), "") for slot, run in found.found.items() for item in run
                }
                return tuple(self._item(item, by_start.get(item.span.start, "")) for item in items), form
        return tuple(items), ""

    def _item(self, item: Item, kind: str) -> Item:
        """Give an item of a slot with new names; the slot's names are of a kind, "" for none."""
        match item:
            case Name(text) if kind:
                if (kind, text) not in self.names:
                    self.left.setdefault((kind, text), item.span)
                return replace(item, text=self._name(text, kind))
            case Binary(_, left, right) if kind == "value":
                return replace(item, left=self._item(left, kind), right=self._item(right, kind))
            case Negative(operand) if kind == "value":
                return replace(item, operand=self._item(operand, kind))
            case Call(_, arguments) if kind == "value":
                return replace(item, arguments=tuple(self._item(one, kind) for one in arguments))
            case _:
                return item

    def _name(self, text: str, kind: str) -> str:
        owner, dot, level = text.partition(".")
        if kind == "value" and dot:
            return f"{self._name(owner, 'piece')}.{level}"
        if (kind, text) in self.names:
            self.used.add((kind, text))
        return self.names.get((kind, text), text)


def placed(node: Node, made_at: Span) -> Node:
    """Give a node of the tree whose places know the `make` line that it is read for."""
    found: Any = node
    if isinstance(found, Span):
        found = replace(found, made_at=(made_at,))
    elif isinstance(found, tuple):
        found = tuple(placed(one, made_at) for one in found)
    elif isinstance(found, Struct):
        values = (getattr(found, name) for name in found.__struct_fields__)
        found = type(found)(*(placed(value, made_at) for value in values))
    return found  # type: ignore[no-any-return]
