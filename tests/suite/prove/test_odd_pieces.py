"""Pieces that hardly hold together: proven as they are printed, or refused before anything is."""

from __future__ import annotations

import re

import pytest
from support import EXAMPLES, MILL_YARNS, PLAIN, errors, written

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


@pytest.mark.parametrize(("rye", "flour"), [("k", "p"), ("yo", "ssk"), ("sl", "cable"), ("row", "times")])
def test_yarns_may_be_called_like_words_of_a_pattern(rye: str, flour: str) -> None:
    """A chart tells its yarns as `3 k`, the stitches of a texture as `k3`; rows of both sides are read so."""
    texts = [(EXAMPLES / "millrace-pullover.wale").read_text("utf-8"), MILL_YARNS]
    for old, new in (("rye", rye), ("flour", flour)):
        texts = [re.sub(rf"\b{old}\b", new, text) for text in texts]
    assert written(texts[0], **{"mill-yarns": texts[1]}).proof is not None


def test_a_rib_of_one_column_is_proven() -> None:
    """2.4 cm are 4.8 sts; with 2 edge sts 6.8: 4 k + 2 and 2 edge sts are 4 or 8, of which 4 is within 1.5 cm alone."""
    text = f'wale 1\n\npattern "Tab"\n\n{PLAIN}\nsizes one\n\npiece tab, worked flat\n    cast on 2.4 cm in plain\n'
    done = written(text + "    rib 5 cm, 2x2\n    work 6 cm\n    bind off\n")
    assert done.plan is not None and done.plan.pieces[0].levels[0].counts[0] in (4, 8)
    assert done.proof is not None
