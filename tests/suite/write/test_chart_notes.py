"""Notes below the charts of textures: true for what is printed, flat and in the round."""

from __future__ import annotations

import pytest
from support import written

from wale.pattern import Chart

TEXT = """wale 1
pattern "Cloth"
yarn rye
    count  2/8 Nm wool
    colour #8a5a2b
motif grist
    repeat   6 sts, 4 rows
    stitches |-| knit, |~| purl, |y| yo, |/| k2tog, |\\| ssk, |<| cable-4-left
    | - - - - - - |
    | THIRD |
    | - - - - - - |
    | FIRST |
swatch some, WORKED
    motif  grist in rye
    needle 4 mm
    washed 20 sts and 28 rows in 10 cm
sizes one
piece cloth, PIECE
    cast on 60 sts in some
    work    in grist on some, PLACED
    work    12 rows
    bind off
"""
KNIT = "- - - - - -"


def notes(first: str, third: str = KNIT, *, flat: bool = True) -> tuple[str, ...]:
    text = TEXT.replace("FIRST", first).replace("THIRD", third).replace("rows in", "rows in" if flat else "rounds in")
    worked = "worked flat" if flat else "in the round"
    text = (
        text.replace("WORKED", worked).replace("PIECE", worked).replace("12 rows", "12 rows" if flat else "12 rounds")
    )
    text = text.replace("PLACED", "from the edge" if flat else "whole repeats")
    pattern = written(text).pattern
    assert pattern is not None
    (chart,) = (part for section in pattern.sections for part in section.parts if isinstance(part, Chart))
    return chart.notes


def test_rounds_have_no_wrong_side_rows() -> None:
    lace = "/ y - y \\ -"
    assert any("knit that part (purl it on WS rows)." in one for one in notes(lace))
    told = notes(lace, flat=False)
    assert any(one.endswith("knit that part.") for one in told)
    assert not any("WS" in one for one in told)


@pytest.mark.parametrize(
    ("row", "words"),
    [
        # from the right: knit, ssk, yo, knit, yo, k2tog; about stitch 1 and stitch 4 the decreases lean apart
        ("/ y - y \\ -", ["It mirrors about stitches 1 and 4."]),
        # both decreases lean one way: the mirror image has them the other way
        ("\\ y - y \\ -", []),
        ("- - < < < <", []),
        ("/ y - - - -", []),
    ],
)
def test_lace_and_cables_are_told_to_mirror_about_columns_alone(row: str, words: list[str]) -> None:
    """Rows 2 to 4 are knitted, so the cells mirror about rows 1 and 3; upside down a yarn over stands below."""
    assert [one for one in notes(row) if "mirror" in one or "half a turn" in one] == words


def test_knit_and_purl_are_told_to_mirror_from_top_to_bottom() -> None:
    """Row 1 has a purl stitch at 1 and one at 4, rows 2 to 4 are knitted: the repeat is 3 stitches, its axis at 1."""
    (told,) = (one for one in notes("- - ~ - - ~") if "mirror" in one)
    assert told.startswith("It mirrors about stitch 1 and the gap after stitch 2 and mirrors from top to bottom about")
    assert "about rows 1 and 3." in told
