"""The `count` line of a yarn: any way in which its thickness is told, as metres per 100 g or weight classes."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.parse.tree import Binary, Number, Ratio
from wale.quantity import show_decimal
from wale.resolve.amounts import positive, whole
from wale.resolve.context import Context, near_word
from wale.resolve.shapes import Line, Match, Shape
from wale.source import Span
from wale.yarn import (
    SYSTEMS,
    Fold,
    band_metres_per_100g,
    classes_by_wraps,
    metres_per_100g,
    read_fold,
    resultant,
    weight_classes,
)

_COUNTS = (
    "count AMOUNT per WEIGHT FIBRE",
    "count AMOUNT per WEIGHT",
    "count R RESULTANT FIBRE",
    "count R RESULTANT",
    "count class NUMBER FIBRE",
    "count class NUMBER",
    "count COUNT x NUMBER FIBRE",
    "count COUNT x NUMBER",
    "count COUNT FIBRE",
    "count COUNT",
    "count SYSTEM COUNT FIBRE",
    "count SYSTEM COUNT",
)
COUNT = Shape({form: () for form in _COUNTS})
MOST_FOLD = 10_000


class Count(Struct, frozen=True):
    """What a `count` line says: its words, the fibre, metres per 100 g, or else the classes that it leaves open."""

    text: str
    fibre: str
    metres: Fraction | None
    classes: tuple[int, ...] = ()


def read_count(context: Context, line: Line) -> Count | None:
    """Read a `count` line; None when it is wrong."""
    match = line.head
    if "WEIGHT" in match.found:
        return _band(context, match)
    if "RESULTANT" in match.found:
        return _resultant(context, match)
    if line.form.startswith("count class"):
        return _class(context, match)
    item = match.found["COUNT"][0]
    assert isinstance(item, Number | Ratio)
    if "NUMBER" in match.found:
        return _times(context, match, item)
    fibre = match.text("FIBRE") if "FIBRE" in match.found else ""
    text, system, place = context.cut(item.span), item.unit or "", item.span
    if "SYSTEM" in match.found:  # `Nm 28/3 wool`: the word after the number is the fibre
        system, fibre, place = match.name("SYSTEM").text, _fibre(item, match), match.name("SYSTEM").span
        text = f"{system} {_bare(context, item)}"
    if system == "wpi" and isinstance(item, Number):
        found = positive(context, Number(item.value, None, item.span), "number")
        return Count(text, fibre, None, tuple(one.number for one in classes_by_wraps(found[0]))) if found else None
    if system not in SYSTEMS:
        _unknown_system(context, system, place)
        return None
    metres = _metres(context, item, system)
    return Count(text, fibre, metres) if metres is not None else None


def _fibre(item: Number | Ratio, match: Match) -> str:
    """Give the fibre where a number took its first word for a unit."""
    return f"{item.unit or ''} {match.text('FIBRE') if 'FIBRE' in match.found else ''}".strip()


def _bare(context: Context, item: Number | Ratio) -> str:
    text = context.cut(item.span)
    return text.removesuffix(item.unit).rstrip() if item.unit else text


def _metres(context: Context, item: Number | Ratio, system: str) -> Fraction | None:
    if isinstance(item, Number):
        found = positive(context, Number(item.value, None, item.span), "number")
        return metres_per_100g(found[0], system) if found else None
    if item.over <= 0 or item.under <= 0 or max(item.over, item.under) > MOST_FOLD:
        _beyond(context, item.span)
        return None
    fold = read_fold(item.over, item.under)
    metres = metres_per_100g(resultant(fold, system), system)
    if fold.doubt:
        other = metres_per_100g(resultant(Fold(fold.single, fold.fold), system), system)
        text = f"Either way 100 g are {_length(metres)}."
        if metres != other:
            text = f"As read, 100 g are {_length(metres)}; read the other way, {fold.single} strands of {fold.fold}, "
            text += f"they would be {_length(other)}."
        context.report(
            "W260",
            f"this count can be read in two ways: {fold.doubt}",
            item.span,
            "read with a doubt",
            f"{text} If this is wrong, write the length instead, such as `count 400 m per 100 g wool`.",
        )
    return metres


def _length(metres: Fraction) -> str:
    return f"{show_decimal(metres, 1 if metres < 100 else 0)} m"


def _beyond(context: Context, span: Span) -> None:
    context.report(
        "E222",
        f"`{context.cut(span)}` is no yarn count",
        span,
        "out of bounds",
        "Both numbers of a folded count are 1 to 10000, such as `2/8 Nm`.",
    )


def _resultant(context: Context, match: Match) -> Count | None:
    """Read `R 68 tex/2`: the number is that of the folded yarn, and its fold adds nothing (ISO 1139)."""
    item = match.found["RESULTANT"][0]
    number, last = (item.left, item.right) if isinstance(item, Binary) and item.op == "/" else (item, None)
    if not isinstance(number, Number) or not isinstance(last, Number | None):
        context.report(
            "E203",
            "a resultant count is a number, its system and the fold",
            item.span,
            "expected such as `68 tex/2`",
            "Write `count R 68 tex/2`, or `count 2/34 tex` for two strands of 34 tex.",
        )
        return None
    if number.unit not in SYSTEMS:
        _unknown_system(context, number.unit or "", number.span)
        return None
    found = positive(context, Number(number.value, None, number.span), "number")
    if found is None:
        return None
    if last is not None and whole(context, Number(last.value, None, last.span)) is None:
        return None
    fibre = _fibre(last, match) if last else match.text("FIBRE") if "FIBRE" in match.found else ""
    text = context.cut(number.span) + (f"/{_bare(context, last)}" if last else "")
    return Count(f"R {text}", fibre, metres_per_100g(found[0], number.unit))


def _class(context: Context, match: Match) -> Count | None:
    number = match.number("NUMBER")
    known = {each.number: each.name for each in weight_classes()}
    if number.value not in known:
        listed = ", ".join(f"{each} {name}" for each, name in known.items())
        context.report(
            "E222",
            f"`{context.cut(number.span)}` is no weight class",
            number.span,
            "not in the table",
            f"Classes are {listed}.",
        )
        return None
    return Count(f"class {number.value}", _fibre(number, match), None, (int(number.value),))


def _times(context: Context, match: Match, item: Number | Ratio) -> Count | None:
    """Read `34 tex x 2`: single to fold (ISO 1139)."""
    number = match.number("NUMBER")
    if item.unit not in SYSTEMS:
        _unknown_system(context, item.unit or "", item.span)
        return None
    fold = whole(context, Number(number.value, None, number.span))
    if isinstance(item, Ratio) or item.value <= 0 or fold is None or item.value > MOST_FOLD or fold > MOST_FOLD:
        if fold is not None:
            _beyond(context, item.span)
        return None
    indirect = SYSTEMS[item.unit].kind == "indirect"
    value = item.value / fold if indirect else item.value * fold
    text = f"{context.cut(item.span)} x {_bare(context, number)}"
    return Count(text, _fibre(number, match), metres_per_100g(value, item.unit))


def _band(context: Context, match: Match) -> Count | None:
    length, weight = match.number("AMOUNT"), match.number("WEIGHT")
    metres, grams = positive(context, length, "length"), positive(context, weight, "weight")
    if not metres or not grams:
        return None
    fibre = match.text("FIBRE") if "FIBRE" in match.found else ""
    text = context.cut(length.span.to(weight.span))
    return Count(text, fibre, band_metres_per_100g(metres[0] / 100, grams[0]))


def _unknown_system(context: Context, system: str, place: Span) -> None:
    near = near_word(system, SYSTEMS) if system else None
    context.report(
        "E220",
        f"`{system}` is no system of yarn counts" if system else "the system of this yarn count is missing",
        place,
        f"did you mean `{near}`?" if near else "unknown system",
        f"Systems are {', '.join(SYSTEMS)} and wpi; or write the length, such as `count 400 m per 100 g wool`.",
    )
