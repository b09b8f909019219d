"""Each construction for bodies of the surveys and every size of every table: all_constructions.py [step [word]].

Each body is solved alone, written and proven, or refused; then each way out that is offered as an edit, and each
tolerance that the help names, is taken and the whole compiled anew. Prints a table, each refusal that offers no way
out, and each way out that leads to the same refusal. With a step of 10, every tenth adult only; with a word, only the
constructions that have it in their names.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from pathlib import Path
from time import process_time

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "suite" / "tables")]

from support import errors, mended, written  # noqa: E402
from survey import rows  # noqa: E402
from survey_garments import (  # noqa: E402
    CHANGES,
    Measures,
    is_for,
    made_to_measure,
    of_survey,
    of_tables,
    of_young,
)

from wale.problems.problem import Problem  # noqa: E402

MISSING = ("E210", "E218")
"""The problems of a measure that is not known, for no size or not for every one."""
TOLERANCE = re.compile(r"They fit with `(tolerance [^`]+)` in the `pattern` block")


def mendings(text: str, error: Problem) -> dict[str, str]:
    """Give what a spec becomes by each way out that is an edit, or a line that the help names."""
    found = {fix.title: mended(text, fix) for fix in error.fixes if fix.edits}
    for line in TOLERANCE.findall(error.help):
        found[line] = re.sub(r"(?m)^(pattern .*)$", rf"\1\n    {line}", text, count=1)
    return found


def outcomes(construction: str, label: str, bodies: list[Measures]) -> tuple[Counter[str], int]:
    """Give how often each outcome came, with ways out tried and right, and how many refusals were at fault."""
    found, faults = Counter[str](), 0
    for place, body in enumerate(bodies):
        text = made_to_measure(construction, body)
        done = written(text)
        if done.proof is not None:
            found["proven"] += 1
            continue
        error = next(one for one in done.problems if one.is_error)
        found[error.code] += 1
        if error.code in MISSING:
            continue
        faults += not error.help and not error.fixes
        print(f"{construction}, {label} {place}, {error.code}: {error.message}", file=sys.stderr)
        for title, other in mendings(text, error).items():
            again, found["tried"] = written(other), found["tried"] + 1
            if again.proof is not None:
                found["right"] += 1
            else:
                faults += 1
                print(f"  no way out: {title}: {errors(again)}", file=sys.stderr)
    return found, faults


def main(step: int, word: str) -> int:
    """Run and give the number of refusals without a way out and of ways out that lead nowhere."""
    faults, start = 0, process_time()
    surveyed = {f"surveyed {name}": of_young(name) for name in ("children", "infants")}
    groups = {"adults": [of_survey(row) for row in rows()[::step]], **of_tables(), **surveyed}
    print("| construction | bodies | run | proven | refused | codes | ways out right | measure missing |")
    print("| --- | --- | ---: | ---: | ---: | --- | ---: | ---: |")
    for construction in (one for one in CHANGES if word in one):
        for label, bodies in groups.items():
            if not is_for(construction, label):
                continue
            found, faulty = outcomes(construction, label, bodies)
            faults += faulty
            others = ("proven", "tried", "right", *MISSING)
            refused = {code: times for code, times in sorted(found.items()) if code not in others}
            told = ", ".join(f"{code}: {times}" for code, times in refused.items()) or "none"
            ways = f"{found['right']} of {found['tried']}"
            counts = (found["proven"], sum(refused.values()), told, ways, sum(found[code] for code in MISSING))
            print(f"| {construction} | {label} | {len(bodies)} |", " | ".join(map(str, counts)), "|", flush=True)
    print(f"{process_time() - start:.0f} s of processor time", file=sys.stderr)
    return faults


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 1, sys.argv[2] if len(sys.argv) > 2 else ""))
