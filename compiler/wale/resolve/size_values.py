"""Values of `measure` and `ease` lines, and whether they can be."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct, field

from wale.measure import Constant
from wale.parse.tree import Name
from wale.resolve.context import Context, near_word
from wale.resolve.shapes import Line, Match
from wale.resolve.values import Scope, Value, told_length
from wale.sizes import Users, measure_name
from wale.source import Span
from wale.spec import Size

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


def only_numbers(context: Context) -> Callable[[Name], Value | None]:
    """Give a look-up that knows no names, and reports each."""

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


def measures_of(
    context: Context, lines: Sequence[Line], scope: Scope
) -> dict[str, tuple[tuple[Fraction, ...], Span]] | None:
    """Give the bare measures of some lines, with their places, or None where one is wrong."""
    return _values(context, [(line.head, line.span) for line in lines], scope, "above zero", "measure")


def eases_of(
    context: Context, lines: Sequence[Line], scope: Scope, sizing: Sizing
) -> dict[str, tuple[tuple[Fraction, ...], Span]] | None:
    """Give the eases of some lines, with their places, or None where one is wrong; note where they stand."""
    parts = [(match, match.span) for line in lines for match in (line.head, *line.listed)]
    found = _values(context, parts, scope, "any", "ease")
    for measure, (_, span) in (found or {}).items():
        sizing.ease_places.setdefault(measure, []).append(span)
    return found


def value_places(lines: Sequence[Line]) -> dict[str, Span]:
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


def are_eases_known(
    context: Context, eases: Mapping[str, tuple[tuple[Fraction, ...], Span]], sizes: Sequence[Size], sizing: Sizing
) -> bool:
    """Say whether each ease is of a measure that the sizes have."""
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


def never_shrinks(context: Context, sizing: Sizing, places: Mapping[str, Span], what: str) -> bool:
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
