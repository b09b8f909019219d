"""The `yarn` block: count, strands, fibre, colour, how it is sold, and what is on hand.

A yarn may be made of other yarns held together; it is bought as those, and has their length and fibres.
"""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from wale.materials import PutUp, Yarn
from wale.parse.tree import Binary, Block, Expr, Name, Negative, Number
from wale.quantity import UNITS
from wale.resolve.amounts import positive, whole
from wale.resolve.context import Context
from wale.resolve.counts import COUNT, Count, read_count
from wale.resolve.shapes import Line, Match, Shape
from wale.resolve.values import plain
from wale.yarn import held_together

HEAD = {"yarn": Shape({"yarn NAME": ()})}
LINES = {
    "count": COUNT,
    "strands": Shape({"strands NUMBER": (), "strands YARNS": ()}),
    "fibre": Shape({"fibre N percent FIBRE": ()}, listed="N percent FIBRE"),
    "colour": Shape({"colour COLOUR": ()}),
    "put-up": Shape({"put-up WEIGHT KIND": ("PRICE",)}, once=False),
    "on-hand": Shape({"on-hand AMOUNT": ()}),
}
MOST_STRANDS = 100
MOST_PUT_UPS = 12
LEAST_PUT_UP = Fraction(1)
"""Grams in the least put-up."""


def read_yarns(context: Context, blocks: Mapping[str, Block]) -> dict[str, Yarn]:
    """Read all yarns, those that are made of others last; wrong ones are left out."""
    found: dict[str, Yarn] = {}
    made: dict[str, tuple[Block, Line, str]] = {}
    for name, block in blocks.items():
        head = context.read(block.head, HEAD, "a file")
        lines, sound = context.read_body(block, LINES, "a `yarn` block")
        if sound and "colour" not in lines:
            context.missing(block, "a `colour` line", "colour #8a5a2b")
            sound = False
        strands = lines["strands"][0] if "strands" in lines else None
        if strands is not None and strands.form == "strands YARNS":
            if _is_bought(context, lines) and sound and head is not None:
                made[name] = (block, strands, lines["colour"][0].head.text("COLOUR"))
            continue
        yarn = _bought(context, name, block, lines, sound)
        if head is not None and yarn is not None:
            found[name] = yarn
    found.update(_made(context, made, found))
    return {name: found[name] for name in blocks if name in found}


def _is_bought(context: Context, lines: Mapping[str, list[Line]]) -> bool:
    """Say whether a yarn made of others leaves to those what only a yarn that is bought can have; report where not."""
    own = [lines[keyword][0] for keyword in ("count", "fibre", "put-up", "on-hand") if keyword in lines]
    for line in own:
        context.report(
            "E204",
            f"a yarn made of others has no `{line.keyword}` line",
            line.span,
            "follows from the yarns held together",
            "Take the line away; the yarns that are held together have it.",
            also=[(lines["strands"][0].span, "made of these")],
        )
    return not own


def _made(context: Context, made: Mapping[str, tuple[Block, Line, str]], bought: Mapping[str, Yarn]) -> dict[str, Yarn]:
    """Give the yarns that are made of others."""
    found = {}
    for name, (block, line, colour) in made.items():
        parts = _parts(context, line, made, bought)
        if parts is None:
            continue
        each = [bought[part].metres_per_100g for part in parts for _ in range(bought[part].strands)]
        known = [one for one in each if one is not None]
        metres = held_together(known) if len(known) == len(each) else None
        fibres = " and ".join(dict.fromkeys(bought[part].fibre for part in parts if bought[part].fibre))
        found[name] = Yarn(name, block.head.span, colour, " + ".join(parts), fibres, metres, held=tuple(parts))
    return found


def _parts(
    context: Context, line: Line, made: Mapping[str, object], bought: Mapping[str, Yarn]
) -> tuple[str, ...] | None:
    names, wrong = _names(line.head.value("YARNS"))
    if wrong is not None or len(names) > MOST_STRANDS:
        context.report(
            "E203",
            "yarns held together are their names with `+` between them",
            wrong.span if wrong is not None else line.span,
            "expected a yarn's name" if wrong is not None else "too many",
            "Write such as `strands rye + mist`, or `strands rye + rye + mist` for two strands of rye.",
        )
        return None
    sound = True
    for one in names:
        if not context.knows("yarn", one):
            sound = False
        elif one.text in made:
            context.report(
                "E217",
                f"`{one.text}` is itself made of other yarns",
                one.span,
                "not a yarn that is bought",
                "Name the yarns that it is made of.",
            )
            sound = False
        elif one.text not in bought:
            sound = False
    return tuple(one.text for one in names) if sound else None


def _names(item: Expr) -> tuple[list[Name], Expr | None]:
    """Give the names of a sum, and the first thing in it that is none."""
    if isinstance(item, Name):
        return [item], None
    if isinstance(item, Binary) and item.op == "+":
        left, wrong = _names(item.left)
        right, second = _names(item.right)
        return [*left, *right], wrong or second
    return [], item


