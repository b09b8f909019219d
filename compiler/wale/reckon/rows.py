"""`spread`, `taper` and `pick-up`: shapings over a row, over rows, and stitches along an edge."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import groupby
from typing import TypeVar

from wale.reckon.answer import Answer, Figure, plain
from wale.reckon.gauges import few, multiple
from wale.reckon.words import Words
from wale.refusals import refuse
from wale.shaping.gauge import nearest, stitches
from wale.shaping.pickup import pick_up_pattern, pick_up_ratio
from wale.shaping.taper import Schedule, least_rows, schedule, shapings
from wale.write.evenly import even_row, even_words
from wale.write.lines import Line, Ordinal, Part, Times, merge

T = TypeVar("T")

MOST_SPREAD = 2_000
"""Most stitches of a row that is written out."""
IN_ROUND = ("in the round", "in rounds", "a round", "round")
FLAT = ("worked flat", "flat", "a row", "row")


def spread(words: Words) -> Answer:
    """Answer `spread`: so many increases or decreases in a row, or from one count to another."""
    first = words.whole("a count of stitches or shapings", most=MOST_SPREAD)
    way = words.take("increases", "increase", "decreases", "decrease", "more", "fewer", "less")
    if way:
        words.need("over", "in", "on", "evenly over", "to", "than")
        words.take("a round of", "a row of")
        before = words.count("stitches")
        change = first if way[:3] in ("inc", "mor") else -first
    else:
        words.take("sts", "st", "stitches")
        words.need("to")
        before, change = first, words.count("stitches") - first
    words.take(",")
    in_round = bool(words.take(*IN_ROUND))
    if not in_round:
        words.take(*FLAT)
    words.end()
    _check_spread(before, change, in_round)
    row = even_row(before, change, in_round=in_round)
    written = say(even_words(before, change, is_right_side=True, in_round=in_round))
    gaps, number = row.gaps(), abs(change)
    inner = sorted(set(gaps if in_round and row.tail else gaps[:-1] if in_round else gaps))
    figures = (
        Figure("round" if in_round else "row", written),
        Figure("stitches after it", row.stitches_after, "sts"),
        Figure("plain sts between", " or ".join(str(gap) for gap in inner)),
    )
    if change > 0:
        plain_sts, how = before, f"{before} sts"
    else:
        plain_sts, how = before - 2 * number, f"{before} sts − 2 × {number} decreases = {before - 2 * number} plain sts"
    places = number if in_round else number + 1
    how += f" over {places} places = {plain_sts // places} each"
    how += f", {plain_sts % places} of them one more" if plain_sts % places else ""
    total = f"{before} {'+' if change > 0 else '−'} {number} = {before + change} sts"
    return Answer(figures, (how, total), ("increase" if change > 0 else "decrease",))


def _check_spread(before: int, change: int, in_round: bool) -> None:
    if before > MOST_SPREAD or abs(change) > MOST_SPREAD:
        raise refuse("E802", f"a row of more than {MOST_SPREAD} sts is beyond all bounds", "Check the number.")
    if not change:
        raise refuse("E804", "both counts are the same, so there is nothing to spread", "Check the counts.")
    ends = 0 if in_round else 2
    least = 2 * -change + ends if change < 0 else change + ends // 2
    if before < least:
        what = f"{abs(change)} {'increases' if change > 0 else 'decreases'}"
        raise refuse("E804", f"{what} need at least {least} sts, and there are {before}", "Spread them over more rows.")


def taper(words: Words) -> Answer:
    """Answer `taper`: from one count to another over rows."""
    start = words.count("stitches")
    words.need("to")
    end = words.count("stitches")
    words.need("over", "in")
    rows, formulas, notes = read_rows(words)
    each = 1 if words.take("at one edge") else 2
    in_round = bool(words.take("in the round", "in rounds"))
    any_row = in_round or bool(words.take("on any row"))
    words.take("at both edges", "on right-side rows", "flat")
    words.end()
    if abs(end - start) % each:
        raise refuse(
            "E804",
            f"{start} to {end} sts is an odd number of stitches, and each shaping row changes two",
            "Make both counts even or both odd, or shape at one edge.",
        )
    if start == end:
        raise refuse("E804", "both counts are the same, so there is nothing to shape", "Check the counts.")
    steps = shapings(start, end, each)
    plan = schedule(steps, rows, any_row=any_row)
    if plan is None:
        least = least_rows(steps, any_row=any_row)
        raise refuse(
            "E804",
            f"{steps} shaping rows take at least {least} rows, and there are {rows}",
            "Take more rows, " + ("or several stitches at once." if any_row else "or shape on any row."),
        )
    what = "increase" if end > start else "decrease"
    noun = "round" if in_round else "row"
    figures = (
        Figure(f"{what} {noun}s", steps),
        Figure("work them", say(schedule_words(plan, noun))),
        Figure("last one", f"{noun} {plan.last}, {plan.plain_after} plain after it"),
        Figure("all", f"{rows} {noun}s"),
    )
    high, low = max(start, end), min(start, end)
    unit = 1 if any_row else 2
    short, longer = divmod(rows // unit, steps)
    pairs = f"{rows} {noun}s" if any_row else f"{rows // 2} pairs of rows"
    formulas += [
        f"({high} − {low}) / {each} = {steps} {what} {noun}s",
        f"{pairs} / {steps} = {short}, rest {longer}: every {short * unit} {noun}s {steps - longer} times"
        + (f", every {(short + 1) * unit} {noun}s {longer} times" if longer else "")
        + f"; the first on {noun} {plan.first}",
    ]
    return Answer(figures, tuple(formulas), ("ends", "taper"), notes)


def read_rows(words: Words) -> tuple[int, list[str], tuple[str, ...]]:
    """Read `140 rows`, or `40 cm at 30 rows = 10 cm`; give rows, formulas, doubts."""
    value, kind = words.amount("rows", "length", bare="rows")
    if kind == "rows":
        if value.denominator != 1:
            raise refuse("E802", "a count of rows must be whole", "Write it without a fraction.")
        return int(value), [], ()
    words.need("at")
    gauge = words.gauge("rows")
    exact = stitches(value, gauge.per_cm)
    rows = nearest(exact)
    if rows < 1:
        raise refuse("E804", f"{plain(value)} cm hold no row", "Check the length.")
    how = f"{plain(value)} cm × {plain(gauge.counted)} rows / {plain(gauge.length_cm)} cm = {plain(exact)}, {rows} rows"
    return rows, [how], few(gauge)


def schedule_words(plan: Schedule, noun: str) -> tuple[Part, ...]:
    """Write a schedule as instructions do: "on row 3, then on every 4th row 28 times"."""
    parts: list[Part] = [f"on {noun} ", plan.first]
    for interval, times in plan.then:
        parts += [", then on every ", Ordinal(interval), f" {noun} ", Times(times)]
    return tuple(parts)


def pick_up(words: Words) -> Answer:
    """Answer `pick-up`: the ratio, and the stitches along rows or a length."""
    sts, rows = words.gauges()
    along, kind = None, ""
    words.take(",")
    if words.take("along", "over"):
        along, kind = words.amount("rows", "length", bare="rows")
    modulus, rest = multiple(words)
    words.end()
    exact = sts.per_cm / rows.per_cm
    ratio = _ratio(sts.per_cm, rows.per_cm)
    parts = [f"{times} x {picked} of {over}" for (picked, over), times in runs(pick_up_pattern(ratio))]
    figures = [
        Figure("pick up", f"{ratio.numerator} sts along {ratio.denominator} rows"),
        Figure("in parts", ", ".join(part.removeprefix("1 x ") for part in parts)),
    ]
    shown = f"{plain(sts.per_cm)} / {plain(rows.per_cm)}"
    formulas = [f"sts per cm / rows per cm = {shown} = {plain(exact, 3)}, near {ratio}"]
    rules = ["pick-up"]
    if along is not None:
        # Along rows the ratio that is kept in mind counts; along a length the band's own gauge.
        wish = along * ratio if kind == "rows" else stitches(along, sts.per_cm)
        count = nearest(wish, modulus, rest)
        figures.insert(0, Figure("along the edge", count, "sts"))
        times = f"{plain(along)} rows × {ratio}" if kind == "rows" else f"{plain(along)} cm × {plain(sts.per_cm)}"
        ask = f", as a multiple of {modulus}{f' and {rest}' if rest else ''}" if modulus > 1 else ""
        formulas.append(f"{times} = {plain(wish)}{ask}: {count} sts")
        rules += ["nearest"]
    return Answer(tuple(figures), tuple(formulas), tuple(rules), few(sts, rows))


def _ratio(sts_per_cm: Fraction, rows_per_cm: Fraction) -> Fraction:
    try:
        return pick_up_ratio(sts_per_cm, rows_per_cm)
    except ValueError:
        raise refuse("E804", "there is less than one stitch for 13 rows", "Check both gauges.") from None


def runs(items: Iterable[T]) -> list[tuple[T, int]]:
    """Give (item, times) of equal neighbours."""
    return [(item, len(list(run))) for item, run in groupby(items)]


def say(parts: tuple[Part, ...]) -> str:
    """Print words and figures as the pattern prints them."""
    return merge([[Line("", (), parts)]])[0].text(("",))[1]
