"""Lines that no rows follow, or whose rows cannot take them, are refused; the others are proven."""

from __future__ import annotations

import pytest
from bodies_kit import FRAME
from support import PLAIN, checked, errors, planned, written

HEAD = f'wale 1\n\npattern "Cloth"\n\n{PLAIN}\nsizes one\n\n'
FLAT = f"{HEAD}piece cloth, worked flat\n    cast on 50 cm in plain\n"
TOP = "    neck 18 cm wide, 4 cm deep\n    shoulders slope 2 cm, short rows\n"
LOOSE = """swatch loose, worked flat
    fabric stockinette in rye
    needle 8 mm
    washed 8 sts and 12 rows in 10 cm

"""
RIDGED = """swatch ridged, worked flat
    fabric garter in rye
    needle 4 mm
    washed 16 sts and 32 rows in 10 cm

"""
PAIRS = """yarn flour
    count  2/8 Nm wool
    colour #efe6d2

motif pair
    repeat 2 sts, 1 row
    key    |-| rye, |x| flour
    | - x |

swatch pairs, in the round
    motif  pair in rye, flour
    needle 4 mm
    washed 24 sts and 28 rounds in 10 cm

"""
ROUND = FRAME + "\npiece tube, in the round\n    cast on 48 cm in plain\n"


@pytest.mark.parametrize(
    ("lines", "at"),
    [
        ("    bind off\n", "cast on 50 cm in plain"),
        (f"    work 30 cm\n{TOP}    bind off\n", "bind off"),
        (f"    work 30 cm\n    mark end\n{TOP}", "neck 18 cm wide, 4 cm deep"),
        ("    work 30 cm\n    work in loose\n    bind off\n", "work in loose"),
        (f"    work 30 cm\n    work in loose\n{TOP}", "work in loose"),
    ],
    ids=["no rows", "bound off after the shoulders", "a mark after the last rows", "a last fabric", "one below a neck"],
)
def test_it_is_refused(lines: str, at: str) -> None:
    text = FLAT.replace("sizes one", f"{LOOSE}sizes one") + lines
    done = checked(text)
    assert errors(done) == ["E405"]
    span = done.problems[0].labels[0].span
    assert text[span.start : span.end] == at


def test_a_crown_does_not_close_a_sock() -> None:
    text = f"{ROUND}    work 10 cm\n    heel short rows\n    work 10 cm\n    crown 8 wedges over 6 cm, plain in rye\n"
    assert errors(checked(text)) == ["E405"]


def test_a_rib_below_a_fabric_that_has_no_rows_yet_has_its_stitches() -> None:
    """52 cm at 16 sts in 10 cm are 83.2 sts, with 2 edge sts 85; a 2x2 rib between them has 4 k + 2, with them 4 k."""
    text = FLAT.replace("sizes one", f"{RIDGED}sizes one").replace("50 cm", "52 cm")
    text += "    work in ridged\n    rib 4 cm, 2x2\n    work 10 cm\n    bind off\n"
    assert written(text).proof is not None
    assert planned(text).pieces[0].levels[0].counts[0] % 4 == 0


@pytest.mark.parametrize("ridge", ["garter 3 cm", "work 3 cm"])
def test_stitches_are_gained_inside_a_border_of_garter(ridge: str) -> None:
    """From garter at 16 sts in 10 cm to stockinette at 20: 20 sts more, none of them in the 5 at each end."""
    text = f"{FLAT}    {ridge}\n    work in plain\n    work 10 cm\n    bind off\n"
    text = text.replace("sizes one", f"{RIDGED}sizes one").replace("50 cm in plain", "50 cm in ridged")
    done = written(text.replace("    cast on", "    edge 5 sts each side in garter\n    cast on"))
    assert done.proof is not None
    (piece,) = done.proof.printed.pieces
    (row,) = [step for step in piece.steps if "evenly" in step]
    assert ": k5, " in row and row.split(" 100 sts")[0].endswith(", k5.")


@pytest.mark.parametrize(("below", "above"), [("loose", "plain"), ("plain", "loose")])
def test_a_row_does_not_change_the_stitches_beyond_what_it_has(below: str, above: str) -> None:
    """From 0.8 to 2 sts in a cm each stitch would become 2.5: a row at most doubles them, or halves them."""
    text = FLAT.replace("sizes one", f"{LOOSE}sizes one").replace("50 cm in plain", f"50 cm in {below}")
    done = checked(f"{text}    work 10 cm\n    work in {above}\n    work 10 cm\n    bind off\n")
    assert errors(done) == ["E303"]


def test_a_crown_follows_a_rib() -> None:
    """48 cm are 96 sts; 7 wedges take 91 or 98, so a round above the rib changes them, and is none of the rib's."""
    text = f"{ROUND}    rib 3 cm, 1x1\n    crown 7 wedges over 8 cm, plain in rye\n"
    assert written(text).proof is not None


def test_a_motif_has_a_row_where_the_fabric_above_it_changes_the_stitches() -> None:
    """4 cm of rib reach 3 cm already, within the tolerance of lengths: a round of the motif stands there anyway."""
    lines = "    rib 4 cm, 1x1\n    work in pair on pairs, whole repeats\n    work to 3 cm\n"
    text = ROUND.replace("sizes one", f"{PAIRS}sizes one") + lines
    done = written(f"{text}    work in plain\n    work 3 cm\n    bind off\n")
    assert done.proof is not None
    assert done.plan is not None and done.plan.pieces[0].sections[1].rows == (1,)


def test_a_raglan_keeps_stitches_of_its_back() -> None:
    """A body of 20 sts below 40 at the neck, with sleeves of 60: nothing would be left between the raglan lines."""
    lines = "    work 4 rounds\n    raglan to 10 cm over 20 cm, sleeves 30 cm, underarm 2 cm\n    work 10 cm\n"
    text = f"{ROUND}{lines}    bind off\n    sleeves to 20 cm over 30 cm, cuff 4 cm\n".replace(
        "48 cm in plain", "20 cm in plain"
    )
    assert errors(checked(text)) == ["E303"]