def _bought(context: Context, name: str, block: Block, lines: Mapping[str, list[Line]], sound: bool) -> Yarn | None:
    if sound and "count" not in lines:
        context.missing(block, "a `count` line", "count 2/8 Nm wool")
        sound = False
    count = read_count(context, lines["count"][0]) if "count" in lines else None
    strands = _strands(context, lines["strands"][0].head.number("NUMBER")) if "strands" in lines else 1
    sold = _sold(context, lines.get("put-up", ()))
    on_hand, known = None, True
    if "on-hand" in lines:
        on_hand, known = _on_hand(context, lines["on-hand"][0], sold if sound else None)
    fibre = _fibre(context, lines, count) if count is not None else None
    if not sound or count is None or fibre is None or strands is None or sold is None or not known:
        return None
    colour = lines["colour"][0].head.text("COLOUR")
    return Yarn(
        name,
        block.head.span,
        colour,
        count.text,
        fibre,
        count.metres,
        strands,
        sold,
        on_hand,
        classes=count.classes,
    )


def _strands(context: Context, number: Number) -> int | None:
    strands = whole(context, number)
    if strands is not None and strands > MOST_STRANDS:
        context.report(
            "E223",
            f"`{context.cut(number.span)}` strands cannot be held together",
            number.span,
            "too many",
            f"At most {MOST_STRANDS} strands; for another yarn twisted from many, give its own count.",
        )
        return None
    return strands


def _fibre(context: Context, lines: Mapping[str, list[Line]], count: Count) -> str | None:
    """Give the fibre as printed: of the `count` line, or with shares that make a whole."""
    if "fibre" not in lines:
        return count.fibre
    line = lines["fibre"][0]
    if count.fibre:
        context.report(
            "E205",
            "the fibre stands twice",
            line.span,
            "the second one",
            "Take it out of one of the two lines.",
            also=[(lines["count"][0].span, f"says {count.fibre}")],
        )
        return None
    shares: list[Match] = [line.head, *line.listed]
    whole_share = sum((one.number("N").value for one in shares), Fraction(0))
    if whole_share != 100 or any(one.number("N").value <= 0 for one in shares):
        context.report(
            "E232",
            f"the fibres of this yarn make {plain(whole_share)} percent",
            line.span,
            "not 100 percent",
            "Write the share of each fibre, such as `fibre 80 percent wool, 20 percent nylon`.",
        )
        return None
    return ", ".join(f"{plain(one.number('N').value)} % {one.text('FIBRE')}" for one in shares)


def _sold(context: Context, lines: list[Line] | tuple[Line, ...]) -> tuple[PutUp, ...] | None:
    put_ups = [_put_up(context, line) for line in lines]
    if len(put_ups) > MOST_PUT_UPS:
        context.report(
            "E223",
            f"a yarn is sold in more than {MOST_PUT_UPS} put-ups",
            lines[MOST_PUT_UPS].span,
            "one too many",
            "Leave out those that you would not buy.",
        )
        return None
    sold = tuple(put_up for put_up in put_ups if put_up)
    return sold if len(sold) == len(put_ups) else None


def _put_up(context: Context, line: Line) -> PutUp | None:
    weight = positive(context, line.head.number("WEIGHT"), "weight")
    kind = line.head.name("KIND").text
    if weight is None:
        return None
    if weight[0] < LEAST_PUT_UP:
        number = line.head.number("WEIGHT")
        context.report(
            "E223",
            f"`{context.cut(number.span)}` is too little for a put-up",
            number.span,
            "beyond all bounds",
            "A put-up weighs 1 g or more.",
        )
        return None
    if "PRICE" not in line.options:
        return PutUp(weight[0], kind)
    price = line.options["PRICE"].found["PRICE"][0]
    if isinstance(price, Negative):
        context.report(
            "E222", f"a price is not below 0: `{context.cut(price.span)}`", price.span, "below 0", "Check the number."
        )
        return None
    assert isinstance(price, Number)
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


def _on_hand(context: Context, line: Line, sold: tuple[PutUp, ...] | None) -> tuple[Fraction | None, bool]:
    """Give grams on hand; put-ups are counted by the kind in which the yarn is sold, None where that is broken."""
    number = line.head.number("AMOUNT")
    kinds = {kind: put_up.weight for put_up in reversed(sold or ()) for kind in (put_up.kind, f"{put_up.kind}s")}
    if number.unit in kinds and number.value >= 0:
        return number.value * kinds[number.unit], True
    if number.value == 0 and number.unit in ("g", "oz", "kg"):
        return Fraction(0), True
    if number.unit is not None and number.unit not in UNITS:
        if sold is not None:
            ways = f", or as it is sold: {', '.join(kinds)}" if kinds else "; its `put-up` lines may add cones or balls"
            context.report(
                "E220",
                f"`{number.unit}` says no amount of this yarn",
                number.unit_span or number.span,
                "unknown here",
                f"Write a weight, such as `250 g`{ways}.",
            )
        return None, False
    found = positive(context, number, "weight")
    return (found[0], True) if found else (None, False)
