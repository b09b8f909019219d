"""Bodies and sleeves that are joined, in memory, and what is knitted from their printed words, for tests."""

from __future__ import annotations

from wale.driver import Compiled
from wale.prove.fabric import Fabric, Row
from wale.prove.machine import knit
from wale.prove.reader import lines_of, read_by_hand

FRAME = """wale 1

pattern "Weir"

yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

swatch plain, in the round
    fabric stockinette in rye
    needle 4 mm
    washed 20 sts and 28 rounds in 10 cm

sizes one
    measure bust 90 cm
    ease    bust 10 cm
"""
PARTS = """
piece body, in the round
    cast on {body} in plain
    work    to 30 cm
    hold,   underarm {underarm}

piece sleeve, in the round, make 2
    cast on {sleeve} in plain
    work    to 40 cm
    hold,   underarm {underarm}
"""


def garment(yoke: str, body: str = "160 sts", sleeve: str = "64 sts", underarm: str = "12 sts") -> str:
    """Give a spec of a body, two sleeves, and a yoke over both; 2 sts and 2.8 rounds in a cm."""
    return FRAME + PARTS.format(body=body, sleeve=sleeve, underarm=underarm) + yoke


def fabric(done: Compiled, piece: str, size: int = 0) -> Fabric:
    """Knit a plain piece from its printed words."""
    assert done.proof is not None, done.problems
    pattern = done.proof.printed
    (printed,) = (one for one in pattern.pieces if one.name == piece)
    said = lines_of([read_by_hand(step) for step in printed.steps if step], pattern.sizes, size)
    found, problems = knit(piece, pattern.sizes[size], said, {})
    assert found is not None, problems
    return found


def lines_in(row: Row, look: int) -> list[int]:
    """Give the stitches of a row that look so, from its start."""
    return [place for place, one in enumerate(row.ops) if one == look]
