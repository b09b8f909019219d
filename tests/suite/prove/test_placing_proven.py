"""Placing on the proven fabric: a centred piece mirrors stitch for stitch, body and sleeve meet on one chart row."""

from __future__ import annotations

from fractions import Fraction

import pytest
from prove_patterns import FILES, compiled
from support import written
from test_floats_proven import knitted

from wale.materials import Motif

SHIFTED = """wale 1

pattern "Panel"
    use "mill-yarns.wale"

motif peaks
    repeat 4 sts, 2 rows
    key    |-| rye, |x| flour
    | - x x x |
    | - - x - |
    next   shifts {shift} st{s}

sizes one
    measure head 56 cm

piece panel, worked flat
    cast on 45 cm in easy
    work    in peaks on easy, {fit}
    work    to 20 cm
    bind off
"""


def mirrors(motif: Motif) -> bool:
    """Try every stitch and gap as an axis, over all cells of a period."""
    cells = {(c, r): motif.cell(c, r) for c in range(motif.width) for r in range(motif.period)}
    return any(
        all(cells[c, r] == cells[(twice - c) % motif.width, r] for c, r in cells) for twice in range(2 * motif.width)
    )


def unlike(done, monkeypatch) -> tuple[int, list[tuple[str, str, int]]]:
    """Count the rows of flat pieces worked over their whole width in a motif; give those that do not mirror."""
    seen, wrong = 0, []
    for fabric in knitted(done, monkeypatch):
        piece = done.plan.piece(fabric.piece)
        # halves mirror each other, and not about their own middle
        if piece.in_round or piece.half is not None:
            continue
        before = fabric.cast_on
        for row in fabric.rows:
            # Bind-offs at the sides make the right side a row ahead of the left one,
            is_ahead, before = row.side == "RS" and before - row.stitches > 2, row.stitches
            # and so do steps of shoulders and necks.
            if not row.chart or row.part or row.waiting or row.gone or row.stitches != len(row.ops) or is_ahead:
                continue
            seen += 1
            if row.colours != row.colours[::-1]:
                wrong.append((fabric.piece, fabric.size, row.number))
    return seen, wrong


def test_every_centred_piece_mirrors_in_every_size_and_row(monkeypatch):
    seen = 0
    for name in sorted(FILES):
        done = compiled(name)
        fits = [
            (section.fabric.fit.kind, done.spec.motifs[section.fabric.motif])
            for piece in done.plan.pieces
            if not piece.in_round
            for section in piece.sections
            if section.fabric is not None and done.spec.coloured(section.fabric.motif)
        ]
        assert all(kind in ("centred", "whole") and mirrors(motif) for kind, motif in fits)
        rows, wrong = unlike(done, monkeypatch)
        assert wrong == [], name
        seen += rows
    # The pullover alone has three pieces in seven sizes of more than a hundred rows each.
    assert seen > 2000


@pytest.mark.parametrize("shift", [0, 1, 2, 3])
def test_a_shift_other_than_half_a_repeat_takes_the_mirror_away_and_is_told(shift, monkeypatch):
    """The rows of peaks mirror about a stitch; shifted by s of 4 sts they do so where 2 s is a multiple of 4."""
    keeps = 2 * shift % 4 == 0
    words = {"shift": shift, "s": "" if shift == 1 else "s"}
    asked = written(SHIFTED.format(**words, fit="centred"))
    assert [one.code for one in asked.problems if one.severity == "error"] == ([] if keeps else ["E245"])
    if keeps:
        seen, wrong = unlike(asked, monkeypatch)
        assert seen > 50 and wrong == []
        return
    (problem,) = [one for one in asked.problems if one.code == "E245"]
    told = f"its rows do, but the shift of {shift} st{words['s']} takes that away"
    assert told in problem.labels[0].text
    placed = written(SHIFTED.format(**words, fit="from the edge"))
    seen, wrong = unlike(placed, monkeypatch)
    assert seen > 50 and wrong
    assert not mirrors(placed.spec.motifs["peaks"])


def test_body_and_sleeve_show_the_same_chart_row_at_the_underarm(monkeypatch):
    """The sleeve's last row and the body's row below its mark, in every size."""
    done = compiled("millrace-pullover")
    fabrics = {(one.piece, one.size): one for one in knitted(done, monkeypatch)}
    sizes = [done.plan.sizes[number] for number in done.sizes]
    for size in sizes:
        back, sleeve = fabrics["back", size], fabrics["sleeve", size]
        mark = dict(back.marks)["underarm"]
        (at,) = [row for row in back.rows if row.number == mark]
        last = [row for row in sleeve.rows if row.chart][-1]
        assert (at.chart, at.chart_row) == (last.chart, last.chart_row)
        # and the same column in the middle, as both are centred on a stitch
        middles = [Fraction(len(row.ops) - 1, 2) for row in (at, last)]
        assert all(middle.denominator == 1 for middle in middles)
        columns = [row.column(int(middle)) for row, middle in zip((at, last), middles, strict=True)]
        assert columns[0] % 12 == columns[1] % 12
