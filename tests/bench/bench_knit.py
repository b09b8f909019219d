"""Time the proof and `wale knit`: python tests/bench/bench_knit.py [rounds]

A garment of about 60,000 stitches in one size, and in all seven; two-colour blankets of about 10,000, 100,000 and
1,000,000 stitches; and lace blankets of as many, typed in by hand, where every second stitch is shaped. Each runs in a
process of its own, so that its peak of memory is its own. Prints Markdown.
"""

from __future__ import annotations

import resource
import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

from support import EXAMPLES, written

from wale.knitting import knit_pattern
from wale.outputs.text import render
from wale.proven import Proof, prove_pattern
from wale.source import Source

BLANKET = """wale 1
pattern "blanket"
    use "mill-yarns.wale"
sizes one
piece blanket, worked flat
    edge 1 st each side in rye
    cast on {width} cm in plain
    rib 3 cm, 2x2, on 3 mm
    work in grist on easy, centred on the stitch
    work to {length} cm
    bind off
"""
BLANKETS = ((34, 31), (108, 96), (341, 305))
"""Widths and lengths in cm of about 10,000, 100,000 and 1,000,000 stitches."""
LACE = """Lace

Cast on {side} sts.
Row 1 (RS): (yo, k2tog) to the end. {side} sts.
Row 2 (WS): purl.
Repeat rows 1 and 2 until {side} rows are worked.
Bind off.
"""
LACES = (100, 316, 1000)
"""Stitches and rows of a lace blanket."""


def proof_of(text: str, size: str) -> tuple[Callable[[], Proof], str]:
    """Give the proof of a spec printed for one size ("" for all), yet to be run, and the pattern's text."""
    from wale.write.document import document

    done = written(text)
    assert done.spec is not None and done.plan is not None, done.problems
    spec, plan = done.spec, done.plan
    sizes = (plan.sizes.index(size),) if size else tuple(range(len(plan.sizes)))
    pattern = document(spec, plan, sizes)
    return lambda: prove_pattern(spec, plan, pattern, sizes), render(pattern)


def peak() -> float:
    """Give the peak of this process's memory in MiB."""
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


def best(work: Callable[[], object], rounds: int) -> float:
    """Give the fewest seconds of processor time."""
    found = float("inf")
    for _ in range(rounds):
        start = process_time()
        work()
        found = min(found, process_time() - start)
    return found


def compiled(text: str, size: str, rounds: int) -> None:
    """Print stitches, seconds of the proof and of `wale knit`, and peak memory of a pattern."""
    proof, book = proof_of(text, size)
    stitches = proof().stitches
    print(stitches, best(proof, rounds), best(lambda: knitted(book), rounds), peak())


def knitted(book: str) -> None:
    """Knit a pattern file that has no problem."""
    found = knit_pattern(Source("book.txt", book))
    assert found.problems == () and all(trial.rows for trial in found.trials)


def main(rounds: int) -> None:
    """Print the table."""
    print("| what | stitches | proof, ms | ns a stitch | `wale knit`, ms | peak memory of the process, MiB |")
    print("| --- | ---: | ---: | ---: | ---: | ---: |")
    laces = ["lace blanket, typed in"] * len(LACES)
    names = [
        "pullover, size XS",
        "pullover, size 3XL",
        "pullover, all sizes",
        *["two-colour blanket"] * len(BLANKETS),
        *laces,
    ]
    for number, name in enumerate(names):
        command = [sys.executable, __file__, "one", str(number), str(rounds)]
        told = subprocess.run(command, capture_output=True, text=True, check=True).stdout.split()
        count, proof, knit, memory = int(told[0]), float(told[1]), float(told[2]), float(told[3])
        proven = f"{proof * 1e3:.0f} | {proof / count * 1e9:.0f}" if proof else " | "
        print(f"| {name} | {count:,} | {proven} | {knit * 1e3:.0f} | {memory:.0f} |")


def one(number: int, rounds: int) -> None:
    """Measure one case in this process."""
    pullover = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
    cases = [(pullover, "XS"), (pullover, "3XL"), (pullover, "")]
    cases += [(BLANKET.format(width=width, length=length), "one") for width, length in BLANKETS]
    if number < len(cases):
        compiled(*cases[number], rounds)
        return
    side = LACES[number - len(cases)]
    book = LACE.format(side=side)
    print(side * side, 0, best(lambda: knitted(book), rounds), peak())


if __name__ == "__main__":
    if sys.argv[1:2] == ["one"]:
        one(int(sys.argv[2]), int(sys.argv[3]))
    else:
        main(int(sys.argv[1]) if len(sys.argv) > 1 else 3)
