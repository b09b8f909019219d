"""Solve the pullover for all 300 bodies of the survey, each alone: python tests/bench/all_bodies.py [step].

Prints a table, and each fault: a plan that does not hold, a refusal without a way out, or one where a whole repeat
would fit. With a step of 10, every tenth body only.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path
from statistics import median
from time import perf_counter

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "suite" / "tables")]

from support import checked  # noqa: E402
from survey import rows  # noqa: E402
from survey_pullover import CENTRED, WHOLE, fitting, misfits, pullover  # noqa: E402


def main(step: int) -> int:
    """Run and give the number of faults."""
    faults = 0
    print("| fit | bodies | plans | refused | codes | median s a body |\n| --- | ---: | ---: | ---: | --- | ---: |")
    for fit in (CENTRED, WHOLE):
        chosen, refused, seconds = rows()[::step], Counter[str](), []
        for row in chosen:
            start = perf_counter()
            done = checked(pullover([row], fit))
            seconds.append(perf_counter() - start)
            if done.plan is None:
                (error,) = [one for one in done.problems if one.is_error]
                refused[error.code] += 1
                if error.code != "E301" or not error.fixes or fitting(row):
                    faults += 1
                    print(f"{row['body_id']} {error.code}: {error.message}", file=sys.stderr)
            else:
                for words in misfits(done.plan, row):
                    faults += 1
                    print(f"{row['body_id']} MISFIT {words}", file=sys.stderr)
        count, told = (
            refused.total(),
            ", ".join(f"{code}: {times}" for code, times in sorted(refused.items())) or "none",
        )
        print(f"| {fit} | {len(chosen)} | {len(chosen) - count} | {count} | {told} | {median(seconds):.2f} |")
    return faults


if __name__ == "__main__":
    sys.exit(1 if main(int(sys.argv[1]) if len(sys.argv) > 1 else 1) else 0)
