"""Each construction for bodies of the surveys and every size of every table: all_constructions.py [step [word]].

Each body is solved alone, written and proven, or refused with ways out. Prints a table, and each refusal that offers
none. With a step of 10, every tenth adult only; with a word, only the constructions that have it in their names.
"""

from __future__ import annotations

import sys
from collections import Counter
from pathlib import Path
from time import process_time

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "suite" / "tables")]

from support import written  # noqa: E402
from survey import rows  # noqa: E402
from survey_garments import CHANGES, Measures, made_to_measure, of_infants, of_survey, of_tables  # noqa: E402

MISSING = ("E210", "E218")
"""The problems of a measure that is not known, for no size or not for every one."""


def outcomes(construction: str, label: str, bodies: list[Measures]) -> tuple[Counter[str], int]:
    """Give how often each outcome came, and how many refusals showed no way out."""
    found, faults = Counter[str](), 0
    for place, body in enumerate(bodies):
        done = written(made_to_measure(construction, body))
        if done.proof is not None:
            found["proven"] += 1
            continue
        error = next(one for one in done.problems if one.is_error)
        found[error.code] += 1
        if error.code not in MISSING:
            faults += not error.help and not error.fixes
            print(f"{construction}, {label} {place}, {error.code}: {error.message}", file=sys.stderr)
    return found, faults


def main(step: int, word: str) -> int:
    """Run and give the number of refusals without a way out."""
    faults, start = 0, process_time()
    groups = {"adults": [of_survey(row) for row in rows()[::step]], **of_tables(), "infants": of_infants()}
    print("| construction | bodies | run | proven | refused | codes | measure missing |")
    print("| --- | --- | ---: | ---: | ---: | --- | ---: |")
    for construction in CHANGES:
        if word not in construction:
            continue
        for label, bodies in groups.items():
            found, faulty = outcomes(construction, label, bodies)
            faults += faulty
            refused = {code: times for code, times in sorted(found.items()) if code not in ("proven", *MISSING)}
            told = ", ".join(f"{code}: {times}" for code, times in refused.items()) or "none"
            counts = (found["proven"], sum(refused.values()), told, sum(found[code] for code in MISSING))
            print(f"| {construction} | {label} | {len(bodies)} |", " | ".join(map(str, counts)), "|", flush=True)
    print(f"{process_time() - start:.0f} s of processor time", file=sys.stderr)
    return faults


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 1, sys.argv[2] if len(sys.argv) > 2 else ""))
