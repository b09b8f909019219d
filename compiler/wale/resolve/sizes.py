"""The `sizes` block and `body` blocks: bare measures and ease for every size.

`sizes women XS S M` takes a published table; `sizes small large` with `measure` lines is a table of the file's own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction
from typing import TYPE_CHECKING

from msgspec import Struct, field

from wale.measure import Constant
from wale.parse.tree import Block, Item, Name, Number, Ratio, Text
from wale.problems.problem import Edit, Fix
from wale.resolve.context import Context, near_word
from wale.resolve.shapes import Line, Match, Shape
from wale.resolve.size_tables import table_of_file
from wale.resolve.values import Scope, Value, told_length
from wale.sizes import GROUPS, SizeTable, Users, group, measure_name
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
MOST_SIZES = 40
_UNSTATED = Span("", 0, 0)


class Sizing(Struct):
    """Sizes and bodies, and what later lines need to know of them.

    Attributes:
        group, file: the published table, and the file with a table, that the sizes come from; "" for none.
        ease_places: span of each `ease` part by measure, of the sizes and of bodies.
        sound: whether everything could be read; where not, measures are poison.
        uneven: measures whose ease differs between the sizes, so that a body can't inherit it.
    """

    group: str = ""
    file: str = ""
    users: Users = "adults"
    sizes: list[Size] = field(default_factory=list)
    bodies: list[Size] = field(default_factory=list)
    ease_places: dict[str, list[Span]] = field(default_factory=dict)
    ease_line: Span | None = None
    head: Span = _UNSTATED
    sound: bool = True
    uneven: set[str] = field(default_factory=set)

    @property
    def all(self) -> tuple[Size, ...]:
        """Sizes, then made-to-measure bodies."""
        return (*self.sizes, *self.bodies)

    def knows(self, measure: str) -> bool:
        """Say whether any size states a measure."""
        return any(measure in size.measures for size in self.all)


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
        named = _names(context, head.head) or [(name, text.span) for name in table.names]
    else:
        table, named = _table(context, _names(context, head.head), bool(lines.get("measure")))
    sizing.group, sizing.users = (table.group, table.users) if table else ("", "adults")
    names = _checked_names(context, named, table, block)
    if names is None:
        sizing.sound = False
        return
    bare: list[dict[str, BodyMeasure]] = [_published(table, name, places) for name in names]
    scope = Scope(context, len(names), tuple(names), _only_numbers(context))
    stated = _measures(context, lines.get("measure", ()), scope)
    eases = _eases(context, lines.get("ease", ()), scope, sizing)
    if stated is None or eases is None or not sound:
        sizing.sound = False
        return
    for measure, (values, span) in stated.items():
        for known, value in zip(bare, values, strict=True):
            known[measure] = BodyMeasure(value, "given in the file", "given", span)
    by_ease = _value_places(lines.get("ease", ()))
    sizing.sizes = [
        Size(name, known, {measure: values[index] for measure, (values, _) in eases.items()}, place, ease_spans=by_ease)
        for index, (name, known, place) in enumerate(zip(names, bare, names.values(), strict=True))
    ]
    sizing.uneven = {measure for measure, (values, _) in eases.items() if len(set(values)) > 1}
    sizing.ease_line = lines["ease"][0].span if "ease" in lines else None
    of_file = {measure: span for (_, measure), span in places.items()}
    sound = _grows(context, sizing, {**of_file, **{measure: span for measure, (_, span) in stated.items()}}, "")
    sizing.sound = _known_eases(context, eases, sizing.sizes, sizing) and sound
    if sizing.sound and eases:
        _grows(context, sizing, {measure: span for measure, (_, span) in eases.items()}, "finished ")


def _names(context: Context, match: Match) -> list[tuple[str, Span]]:
    return [(_size_name(context, item), item.span) for item in match.found.get("SIZE", ())]


def _size_name(context: Context, item: Item) -> str:
    if isinstance(item, Name):
        return item.text
    assert isinstance(item, Number | Ratio)
    return context.cut(item.span)


def _table(
    context: Context, named: list[tuple[str, Span]], own: bool
) -> tuple[SizeTable | None, list[tuple[str, Span]]]:
    first, place = named[0]
    if first in GROUPS:
        return group(first), named[1:]
    near = near_word(first, GROUPS)
    if near and not own and len(named) > 1:
        context.report(
            "E216",
            f"there is no table of sizes for `{first}`",
            place,
            f"did you mean `{near}`?",
            f"Tables: {', '.join(GROUPS)}.",
            fixes=[Fix(f"write `{near}`", (Edit(place, near),))],
        )
        return group(near), named[1:]
    return None, named


def _checked_names(
    context: Context, named: list[tuple[str, Span]], table: SizeTable | None, block: Block
) -> dict[str, Span] | None:
    """Give the size names in order; unknown, doubled or disordered ones are reported."""
    if not named:
        context.report(
            "E206",
            "no size is named",
            block.head.span,
            "only the table",
            f"Name its sizes, such as `sizes {table.group} {' '.join(table.names[:3])}`." if table else "",
        )
        return None
    if len(named) > MOST_SIZES:
        context.report(
            "E223",
            f"{len(named)} sizes are more than {MOST_SIZES}",
            block.head.span,
            "too many sizes",
            "Split the pattern.",
        )
        return None
    found: dict[str, Span] = {}
    places: dict[str, Span] = {}
    last = -1
    sound = True
    for name, span in named:
        body = table.size(name) if table else None
        if table and body is None:
            sound = False
            near = near_word(name, table.names)
            context.report(
                "E216",
                f"{_called(table)} has no size `{name}`",
                span,
                f"did you mean `{near}`?" if near else "unknown size",
                f"Its sizes: {', '.join(table.names)}. {table.left_out}".strip(),
                fixes=[Fix(f"write `{near}`", (Edit(span, near),))] if near else [],
            )
            continue
        key = body.name if body else name
        if key in places:
            sound = False
            context.report(
                "E207",
                f"the size `{name}` stands twice",
                span,
                "the second one",
                "Leave one of them out.",
                also=[(places[key], "the first one")],
            )
            continue
        index = table.names.index(key) if table else last + 1
        if index < last:
            sound = False
            context.report(
                "E226",
                f"`{name}` is smaller than the size before it",
                span,
                "sizes go from small to large",
                f"Write them in the order of the table: {', '.join(table.names) if table else ''}.",
            )
        last = max(last, index)
        found[name] = places[key] = span
    return found if sound else None


def _called(table: SizeTable) -> str:
    return f"the table for {table.group}" if table.group else f'the table "{table.source}"'


def _published(table: SizeTable | None, name: str, places: Mapping[tuple[str, str], Span]) -> dict[str, BodyMeasure]:
    body = table.size(name) if table else None
    if body is None:
        return {}
    return {
        key: BodyMeasure(one.value_cm, one.source, one.confidence, places.get((body.name, key)))
        for key, one in body.measures.items()
    }


def _only_numbers(context: Context) -> Callable[[Name], Value | None]:
    def lookup(name: Name) -> Value | None:
        context.report(
            "E210",
            f"`{name.text}` cannot be used here: body measures and ease are plain numbers",
            name.span,
            "a name",
            "Write a length, such as `14 cm`.",
        )
        return None

    return lookup


def _measures(
    context: Context, lines: Sequence[Line], scope: Scope
) -> dict[str, tuple[tuple[Fraction, ...], Span]] | None:
    return _values(context, [(line.head, line.span) for line in lines], scope, "above zero", "measure")


def _eases(
    context: Context, lines: Sequence[Line], scope: Scope, sizing: Sizing
) -> dict[str, tuple[tuple[Fraction, ...], Span]] | None:
    parts = [(match, match.span) for line in lines for match in (line.head, *line.listed)]
    found = _values(context, parts, scope, "any", "ease")
    for measure, (_, span) in (found or {}).items():
        sizing.ease_places.setdefault(measure, []).append(span)
    return found


def _value_places(lines: Sequence[Line]) -> dict[str, Span]:
    """Give the place of each ease's value."""
    matches = [match for line in lines for match in (line.head, *line.listed)]
    names = [match.name("MEASURE").text for match in matches]
    return {measure_name(name) or name: one.value("VALUE").span for name, one in zip(names, matches, strict=True)}


