"""Damage the examples 2,000 times or more and compile them: python tests/bench/all_mutations.py [count] [seed].

Prints a table of what became of them, and each damaged spec that ends in an exception or takes more than five seconds
of processor time. One in eight is compiled through to text.
"""

from __future__ import annotations

import signal
import sys
import traceback
from collections import Counter
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

from mutations import mutations
from support import EXAMPLES, MILL_YARNS, SPEC, world

from wale.driver import check_spec, compile_spec, render
from wale.files import Refused

GUARD_SECONDS = 5
WRITTEN_EACH = 8


class TooLong(Exception):
    """The guard rang."""


def _ring(*_: object) -> None:
    raise TooLong


def run(text: str, yarns: str, *, write: bool) -> str:
    """Compile one damaged spec and say what became of it; an exception goes through."""
    here = world(text, **{"mill-yarns": yarns})
    try:
        done = compile_spec(here, SPEC) if write else check_spec(here, SPEC)
        if done.pattern is not None:
            render(done, "text", here)
    except Refused:
        return "refused to read"
    if any(one.is_error for one in done.problems):
        return "problems"
    assert done.plan is not None
    return "a plan"


def damaged(count: int, seed: int) -> list[tuple[str, str, str]]:
    """Give (name, spec, mill-yarns) of all damaged specs: each example in turn, and the yarns beneath the pullover."""
    names = ("millrace-pullover", "sluice-hat", "first-cowl", "mill-yarns")
    each = -(-count // len(names))
    found = []
    for name in names:
        text = (EXAMPLES / f"{name}.wale").read_text("utf-8")
        for number, one in enumerate(mutations(text, each, seed)):
            if name == "mill-yarns":
                hat = (EXAMPLES / "sluice-hat.wale").read_text("utf-8")
                found.append((f"{name} {number}", hat, one))
            else:
                found.append((f"{name} {number}", one, MILL_YARNS))
    return found[:count]


def main(count: int, seed: int) -> int:
    """Run all and give the number of faults."""
    signal.signal(signal.SIGPROF, _ring)
    became: Counter[str] = Counter()
    slowest = (0.0, "")
    faults: dict[str, list[str]] = {}
    for number, (name, text, yarns) in enumerate(damaged(count, seed)):
        signal.setitimer(signal.ITIMER_PROF, GUARD_SECONDS)
        start = process_time()
        try:
            became[run(text, yarns, write=number % WRITTEN_EACH == 0)] += 1
        except Exception as error:
            place = traceback.extract_tb(error.__traceback__)[-1]
            where = f"{type(error).__name__} at {place.filename.rpartition('/wale/')[2]}:{place.lineno}"
            faults.setdefault(where, []).append(name)
            became["EXCEPTION"] += 1
            print(f"{where}: {error} ({name})", file=sys.stderr)
        finally:
            signal.setitimer(signal.ITIMER_PROF, 0)
        slowest = max(slowest, (process_time() - start, name))
    print("| became | of " + str(count) + " |\n| --- | ---: |")
    for what, times in became.most_common():
        print(f"| {what} | {times} |")
    print(f"\nslowest: {slowest[0]:.2f} s ({slowest[1]})")
    for where, names in faults.items():
        print(f"{where}: {len(names)} times, first {names[0]}")
    return sum(len(names) for names in faults.values())


if __name__ == "__main__":
    arguments = [int(one) for one in sys.argv[1:]]
    sys.exit(1 if main(*(arguments + [2000, 1][len(arguments) :])) else 0)
