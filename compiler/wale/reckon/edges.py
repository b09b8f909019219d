"""`crown`, `shoulder` and `neck`: how the top of a piece closes."""

from __future__ import annotations

from fractions import Fraction

from wale.quantity import show_signed
from wale.reckon.answer import Answer, Figure, plain
from wale.reckon.gauges import few
from wale.reckon.rows import read_rows, runs, say
from wale.reckon.words import Words
from wale.refusals import refuse
from wale.shaping.crown import WedgeRound, least_rounds
from wale.shaping.crown import crown as lay_crown
from wale.shaping.gauge import nearest, stitches, width
from wale.shaping.neck import BOAT_ENDS, boat_ends, boat_neck, neck_steps, scoop_neck, slope_runs
from wale.shaping.shoulders import shoulder_steps, slope_depth, steps_for_slope, turning_points
from wale.write.evenly import even_words

MOST_LISTED = 8
MOST_CROWN = 2_000
"""Most stitches of a crown, whose rounds are all written out."""


def crown(words: Words) -> Answer:
    """Answer `crown`."""
    count = words.count("stitches")
    words.need("in", "with", ",")
    wedges = words.whole("the number of wedges", most=MOST_CROWN)
    words.take("wedges", "wedge", "sections")
    words.take(",")
    rounds = 0
    if words.take("over", "in"):
        rounds = words.count("rows")
    words.take(",")
    each = 2 if words.take("two at once", "two decreases each") else 1
    words.end()
    least_width = 1 if each == 1 else 3
    if count > MOST_CROWN:
        raise refuse("E802", f"a crown of more than {MOST_CROWN} sts is beyond all bounds", "Check the number.")
    if count < wedges * (least_width + each):
        raise refuse(
            "E804",
            f"{count} sts in {wedges} wedges leave nothing to decrease",
            f"Take at least {wedges * (least_width + each)} sts or fewer wedges.",
        )
    events = least_rounds(count, wedges, each=each, until=least_width)
    rounds = rounds or 2 * events - 1
    found = lay_crown(count, wedges, rounds, each=each, until=least_width)
    if found is None:
        raise refuse(
            "E804",
            f"{events} decrease rounds do not go into {rounds} rounds",
            "Take more rounds, fewer wedges' worth of stitches, or two decreases at once.",
        )
    figures = []
    if found.even_out is not None:
        surplus = found.even_out.shapings
        evenly = say(even_words(count, -surplus, is_right_side=True, in_round=True))
        figures.append(Figure("round 1", f"{evenly}: {count - surplus} sts"))
    figures += [
        Figure(f"round {one.round}", f"({_wedge(one, each)}) {wedges} times: {one.stitches} sts")
        for one in found.decreases
    ]
    figures.append(Figure("left", f"{found.left} sts after {rounds} rounds, {rounds - events} of them plain"))
    taken = sum(1 for _ in found.decreases)
    whole = count - count % wedges
    formulas = [f"{count} / {wedges} = {count // wedges} sts a wedge, {count % wedges} over"]
    formulas.append(f"{whole} − {taken} × {wedges * each} = {found.left} sts")
    return Answer(tuple(figures), tuple(formulas), ("crown",))


def _wedge(one: WedgeRound, each: int) -> str:
    between = f"k{one.plain}, " if one.plain else ""
    return f"{between}k2tog" if each == 1 else f"k2tog, {between}k2tog, k1"


def shoulder(words: Words) -> Answer:
    """Answer `shoulder`: in steps, or over a depth."""
    count = words.count("stitches")
    formulas: list[str] = []
    rules: list[str] = ["shoulder"]
    notes: tuple[str, ...] = ()
    if words.take("over"):
        depth = words.length()
        words.need("at")
        gauge = words.gauge("rows")
        steps = steps_for_slope(depth, gauge.per_cm)
        real = slope_depth(steps, gauge.per_cm)
        formulas.append(
            f"{plain(depth)} cm × {plain(gauge.per_cm)} rows / 2 rows a step = {plain(depth * gauge.per_cm / 2)}, "
            f"{steps} steps of {plain(real)} cm in all ({show_signed(real - depth)})"
        )
        rules.append("slope")
        notes = few(gauge)
    else:
        words.need("in")
        steps = words.whole("the number of steps", most=10_000)
        words.take("steps", "step")
    words.end()
    if count < steps:
        raise refuse("E804", f"{count} sts do not make {steps} steps", "Take fewer steps.")
    groups = shoulder_steps(count, steps)
    turns = turning_points(groups)
    figures = (
        Figure("bind off", say_steps(groups) + " on alternate rows, from the armhole edge"),
        Figure("as short rows", f"turn {', '.join(map(str, turns)) or 'nowhere'} sts from the armhole edge"),
        Figure("rows", 2 * steps),
    )
    rest = count % steps
    formulas.append(f"{count} / {steps} = {count // steps}" + (f", one more in the last {rest}" if rest else ""))
    return Answer(figures, tuple(formulas), tuple(rules), notes)


