"""A small garment whose yarn is reckoned by hand: two cloths with a hem and specks, sewn along their sides.

The yarn has 1 m in a gram. Plain fabric: 4.2 sts and 5.5 rows per cm, so a stitch takes sqrt(23.1 / 23.1) = 1 cm.
"""

from specs import YARNS

CLOTH = (
    """wale 1
pattern "Cloth"
sizes one
"""
    + YARNS
    + """
motif specks
    repeat 4 sts, 2 rows
    key |-| rye, |x| flour
    | - - - - |
    | x - - - |
swatch plain, worked flat
    fabric stockinette in rye
    needle 3.25 mm
    washed 42 sts and 55 rows in 10 cm
{plain}
swatch specked, worked flat
    motif specks in rye, flour
    needle 3.5 mm
    washed 42 sts and 55 rows in 10 cm
{specked}
piece cloth, worked flat, make 2
    edge 1 st each side in rye
    cast on 42 sts in plain
    hem 11 rows, folded, purl ridge
    work in specks on specked, from the edge
    work 44 rows
    bind off
join
    seam cloth sides with cloth sides, mattress stitch
"""
)
