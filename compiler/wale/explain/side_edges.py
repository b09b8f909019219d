"""Reasons of what a neck that begins low meets: sections told in part below it, and sides shaped beside it."""

from __future__ import annotations

from wale.explain.book import Book, known
from wale.plan import Section
from wale.write.context import Context
from wale.write.side_edges import ENDS, SideWork, below_top, is_cut, side_gone, side_shaped, side_works, top_rows
from wale.write.tops import side_count, stepped_off

TOGETHER = "the sides are shaped as their own lines say, from where the neck begins on beside it"


def cut_schedule(book: Book, at: Context, section: Section) -> None:
    """Tell what of a shaping lies below the neck: how often, and the stitches then; nothing where all of it does."""
    size, name, below = at.size, section.address, below_top(at, section)
    if not is_cut(at, section):
        return
    kept, spans = section.schedules[size].up_to(below), (section.step.action.span,)
    for number, (_, times) in enumerate(kept.then, 1):
        given = {"times": known("shaping rows below the neck", times, "times below the neck")}
        book.reckon(f"{name}.below.times[{number}]", size, times, "times", "{times}", given, spans=spans)
    each = at.piece.ends_shaped
    given = {
        "before": known(at.piece.levels[section.first].address, at.first_count(section), "sts"),
        "shapings": known("shaping rows below the neck", kept.steps, "shapings"),
    }
    after = at.first_count(section) - each * kept.steps
    template = "{before} - 2 * {shapings}" if each > 1 else "{before} - {shapings}"
    book.reckon(f"{name}.below.stitches", size, after, "sts", template, given, spans=spans)


def side_edge_reasons(book: Book, at: Context) -> None:
    """Tell the rows of the top on which its sides are shaped or marked."""
    top, half = at.piece.top, at.piece.half
    assert top is not None
    name, neck_row = f"{at.piece.name}.top", top_rows(at) - top.neck_rows[at.size] + 1
    for end in ENDS:
        slot = f"{name}.{end}.edge" if half is None else f"{name}.edge"
        for number, work in enumerate(side_works(at, end, neck_row if half is None else 0), 1):
            _work(book, at, f"{slot}.part[{number}]", work)
    if half is None:
        _neck_row(book, at, f"{name}.neck", neck_row)


def _work(book: Book, at: Context, slot: str, work: SideWork) -> None:
    size, rows = at.size, work.rows
    begins = {
        "below": known("rows below the top", at.piece.total_rows(size) - top_rows(at), "rows below the top"),
        "row": known("row of the piece", at.piece.total_rows(size) - top_rows(at) + rows[0], "row of the piece"),
    }
    book.reckon(f"{slot}.row", size, rows[0], "row", "{row} - {below}", begins, rules=(TOGETHER,))
    if work.kind == "bound":
        given = {"each": known("bound off at each side", work.each, "sts")}
        book.reckon(f"{slot}.stitches", size, work.each, "sts", "{each}", given)
    for number, (interval, times) in enumerate(work.then, 1):
        given = {"interval": known("rows to the next", interval, "rows on"), "times": known("so often", times, "times")}
        book.reckon(f"{slot}.interval[{number}]", size, interval, "rows", "{interval}", given, rules=(TOGETHER,))
        book.reckon(f"{slot}.times[{number}]", size, times, "times", "{times}", given, rules=(TOGETHER,))


def _neck_row(book: Book, at: Context, slot: str, row: int) -> None:
    """Tell the stitches before the neck on its first row, what the side has lost by then apart."""
    size, top = at.size, at.piece.top
    assert top is not None
    shaped, gone = (
        side_shaped(at, "right", row),
        side_gone(at, "right", row) + stepped_off(at, "right", row, top_rows(at)),
    )
    begun = {
        "shoulder": known(f"{at.piece.name}.shoulders.stitches", top.shoulder[size], "sts of a shoulder"),
        "steps": known(f"{at.piece.name}.neck.side", sum(top.steps[size]), "sts of the neck's side"),
    }
    work, template = side_count(at) - gone - (at.edge + 1) * shaped, "{shoulder} + {steps}"
    later, made = side_gone(at, "right", top_rows(at)), (at.edge + 1) * shaped
    if later:
        begun["later"] = known("sts that go at the side from here on", later, "sts that go at the side from here on")
        template += " + {later}"
    if gone:
        begun["gone"] = known("gone there by this row", gone, "sts gone there by this row")
        template += " - {gone}"
    if made:
        begun["made"] = known("edge and decrease", made, "sts of edge and decrease")
        template += " - {made}"
    book.reckon(f"{slot}.work", size, work, "sts", template, begun)
    if side_shaped(at, "left", row):
        given = {"edge": known(f"{at.piece.name}.edge", at.edge, "edge sts")}
        book.reckon(f"{slot}.last", size, at.edge + 2, "sts", "{edge} + 2", given)
    bound = sum(one.each for one in side_works(at, "right") if one.kind == "bound" and row in one.rows)
    if bound:
        given = {"each": known("bound off at each side", bound, "sts")}
        book.reckon(f"{slot}.off", size, bound, "sts", "{each}", given)
