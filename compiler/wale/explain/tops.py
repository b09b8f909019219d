"""Reasons of neck curves, shoulder groups and the rows on which they stand."""

from __future__ import annotations

from wale.actions import Neck
from wale.explain.book import Book, known
from wale.explain.even import runs
from wale.explain.half_tops import chart_row_reason, half_neck_reasons, half_place_reasons
from wale.explain.plackets import opening_rows, placket_reasons
from wale.explain.reason import Input
from wale.explain.side_edges import side_edge_reasons
from wale.explain.slopes import SCOOP, SLOPE, slope_reasons
from wale.plan import Top
from wale.shaping.neck import MOST_PER_STEP, boat_ends
from wale.write.context import Context
from wale.write.side_edges import top_rows

CURVE = "a third of the neck in the centre, the rest in steps that shrink steadily (docs/maths.md#neck-curve)"
RULES = {
    "round": CURVE,
    "square": "a square neck is all centre",
    "V": SLOPE,
    "scoop": SCOOP,
    "boat": "all but the curve at both ends in the centre, 2.5 cm of it in all (docs/maths.md#boat-neck)",
}
GROUPS = "groups differ by one stitch at most, the larger ones last (docs/maths.md#shoulder-steps)"


def top_reasons(book: Book, at: Context) -> None:
    """Tell the derived numbers of neck and shoulders."""
    top = at.piece.top
    assert top is not None and top.neck_step is not None and top.shoulder_step is not None
    side_edge_reasons(book, at)
    if at.piece.half is not None:
        half_neck_reasons(book, at, top)
        group_reasons(book, at, top)
        half_place_reasons(book, at, top)
        return
    _neck(book, at, top)
    group_reasons(book, at, top)
    _places(book, at, top)