def _values(
    context: Context, parts: Sequence[tuple[Match, Span]], scope: Scope, least: str, what: str
) -> dict[str, tuple[tuple[Fraction, ...], Span]] | None:
    found: dict[str, tuple[tuple[Fraction, ...], Span]] = {}
    sound = True
    for match, span in parts:
        name = match.name("MEASURE")
        key = measure_name(name.text) or name.text
        if "." in key:
            context.report("E210", f"`{key}` is no measure's name", name.span, "has a dot", "Name a body measure.")
            sound = False
            continue
        if key in found:
            context.report(
                "E205",
                f"the {what} of `{key}` stands twice",
                span,
                "the second one",
                "Leave one of them out.",
                also=[(found[key][1], "the first one")],
            )
            sound = False
            continue
        value = scope.measure(match.value("VALUE"), "length", least="any" if least == "any" else "above zero")
        if value is None or not isinstance(value.term, Constant):
            sound = False
            continue
        found[key] = (value.term.values, span)
    return found if sound else None


def _known_eases(
    context: Context, eases: Mapping[str, tuple[tuple[Fraction, ...], Span]], sizes: Sequence[Size], sizing: Sizing
) -> bool:
    known = dict.fromkeys(measure for size in sizes for measure in size.measures)
    sound = True
    for measure, (_, span) in eases.items():
        if measure not in known and not context.is_lost(measure):
            sound = False
            if measure_name(measure) is not None:
                report_absent(context, sizing.group, sizes, measure, span)
                continue
            near = near_word(measure, known)
            context.report(
                "E210",
                f"there is an ease for `{measure}`, but no such body measure",
                span,
                f"did you mean `{near}`?" if near else "no such measure",
                f"Body measures here: {', '.join(known) or 'none'}.",
            )
    return sound


