"""Rows of the published worked examples, how to read them, and the register of their checks."""

from __future__ import annotations

import csv
import re
from collections.abc import Callable
from dataclasses import dataclass
from fractions import Fraction
from pathlib import Path

KINDS = (
    "buttonholes",
    "gauge_cast_on",
    "gauge_error",
    "gauge_width",
    "gauge_check",
    "swatch",
    "rib_reduction",
    "drop_sleeve_length",
    "neck_split",
    "even_dec",
    "even_inc",
    "taper",
    "percent",
    "neck_cast_on",
    "raglan_depth",
    "sleeve_cap",
    "yoke_decreases",
    "cuff",
    "sock_proportion",
    "neck_curve",
    "shoulder_steps",
    "pick_up",
    "crown",
    "hat_cast_on",
    "contrast",
    "tiling",
    "repeat_fit",
)
TURNS = ("W103", "W105")
"""Heels on a strip; the other rows on socks and mittens are held by the books and by the constructions."""
TIMES = {"once": 1, "twice": 2, "three times": 3}


@dataclass(frozen=True)
class Row:
    id: str
    kind: str
    inputs: str
    expected: str
    check: str
    source: str

    @property
    def given(self) -> list[Fraction]:
        return numbers(self.inputs)

    @property
    def wanted(self) -> list[Fraction]:
        return numbers(self.expected)


def numbers(text: str) -> list[Fraction]:
    return [Fraction(word) for word in re.findall(r"\d+(?:\.\d+)?", text)]


def as_printed(value: Fraction | float, text: str) -> bool:
    """Whether a value rounds to a printed number: half a unit of its last decimal."""
    decimals = len(text.partition(".")[2])
    return abs(Fraction(value) - Fraction(text)) <= Fraction(1, 2 * 10**decimals)


def read_rows() -> list[Row]:
    path = Path(__file__).parents[2] / "data" / "worked_examples.csv"
    with path.open(encoding="utf-8", newline="") as file:
        rows = list(csv.DictReader(file))
    return [Row(*(row[name] for name in ("id", "kind", "inputs", "expected", "check", "source"))) for row in rows]


ROWS = [row for row in read_rows() if row.kind in KINDS or row.id in TURNS]
CHECKS: dict[str, Callable[[Row], None]] = {}


def example(row_id: str) -> Callable[[Callable[[Row], None]], Callable[[Row], None]]:
    def register(check: Callable[[Row], None]) -> Callable[[Row], None]:
        CHECKS[row_id] = check
        return check

    return register
