"""All instruction lines of a band in one size: picked up, worked in rib in the round or flat, with its buttonholes."""

from __future__ import annotations

from itertools import groupby, pairwise

from wale.draft.band_ends import goes_up
from wale.draft.opened import opens
from wale.draft.pocket_edges import POCKET
from wale.plan import BandPlan
from wale.spec import PLACKET_EDGES, Band
from wale.write.context import Context, needle_text
from wale.write.cords import cord_line
from wale.write.flat_bands import flat_rows
from wale.write.hoods import hood_lines
from wale.write.lines import Line, Ordinal, Part, Sts, Times
from wale.write.open_bands import open_start
from wale.write.textures import edging_lines


def band_lines(at: Context, band: Band, plan: BandPlan) -> list[Line]:
    """Write a band."""
    swatch, size = at.spec.swatches[band.swatch], at.size
    needle = band.rib.needle_mm if band.rib.needle_mm is not None else swatch.needle_mm
    parts: list[Part] = [
        f"with the right side facing, on {needle_text(needle)} needles and in {swatch.yarns[0]}, pick up and knit "
    ]
    for number, (name, counts) in enumerate(plan.picked):
        parts += [", " if number else "", Sts(counts[size]), f" along {name}"]
    parts += [": ", plan.stitches[size], " sts." if plan.is_flat else " sts. Join to a round."]
    count = plan.last(size)
    around = _around(at, band, plan, swatch.yarns[0])
    slot = f"{band.name}.bind-off"
    plain = at.line(slot, "", "Bind off all ", count, f" sts {band.manner}.")
    return [
        at.remark(f"{band.name}.start", _start(at, band, plan)),
        at.line(f"{band.name}.pick-up", "Pick up", *parts),
        *(hood_lines(at, band, plan) if plan.hood else flat_rows(at, band, plan) if plan.is_flat else around),
        cord_line(at, slot, count, band.cord, swatch.yarns[0]) if band.cord else plain,
    ]


def _around(at: Context, band: Band, plan: BandPlan, main: str) -> list[Line]:
    """Rounds of a band, with its mitres where it turns a corner."""
    size = at.size
    rounds = plan.mitres[size] if plan.mitres else ()
    plain = rounds[0] - 1 if rounds else plan.rows[size]
    lines = edging_lines(at, f"{band.name}.rib", band.rib, plan.stitches[size], plain, in_round=True, main=main)
    if not rounds:
        return lines
    marked: list[Part] = ["mark st ", plan.marked[size][0]]
    for place in plan.marked[size][1:]:
        marked += [" and st ", place]
    marked.append(" of the round. Each mitre round: work the sts as they lie, but s2kp over each marked st and its ")
    marked += ["two neighbours. ", Sts(2 * len(plan.marked[size])), " fewer."]
    parts: list[Part] = ["Work the mitre round on round ", rounds[0]]
    for every, run in groupby(after - before for before, after in pairwise(rounds)):
        times = Times(len(list(run)))
        parts += (
            [", then on every round ", times] if every == 1 else [", then on every ", Ordinal(every), " round ", times]
        )
    parts += ["; work the other rounds as the sts lie: ", plan.rows[size], " rounds, ", plan.last(size), " sts."]
    return [
        *lines,
        at.line(f"{band.name}.mitre", "Mitre", *marked),
        at.line(f"{band.name}.mitre.rounds", "", *parts),
    ]


def _start(at: Context, band: Band, plan: BandPlan) -> str:
    """Say where picking up begins: it goes from right to left, with the edge uppermost."""
    if plan.make > 1 and band.edges[0][1] != POCKET:
        return (
            "Begin at the side seam, as a round on a short circular needle or on double-pointed ones. Where the front "
            "comes first, as on the other armhole, pick up along these edges in the opposite order."
        )
    if not plan.is_flat:
        return "Begin at the right shoulder seam, as worn."
    pieces = {piece.name: piece for piece in at.plan.pieces}
    if opens(band, pieces):
        return open_start(band, pieces)
    name, edge = band.edges[0]
    if edge == POCKET:
        text = f"Slip the held sts of the {name} pocket onto the needle: they are knitted, no others are picked up."
        return f"{text} Work it once for each opening." if plan.make > 1 else text
    if edge in PLACKET_EDGES:
        side = edge.partition("-")[0]
        if goes_up(band, pieces):
            return f"Begin at the foot of the {name} placket and go up its {side} edge as worn."
        begin = f"at the bound-off edge of the {band.end}" if band.end else "at the neck"
        return f"Begin {begin} and go down the {side} edge as worn of the {name} placket."
    piece = at.plan.piece(name)
    is_right = piece is not None and piece.half is not None and piece.half.hand == "right"
    if edge == "neck":
        return f"Begin at the front edge of the {name}." if is_right else f"Begin at the shoulder seam of the {name}."
    if band.end and not is_right:
        return f"Begin at the bound-off edge of the {band.end} and go down the front edge of the {name}."
    return f"Begin at the {'lower edge' if is_right else 'neck'} of the {name}."
