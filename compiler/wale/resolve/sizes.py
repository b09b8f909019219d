"""The `sizes` block and `body` blocks: bare measures and ease for every size.

`sizes women XS S M` takes a published table; `sizes small large` with `measure` lines is a table of the file's own.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TYPE_CHECKING

from wale.parse.tree import Block, Text
from wale.resolve.context import Context
from wale.resolve.shapes import Shape
from wale.resolve.size_names import checked_names, names_of, table_named
from wale.resolve.size_tables import table_of_file
from wale.resolve.size_values import (
    Sizing,
    are_eases_known,
    eases_of,
    measures_of,
    never_shrinks,
    only_numbers,
    value_places,
)
from wale.resolve.values import Scope
from wale.sizes import SizeTable
from wale.source import Span
from wale.spec import BodyMeasure, Size

if TYPE_CHECKING:
    from wale.resolve.imports import Load

SIZES_HEAD = {"sizes": Shape({"sizes from TEXT SIZE…": (), "sizes from TEXT": (), "sizes SIZE…": ()})}
BODY_HEAD = {"body": Shape({"body NAME": ()})}
LINES = {
    "measure": Shape({"measure MEASURE VALUE": ()}, once=False),
    "ease": Shape({"ease MEASURE VALUE": ()}, listed="MEASURE VALUE", once=False),
}


def read_sizes(context: Context, block: Block | None, bodies: Mapping[str, Block], load: Load) -> Sizing:
    """Read the `sizes` block, the file that it names, and every `body` block."""
    sizing = Sizing()
    if block is not None:
        sizing.head = block.head.span
        _read_block(context, block, sizing, load)
    for name, body in bodies.items():
        _read_body(context, name, body, sizing)
    if any(size.name == body.name for size in sizing.sizes for body in sizing.bodies):
        twin = next(body for body in sizing.bodies if body.name in [size.name for size in sizing.sizes])
        context.report("E207", f"`{twin.name}` is a size and a body", twin.span, "the body", "Rename the body.")
        sizing.sound = False
    sizing.sound = sizing.sound and bool(sizing.all)
    return sizing


def _read_block(context: Context, block: Block, sizing: Sizing, load: Load) -> None:
    head = context.read(block.head, SIZES_HEAD, "a file")
    lines, sound = context.read_body(block, LINES, "a `sizes` block")
    if head is None:
        sizing.sound = False
        return
    table: SizeTable | None
    places: Mapping[tuple[str, str], Span] = {}
    if "TEXT" in head.head.found:
        text = head.head.found["TEXT"][0]
        assert isinstance(text, Text)
        found = table_of_file(context, text, load)
        if found is None:
            sizing.sound = False
            return
        table, places = found.table, found.places
        sizing.file = table.source
        named = names_of(context, head.head) or [(name, text.span) for name in table.names]
    else:
        table, named = table_named(context, names_of(context, head.head), bool(lines.get("measure")))
    sizing.group, sizing.users = (table.group, table.users) if table else ("", "adults")
    names = checked_names(context, named, table, block)
    if names is None:
        sizing.sound = False
        return
    bare: list[dict[str, BodyMeasure]] = [_published(table, name, places) for name in names]
    scope = Scope(context, len(names), tuple(names), only_numbers(context))
    stated = measures_of(context, lines.get("measure", ()), scope)
    eases = eases_of(context, lines.get("ease", ()), scope, sizing)
    if stated is None or eases is None or not sound:
        sizing.sound = False
        return
    for measure, (values, span) in stated.items():
        for known, value in zip(bare, values, strict=True):
            known[measure] = BodyMeasure(value, "given in the file", "given", span)
    by_ease = value_places(lines.get("ease", ()))
    sizing.sizes = [
        Size(name, known, {measure: values[index] for measure, (values, _) in eases.items()}, place, ease_spans=by_ease)
        for index, (name, known, place) in enumerate(zip(names, bare, names.values(), strict=True))
    ]
    sizing.uneven = {measure for measure, (values, _) in eases.items() if len(set(values)) > 1}
    sizing.ease_line = lines["ease"][0].span if "ease" in lines else None
    of_file = {measure: span for (_, measure), span in places.items()}
    sound = never_shrinks(context, sizing, {**of_file, **{measure: span for measure, (_, span) in stated.items()}}, "")
    sizing.sound = are_eases_known(context, eases, sizing.sizes, sizing) and sound
    if sizing.sound and eases:
        never_shrinks(context, sizing, {measure: span for measure, (_, span) in eases.items()}, "finished ")


def _published(table: SizeTable | None, name: str, places: Mapping[tuple[str, str], Span]) -> dict[str, BodyMeasure]:
    body = table.size(name) if table else None
    if body is None:
        return {}
    return {
        key: BodyMeasure(one.value_cm, one.source, one.confidence, places.get((body.name, key)))
        for key, one in body.measures.items()
    }


def _read_body(context: Context, name: str, block: Block, sizing: Sizing) -> None:
    """Read a made-to-measure body; it inherits an ease that is the same in all sizes."""
    lines, sound = context.read_body(block, LINES, "a `body` block")
    scope = Scope(context, 1, (name,), only_numbers(context))
    stated = measures_of(context, lines.get("measure", ()), scope)
    own = eases_of(context, lines.get("ease", ()), scope, sizing)
    if stated is None or own is None or not sound:
        sizing.sound = False
        return
    if not stated:
        context.missing(block, "a `measure` line", "measure bust 97 cm")
        sizing.sound = False
        return
    measures = {
        key: BodyMeasure(values[0], "given in the file", "given", span) for key, (values, span) in stated.items()
    }
    inherited = sizing.sizes[0].ease if sizing.sizes else {}
    ease = {measure: value for measure, value in inherited.items() if measure not in sizing.uneven}
    ease |= {measure: values[0] for measure, (values, _) in own.items()}
    places = {**(sizing.sizes[0].ease_spans if sizing.sizes else {}), **value_places(lines.get("ease", ()))}
    body = Size(name, measures, ease, block.head.span, made_to_measure=True, ease_spans=places)
    if are_eases_known(context, own, [body], sizing):
        sizing.bodies.append(body)
    else:
        sizing.sound = False
