"""Pieces that are larger than anybody knits."""

from __future__ import annotations

import pytest
from specs import YARNS, compiled

from wale.checks import check, largest
from wale.prove import needle, row_work

SHAWL = """wale 1
pattern "Shawl"
YARNS
swatch plain, worked flat
    fabric stockinette in rye
    needle 4 mm
    washed 22 sts and GAUGE rows in 10 cm
sizes one
piece shawl, worked flat
    edge    0 sts each side
    cast on 401 sts in plain
    work    in plain
    work    2 rows
    half    circle over LENGTH
"""


def refusals(length: str, gauge: int = 32, shawl: str = SHAWL) -> list[str]:
    text = shawl.replace("YARNS", YARNS).replace("LENGTH", length).replace("GAUGE", str(gauge))
    return [one.message for one in check(*compiled(text)) if one.code == "E223"]


def test_a_huge_half_circle_is_refused() -> None:
    """200 cm at 32 rows in 10 cm are 320 pairs; 256 is the last doubling below. The stitches between borders are 398.

    Two rows of 401, two more; after doubling n, 1 to 7, 2 x 2^n rows of 398 x 2^n + 5; then 2 x (321 - 256) rows of
    398 x 256 + 5 = 101893. 1604 + 2 x 398 x (4 + 16 + ... + 16384 = 21844) + 10 x 254 + 130 x 101893 = 30638058.
    """
    assert 1604 + 2 * 398 * 21844 + 10 * 254 + 130 * 101893 == 30638058
    assert refusals("200 cm") == ["the shawl has 30638058 sts, more than anybody knits"]


def test_the_bound_itself_is_not_beyond_it() -> None:
    """As above with 64 pairs fewer, 256, the last doubling has 2 rows: 130 - 128. A row then holds 101893 sts still.

    1604 + 17387824 + 2540 + 2 x 101893 = 17595754; each pair adds 203786, so the 11th, of 19837400, is the last.
    """
    assert 1604 + 17387824 + 2540 + 2 * 101893 == 17595754
    assert 17595754 + 11 * 203786 == 19837400
    assert refusals(f"{267 * 2 / 3.2} cm") == []
    assert refusals(f"{268 * 2 / 3.2} cm") == ["the shawl has 20041186 sts, more than anybody knits"]


def test_a_row_that_is_too_long_is_told() -> None:
    """4 pairs double 39998 - 3 stitches twice, 5 sts beside them: no row is too long; 32 pairs double five times.

    39995 x 32 + 5 = 1279845, more than a million.
    """
    wide = SHAWL.replace("22 sts", "400 sts").replace("401 sts", "39998 sts")
    assert refusals("2.5 cm", 32, wide) == []
    assert refusals("20 cm", 32, wide) == ["the shawl has a row of 1279845 sts, more than anybody knits"]


@pytest.mark.parametrize(
    ("ours", "its"),
    [
        (largest.MOST_STITCHES, needle.MOST_STITCHES),
        (largest.MOST_ROWS, needle.MOST_ROWS),
        (largest.MOST_ON_ROW, row_work.MOST_STEPS),
    ],
)
def test_the_machine_of_the_proof_knits_all_others(ours: int, its: int) -> None:
    assert ours <= its
