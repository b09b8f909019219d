"""Surveyed bodies and the rings of their clothes, reckoned anew: from counts, swatches as written, and the survey.

Adults wear the millrace pullover made to measure; children and infants, of whom the survey knows little, wear tubes.
"""

from __future__ import annotations

import csv
from collections.abc import Sequence
from fractions import Fraction
from functools import cache
from math import hypot

from support import EXAMPLES, checked
from survey import DATA
from survey_pullover import EASE, pullover

from wale.checks.rings import Ring, rings
from wale.plan import PiecePlan, Plan

CM = {"easy": Fraction(136, 400), "facing": Fraction(10, 28), "plain": Fraction(10, 27)}
"""Width of a stitch: `washed` lines of mill-yarns.wale."""
GIVE = {"easy": Fraction(174, 136), "facing": Fraction(145, 100), "plain": Fraction(145, 100)}
"""Pulled / at rest: its `stretch` lines."""
ROW = Fraction(122, 400)
SNUG = """    ease bust -14 cm, waist -10 cm, hip -16 cm, upper-arm -3 cm, armhole-depth 1 cm
    ease wrist -2 cm, neck-to-wrist 0 cm
"""
"""So little ease that some rings pass and some don't."""


@cache
def young(name: str) -> tuple[dict[str, str], ...]:
    """Give the rows of children.csv or infants.csv."""
    with (DATA / f"{name}.csv").open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


def adult_rings(rows: Sequence[dict[str, str]], ease: str = EASE) -> tuple[Plan, tuple[Ring, ...]]:
    """Give the plan of the pullover for some adults, and what is said of its rings."""
    done = checked(pullover(rows).replace(EASE, ease))
    assert done.spec is not None and done.plan is not None, [one.message for one in done.problems]
    return done.plan, rings(done.spec, done.plan)


def faults_of_adults(rows: Sequence[dict[str, str]], plan: Plan, found: Sequence[Ring]) -> list[str]:
    """Give each ring that is said to go on though it is smaller than its part, or the other way round."""
    at = {row["body_id"]: number for number, row in enumerate(rows)}
    faults = []
    for ring in found:
        row = rows[at[ring.size]]
        pulled, part = _pulled(plan, ring, at[ring.size]), _part(ring, row)
        if abs(pulled - part) < 1e-6:
            continue
        if (ring.verdict == "goes on") != (pulled > part) or ring.verdict == "not known":
            faults.append(f"{ring.size} {ring.piece}, {ring.ring}: {ring.verdict}, {pulled:.2f} for {part:.2f} cm")
    return faults


def _part(ring: Ring, row: dict[str, str]) -> float:
    if ring.ring == "hip at rest":
        return float(row["hip_cm"])
    if ring.ring in ("neck opening", "band"):
        return float(row["head_cm"])
    return (
        float(row["hand_cm"])
        if ring.piece == "sleeve"
        else max(float(row["chest_cm"]), float(row["shoulder_girth_cm"]))
    )


def _pulled(plan: Plan, ring: Ring, size: int) -> float:
    pieces = {piece.name: piece for piece in plan.pieces}
    if ring.ring == "band":
        return float(plan.bands[0].stitches[size] * CM["plain"] * GIVE["plain"])
    if ring.ring == "neck opening":
        return float(GIVE["easy"]) * sum(_neck(pieces[name], size) for name in ("back", "front"))
    label = {"facing of the hem": 0, "rib at the cast-on": 0}.get(ring.ring)
    worn = (pieces["sleeve"],) if ring.piece == "sleeve" else (pieces["back"], pieces["front"])
    name = ring.ring.removesuffix(" at rest")
    levels = [
        one.levels[0] if label == 0 else next(level for level in one.levels if level.label == name) for one in worn
    ]
    swatch = "easy" if label is None else "plain" if ring.piece == "sleeve" else "facing"
    return float(sum(level.counts[size] - 2 for level in levels) * CM[swatch] * GIVE[swatch])


def _neck(piece: PiecePlan, size: int) -> float:
    """Follow the neck edge: the centre, both sides of each step over its two rows, and the rows that are left."""
    top = piece.top
    assert top is not None
    steps = top.steps[size]
    slant = sum(hypot(step * float(CM["easy"]), 2 * float(ROW)) for step in steps)
    return top.centre[size] * float(CM["easy"]) + 2 * (slant + (top.neck_rows[size] - 2 * len(steps)) * float(ROW))


TUBES = (
    (EXAMPLES / "mill-yarns.wale").read_text("utf-8").replace("wale 1\n", 'wale 1\npattern "Tubes"\n')
    + """
{bodies}
piece hat, in the round
    cast on {hat} sts in plain-round
    work 20 rows
    bind off
piece vest, in the round
    cast on 800 sts in plain-round
    work 20 rows
    bind off
piece mitten, in the round
    cast on 200 sts in plain-round
    work 20 rows
    bind off
"""
)


def tubes(rows: Sequence[dict[str, str]], key: str, hat: int) -> tuple[Ring, ...]:
    """Give what is said of a hat of `hat` stitches and of a very wide vest and mitten for some young bodies."""
    columns = {"waist_cm": "waist", "upper_arm_cm": "upper-arm", "head_cm": "head"}
    bodies = "\n".join(
        f"body {row[key]}\n"
        + "".join(f"    measure {name} {row[column]} cm\n" for column, name in columns.items() if row.get(column))
        for row in rows
    )
    done = checked(TUBES.format(bodies=bodies, hat=hat))
    assert done.spec is not None and done.plan is not None, [one.message for one in done.problems]
    return rings(done.spec, done.plan)


def faults_of_young(rows: Sequence[dict[str, str]], key: str, hat: int, found: Sequence[Ring]) -> list[str]:
    """Give each ring that is judged though the survey lacks its part, and each hat that is judged wrongly."""
    by_name = {row[key]: row for row in rows}
    faults = []
    for ring in found:
        head = by_name[ring.size].get("head_cm") if ring.piece == "hat" else None
        wanted = "not known"
        if head:
            wanted = "goes on" if hat * CM["plain"] * GIVE["plain"] >= Fraction(head) else "too tight"
        if ring.verdict != wanted:
            faults.append(f"{ring.size} {ring.piece}: {ring.verdict}, not {wanted}")
    return faults
