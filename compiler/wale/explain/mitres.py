"""Reasons of a band's mitres: the stitches that they stand on, their rounds, and what is left."""

from __future__ import annotations

from itertools import groupby, pairwise

from wale.draft.mitres import mitred_neck, slant
from wale.explain.book import Book, known
from wale.explain.reason import Input
from wale.plan import BandPlan
from wale.spec import Band

FLAT = (
    "on each round where a side loses 3/4 of a stitch or more in a round, else on every second (docs/maths.md#mitres)"
)


def mitre_reasons(book: Book, size: int, band: Band, plan: BandPlan) -> None:
    """Tell the mitres of a band in one size."""
    name, spans = f"{plan.name}.mitre", (band.rib.span,)
    pieces = {piece.name: piece for piece in book.plan.pieces}
    rounds, marked, piece = plan.mitres[size], plan.marked[size], pieces[mitred_neck(band, pieces)]
    turned = f"the centre of the {piece.name} neck"
    at = next(at for at, (part, _) in enumerate(plan.picked) if part == turned)
    before = {f"p{number}": known(part, counts[size], "sts") for number, (part, counts) in enumerate(plan.picked[:at])}
    template = " + ".join(f"{{{key}}}" for key in before) + " + 1"
    book.reckon(f"{name}.stitch[1]", size, marked[0], "", template, before, spans=spans)
    for place in marked[1:]:
        wide = known(turned, plan.picked[at][1][size], "sts")
        book.reckon(
            f"{name}.stitch[2]", size, place, "", f"{template} + {{wide}} - 1", {**before, "wide": wide}, spans=spans
        )
    corners = {"corners": Input("marked sts", len(marked), f"{len(marked)} marked")}
    book.reckon(f"{name}.fewer", size, 2 * len(marked), "sts", "2 * {corners}", corners, spans=spans)
    if not rounds:
        return
    once = {"plain": Input("rounds that set the rib", 1, "1 round that sets the rib")}
    book.reckon(f"{plan.name}.rib.rows", size, rounds[0] - 1, "rounds", "{plain}", once, spans=spans)
    book.reckon(f"{name}.first", size, rounds[0], "round", "{plain} + 1", once, spans=spans)
    given = {
        "sts": known("gauge of the band, sts/cm", plan.sts_per_cm, "sts/cm"),
        "rows": known("gauge of the band, rounds/cm", plan.rows_per_cm, "rounds/cm"),
        "slant": known(
            "half width / depth", slant(book.spec, pieces[mitred_neck(band, pieces)], size), "half width / depth"
        ),
    }
    intervals = [(every, len(list(run))) for every, run in groupby(after - one for one, after in pairwise(rounds))]
    for every, times in intervals:
        book.reckon(
            f"{name}.every", size, every, "rounds",
            "2 - min(1, floor({sts} / {rows} / {slant} * 4 / 3))", given, spans=spans, rules=(FLAT,),
        )  # fmt: skip
        many = {
            "rounds": known(f"{plan.name}.rounds", plan.rows[size], "rounds"),
            "every": known(f"{name}.every", every, ""),
        }
        book.reckon(f"{name}.times", size, times, "times", "floor(({rounds} - 2) / {every})", many, spans=spans)
    left = {
        "picked": known(f"{plan.name}.stitches", plan.stitches[size], "sts"),
        "fewer": known(f"{name}.fewer", 2 * len(marked), "fewer"),
        "times": known("mitre rounds", len(rounds), "mitre rounds"),
    }
    book.reckon(f"{name}.left", size, plan.last(size), "sts", "{picked} - {fewer} * {times}", left, spans=spans)
