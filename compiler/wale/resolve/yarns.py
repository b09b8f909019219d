"""The `yarn` block: count, strands, colour, how it is sold, and what is on hand."""

from __future__ import annotations

from fractions import Fraction

from wale.parse.tree import Block, Number, Ratio
from wale.resolve.amounts import positive, whole
from wale.resolve.context import Context, near_word
from wale.resolve.shapes import Line, Match, Shape
from wale.source import Span
from wale.spec import PutUp, Yarn
from wale.yarn import SYSTEMS, band_metres_per_100g, metres_per_100g, read_fold, resultant

HEAD = {"yarn": Shape({"yarn NAME": ()})}
_COUNTS = (
    "count AMOUNT per WEIGHT FIBRE",
    "count AMOUNT per WEIGHT",
    "count COUNT FIBRE",
    "count COUNT",
    "count SYSTEM COUNT FIBRE",
    "count SYSTEM COUNT",
)
LINES = {
    "count": Shape({form: () for form in _COUNTS}),
    "strands": Shape({"strands NUMBER": ()}),
    "colour": Shape({"colour COLOUR": ()}),
    "put-up": Shape({"put-up WEIGHT KIND": ("PRICE",)}, once=False),
    "on-hand": Shape({"on-hand AMOUNT": ()}),
}


def read_yarn(context: Context, name: str, block: Block) -> Yarn | None:
    """Read one yarn; None when something in it is wrong."""
    lines, sound = context.read_body(block, LINES, "a `yarn` block")
    if sound:
        for keyword, example in (("count", "count 2/8 Nm wool"), ("colour", "colour #8a5a2b")):
            if keyword not in lines:
                context.missing(block, f"a `{keyword}` line", example)
                sound = False
    count = _count(context, lines["count"][0]) if "count" in lines else None
    strands = whole(context, lines["strands"][0].head.number("NUMBER")) if "strands" in lines else 1
    put_ups = [_put_up(context, line) for line in lines.get("put-up", ())]
    sold = tuple(put_up for put_up in put_ups if put_up)
    on_hand, known = _on_hand(context, lines["on-hand"][0], sold) if "on-hand" in lines else (None, True)
    if not sound or count is None or strands is None or len(sold) < len(put_ups) or not known:
        return None
    text, fibre, metres = count
    colour = lines["colour"][0].head.text("COLOUR")
    return Yarn(name, block.head.span, colour, text, fibre, metres, strands, sold, on_hand)


def _count(context: Context, line: Line) -> tuple[str, str, Fraction | None] | None:
    """Give the count as written, the fibre, and metres per 100 g (None for wraps per inch: not known)."""
    match = line.head
    if "WEIGHT" in match.found:
        return _band(context, match)
    item = match.found["COUNT"][0]
    assert isinstance(item, Number | Ratio)
    fibre = match.text("FIBRE") if "FIBRE" in match.found else ""
    text, system = context.cut(item.span), item.unit or ""
    if "SYSTEM" in match.found:  # `Nm 28/3 wool`: the word after the number is the fibre
        system, fibre = match.name("SYSTEM").text, f"{item.unit or ''} {fibre}".strip()
        number = text.removesuffix(item.unit).rstrip() if item.unit else text
        text = f"{system} {number}"
    place = match.name("SYSTEM").span if "SYSTEM" in match.found else item.span
    if system == "wpi" and isinstance(item, Number):
        found = positive(context, Number(item.value, None, item.span), "number")
        return (text, fibre, None) if found else None
    if system not in SYSTEMS:
        _unknown_system(context, system, place)
        return None
    metres = _metres(context, item, system)
    return (text, fibre, metres) if metres is not None else None


def _metres(context: Context, item: Number | Ratio, system: str) -> Fraction | None:
    if isinstance(item, Ratio):
        if item.over <= 0 or item.under <= 0 or max(item.over, item.under) > 10_000:
            context.report(
                "E222",
                f"`{context.cut(item.span)}` is no yarn count",
                item.span,
                "out of bounds",
                "Both numbers of a folded count are 1 to 10000, such as `2/8 Nm`.",
            )
            return None
        fold = read_fold(item.over, item.under)
        if fold.doubt:
            context.report(
                "W260",
                f"this count can be read in two ways: {fold.doubt}",
                item.span,
                "read with a doubt",
                "If this is wrong, write the length instead, such as `count 400 m per 100 g wool`.",
            )
        return metres_per_100g(resultant(fold, system), system)
    found = positive(context, Number(item.value, None, item.span), "number")
    return metres_per_100g(found[0], system) if found else None


def _band(context: Context, match: Match) -> tuple[str, str, Fraction] | None:
    length, weight = match.number("AMOUNT"), match.number("WEIGHT")
    metres, grams = positive(context, length, "length"), positive(context, weight, "weight")
    if not metres or not grams:
        return None
    fibre = match.text("FIBRE") if "FIBRE" in match.found else ""
    text = context.cut(length.span.to(weight.span))
    return text, fibre, band_metres_per_100g(metres[0] / 100, grams[0])


def _unknown_system(context: Context, system: str, place: Span) -> None:
    near = near_word(system, SYSTEMS) if system else None
    context.report(
        "E220",
        f"`{system}` is no system of yarn counts" if system else "the system of this yarn count is missing",
        place,
        f"did you mean `{near}`?" if near else "unknown system",
        f"Systems are {', '.join(SYSTEMS)} and wpi; or write the length, such as `count 400 m per 100 g wool`.",
    )


def _put_up(context: Context, line: Line) -> PutUp | None:
    weight = positive(context, line.head.number("WEIGHT"), "weight")
    kind = line.head.name("KIND").text
    if weight is None:
        return None
    if "PRICE" not in line.options:
        return PutUp(weight[0], kind)
    price = line.options["PRICE"].number("PRICE")
    if price.unit is None or not 0 <= price.value <= 1_000_000:
        context.report(
            "E203",
            "a price is a number and its currency",
            price.span,
            "expected a price",
            "Write the price such as `11.50 EUR`.",
        )
        return None
    return PutUp(weight[0], kind, price.value, price.unit)


def _on_hand(context: Context, line: Line, sold: tuple[PutUp, ...]) -> tuple[Fraction | None, bool]:
    """Give grams on hand; put-ups are counted by the kind in which the yarn is sold."""
    number = line.head.number("AMOUNT")
    kinds = {kind: put_up.weight for put_up in reversed(sold) for kind in (put_up.kind, f"{put_up.kind}s")}
    if number.unit in kinds and number.value >= 0:
        return number.value * kinds[number.unit], True
    if number.value == 0 and number.unit in ("g", "oz", "kg"):
        return Fraction(0), True
    found = positive(context, number, "weight")
    return (found[0], True) if found else (None, False)
