"""Real bodies of a public survey as bodies of the language.

`tests/data/bodies.csv` (ANSUR II sample) measures some things otherwise than knitters do; `MAPPING` says for each of
our measures which column it comes from and with which allowance. The reasons stand in docs/sizes.md.
"""

from __future__ import annotations

import csv
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from pathlib import Path

DATA = Path(__file__).parents[2] / "data"


@dataclass(frozen=True)
class Mapped:
    """One measure: `column` * `factor` + `plus` cm; (women, men). An empty column is a fixed length."""

    column: str
    factor: tuple[Fraction, Fraction] = (Fraction(1), Fraction(1))
    plus: tuple[Fraction, Fraction] = (Fraction(0), Fraction(0))


def _pair(women: str, men: str) -> tuple[Fraction, Fraction]:
    return Fraction(women), Fraction(men)


MAPPING: dict[str, Mapped] = {
    "bust": Mapped("chest_cm"),
    "waist": Mapped("waist_cm", factor=_pair("0.94", "0.99")),
    "hip": Mapped("hip_cm"),
    "neck-to-wrist": Mapped("sleeve_spine_to_wrist_cm", factor=_pair("0.93", "0.96")),
    "back-waist": Mapped("waist_back_length_cm"),
    "hip-length": Mapped("", plus=_pair("15", "20")),
    "cross-back": Mapped("cross_back_midscye_cm"),
    "arm-length": Mapped("armpit_to_wrist_cm"),
    "upper-arm": Mapped("upper_arm_flexed_cm", factor=_pair("0.94", "0.94")),
    "armhole-depth": Mapped("armhole_depth_cm", plus=_pair("3", "5.5")),
    "wrist": Mapped("wrist_cm"),
    "hand": Mapped("hand_cm"),
    "head": Mapped("head_cm"),
    "neck-base": Mapped("neck_base_cm"),
    "shoulder-girth": Mapped("shoulder_girth_cm"),
}


@cache
def rows() -> tuple[dict[str, str], ...]:
    """Give the survey's rows as they stand in the file."""
    with (DATA / "bodies.csv").open(encoding="utf-8", newline="") as file:
        return tuple(csv.DictReader(file))


def measures_of(row: dict[str, str]) -> dict[str, Fraction]:
    """Give our measures of one row in cm, exact, rounded to the millimetre (halves up)."""
    man = row["sex"] == "male"
    found = {}
    for name, mapped in MAPPING.items():
        value = Fraction(row[mapped.column]) * mapped.factor[man] if mapped.column else Fraction(0)
        found[name] = Fraction((20 * (value + mapped.plus[man]) + 1) // 2, 10)
    return found


def bodies() -> list[dict[str, object]]:
    """Give all 300 bodies in file order: {"id": "F0007", "sex": "female", "measures": {name: cm}}."""
    return [{"id": row["body_id"], "sex": row["sex"], "measures": measures_of(row)} for row in rows()]


def body_block(row: dict[str, str]) -> str:
    """Write a row as a `body` block of the language, one `measure` line each, ending in a newline."""
    lines = [f"body {row['body_id']}"]
    for name, value in measures_of(row).items():
        tenths = value * 10
        lines.append(f"    measure {name} {tenths // 10}.{tenths % 10} cm")
    return "\n".join(lines) + "\n"
