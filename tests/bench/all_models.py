"""Solve thousands of small models with OR-Tools CP-SAT too: python tests/bench/all_models.py [models] [clashes].

Prints a table (undecided: CP-SAT gave up), and each model whose optimum or feasibility differs, or whose conflict is
not a smallest one.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from time import process_time

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "suite" / "solve")]

from brute import random_model  # noqa: E402
from cp_sat import Undecided, disagreement, looseness  # noqa: E402
from likeness import garment, impossible  # noqa: E402
from real_models import NAMES, real_models  # noqa: E402

from wale.solve.exact import feasible, solve  # noqa: E402
from wale.solve.model import Conflict, Model  # noqa: E402

Named = tuple[str, Model]


def compare(words: str, models: Iterator[Named]) -> int:
    """Print a row of the table, and give the number of faults."""
    count = clashes = faults = undecided = 0
    ours, worst, theirs = 0.0, 0.0, 0.0
    for name, model in models:
        start = process_time()
        answer = solve(model)
        took = process_time() - start
        ours, worst, count = ours + took, max(worst, took), count + 1
        clashes += isinstance(answer, Conflict)
        start = process_time()
        try:
            fault = disagreement(model, answer)
        except Undecided:
            fault, undecided = "", undecided + 1
        theirs += process_time() - start
        if not fault and feasible(model) == isinstance(answer, Conflict):
            fault = "solved, yet said to clash, or the other way round"
        if fault:
            faults += 1
            print(f"{name}: {fault}", file=sys.stderr)
    print(
        f"| {words} | {count} | {clashes} | {faults} | {undecided} | {1000 * ours / count:.1f} | {1000 * worst:.0f} "
        f"| {theirs / ours:.1f} |",
        flush=True,
    )
    return faults


def clash(wanted: int) -> int:
    """Take conflicts apart; print their sizes, and give the number of faults."""
    sizes: dict[int, int] = {}
    faults = seed = 0
    while sum(sizes.values()) < wanted:
        model = impossible(seed)
        answer = solve(model)
        if isinstance(answer, Conflict):
            sizes[len(answer.rules)] = sizes.get(len(answer.rules), 0) + 1
            fault = looseness(model, answer)
            if fault:
                faults += 1
                print(f"impossible {seed}: {fault}", file=sys.stderr)
        seed += 1
    told = ", ".join(f"{count} of {size}" for size, count in sorted(sizes.items()))
    print(f"\n{sum(sizes.values())} conflicts among {seed} models: {told} rules; not smallest: {faults}")
    return faults


def main(models: int, clashes: int) -> int:
    """Run all and give the number of faults."""
    print(
        "| models | count | clash | differ | undecided | ms each | worst ms | CP-SAT times |\n| --- |" + " ---: |" * 7
    )
    faults = compare("like garments", ((f"garment {seed}", garment(seed)) for seed in range(models)))
    faults += compare("any shape", ((f"any {seed}", random_model(seed)) for seed in range(models // 5)))
    for name in NAMES:
        seeds = [None, *range(20)]
        faults += compare(name, (one for seed in seeds for one in real_models(name, seed).items()))
    return faults + clash(clashes)


if __name__ == "__main__":
    wanted = [int(one) for one in sys.argv[1:]] + [5000, 500][len(sys.argv) - 1 :]
    sys.exit(1 if main(*wanted) else 0)