def report_absent(context: Context, table: str, sizes: Sequence[Size], measure: str, span: Span) -> None:
    """Report a body measure that is known in general, and that some sizes or bodies lack.

    Args:
        table: the group of the size table, "" for none.
        sizes: those that lack it, sizes first.
    """
    block = "body" if sizes[0].made_to_measure else "sizes"
    many = len([size for size in sizes if not size.made_to_measure]) > 1
    example = f"measure {measure} 14 (15, 16) cm" if many else f"measure {measure} 14 cm"
    here = f"the body `{sizes[0].name}` has" if block == "body" else "these sizes have"
    if table and block == "sizes":
        here = f"the table for {table} has"
    known = dict.fromkeys(key for size in sizes for key in size.measures)
    context.report(
        "E210",
        f"{here} no `{measure}`",
        span,
        f"not among the measures of {'this body' if block == 'body' else 'these sizes'}",
        f"Add it to the `{block}` block, such as `{example}`{', one value a size' if many else ''}. Measures here: "
        f"{', '.join(known) or 'none'}.",
    )


def _grows(context: Context, sizing: Sizing, places: Mapping[str, Span], what: str) -> bool:
    """Say whether stated measures (or, finished, measure + ease) never shrink from size to size."""
    sound = True
    for measure, span in places.items():
        values = [
            size.measures[measure].value + (size.ease.get(measure, Fraction(0)) if what else 0)
            for size in sizing.sizes
            if measure in size.measures
        ]
        for index in range(1, len(values)):
            if values[index] < values[index - 1]:
                first, second = sizing.sizes[index - 1].name, sizing.sizes[index].name
                context.report(
                    "E225",
                    f"the {what}{measure} shrinks from {told_length(context, values[index - 1])} in size {first} to "
                    f"{told_length(context, values[index])} in size {second}",
                    (not what and sizing.sizes[index].measures[measure].span) or span,
                    f"{second} is smaller than {first}",
                    "Sizes go from small to large; check the order of the values.",
                    size=second,
                )
                sound = False
                break
    sizing.sound = sizing.sound and sound
    return sound


def _read_body(context: Context, name: str, block: Block, sizing: Sizing) -> None:
    """Read a made-to-measure body; it inherits an ease that is the same in all sizes."""
    lines, sound = context.read_body(block, LINES, "a `body` block")
    scope = Scope(context, 1, (name,), _only_numbers(context))
    stated = _measures(context, lines.get("measure", ()), scope)
    own = _eases(context, lines.get("ease", ()), scope, sizing)
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
    places = {**(sizing.sizes[0].ease_spans if sizing.sizes else {}), **_value_places(lines.get("ease", ()))}
    body = Size(name, measures, ease, block.head.span, made_to_measure=True, ease_spans=places)
    if _known_eases(context, own, [body], sizing):
        sizing.bodies.append(body)
    else:
        sizing.sound = False
