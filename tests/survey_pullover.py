"""The millrace pullover for real bodies of a survey: the same construction with `body` blocks instead of sizes."""

from __future__ import annotations

from collections.abc import Sequence

from support import EXAMPLES
from survey import body_block

CENTRED = "centred on the stitch"
WHOLE = "centred on the stitch, whole repeats at bust"
EASE = """    ease bust 14 cm, waist 24 cm, hip 8 cm, upper-arm 8 cm, armhole-depth 3 cm
    ease wrist 5 cm, neck-to-wrist 0 cm
"""


def pullover(rows: Sequence[dict[str, str]], fit: str = CENTRED) -> str:
    """Give the text of the pullover for some rows of the survey.

    Args:
        rows: rows of bodies.csv.
        fit: how the motif is placed on back and front.
    """
    text = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
    head, _, rest = text.partition("sizes women")
    _, _, construction = rest.partition("\n\n")
    assert construction.startswith("let armhole")
    bodies = "\n".join(body_block(row) + EASE for row in rows)
    return head + bodies + "\n" + construction.replace(f"easy, {CENTRED}\n", f"easy, {fit}\n")
