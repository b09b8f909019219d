"""Pieces that hardly hold together: proven as they are printed, or refused before anything is."""

from __future__ import annotations

from support import errors, written

COWL = """wale 1
pattern "Cowl"
    use "mill-yarns.wale"
sizes one
piece cowl, in the round
    cast on 62 cm in plain-round
    rib 3 cm, 2x2
    {lines}
"""


def test_a_fabric_that_gets_no_row_is_no_length_and_is_proven() -> None:
    # 3 cm of rib are more than 2 cm: the motif's section has no row, but its stitches are bound off.
    done = written(COWL.format(lines="work in grist on easy-round, whole repeats\n    work to 2 cm\n    bind off"))
    assert done.proof is not None
    lengths = {one.name for one in done.proof.outcome.measured if one.name.startswith("length after")}
    assert lengths == set()
    assert {"cowl, length", "cowl, body, around"} <= {one.name for one in done.proof.outcome.measured}


def test_nothing_is_worked_after_the_stitches_are_bound_off() -> None:
    lines = "bind off\n    work to 20 cm\n    work in grist on easy-round, whole repeats"
    done = written(COWL.format(lines=lines))
    assert errors(done) == ["E405"]
    (problem,) = (one for one in done.problems if one.is_error)
    assert "comes after the stitches are bound off" in problem.message


def test_a_hem_needs_rows_above_its_fold() -> None:
    for last in ("", "bind off"):
        done = written(COWL.format(lines=last).replace("rib 3 cm, 2x2", "hem 3 cm, folded, purl ridge"))
        assert errors(done) == ["E405"]
        (problem,) = (one for one in done.problems if one.is_error)
        assert "folds a hem with nothing worked above it" in problem.message
