"""Where reasons are gathered: one template gives a number's formula in words and its exact arithmetic."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction

from msgspec import Struct, field

from wale.draft.layout import Layout, lay_out
from wale.explain.reason import Input, Reason, Unit, Value
from wale.materials import Motif
from wale.plan import PiecePlan, Plan
from wale.quantity import show_decimal
from wale.source import Source, Span
from wale.spec import Spec

WORDS = (
    (" * ", " × "),
    (" - ", " − "),
    ("floor(", "rounded down ("),
    ("ceil(", "rounded up ("),
    ("mod(", "remainder ("),
    ("min(", "the smaller of ("),
    ("max(", "the larger of ("),
)
SINGULAR = {"sts": "st", "rows": "row", "rounds": "round", "groups": "group", "shapings": "shaping", "wedges": "wedge"}


def literal(value: Value) -> str:
    """Write an exact number as arithmetic."""
    value = Fraction(value)
    text = str(value.numerator) if value.denominator == 1 else f"({value.numerator}/{value.denominator})"
    return f"({text})" if value < 0 and value.denominator == 1 else text


def show(value: Value, places: int = 2) -> str:
    """Write a number for reading, without zeros at its end."""
    if isinstance(value, int) or value.denominator == 1:
        return str(int(value)).replace("-", "−")
    return show_decimal(value, places).rstrip("0").rstrip(".").replace("-", "−")


def known(name: str, value: Value, unit: str = "", where: Span | None = None, places: int = 2) -> Input:
    """Make an input that is said as its value and unit."""
    if value == 1:
        unit = " ".join(SINGULAR.get(word, word) for word in unit.split(" "))
    return Input(name, value, f"{show(value, places)} {unit}".strip(), where)


def charted(motif: Motif, in_round: bool) -> Input:
    """Make an input of the rows of a motif's chart."""
    return known(f"rows of {motif.name}", motif.charted(in_round), f"chart rows of {motif.name}", motif.span)


class Book(Struct):
    """All reasons of a plan so far, and what their writers have at hand."""

    spec: Spec
    plan: Plan
    sources: Mapping[str, Source]
    why: Mapping[str, Sequence[str]]
    reasons: list[Reason] = field(default_factory=list)
    layouts: dict[str, Layout] = field(default_factory=dict)

    def reckon(
        self,
        address: str,
        size: int,
        value: Value,
        unit: Unit,
        template: str,
        given: Mapping[str, Input],
        *,
        spans: Iterable[Span],
        rules: Iterable[str] = (),
        exact: Fraction | None = None,
        deviation: Fraction | None = None,
        also: Iterable[Input] = (),
        unknown: str = "",
    ) -> None:
        """Add a reason.

        Args:
            template: arithmetic with `{name}` for each of `given`.
            exact: what it gives; None: the value itself.
            also: inputs that the formula does not name.
            unknown: the solver's unknown, whose rules are told too.
        """
        expression = template.format(**{name: literal(one.value or 0) for name, one in given.items()})
        words = template
        for arithmetic, said in WORDS:
            words = words.replace(arithmetic, said)
        words = words.format(**{name: one.said for name, one in given.items()})
        result = Fraction(value) if exact is None else exact
        if template.strip("{}") not in given and template != "1":
            words += f" = {show(result)}"
        inputs = tuple(dict.fromkeys((*given.values(), *also)))
        told = tuple(dict.fromkeys((*self.why.get(unknown, ()), *rules)))
        places = tuple(dict.fromkeys((*spans, *(one.where for one in inputs if one.where is not None))))
        name = self.plan.sizes[size]
        self.reasons.append(
            Reason(address, name, value, unit, result, words, expression, inputs, told, (), deviation, places, unknown)
        )


def layouts_of(spec: Spec) -> dict[str, Layout]:
    """Lay the pieces out again, as `draft.planner` did."""
    found = {piece.name: lay_out(spec, piece)[0] for piece in spec.pieces}
    return {name: layout for name, layout in found.items() if layout is not None}


def counts_of(spec: Spec, plan: Plan, layouts: Mapping[str, Layout]) -> dict[str, int]:
    """Give the value of every unknown of the solver, read back from the plan."""
    counts: dict[str, int] = {}
    for piece in plan.pieces:
        for number, size in enumerate(plan.sizes):
            for key, values in keyed(piece, layouts[piece.name]).items():
                counts[f"{key}@{size}"] = values[number]
    return counts


def keyed(piece: PiecePlan, layout: Layout) -> dict[str, tuple[int, ...]]:
    """Give the counts of a piece by the solver's keys; inherited ones keep the key of their owner."""
    from wale.draft.lengths import depth_key, slope_key
    from wale.draft.widths import neck_key, shoulder_key

    found = {draft.key: level.counts for draft, level in zip(layout.levels, piece.levels, strict=True)}
    found |= {draft.key: section.rows for draft, section in zip(layout.sections, piece.sections, strict=True)}
    if piece.top is not None:
        found |= {
            neck_key(layout): piece.top.neck,
            shoulder_key(layout): piece.top.shoulder,
            depth_key(layout): piece.top.neck_rows,
            slope_key(layout): piece.top.slope_rows,
        }
    return found
