"""Values of expressions: dimensions checked, one value a size, exact.

`None` is poison all over: something in the expression has been reported already.
"""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from wale.measure import MOST_CM, Combine, Constant, Dimension, Measure, Operation, Term, calculate
from wale.parse.tree import Binary, Call, Expr, Name, Negative, Number, PerSize, Ratio
from wale.problems.problem import Edit, Fix
from wale.quantity import UNITS, dimension_of, in_unit, meant_unit, to_base, unit_word
from wale.resolve.context import Context, near_word
from wale.source import Span

Kind = Literal["length", "weight", "stitches", "rows", "number"]

MOST_COUNT = 100_000
_MOST_DIGITS = 10**30
_MOST_NODES = 200
_MOST_NESTING = 60

WORDS: dict[Kind, str] = {
    "length": "a length",
    "weight": "a weight",
    "stitches": "a number of stitches",
    "rows": "a number of rows",
    "number": "a plain number",
}
_EXAMPLE: dict[Kind, str] = {
    "length": "6 cm",
    "weight": "50 g",
    "stitches": "80 sts",
    "rows": "8 rows",
    "number": "2",
}


class Value(Struct, frozen=True):
    """The value of an expression, with the names in its text and the lines that it comes from."""

    term: Term
    kind: Kind
    names: tuple[str, ...] = ()
    inputs: tuple[Span, ...] = ()
    nodes: int = 1


