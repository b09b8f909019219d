"""Short rows at the bust: counts by hand, the middle longer than the sides by so many rows, sides that meet."""

from __future__ import annotations

import pytest
from support import PLAIN, checked, codes, written
from test_floats_proven import knitted as proven

from wale.outputs.text import render as to_text

TEE = f"""wale 1

pattern "Headrace"

{PLAIN}
sizes one

piece back, worked flat
    cast on   100 sts in plain
    work      to 36 cm
    mark      underarm
    work      to 58 cm
    neck      18 cm wide, 2 cm deep
    shoulders slope 3 cm, short rows

piece front, worked flat
    cast on   100 sts in plain
    work      to 30 cm
    raise     bust 4 cm
    work      to 36 cm
    mark      underarm
    work      to 58 cm
    neck      18 cm wide, 8 cm deep
    shoulders slope 3 cm, short rows

join
    seam back shoulders with front shoulders, three-needle bind-off
    seam sides, mattress stitch
"""


def test_rows_by_hand() -> None:
    """4 cm at 2.8 rows a cm are 11.2 rows: 6 pairs. An eighth of 100 sts is 13, a third 33; (33.3 - 13) / 6 is 3 a
    pair. Row 1 knits 100 - 13 = 87, row 2 slips one and purls 87 - 13 - 1 = 73; row 12 turns at 13 + 5 * 3 = 28 from
    the side: 100 - 2 * 28 - 1 = 43."""
    done = written(TEE)
    assert done.pattern is not None
    text = " ".join(to_text(done.pattern).split())
    assert "Row 1 (RS): k87, turn." in text and "Row 2 (WS): sl1, p73, turn." in text
    assert "Row 12 (WS): sl1, p43, turn." in text and "Row 13" not in text


def test_the_middle_has_the_rows_and_the_sides_have_not(monkeypatch: pytest.MonkeyPatch) -> None:
    """On the proven fabric: 12 rows more over the middle stitch than at each side, whose rows are those of the back."""
    done = written(TEE)
    assert done.plan is not None
    fabrics = {one.piece: one for one in proven(done, monkeypatch)}

    def over(piece: str, share: float) -> int:
        """Rows below the top that work the stitch at a share of the width from the right end."""
        rows = [row for row in fabrics[piece].rows if row.number < fabrics[piece].neck_row and not row.part]
        place = [int(share * (row.stitches - 1)) for row in rows]
        return sum(row.waiting <= at < row.waiting + len(row.ops) for row, at in zip(rows, place, strict=True))

    assert max(row.number for row in fabrics["front"].rows) == max(row.number for row in fabrics["back"].rows) + 12
    assert over("front", 0.5) - over("front", 0.0) == 12
    assert over("front", 0.5) - over("front", 1.0) == 12


def test_too_many_short_rows_are_told() -> None:
    """25 cm are 35 pairs: 5 * 35 + 8 = 183 sts, and there are 100."""
    assert "E303" in codes(checked(TEE.replace("bust 4 cm", "bust 25 cm")))
