"""Where reasons are gathered: one template gives a number's formula in words and its exact arithmetic."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from math import floor
from typing import Literal

from msgspec import Struct, field

from wale.draft.lay_out import lay_out
from wale.draft.layout import Layout
from wale.explain.reason import Input, Reason, Unit, Value
from wale.materials import Motif
from wale.plan import PiecePlan, Plan
from wale.quantity import CM_PER_INCH, show_decimal
from wale.source import Source, Span
from wale.spec import Spec

Units = Literal["cm", "inch"]

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
    return Input(name, value, "", where, "", unit, places)


def said(one: Input) -> str:
    """Say an input as it stands in a formula: in its own words, else as its value and unit."""
    if one.said or one.value is None:
        return one.said
    unit = " ".join(SINGULAR.get(word, word) for word in one.unit.split(" ")) if one.value == 1 else one.unit
    return f"{show(one.value, one.places)} {unit}".strip()


def both_ends(piece: PiecePlan, stitches: int) -> Input:
    """Tell the stitches outside a piece's width or repeat: those of both edges, or of its steek."""
    if piece.steek is not None:
        return known("sts of the steek", stitches, "steek sts", piece.steek.span)
    return known("edge sts of both sides", stitches, "edge sts", piece.edge.span)


def end_stitches(piece: PiecePlan, stitches: int) -> Input:
    """Tell the stitches outside the chart at one end of a row or round."""
    if piece.steek is not None:
        return known("sts of the steek at one end of the round", stitches, "steek sts", piece.steek.span)
    return known("edge sts of one side", stitches, "edge sts", piece.edge.span)


def charted(motif: Motif, in_round: bool) -> Input:
    """Make an input of the rows of a motif's chart."""
    return known(f"rows of {motif.name}", motif.charted(in_round), f"chart rows of {motif.name}", motif.span)


class Draft(Struct, frozen=True):
    """A reason before its words are made: what was reckoned, with which template, from what (see `Book.reckon`)."""

    address: str
    size: str
    value: Value
    unit: Unit
    template: str
    given: Mapping[str, Input]
    asked: tuple[Span, ...]
    rules: tuple[str, ...]
    exact: Fraction | None
    deviation: Fraction | None
    also: tuple[Input, ...]
    unknown: str
    shown: str

    @property
    def inputs(self) -> tuple[Input, ...]:
        """Everything that goes into it, each once."""
        return tuple(dict.fromkeys((*self.given.values(), *self.also)))

    @property
    def spans(self) -> tuple[Span, ...]:
        """Lines of the spec that it comes from, the one that asks for it first."""
        return tuple(dict.fromkeys((*self.asked, *(one.where for one in self.inputs if one.where is not None))))


class Book(Struct):
    """All reasons of a plan so far, as drafts, and what their writers have at hand."""

    spec: Spec
    plan: Plan
    sources: Mapping[str, Source]
    layouts: Mapping[str, Layout]
    sizes: Sequence[int]
    drafts: list[Draft] = field(default_factory=list)

    def reckon(
        self,
        address: str,
        size: int | None,
        value: Value,
        unit: Unit,
        template: str,
        given: Mapping[str, Input],
        *,
        spans: Iterable[Span] = (),
        rules: Iterable[str] = (),
        exact: Fraction | None = None,
        deviation: Fraction | None = None,
        also: Iterable[Input] = (),
        unknown: str = "",
        shown: str = "",
    ) -> None:
        """Add a reason.

        Args:
            size: index of the size; None: it holds for all.
            template: arithmetic with `{name}` for each of `given`.
            exact: what it gives; None: the value itself.
            also: inputs that the formula does not name.
            unknown: the solver's unknown, whose rules are told too.
            shown: how it is printed, where its unit does not tell.
        """
        name = "" if size is None else self.plan.sizes[size]
        how = (template, given, tuple(spans), tuple(rules), exact, deviation, tuple(also), unknown, shown)
        self.drafts.append(Draft(address, name, value, unit, *how))


def printed(reason: Reason | Draft, units: Units = "cm") -> str:
    """Write a number as the pattern prints it: lengths to one decimal, all else whole where it is."""
    if reason.shown:
        return reason.shown
    if reason.unit != "cm":
        return show(reason.value).replace("−", "-")
    return show_decimal(Fraction(reason.value) / (CM_PER_INCH if units == "inch" else 1), 1)


