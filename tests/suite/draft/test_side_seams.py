"""Edge stitches that a seam takes up, and motifs that run on over the side seams.

Swatches: plain 27 sts in 10 cm, easy 40 sts = 13.6 cm (0.34 cm a stitch). Grist has 12 sts and mirrors on a stitch.
"""

from __future__ import annotations

from fractions import Fraction

import pytest
from support import checked, errors, mended, planned, written

from wale.draft.motifs import column

SCARF = """wale 1
pattern "Scarf"
    use "mill-yarns.wale"
sizes one
piece scarf, worked flat
    cast on 20 cm in plain
    work 100 cm
    bind off
"""
BODY = """wale 1
pattern "Run on"
    use "mill-yarns.wale"
    tolerance 2.5 cm
sizes S M
    measure bust 92 (104) cm
    ease bust 14 cm
piece back, worked flat
    edge 1 st each side in rye
    cast on bust/2 in easy
    work in grist on easy, whole repeats, seams unbroken
    work 10 cm
    bind off
piece front, as back
join
    seam sides, mattress stitch
"""


def test_edges_that_no_seam_takes_are_width() -> None:
    """20 cm at 2.7 sts a cm are 54 sts; sewn to a tube 54 and the 2 edge sts that go into the seam."""
    (level,) = planned(SCARF).pieces[0].levels
    assert (level.counts, level.edges, level.taken, level.width(0)) == ((54,), 2, 0, 20)
    (level,) = planned(f"{SCARF}join\n    seam sides\n").pieces[0].levels
    assert (level.counts, level.edges, level.taken, level.width(0)) == ((56,), 2, 2, 20)


def test_edges_that_no_seam_takes_still_stand_outside_a_rib() -> None:
    """2x2 with a knit pair at both ends: 4 k + 2 beside the 2 edge sts, so 52 or 56, as 54 is no such count."""
    (rib, *_) = planned(SCARF.replace("    work 100", "    rib 5 cm, 2x2\n    work 100")).pieces[0].levels
    assert rib.counts[0] in (52, 56)


@pytest.mark.parametrize(
    ("join", "words"),
    [("", "which no seam takes: they count as width"), ("join\n    seam sides\n", "taken up by the seam")],
)
def test_the_assumption_says_whether_a_seam_takes_the_edge(join: str, words: str) -> None:
    spec = checked(SCARF + join).spec
    assert spec is not None
    (said,) = [one.text for one in spec.assumptions if "edge" in one.text]
    assert words in said


def test_a_set_in_sleeve_takes_the_edge_above_the_underarm() -> None:
    body = SCARF.replace("    work 100 cm", "    work 80 cm\n    mark underarm\n    work 20 cm")
    sleeve = "piece sleeve, worked flat, make 2\n    cast on 40 cm in plain\n    work 40 cm\n    bind off\n"
    joined = f"{body}{sleeve}join\n    set sleeve top into armholes\n"
    assert [piece.levels[0].taken for piece in planned(joined).pieces] == [2, 0]


def columns(text: str, size: int) -> list[list[int]]:
    """The motif columns of each piece's stitches between its edges, right to left."""
    found = []
    for piece in planned(text).pieces:
        section, count = piece.sections[-1], piece.levels[-1].counts[size]
        edge = piece.levels[-1].edges // 2
        found.append([column(section, 12, count, stitch, size) for stitch in range(edge, count - edge)])
    return found


@pytest.mark.parametrize("size", [0, 1])
def test_the_motif_runs_on_round_the_body(size: int) -> None:
    """Walked round from the back's right edge, each stitch is the next column of the repeat, also over both seams."""
    back, front = columns(BODY, size)
    assert (len(back) % 12, len(front) % 12) == (1, 11)  # the balance of one stitch, and a stitch less
    ring = back + front
    assert all((after - before) % 12 == 1 for before, after in zip(ring, ring[1:] + ring[:1], strict=True))


def test_counts_of_both_pieces_by_hand() -> None:
    """S: 53 cm are 155.9 sts; 157 = 13 x 12 + 1 and 155 = 13 x 12 - 1, with 2 edge sts 159 and 157."""
    back, front = planned(BODY).pieces
    assert (back.levels[0].counts[0], front.levels[0].counts[0]) == (159, 157)


def test_mirrored_seams_give_both_pieces_the_balance() -> None:
    back, front = columns(BODY.replace("unbroken", "mirrored"), 0)
    assert back == front and back[0] == back[-1]


def test_a_tube_that_is_sewn_to_itself_has_no_balance() -> None:
    (ring,) = columns(BODY.replace("piece front, as back\n", ""), 0)
    assert len(ring) % 12 == 0
    assert all((after - before) % 12 == 1 for before, after in zip(ring, ring[1:] + ring[:1], strict=True))


SHAPED = BODY.replace("whole repeats,", "whole repeats at bust bust-2,").replace(
    "    work 10 cm\n", "    work 4 cm\n    shape to 2 * bust/3 over 30 cm\n    work 4 cm\n"
)


def test_at_two_levels_the_same_stitches_meet() -> None:
    for size in (0, 1):
        ring = [one for piece in columns(SHAPED, size) for one in piece]
        assert all((after - before) % 12 == 1 for before, after in zip(ring, ring[1:] + ring[:1], strict=True))


def test_the_words_are_proven() -> None:
    assert written(BODY).pattern is not None and written(SHAPED).pattern is not None


NECKED = BODY.replace("    bind off\n", "    neck 18 cm wide, 2 cm deep\n    shoulders slope 2 cm, short rows\n")
NECKED += "    seam back shoulders with front shoulders, three-needle bind-off\n"


def test_shoulders_agree_though_the_widths_differ() -> None:
    back, front = planned(NECKED).pieces
    assert back.top is not None and front.top is not None
    assert back.top.shoulder == front.top.shoulder
    assert back.top.neck[0] - front.top.neck[0] == 2


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("whole repeats, seams", "half repeats, seams"),
        ("whole repeats, seams", "seams"),
        ("join\n    seam sides, mattress stitch\n", ""),
        ("piece front, as back\n", "piece front, as back\npiece inset, as back\n"),
        ("piece front, as back\n", "piece front, as back\n    work in grist on easy, whole repeats\n"),
    ],
    ids=["half repeats", "no repeats", "no seam", "three pieces", "one piece only"],
)
def test_where_it_cannot_run_on_it_is_refused(old: str, new: str) -> None:
    text = BODY.replace(old, new)
    assert text != BODY
    assert errors(checked(text)) == ["E309"]


def test_a_round_has_no_side_seams() -> None:
    text = BODY.replace("back, worked flat", "back, in the round").replace("    edge 1 st each side in rye\n", "")
    text = text.replace("in easy", "in easy-round").replace("on easy", "on easy-round")
    assert errors(checked(text)) == ["E309"]


def test_the_fix_writes_whole_repeats() -> None:
    text = BODY.replace("whole repeats, seams", "half repeats, seams")
    (found,) = [one for one in checked(text).problems if one.is_error]
    assert planned(mended(text, found.fixes[0])).pieces[0].levels[0].counts[0] == 159
    assert Fraction(53) == planned(BODY).pieces[0].levels[0].wishes[0]  # type: ignore[index]
