"""Shoulders without a slope: their stitches wait on a holder, on both sides and in both halves."""

from __future__ import annotations

import pytest
from support import checked, errors, planned, written
from test_mitres import VEST

from wale.outputs.text import render as to_text

STRAIGHT = VEST.replace("shoulders slope 8 rows, short rows", "shoulders straight")
HALVES = (
    STRAIGHT.replace(
        "piece front, as back\n    neck 25 sts wide, 46 rows deep, V\n",
        "piece left-front, as back, left half\n    opening 3 cm\n    neck 25 sts wide, 46 rows deep, V\n\n"
        "piece right-front, as left-front, mirrored\n",
    )
    .replace("77 sts", "32 cm")
    .replace("25 sts wide", "10 cm wide")
    .partition("band neckband")[0]
    .replace("with front shoulders", "with left-front shoulders")
)


def test_their_stitches_wait() -> None:
    """77 sts less 25 are 26 a shoulder; the top has the neck's 46 rows, and none slopes."""
    plan = planned(STRAIGHT)
    top = plan.pieces[1].top
    assert top is not None and top.slope_rows == (0,) and top.shoulder == (26,)
    done = written(STRAIGHT)
    assert done.pattern is not None and not errors(done)
    text = " ".join(to_text(done.pattern).split())
    assert text.count("After row 46 put the 26 sts on a holder.") == 2
    assert text.count("After row 8 put the 26 sts on a holder.") == 2
    assert "Short rows" not in text and "slope" not in text.partition("Assumptions")[0]


def test_halves_are_mirrored() -> None:
    """What is written was proven, the right half against the left one's mirror image."""
    done = written(HALVES)
    assert done.pattern is not None and not errors(done)
    left, right = (done.plan.pieces[index].top for index in (1, 2)) if done.plan is not None else (None, None)
    assert left is not None and right is not None
    assert (left.steps, left.centre, left.shoulder) == (right.steps, right.centre, right.shoulder)
    assert left.slope_rows == right.slope_rows == (0,)


@pytest.mark.parametrize("option", ["short rows", "bound off in steps"])
def test_no_slope_has_no_way(option: str) -> None:
    text = STRAIGHT.replace("shoulders straight", f"shoulders straight, {option}")
    (found,) = [one for one in checked(text).problems if one.is_error][:1]
    span = found.labels[0].span
    assert option.split()[0] in text[span.start : span.end]