def reason_of(draft: Draft, why: Mapping[str, Sequence[str]], units: Units = "cm", modulus: int = 1) -> Reason:
    """Put a draft into words and arithmetic.

    Args:
        why: the rules of each of the solver's unknowns in words.
        units: of the pattern's lengths, as printed.
        modulus: what a solved count's own rules divide it by.
    """
    given, words = draft.given, draft.template
    expression = words.format(**{name: literal(one.value or 0) for name, one in given.items()})
    for arithmetic, spoken in WORDS:
        words = words.replace(arithmetic, spoken)
    words = words.format(**{name: said(one) for name, one in given.items()})
    result = Fraction(draft.value) if draft.exact is None else draft.exact
    if draft.template.strip("{}") not in given and draft.template != "1":
        words += f" = {show(result)}"
    whole, rounded = _rounded(draft, expression, result, modulus)
    told = tuple(dict.fromkeys((*why.get(draft.unknown, ()), *draft.rules, *rounded, *_decimals(draft, units))))
    what = (draft.address, draft.size, draft.value, draft.unit, result, words, expression, draft.inputs, told, ())
    return Reason(*what, draft.deviation, draft.spans, draft.unknown, draft.shown, whole)


def _rounded(draft: Draft, expression: str, exact: Fraction, modulus: int) -> tuple[str, tuple[str, ...]]:
    """The arithmetic that gives a whole count from its wish, and how it is rounded in words; empty where it is exact.

    The nearest count with the same remainder; what the solver chose beyond it is told as a step of its own.
    """
    if exact == draft.value:
        return "", ()
    rest = int(draft.value) % modulus
    near = floor((exact - rest) / modulus + Fraction(1, 2)) * modulus + rest
    whole, words = f"floor(({expression}) + 1 / 2)", "rounded to the nearest whole number"
    if modulus > 1:
        whole = f"{modulus} * floor((({expression}) - {rest}) / {modulus} + 1 / 2) + {rest}"
        words = f"rounded to the nearest number that leaves {rest} when divided by {modulus}"
    more = int(draft.value) - near
    if more:
        whole += f" {'+' if more > 0 else '-'} {abs(more)}"
        words += f", {near}, then {abs(more)} {'more' if more > 0 else 'fewer'}, which suits the rest of the garment"
    return whole, (words,)


def _decimals(draft: Draft, units: Units) -> tuple[str, ...]:
    """Say how many decimals are printed where the number has more."""
    text = printed(draft, units)
    if "/" in text or Fraction(text) == draft.value:
        return ()
    places = len(text.partition(".")[2])
    inches = ", in inches" if units == "inch" and draft.unit == "cm" else ""
    return (f"printed to {places} decimal{'' if places == 1 else 's'}{inches}, halves away from zero",)


def constant(
    book: Book, address: str, value: Value, unit: Unit, what: str, *spans: Span, source: str = "", shown: str = ""
) -> None:
    """Add the reason of a number that is what it is: fixed by a rule or a published figure, for all sizes."""
    text = shown or show(value)
    given = {"it": Input(what, value, f"{text} ({what})", spans[0] if spans else None, source)}
    book.reckon(address, None, value, unit, "{it}", given, spans=spans, shown=shown)


def layouts_of(spec: Spec) -> dict[str, Layout]:
    """Lay the pieces out again, as `draft.planner` did."""
    found = {piece.name: lay_out(spec, piece)[0] for piece in spec.pieces}
    return {name: layout for name, layout in found.items() if layout is not None}


def counts_of(plan: Plan, layouts: Mapping[str, Layout]) -> dict[str, int]:
    """Give the value of every unknown of the solver, read back from the plan."""
    counts: dict[str, int] = {}
    for piece in plan.pieces:
        for number, size in enumerate(plan.sizes):
            for key, values in keyed(piece, layouts[piece.name]).items():
                counts[f"{key}@{size}"] = values[number]
    return counts


def keyed(piece: PiecePlan, layout: Layout) -> dict[str, tuple[int, ...]]:
    """Give the counts of a piece by the solver's keys; inherited ones keep the key of their owner."""
    from wale.draft.joining import underarm_key
    from wale.draft.lengths import depth_key, slope_key
    from wale.draft.plackets import placket_key
    from wale.draft.widths import neck_key, shoulder_key

    found = {draft.key: level.counts for draft, level in zip(layout.levels, piece.levels, strict=True)}
    found |= {draft.key: section.rows for draft, section in zip(layout.sections, piece.sections, strict=True)}
    if piece.holders:
        found[underarm_key(layout)] = tuple(held[0] for held in piece.holders)
    if piece.top is not None:
        found |= {
            neck_key(layout): piece.top.neck,
            shoulder_key(layout): piece.top.shoulder,
            depth_key(layout): tuple(map(piece.top.depth_rows, range(len(piece.top.neck_rows)))),
            slope_key(layout): piece.top.slope_rows,
        }
        if piece.top.has_placket:
            found[placket_key(layout)] = piece.top.placket_rows
    return found
