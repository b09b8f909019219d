"""Needle sizes: US, old UK and Canadian, and Japanese numbers to mm and back.

The mm size is the truth; a number is looked up in `tables/needles.csv`, and told to be doubtful where makers disagree.
"""

from __future__ import annotations

from fractions import Fraction
from functools import cache
from typing import Literal

from msgspec import Struct

from wale.published import rows_of

System = Literal["US", "UK", "JP"]
SYSTEMS: tuple[System, ...] = ("US", "UK", "JP")
"""US numbers, old UK and Canadian numbers, Japanese numbers."""

THINNEST_MM, THICKEST_MM = Fraction(1, 2), Fraction(50)
"""Bounds of a believable needle; a project choice."""


class Needle(Struct, frozen=True):
    """A needle size in mm; `doubt` says in a sentence why a number is not sure, or is empty."""

    mm: Fraction
    doubt: str = ""


@cache
def _numbers() -> dict[tuple[str, str], Needle]:
    return {(row["system"], row["number"]): Needle(Fraction(row["mm"]), row["doubt"]) for row in rows_of("needles")}


@cache
def _by_size() -> dict[Fraction, dict[str, str]]:
    found: dict[Fraction, dict[str, str]] = {}
    for (system, number), needle in _numbers().items():
        found.setdefault(needle.mm, {})[system] = number
    return found


def needle_from_number(system: str, number: str) -> Needle | None:
    """Give the size of a numbered needle, or None when the system has no such number.

    Args:
        system: one of `SYSTEMS`.
        number: as written, zeros kept: "4", "10 1/2", "10.5", "00".

    Example: needle_from_number("US", "10 1/2") is 6.5 mm. "000" and "0" are different needles.
    """
    return _numbers().get((system, _plain(number)))


def numbers_of(system: str) -> tuple[str, ...]:
    """Give the known numbers of a system, thinnest needle first."""
    return tuple(number for known, number in _numbers() if known == system)


def numbers_for(mm: Fraction) -> tuple[tuple[str, str], ...]:
    """Give (system, number) of each numbered needle of exactly this size, in the order of `SYSTEMS`.

    Example: 4.5 mm is US 7, UK 7 and JP 8.
    """
    found = _by_size().get(mm, {})
    return tuple((system, found[system]) for system in SYSTEMS if system in found)


def sizes(system: str = "") -> tuple[Fraction, ...]:
    """Give the sizes in mm that have a number (in one system, or in any), thinnest first."""
    return tuple(sorted(mm for mm, numbers in _by_size().items() if not system or system in numbers))


def _plain(number: str) -> str:
    """Turn "10 1/2" into "10.5"; leave strings of zeros alone."""
    words = number.split()
    if len(words) == 2 and words[0].isascii() and words[0].isdigit() and words[1] in ("1/2", "1/4", "3/4"):
        return words[0] + {"1/2": ".5", "1/4": ".25", "3/4": ".75"}[words[1]]
    return " ".join(words)


@cache
def show_needle(mm: Fraction) -> str:
    """Print a needle: "3.5 mm (US 4)", or "3.6 mm" when no US number stands for it."""
    number = _by_size().get(mm, {}).get("US")
    size = f"{_trim(mm)} mm"
    return f"{size} (US {number.replace('.5', ' 1/2')})" if number else size


def _trim(mm: Fraction) -> str:
    scaled = round(mm * 100)
    return f"{scaled // 100}.{scaled % 100:02d}".rstrip("0").rstrip(".")


def is_believable(mm: Fraction) -> bool:
    """Say whether a size in mm can be a knitting needle."""
    return THINNEST_MM <= mm <= THICKEST_MM
