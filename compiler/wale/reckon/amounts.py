"""`yarn` and `pom-pom`: how much yarn, by weight, by length and by rules of thumb."""

from __future__ import annotations

from fractions import Fraction

from wale.quantity import CM_PER_INCH
from wale.reckon.answer import Answer, Figure, plain
from wale.reckon.gauges import few
from wale.reckon.words import Words
from wale.reckon.yarns import Count, read_count
from wale.refusals import refuse
from wale.shaping.amounts import (
    MARGIN,
    cast_on_tail,
    grams_by_area,
    grams_by_length,
    pom_pom_grams,
    put_ups,
    scarf_yards,
    sweater_area,
    trapezium,
)
from wale.shaping.fabric import KS, loop_length
from wale.yarn import METRES_PER_YARD

MARGIN_WORDS = f"with {plain(MARGIN * 100)} % to spare"
LEAST_SWATCH_CM = 4
"""Shortest side of a weighed swatch; our choice: kitchen scales tell a gram."""


def yarn(words: Words) -> Answer:
    """Answer `yarn`, by the first word that tells the way."""
    if words.take("scarf"):
        return _scarf(words)
    if words.take("tail"):
        return _tail(words)
    if words.take("sweater"):
        return _sweater(words)
    if words.peek(1).lower() in ("pieces", "piece", "squares", "square"):
        return _pieces(words)
    value, kind = words.amount("length", "stitches")
    return _loops(words, value) if kind == "stitches" else _area(words, value)


def _scarf(words: Words) -> Answer:
    long, wide = _by(words)
    words.need("at")
    gauge = words.gauge("stitches")
    count = _in_count(words)
    words.end()
    inches, across = long / CM_PER_INCH, wide / CM_PER_INCH
    per_inch = gauge.per_cm * CM_PER_INCH
    yards = scarf_yards(inches, across, per_inch)
    metres = yards * METRES_PER_YARD
    figures = [Figure("yarn", metres, "m", 0), Figure("in yards", yards, "yd", 0)]
    formulas = [f"{plain(inches)} inch × {plain(across)} inch × {plain(per_inch)} sts an inch / 6 = {plain(yards)} yd"]
    rules = ["scarf"]
    _add_grams(figures, formulas, rules, metres, count)
    return Answer(tuple(figures), tuple(formulas), tuple(rules), few(gauge))


def _tail(words: Words) -> Answer:
    words.take("for")
    edge = words.length()
    words.end()
    inches = edge / CM_PER_INCH
    tail = cast_on_tail(inches)
    figures = (Figure("tail", tail * CM_PER_INCH, "cm", 0), Figure("in inches", tail, "inch", 1))
    return Answer(figures, (f"3 × {plain(inches)} inch + 10 inch = {plain(tail)} inch",), ("tail",))


def _sweater(words: Words) -> Answer:
    girth = words.length()
    words.take("round", "around", "wide")
    words.take("by", "x", ",", "and")
    length = words.length()
    words.take("long")
    area = sweater_area(girth, length)
    return _weighed(words, area, f"{plain(girth)} cm × {plain(length)} cm × 3/2 = {plain(area)} cm²")


def _area(words: Words, first: Fraction) -> Answer:
    second = words.length() if words.take("to") else first
    words.need("by", "x")
    height = words.length()
    area = trapezium(first, second, height)
    return _weighed(words, area, f"({plain(first)} + {plain(second)}) / 2 cm × {plain(height)} cm = {plain(area)} cm²")


def _weighed(words: Words, area: Fraction, how: str) -> Answer:
    words.need("from", "by", "with")
    words.take("a swatch of")
    wide, high = _by(words)
    words.need("of", "weighing", "at")
    grams = words.weight()
    words.end()
    if min(wide, high) < LEAST_SWATCH_CM:
        raise refuse(
            "E803",
            f"a swatch {plain(min(wide, high))} cm small tells no weight",
            "Weigh one of at least 10 cm each way, or several together.",
        )
    swatch = trapezium(wide, wide, high)
    found = grams_by_area(area, swatch, grams)
    ready = found * (1 + MARGIN)
    figures = (
        Figure("yarn", found, "g", 0),
        Figure(MARGIN_WORDS, ready, "g", 0),
        Figure("area", area, "cm²", 0),
    )
    formulas = (
        how,
        f"{plain(area)} cm² × {plain(grams)} g / {plain(swatch)} cm² = {plain(found)} g",
        f"{plain(found)} g × {plain(1 + MARGIN)} = {plain(ready)} g",
    )
    return Answer(figures, formulas, ("area", "weight"))