def neck(words: Words) -> Answer:
    """Answer `neck`: stitches and rows, or width and depth at a gauge."""
    value, kind = words.amount("stitches", "length", bare="stitches")
    formulas: list[str] = []
    notes: tuple[str, ...] = ()
    sts = None
    if kind == "length":
        words.take("wide")
        words.take(",", "and", "by")
        deep = words.length()
        words.take("deep")
        words.need("at")
        sts, rows_gauge = words.gauges()
        count, rows = _near(value, sts.per_cm, "sts", formulas), _near(deep, rows_gauge.per_cm, "rows", formulas)
        notes = few(sts, rows_gauge)
    else:
        if value.denominator != 1:
            raise refuse("E802", "a count of stitches must be whole", "Write it without a fraction.")
        count = int(value)
        words.need("in", "over", ",")
        rows, formulas, notes = read_rows(words)
    words.take(",")
    form = words.take("square", "scoop", "boat")
    if form == "boat":
        ends = _boat_ends(words, sts.per_cm if sts is not None else None, formulas)
        found = boat_neck(count, rows, ends)
    elif form == "scoop":
        found = scoop_neck(count, rows)
    else:
        found = neck_steps(count, rows, curved=not form)
    words.end()
    side = "nothing more"
    if found.steps:
        told = say_steps(found.steps) + " on alternate rows from row 3"
        side = _decreases(found.steps) if form == "scoop" else told
    figures = (
        Figure("centre", found.centre, "sts, on row 1"),
        Figure("each side", side),
        Figure("then", f"{found.straight_rows} row{'' if found.straight_rows == 1 else 's'} straight, {rows} in all"),
    )
    how = f"{found.centre} + 2 × {sum(found.steps)} = {count} sts" if found.steps else f"all {count} sts in the centre"
    return Answer(figures, (*formulas, how), (form if form in ("scoop", "boat") else "neck",), notes)


def _boat_ends(words: Words, per_cm: Fraction | None, formulas: list[str]) -> int:
    """Give the stitches of both ends of a boat neck: by the gauge, or as told where there is none."""
    if per_cm is None:
        words.need("with")
        ends = words.count("stitches")
        words.need("at its ends", "at the ends")
        return ends
    ends = boat_ends(per_cm)
    exact = f"{plain(BOAT_ENDS)} cm × {plain(per_cm)} sts per cm = {plain(BOAT_ENDS * per_cm)}"
    formulas.append(f"both ends: {exact}: {ends} sts")
    return ends


def _decreases(steps: tuple[int, ...]) -> str:
    """Print single decreases: "10 decreases: on row 3, every 2nd row 4 times, every 4th row 5 times"."""
    later = [
        f"every {gap}{'nd' if gap == 2 else 'th'} row {times} time{'' if times == 1 else 's'}"
        for gap, times in slope_runs(steps)
    ]
    return f"{sum(steps)} decrease{'' if sum(steps) == 1 else 's'}: {', '.join(['on row 3', *later])}"


def say_steps(steps: tuple[int, ...]) -> str:
    """Print steps one by one, or equal ones together where they are many: "5 (12 times), 6"."""
    if len(steps) <= MOST_LISTED:
        return ", ".join(map(str, steps))
    return ", ".join(f"{step} ({times} times)" if times > 1 else f"{step}" for step, times in runs(steps))


def _near(length: Fraction, per_cm: Fraction, unit: str, formulas: list[str]) -> int:
    exact = stitches(length, per_cm)
    count = nearest(exact)
    if count < 1:
        raise refuse("E804", f"{plain(length)} cm hold no {unit.rstrip('s')}", "Check the length.")
    off = show_signed(width(count, per_cm) - length)
    formulas.append(f"{plain(length)} cm × {plain(per_cm)} {unit} per cm = {plain(exact)}: {count} {unit} ({off} cm)")
    return count