class Scope(Struct):
    """What an expression may be made of.

    Attributes:
        columns: how many values a per-size list must have: sizes, then made-to-measure bodies.
        names: names of the columns.
        lookup: gives the value of a name, None for poison; it reports what it doesn't find.
        sound: whether the sizes could be read; where not, the length of lists is not checked.
    """

    context: Context
    columns: int
    names: tuple[str, ...]
    lookup: Callable[[Name], Value | None]
    sound: bool = True

    def value(self, expression: Expr, depth: int = 0) -> Value | None:
        """Give the value of an expression."""
        if depth > _MOST_NESTING:
            self._too_big(expression.span, f"it nests deeper than {_MOST_NESTING} levels")
            return None
        match expression:
            case Name():
                return self.lookup(expression)
            case Number(value, unit, span):
                return self._constant((value,) * self.columns, unit, expression.unit_span or span, span)
            case Ratio(over, under, unit, span):
                if under == 0:
                    self._by_zero(span)
                    return None
                return self._constant((Fraction(over, under),) * self.columns, unit, span, span)
            case PerSize():
                return self._per_size(expression)
            case Negative(operand, span):
                inner = self.value(operand, depth + 1)
                zero = Value(Constant((Fraction(0),) * self.columns), inner.kind) if inner else None
                return self._combine("-", zero, inner, span)
            case Binary(op, left, right, span):
                return self._binary(op, self.value(left, depth + 1), self.value(right, depth + 1), expression)
            case Call():
                return self._call(expression, depth)

    def measure(
        self, expression: Expr, *kinds: Kind, least: Literal["above zero", "zero", "any"] = "above zero"
    ) -> Measure | None:
        """Give a wished length or count within its bounds, or None after reporting why not."""
        found = self.value(expression)
        if found is None:
            return None
        if found.kind not in kinds:
            wanted = " or ".join(WORDS[kind] for kind in kinds)
            self.context.report(
                "E221",
                f"`{self.context.cut(expression.span)}` is {WORDS[found.kind]}, and this line needs {wanted}",
                expression.span,
                f"{WORDS[found.kind]}",
                f"Write {wanted}, such as `{_EXAMPLE[kinds[0]]}`.",
            )
            return None
        if not self._bounded(found, expression, least):
            return None
        dimension: Dimension = "number" if found.kind == "weight" or found.kind == "number" else found.kind
        words = self.context.cut(expression.span).rstrip()
        inputs = tuple(dict.fromkeys((expression.span, *found.inputs)))
        return Measure(found.term, dimension, expression.span, words, inputs, found.names)

    def _bounded(self, found: Value, expression: Expr, least: str) -> bool:
        if not isinstance(found.term, Constant):
            return True
        most = MOST_CM if found.kind == "length" else MOST_COUNT
        is_whole = found.kind in ("stitches", "rows")
        for name, value in zip(self.names, found.term.values, strict=True):
            is_low = (least == "above zero" and value <= 0) or (least == "zero" and value < 0)
            if not is_low and -most <= value <= most and (not is_whole or value.denominator == 1):
                continue
            text = self.context.cut(expression.span)
            size = name if len(set(found.term.values)) > 1 else ""
            told = told_length(self.context, value) if found.kind == "length" else plain(value)
            if is_low:
                rule = "must be more than 0" if least == "above zero" else "must not be less than 0"
                self.context.report(
                    "E222", f"`{text}` is {told}, and {rule}", expression.span, told, "Check the arithmetic.", size=size
                )
                return False
            if abs(value) > most:
                bound = (
                    told_length(self.context, Fraction(most)) if found.kind == "length" else f"{most} stitches or rows"
                )
                self.context.report(
                    "E223",
                    f"`{text}` is {told}, beyond the bound of {bound}",
                    expression.span,
                    told,
                    f"Nothing in a garment is larger than {bound}; check the number and its unit.",
                    size=size,
                )
                return False
            self.context.report(
                "E228",
                f"`{text}` is {told}: {WORDS[found.kind]} is kept exactly, so it must be whole",
                expression.span,
                told,
                "Write a whole number, or a length in cm.",
                size=size,
            )
            return False
        return True

    def _constant(self, values: tuple[Fraction, ...], unit: str | None, place: Span, span: Span) -> Value | None:
        if any(abs(value.numerator) > _MOST_DIGITS or value.denominator > _MOST_DIGITS for value in values):
            self._too_big(span, "it has more than 30 digits")
            return None
        if unit is None:
            return Value(Constant(values), "number")
        kind = known_unit(self.context, unit, place)
        if kind is None:
            return None
        return Value(Constant(tuple(to_base(value, unit) for value in values)), kind)

    def _per_size(self, expression: PerSize) -> Value | None:
        if not self.sound:
            return None
        wrote, wanted = len(expression.values), self.columns
        if wrote != wanted:
            names = ", ".join(self.names)
            self.context.report(
                "E224",
                f"`{self.context.cut(expression.span)}` has {wrote} values, and there are {wanted} sizes: {names}",
                expression.span,
                f"{wrote} values",
                "Write one value for each size in their order, made-to-measure bodies last.",
            )
            return None
        return self._constant(expression.values, expression.unit, expression.span, expression.span)

    def _binary(
        self, op: Literal["+", "-", "*", "/"], left: Value | None, right: Value | None, at: Binary
    ) -> Value | None:
        if left is None or right is None:
            return None
        if op == "/" and not self._can_divide(right, at):
            return None
        return self._combine(op, left, right, at.span)

    def _can_divide(self, right: Value, at: Binary) -> bool:
        if not isinstance(right.term, Constant):
            self.context.report(
                "E227",
                f"`{self.context.cut(at.right.span)}` is known only once counts are found, so nothing is divided by it",
                at.right.span,
                "known later",
                "Divide by a number or by a measure.",
            )
            return False
        if any(value == 0 for value in right.term.values):
            self._by_zero(at.right.span)
            return False
        return True

    def _call(self, call: Call, depth: int) -> Value | None:
        if call.name.text not in ("min", "max"):
            near = near_word(call.name.text, ("min", "max"))
            self.context.report(
                "E219",
                f"there is no `{call.name.text}(…)`",
                call.name.span,
                "unknown",
                "Only `min(…)` and `max(…)` are known.",
                fixes=[Fix(f"write `{near}`", (Edit(call.name.span, near),))] if near else [],
            )
            return None
        op: Operation = "min" if call.name.text == "min" else "max"
        values = [self.value(argument, depth + 1) for argument in call.arguments]
        found = values[0]
        for value in values[1:]:
            found = self._combine(op, found, value, call.span)
        return found

    def _combine(self, op: Operation, left: Value | None, right: Value | None, span: Span) -> Value | None:
        if left is None or right is None:
            return None
        kind = _kind(op, left.kind, right.kind)
        if kind is None:
            self._clash(op, left.kind, right.kind, span)
            return None
        nodes = left.nodes + right.nodes + 1
        if isinstance(left.term, Constant) and isinstance(right.term, Constant):
            nodes = 1
            pairs = zip(left.term.values, right.term.values, strict=True)
            values = tuple(calculate(op, first, second) for first, second in pairs)
            if any(abs(value.numerator) > _MOST_DIGITS or value.denominator > _MOST_DIGITS for value in values):
                self._too_big(span, "it has more than 30 digits")
                return None
            term: Term = Constant(values)
        else:
            term = Combine(op, left.term, right.term)
        if nodes > _MOST_NODES:
            self._too_big(span, f"it is made of more than {_MOST_NODES} parts")
            return None
        names = tuple(dict.fromkeys((*left.names, *right.names)))
        return Value(term, kind, names, tuple(dict.fromkeys((*left.inputs, *right.inputs))), nodes)

    def _clash(self, op: Operation, left: Kind, right: Kind, span: Span) -> None:
        text = self.context.cut(span)
        verb = {"+": "added to", "-": "taken from", "*": "multiplied by", "/": "divided by"}.get(op, "compared with")
        first, second = (right, left) if op in "+-" else (left, right)
        self.context.report(
            "E221",
            f"{WORDS[first]} cannot be {verb} {WORDS[second]} in `{text}`",
            span,
            f"{WORDS[left]} and {WORDS[right]}",
            "Both sides need the same kind of unit; only a plain number multiplies or divides anything.",
        )

    def _by_zero(self, span: Span) -> None:
        self.context.report("E227", "nothing can be divided by 0", span, "this is 0", "Check the arithmetic.")

    def _too_big(self, span: Span, why: str) -> None:
        self.context.report(
            "E223", f"this arithmetic is beyond all bounds: {why}", span, why, "Check the number; write it more simply."
        )