def _loops(words: Words, count: Fraction) -> Answer:
    words.need("at")
    sts, rows = words.gauges()
    yarn = _in_count(words)
    words.end()
    loop = loop_length(sts.per_cm, rows.per_cm)
    metres = count * loop / 100
    figures = [Figure("yarn", metres, "m", 0), Figure("in one stitch", loop, "cm")]
    formulas = [
        f"√({plain(KS)} / ({plain(sts.per_cm)} × {plain(rows.per_cm)})) = {plain(loop, 3)} cm in a stitch",
        f"{plain(count)} sts × {plain(loop, 3)} cm / 100 = {plain(metres)} m",
    ]
    rules = ["loop"]
    _add_grams(figures, formulas, rules, metres, yarn)
    note = "plain stockinette: floats, seams and tails come on top"
    return Answer(tuple(figures), tuple(formulas), tuple(rules), (note, *few(sts, rows)))


def _pieces(words: Words) -> Answer:
    number = words.whole("the number of pieces", most=100_000)
    what = words.need("pieces", "piece", "squares", "square")
    words.need("of", "at")
    each = words.weight()
    words.take("each")
    words.take(",")
    colours = 1
    if words.take("in"):
        colours = words.whole("the number of colours", most=100)
        words.need("colours", "colors", "colour", "color", "yarns")
    words.take(",")
    put_up = None
    if words.take("from"):
        words.take("cones of", "balls of", "skeins of", "hanks of")
        put_up = words.weight()
        words.take("cones", "balls", "skeins", "hanks")
    words.end()
    grams = number * each
    share = grams / colours
    figures = [Figure("yarn", grams, "g", 1)]
    formulas = [f"{number} {what} × {plain(each)} g = {plain(grams)} g"]
    if colours > 1:
        figures.append(Figure("of each colour", share, "g", 1))
        formulas.append(f"{plain(grams)} g / {colours} colours = {plain(share)} g")
    if put_up is not None:
        bought = put_ups([share] * colours, put_up)
        figures.insert(0, Figure("buy", f"{sum(bought)} of {plain(put_up)} g, {bought[0]} of each colour"))
        formulas.append(f"{plain(share)} g / {plain(put_up)} g = {plain(share / put_up)}, so {bought[0]} of each")
        if colours == 1:
            figures[0] = Figure("buy", f"{bought[0]} of {plain(put_up)} g")
    rules = ("put-ups",)
    note = f"no margin is counted; {plain(MARGIN * 100)} % more would be {plain(grams * (1 + MARGIN), 0)} g"
    return Answer(tuple(figures), tuple(formulas), rules, (note,))


def pom_pom(words: Words) -> Answer:
    """Answer `pom-pom`."""
    across = words.length()
    words.take(",")
    number = words.whole("the number of pom-poms", most=1000) if words.take("make") else 1
    count = _in_count(words)
    words.end()
    if across > 30:
        raise refuse("E802", "a pom-pom of more than 30 cm is beyond all bounds", "Check length and unit.")
    grams = pom_pom_grams(across) * number
    times = f" × {number}" if number > 1 else ""
    figures = [Figure("yarn", grams, "g", 1)]
    formulas = [f"{plain(across)}³ / 30{times} = {plain(grams)} g"]
    rules = ["pom-pom"]
    if count is not None and count.metres is not None:
        metres = grams * count.metres / 100
        figures.append(Figure("in metres", metres, "m", 0))
        formulas += [count.formula, f"{plain(grams)} g × {plain(count.metres)} m / 100 g = {plain(metres)} m"]
        rules += [*count.rules]
    return Answer(tuple(figures), tuple(formulas), tuple(rules))


def _by(words: Words) -> tuple[Fraction, Fraction]:
    first = words.length()
    words.need("by", "x")
    return first, words.length()


def _in_count(words: Words) -> Count | None:
    words.take(",")
    if not words.take("in", "of"):
        return None
    found = read_count(words)
    if found.metres is None:
        raise refuse("E801", "wraps and classes give no length", "Write count or length of the yarn.")
    return found


def _add_grams(
    figures: list[Figure], formulas: list[str], rules: list[str], metres: Fraction, yarn: Count | None
) -> None:
    if yarn is None or yarn.metres is None:
        return
    grams = grams_by_length(metres * 100, yarn.metres)
    figures.append(Figure("in weight", grams, "g", 0))
    formulas += [yarn.formula, f"{plain(metres)} m / {plain(yarn.metres)} m × 100 g = {plain(grams)} g"]
    rules += [*yarn.rules, "length"]
