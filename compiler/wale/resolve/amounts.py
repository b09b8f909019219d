"""Amounts that a line states as one number and a unit: checked for kind, sign and bound, given in cm, g or a count."""

from __future__ import annotations

from fractions import Fraction

from wale.measure import MOST_CM
from wale.needles import SYSTEMS, is_believable, needle_from_number, numbers_of
from wale.parse.tree import Number
from wale.quantity import to_base
from wale.resolve.context import Context
from wale.resolve.shapes import Match
from wale.resolve.values import MOST_COUNT, WORDS, Kind, known_unit, plain

MOST_G = 100_000

NEEDLE_FORMS = ("N mm", *(f"{system} NUMBER" for system in SYSTEMS))
"""Ways to write a needle: `3.5 mm`, `US 4`."""


def positive(context: Context, number: Number, *kinds: Kind) -> tuple[Fraction, Kind] | None:
    """Give an amount above 0 of one of the kinds, in cm, g or a count; report why not."""
    text = context.cut(number.span)
    kind: Kind | None = "number"
    if number.unit is not None:
        kind = known_unit(context, number.unit, number.unit_span or number.span)
    if kind is None:
        return None
    if kind not in kinds:
        wanted = " or ".join(WORDS[each] for each in kinds)
        context.report(
            "E221",
            f"`{text}` is {WORDS[kind]}, and here belongs {wanted}",
            number.span,
            WORDS[kind],
            f"Write {wanted}.",
        )
        return None
    value = to_base(number.value, number.unit) if number.unit else number.value
    if value <= 0:
        context.report("E222", f"`{text}` must be more than 0", number.span, plain(value), "Check the number.")
        return None
    most = {"length": MOST_CM * 100, "weight": MOST_G}.get(kind, MOST_COUNT)
    if value > most:
        context.report(
            "E223", f"`{text}` is beyond all bounds", number.span, plain(value), "Check the number and its unit."
        )
        return None
    return value, kind


def length_cm(context: Context, number: Number) -> Fraction | None:
    """Give a length above 0 in cm."""
    found = positive(context, number, "length")
    return found[0] if found else None


def whole(context: Context, number: Number, least: int = 1) -> int | None:
    """Give a whole count, at least `least`."""
    text = context.cut(number.span)
    if number.value.denominator != 1:
        context.report("E228", f"`{text}` must be a whole number", number.span, "not whole", "Write a whole number.")
        return None
    if number.value < least:
        context.report("E222", f"`{text}` must be at least {least}", number.span, "too few", "Check the number.")
        return None
    if number.value > MOST_COUNT:
        context.report("E223", f"`{text}` is beyond all bounds", number.span, "too many", "Check the number.")
        return None
    return int(number.value)


def needle_mm(context: Context, match: Match) -> Fraction | None:
    """Give a needle in mm from a match of one of the needle forms."""
    if "N" in match.found:
        mm = match.number("N").value
        if not is_believable(mm):
            context.report(
                "E229",
                f"`{context.cut(match.number('N').span)}` is no knitting needle",
                match.number("N").span,
                "beyond the bounds",
                "Needles are 0.5 to 50 mm thick.",
            )
            return None
        return mm
    number = match.number("NUMBER")
    system = next(each for each in SYSTEMS if f"{each} NUMBER" in match.form)
    text = context.cut(number.span)
    needle = needle_from_number(system, text) if number.unit is None else None
    if needle is None:
        context.report(
            "E229",
            f"there is no {system} needle `{text}`",
            number.span,
            "not in the table of needles",
            f"{system} needles are {', '.join(numbers_of(system))}; or write the size in mm.",
        )
        return None
    if needle.doubt:
        context.report(
            "W229",
            f"{system} {text} is not sure: {needle.doubt}",
            number.span,
            f"taken as {plain(needle.mm)} mm",
            "Write the size in mm, it is the same everywhere.",
        )
    return needle.mm