def _kind(op: Operation, left: Kind, right: Kind) -> Kind | None:
    if op == "*":
        return left if right == "number" else right if left == "number" else None
    if op == "/":
        return left if right == "number" else "number" if left == right else None
    return left if left == right else None


def known_unit(context: Context, unit: str, place: Span) -> Kind | None:
    """Give the kind of a unit word; report an unknown one with the unit that is meant."""
    kind = dimension_of(unit)
    if kind == "percent":
        return "number"
    if kind is None:
        near = meant_unit(unit) or near_word(unit, UNITS)
        fix = _unit_fix(context, unit, near, place)
        context.report(
            "E220",
            f"`{unit}` is no unit",
            place,
            f"did you mean `{near}`?" if near else "the word after a number is its unit",
            f"Units are {', '.join(UNITS)}.",
            fixes=fix,
        )
    return kind


def _unit_fix(context: Context, unit: str, near: str | None, place: Span) -> list[Fix]:
    text = context.cut(place)
    if not near or not text.endswith(unit):
        return []
    word = replace(place, start=place.end - len(unit))
    return [Fix(f"write `{near}`", (Edit(word, near),))]


def plain(value: Fraction) -> str:
    """Print a number for a problem report: at most three decimals, none where it is whole, digits bounded."""
    if value.denominator == 1:
        text = str(value.numerator)
    else:
        scaled = round(abs(value) * 1000)
        text = f"{'-' if value < 0 else ''}{scaled // 1000}.{scaled % 1000:03d}".rstrip("0").rstrip(".")
    return text if len(text) <= 24 else f"{text[:12]}… ({len(text)} digits)"


def told_length(context: Context, value: Fraction) -> str:
    """Print a length of cm with its unit for a problem report, in the unit of the pattern."""
    text = plain(in_unit(value, context.units))
    return f"{text} {unit_word(context.units, text)}"
