"""`gauge`, `width` and `repeat`: lengths to stitches and back."""

from __future__ import annotations

from fractions import Fraction

from wale.quantity import CM_PER_INCH, show_inch, show_signed
from wale.reckon.answer import Answer, Figure, plain
from wale.reckon.words import FEW_IN_SWATCH, Gauge, Words
from wale.refusals import refuse
from wale.shaping.gauge import miscount, nearest, stitches
from wale.shaping.gauge import width as width_of
from wale.shaping.repeats import repeat_fit

GIRTH_CM = 100
"""Width on which a miscount is shown unless another is asked for."""


def gauge(words: Words) -> Answer:
    """Answer `gauge`."""
    found = words.gauge()
    on = words.length() if words.take("on", "over", ",") else None
    words.end()
    wide, unit = on or GIRTH_CM, word(found)
    ten, four = stitches(10, found.per_cm), stitches(4 * CM_PER_INCH, found.per_cm)
    error = miscount(wide, found.counted)
    figures = (
        Figure("in 10 cm", ten, unit),
        Figure("in 4 inches", four, unit),
        Figure(f"one {unit.rstrip('s')}", width_of(1, found.per_cm), "cm", 3),
        Figure(f"half a {unit.rstrip('s')} miscounted", f"± {plain(error)} cm on {plain(wide)} cm"),
    )
    formulas = (
        f"{plain(found.counted)} {unit} / {plain(found.length_cm)} cm × 10 cm = {plain(ten)} {unit}",
        f"{plain(wide)} cm × 0.5 / {plain(found.counted)} = {plain(error)} cm",
    )
    return Answer(figures, formulas, ("gauge", "miscount"), few(found))


def width(words: Words) -> Answer:
    """Answer `width`: stitches to length, or length to stitches."""
    value, kind = words.amount("length", "stitches", "rows")
    words.need("at")
    found = words.gauge() if kind == "length" else words.gauge(kind)
    modulus, rest = multiple(words)
    words.end()
    unit, per_cm = word(found), found.per_cm
    step = f"{plain(found.counted)} {unit} / {plain(found.length_cm)} cm"
    if kind != "length":
        if modulus > 1:
            raise refuse("E801", "a multiple is asked of a length", "Ask `repeat` whether it fits a count.")
        length = width_of(value, per_cm)
        figures = [Figure("length", length, "cm"), Figure("in inches", show_inch(length), "inch")]
        how = f"{plain(value)} {unit} / ({step}) = {plain(length)} cm"
        return Answer(tuple(figures), (how,), ("gauge",), few(found))
    exact = stitches(value, per_cm)
    best = nearest(exact, modulus, rest)
    down = nearest(exact, modulus, rest, down=True)
    up = down if down == exact else down + modulus
    figures = [
        Figure("exactly", exact, unit),
        Figure("nearest", _placed(best, found, value), ""),
        Figure("next down", _placed(down, found, value), ""),
        Figure("next up", _placed(up, found, value), ""),
    ]
    formulas = [f"{plain(value)} cm × {step} = {plain(exact)} {unit}"]
    rules = ["gauge", "nearest"]
    if modulus > 1:
        formulas.append(f"count = a multiple of {modulus}{f' and {rest}' if rest else ''}")
        rules.append("repeat")
    return Answer(tuple(figures), tuple(formulas), tuple(rules), few(found))


def repeat(words: Words) -> Answer:
    """Answer `repeat`."""
    wide = words.count("stitches")
    extra = words.whole("the stitches beside the repeats", least=0) if words.take("plus", "+") else 0
    words.take("sts", "st", "stitches")
    words.need("in", "into", "on")
    count = words.count("stitches")
    words.end()
    if count < extra:
        raise refuse("E804", f"{count} sts do not even hold the {extra} beside the repeats", "Take more stitches.")
    fit = repeat_fit(count, wide, extra)
    tail = f" + {extra}" if extra else ""
    how = f"{count} = {fit.times} × {wide}{tail}" + (f" + {fit.rest} left over" if fit.rest else "")
    if not fit.rest:
        figures = [Figure("fits", f"yes, {fit.times} times")]
    else:
        figures = [
            Figure("fits", f"no, {fit.rest} sts left over after {fit.times} repeats"),
            Figure("next down", f"{fit.below} sts ({fit.times} repeats, {count - fit.below} fewer)"),
            Figure("next up", f"{fit.above} sts ({fit.times + 1} repeats, {fit.above - count} more)"),
        ]
    return Answer(tuple(figures), (how,), ("repeat",))


def multiple(words: Words) -> tuple[int, int]:
    """Read `multiple of 12 plus 1`, or (1, 0) where none is asked."""
    words.take(",")
    if not words.take("multiple of", "in multiples of"):
        return 1, 0
    modulus = words.whole("a multiple", most=100_000)
    rest = words.whole("what a multiple is more by", least=0, most=100_000) if words.take("plus", "+") else 0
    return modulus, rest


def word(found: Gauge) -> str:
    """Give the unit word of a gauge."""
    return "sts" if found.kind == "stitches" else "rows"


def few(*gauges: Gauge) -> tuple[str, ...]:
    """Give a doubt for each gauge that was counted over little."""
    return tuple(
        f"only {plain(one.counted)} {word(one)} were counted: half of one is {plain(50 / one.counted, 1)} % of a length"
        for one in gauges
        if one.counted < FEW_IN_SWATCH
    )


def _placed(count: int, found: Gauge, wish: Fraction) -> str:
    length = width_of(count, found.per_cm)
    return f"{count} {word(found)} = {plain(length)} cm ({show_signed(length - wish)})"