def _neck(book: Book, at: Context, top: Top) -> None:
    assert top.neck_step is not None and isinstance(top.neck_step.action, Neck)
    action, size, name = top.neck_step.action, at.size, f"{at.piece.name}.neck"
    placket_reasons(book, at)
    stitches, rows, spans = top.neck[size], top.depth_rows(size), (top.neck_step.action.span,)
    given = {"sts": known(f"{name}.stitches", stitches, "neck sts"), "rows": known(f"{name}.rows", rows, "neck rows")}
    foot = "{foot}" if top.has_placket else ""
    if foot:
        given["foot"] = known(f"{at.piece.name}.placket.stitches", top.centre[size], "sts of the placket's foot")
    centre = {"square": "1 * {sts}", "V": foot or "2 - mod({sts}, 2)"}.get(action.curve, "")
    part = {"round": "ceil({sts} / 3)", "scoop": "ceil({sts} / 2)", "boat": "max(ceil({sts} / 3), {sts} - {ends})"}
    if action.curve in part:
        if action.curve == "boat":
            given["ends"] = known("sts of both ends", boat_ends(at.piece.levels[-1].sts_per_cm), "sts at the ends")
        low = f"max({part[action.curve]}, {foot})" if foot else part[action.curve]
        whole, pairs = f"({low} + mod({{sts}} - {low}, 2))", "floor((max(1, {rows} - 2) - 1) / 2)"
        most = pairs if action.curve == "scoop" else f"{MOST_PER_STEP} * {pairs}"
        centre = f"{{sts}} - 2 * min(({{sts}} - {whole}) / 2, {most})"
    rules = [RULES[action.curve]]
    book.reckon(f"{name}.centre", size, top.own_centre(size), "sts", centre, given, spans=spans, rules=rules)
    steps = top.own_steps(size)
    if not steps:
        return
    given = {"sts": given["sts"], "centre": known(f"{name}.centre", top.own_centre(size), "centre sts")}
    side = sum(steps)
    book.reckon(f"{name}.side", size, side, "sts", "({sts} - {centre}) / 2", given, spans=spans)
    if top.is_sloped:
        slope_reasons(book, at, top, spans)
        return
    for number, ((step, times), (weight, count, extra)) in enumerate(
        zip(runs(steps), _weights(steps, rows), strict=True), 1
    ):
        given = {
            "side": known(f"{name}.side", side, "sts of one side"),
            "weight": known("weight of the step", weight, "as weight"),
            "all": known("all weights", count * (count + 1) // 2, "as all weights"),
        }
        template = "floor({side} * {weight} / {all})" + (" + 1" if extra else "")
        rules = [CURVE, "stitches left over go to the steps with the largest remainders"]
        book.reckon(f"{name}.step[{number}]", size, step, "sts", template, given, spans=spans, rules=rules)
        given = {"times": Input("equal steps", times, f"{times} in a row")}
        book.reckon(f"{name}.step[{number}].times", size, times, "times", "{times}", given, spans=spans)


def _weights(steps: tuple[int, ...], rows: int) -> list[tuple[int, int, bool]]:
    """For the first step of each run of equal ones: its weight, the number of weights, whether it got a stitch more."""
    side, available = sum(steps), (max(1, rows - 2) - 1) // 2
    count = 0
    while count < available and count * (count + 1) < 4 * side:
        count += 1
    whole = count * (count + 1) // 2
    weights = range(count, 0, -1)
    shares = {weight: side * weight // whole for weight in weights}
    by_rest = sorted(weights, key=lambda weight: (-(side * weight % whole), -weight))
    more = set(by_rest[: side - sum(shares.values())])
    got = sorted(weights, key=lambda weight: (-(shares[weight] + (weight in more)), -weight))
    found, place = [], 0
    for _, times in runs(steps):
        found.append((got[place], count, got[place] in more))
        place += times
    return found


def group_reasons(book: Book, at: Context, top: Top) -> None:
    """Tell the groups of a shoulder."""
    assert top.shoulder_step is not None
    size, name, spans = at.size, f"{at.piece.name}.shoulders", (top.shoulder_step.action.span,)
    groups, held = top.groups[size], top.shoulder[size]
    given = {"rows": known(f"{name}.rows", top.slope_rows[size], "rows of slope")}
    book.reckon(f"{name}.turns", size, len(groups) - 1, "times", "{rows} / 2", given, spans=spans)
    given = {
        "sts": known(f"{name}.stitches", held, "sts of a shoulder"),
        "groups": known(f"{name}.turns, and one", len(groups), "groups"),
    }
    for number, group in enumerate(groups, 1):
        short = "floor({sts} / {groups})"
        template = short if group == held // len(groups) else f"{short} + 1"
        book.reckon(f"{name}.group[{number}]", size, group, "sts", template, given, spans=spans, rules=(GROUPS,))
    left = groups[1:-1] if top.manner == "short rows" else groups[1:]
    for number, (group, times) in enumerate(runs(left), 1):
        given = {"times": Input(f"equal groups of {group}", times, f"{times} of {group} sts after the first")}
        book.reckon(f"{name}.times[{number}]", size, times, "times", "{times}", given, spans=spans)


def _places(book: Book, at: Context, top: Top) -> None:
    """Rows of the top, counted from its row 1."""
    assert top.neck_step is not None and top.shoulder_step is not None
    size, piece, name = at.size, at.piece.name, f"{at.piece.name}.top"
    spans = (top.neck_step.action.span, top.shoulder_step.action.span)
    rows, neck, slope = top_rows(at), top.neck_rows[size], top.slope_rows[size]
    height = known(f"{name}.rows", rows, "rows of the top")
    depth = opening_rows(at)
    drop = known(f"{piece}.shoulders.rows", slope, "rows of slope")
    template = "max({depth}, {drop} + 2)" if slope else "{depth}"
    book.reckon(f"{name}.rows", size, rows, "rows", template, {"depth": depth, "drop": drop}, spans=spans)
    given = {"all": height, "part": depth}
    first = rows - neck + 1
    book.reckon(f"{name}.before", size, first - 1, "row", "{all} - {part}", given, spans=spans)
    book.reckon(f"{name}.neck-row", size, first, "row", "{all} - {part} + 1", given, spans=spans)
    if slope:
        given = {"all": height, "part": drop}
        book.reckon(f"{name}.turn-row", size, rows - slope, "row", "{all} - {part}", given, spans=spans)
        book.reckon(f"{name}.turn-row-left", size, rows - slope + 1, "row", "{all} - {part} + 1", given, spans=spans)
        if top.manner == "steps":
            book.reckon(f"{name}.left.off", size, rows + 2, "row", "{all} + 2", {"all": height}, spans=spans)
            book.reckon(f"{name}.right.off", size, rows + 1, "row", "{all} + 1", {"all": height}, spans=spans)
            book.reckon(f"{name}.step-row", size, rows - slope + 2, "row", "{all} - {part} + 2", given, spans=spans)
    row = {"row": known(f"{name}.neck-row", first, "as the neck row")}
    book.reckon(f"{name}.left.row", size, first + 2, "row", "{row} + 2", row, spans=spans)
    book.reckon(f"{name}.right.row", size, first + 1, "row", "{row} + 1", row, spans=spans)
    if top.has_placket:
        row["beside"] = known(f"{piece}.placket.rows", top.placket_rows[size], "rows of the placket")
        begun = first + top.placket_rows[size]
        book.reckon(f"{name}.left.shaped", size, begun, "row", "{row} + {beside}", row, spans=spans)
        book.reckon(f"{name}.right.shaped", size, begun - 1, "row", "{row} + {beside} - 1", row, spans=spans)
    book.reckon(f"{name}.left.last", size, rows + 1, "row", "{all} + 1", {"all": height}, spans=spans)
    book.reckon(f"{name}.right.last", size, rows, "row", "{all}", {"all": height}, spans=spans)
    chart_row_reason(book, at, spans)
