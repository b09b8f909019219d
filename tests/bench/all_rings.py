"""Hold the rings of all surveyed bodies against the survey: python tests/bench/all_rings.py. A table, then faults."""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "suite" / "tables")]

from survey import rows  # noqa: E402
from survey_pullover import EASE  # noqa: E402
from survey_rings import SNUG, adult_rings, faults_of_adults, faults_of_young, tubes, young  # noqa: E402


def main() -> int:
    """Run and give the number of faults."""
    faults: list[str] = []
    print("| bodies | garment | go on | too tight | not known | faults |\n| --- | --- | ---: | ---: | ---: | ---: |")
    for name, ease in (("roomy pullover", EASE), ("snug pullover", SNUG)):
        told, mine = Counter[str](), 0
        for first in range(0, 300, 30):
            some = rows()[first : first + 30]
            plan, found = adult_rings(some, ease)
            wrong = faults_of_adults(some, plan, found)
            told.update(ring.verdict for ring in found)
            mine += len(wrong)
            faults += wrong
        print(f"| 300 adults | {name} | {_cells(told)} | {mine} |")
    for group, key in (("children", "child_id"), ("infants", "infant_id")):
        for hat in (80, 130):
            found = tubes(young(group), key, hat)
            wrong = faults_of_young(young(group), key, hat, found)
            told = Counter(ring.verdict for ring in found)
            faults += wrong
            print(f"| {len(young(group))} {group} | hat of {hat} sts, vest, mitten | {_cells(told)} | {len(wrong)} |")
    for words in faults:
        print(words, file=sys.stderr)
    return len(faults)


def _cells(told: Counter[str]) -> str:
    return " | ".join(str(told[verdict]) for verdict in ("goes on", "too tight", "not known"))


if __name__ == "__main__":
    sys.exit(1 if main() else 0)
