"""Time the planner on real specs: python tests/bench/bench_plans.py [bodies].

Nine sizes of the pullover, warm, and bodies of the survey, each alone and a hundred in one spec. Processor time of the
planner only: parsing and resolving are not in it. The unit in which a machine can be compared is a loop of a million
additions.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from time import process_time

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "suite" / "tables")]

from support import EXAMPLES, checked  # noqa: E402
from survey import rows  # noqa: E402
from survey_pullover import pullover  # noqa: E402

from wale.draft.planner import plan  # noqa: E402
from wale.spec import Spec  # noqa: E402

SEVEN = "XS S M L XL 2XL 3XL"


def spec_of(text: str) -> Spec:
    """Give the resolved spec of a text without errors."""
    spec = checked(text).spec
    assert spec is not None
    return spec


def best(run: Callable[[], object], times: int) -> float:
    """Give the least processor time of some runs, in s."""
    found = []
    for _ in range(times):
        start = process_time()
        run()
        found.append(process_time() - start)
    return min(found)


def million_additions() -> int:
    """Add up, as a measure of the machine."""
    total = 0
    for number in range(1_000_000):
        total += number
    return total


def main(count: int) -> None:
    """Measure and print all."""
    unit = best(million_additions, 9)
    print(f"A million additions: {1000 * unit:.0f} ms.\n")
    print("| planned | processor ms | units |\n| --- | ---: | ---: |")

    def told(words: str, seconds: float) -> None:
        print(f"| {words} | {1000 * seconds:.0f} | {seconds / unit:.1f} |", flush=True)

    text = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
    for sizes in ("M", SEVEN, f"{SEVEN} 4XL 5XL"):
        spec = spec_of(text.replace(SEVEN, sizes))
        told(f"the pullover in {len(sizes.split())} sizes", best(lambda spec=spec: plan(spec), 25))
    for name in ("sluice-hat", "first-cowl"):
        spec = spec_of((EXAMPLES / f"{name}.wale").read_text("utf-8"))
        told(name, best(lambda spec=spec: plan(spec), 25))
    bodies = rows()
    together = spec_of(pullover(bodies[:100]))
    told("100 bodies in one spec", best(lambda: plan(together), 3))
    spent = 0.0
    for number in range(count):
        spec = spec_of(pullover([bodies[number % len(bodies)]]))
        start = process_time()
        plan(spec)
        spent += process_time() - start
    told(f"{count} bodies, each alone", spent)


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 1000)
