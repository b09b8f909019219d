"""The millrace pullover for real bodies of a survey: the same construction with `body` blocks instead of sizes."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from support import EXAMPLES
from survey import body_block, measures_of

from wale.plan import Plan

PER_STITCH = Fraction(136, 400)  # the swatch `easy`, washed: 40 sts = 13.6 cm, 40 rows = 12.2 cm
PER_ROW = Fraction(122, 400)
TOLERANCE = Fraction(3, 2)
PERIOD = 28  # 14 rows, shifting by half a repeat
CENTRED = "centred on the stitch"
WHOLE = "centred on the stitch, whole repeats at bust"
EASE = """    ease bust 14 cm, waist 24 cm, hip 8 cm, upper-arm 8 cm, armhole-depth 3 cm
    ease wrist 5 cm, neck-to-wrist 0 cm
"""


def pullover(rows: Sequence[dict[str, str]], fit: str = CENTRED) -> str:
    """Give the text of the pullover for some rows of the survey.

    Args:
        rows: rows of bodies.csv.
        fit: how the motif is placed on back and front.
    """
    text = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
    head, _, rest = text.partition("sizes women")
    _, _, construction = rest.partition("\n\n")
    assert construction.startswith("let armhole")
    bodies = "\n".join(body_block(row) + EASE for row in rows)
    return head + bodies + "\n" + construction.replace(f"easy, {CENTRED}\n", f"easy, {fit}\n")


def fitting(row: dict[str, str]) -> list[int]:
    """Give the counts of whole repeats of 12, 1 to balance and 2 edge sts, within 1.5 cm of half the finished bust."""
    wish = (measures_of(row)["bust"] + 14) / 2
    return [count for count in range(3, 500, 12) if abs((count - 2) * PER_STITCH - wish) <= TOLERANCE]


def misfits(plan: Plan, row: dict[str, str], size: int = 0) -> list[str]:
    """Reckon anew from the body's measures what a plan must hold, and give what doesn't.

    Widths and lengths: bare measure + ease, within 1.5 cm; joins, shaping rows and chart rows by their definitions.
    """
    bare = measures_of(row)
    half = {name: (bare[name] + ease) / 2 for name, ease in (("bust", 14), ("waist", 24), ("hip", 8))}
    armhole = max(bare["armhole-depth"] + 3, (bare["upper-arm"] + 8) / 2)
    pieces = {piece.name: piece for piece in plan.pieces}
    back, front, sleeve = pieces["back"], pieces["front"], pieces["sleeve"]
    tops = [one.top for one in (back, front)]
    assert tops[0] is not None and tops[1] is not None
    found = []

    def hold(truth: bool, words: str) -> None:
        if not truth:
            found.append(words)

    for piece in (back, front):
        for name, wish in half.items():
            count = next(level.counts[size] for level in piece.levels if level.label == name)
            hold(abs((count - 2) * PER_STITCH - wish) <= TOLERANCE, f"{piece.name} {name}: {count} sts for {wish} cm")
        for section in piece.sections:
            if section.kind == "shape":
                change = piece.levels[section.last].counts[size] - piece.levels[section.first].counts[size]
                shaped = section.schedules[size].rows()
                hold(2 * len(shaped) == abs(change), f"{section.address}: {len(shaped)} shaping rows for {change} sts")
                hold(all(one % 2 for one in shaped), f"{section.address}: shaped on a wrong-side row")
                hold(not shaped or shaped[-1] < section.rows[size], f"{section.address}: no plain row after the last")
            hold(section.rows[size] % 2 == (section.kind in ("facing", "turning")), f"{section.address}: row parity")
        top = piece.top
        assert top is not None
        whole = piece.levels[-1].counts[size]
        hold(top.neck[size] + 2 * top.shoulder[size] == whole, f"{piece.name}: neck and shoulders are not {whole} sts")
        sides = top.centre[size] + 2 * sum(top.steps[size])
        hold(sides == top.neck[size], f"{piece.name}: neck steps are not {top.neck[size]} sts")
        hold(sum(top.groups[size]) == top.shoulder[size], f"{piece.name}: shoulder steps")
    hold(tops[0].shoulder == tops[1].shoulder, "shoulders differ")
    hold(back.total_rows(size) == front.total_rows(size), "side seams differ in rows")
    marks = dict(back.marks)["underarm"][size]
    hold(marks == dict(front.marks)["underarm"][size], "underarms differ in rows")
    edge = 2 * (back.total_rows(size) - marks - tops[0].slope_rows[size]) * PER_ROW
    wide = (sleeve.levels[-1].counts[size] - 2) * PER_STITCH
    hold(abs(edge - wide) <= PER_STITCH + PER_ROW, f"sleeve top {float(wide):.1f} cm on {float(edge):.1f} cm")
    hold(abs(wide - 2 * armhole) <= TOLERANCE, f"sleeve top {float(wide):.1f} cm for {float(2 * armhole):.1f} cm")
    solved = (next(level.counts[size] for level in back.levels if level.label == "bust") - 2) * PER_STITCH
    cuff, arm = sleeve.sections[0].rows[size], sum(section.rows[size] for section in sleeve.sections[1:])
    long = cuff * Fraction(10, 38) + arm * PER_ROW
    wish = bare["neck-to-wrist"] - solved / 2
    hold(abs(long - wish) <= TOLERANCE, f"sleeve {float(long):.1f} cm for {float(wish):.1f} cm")
    fold = next(at for at, section in enumerate(back.sections) if section.kind == "turning") + 1
    body_row = (marks - back.rows_to(fold, size)) % PERIOD
    first = sleeve.sections[1].chart_start
    hold(first is not None and (first[size] + arm) % PERIOD == body_row, "chart rows do not meet at the underarm")
    return found
