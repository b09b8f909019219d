"""Times the outputs, each in a fresh process: best and median by the clock, best of processor time; seconds.

Run: `PYTHONPATH=compiler python tests/bench/bench_outputs.py [rounds]`.
"""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "tests" / "suite" / "outputs"
ONE_CHART = (
    "from wale.pattern import Chart, Pattern, Section; from outputs_sample import RYE, FLOUR, grist; "
    "p = Pattern('Grist', '', ('M',), 'A4', None, (Section('a', 'A', "
    "(Chart('Grist', grist(100, 100), (RYE, FLOUR), 0.9, True, (1, 12, 1, 28)),)),), 'wale'); "
)
NO_CHART = "from wale.pattern import Pattern; p = Pattern('Grist', '', ('M',), 'A4', None, (), 'wale'); "
WHOLE = "from outputs_sample import millrace; p = millrace(); "
PDF = "from wale.outputs import pdf; pdf.render(p, epoch=0)"
CASES = {
    "start of the interpreter alone": "pass",
    "HTML of the sample": WHOLE + "from wale.outputs import html; html.render(p)",
    "text of the sample": WHOLE + "from wale.outputs import text; text.render(p)",
    "PDF of the sample": WHOLE + PDF,
    "PDF without content": NO_CHART + PDF,
    "PDF of one chart of 10,000 cells": ONE_CHART + PDF,
}


def seconds(code: str) -> tuple[float, float]:
    """Wall and processor time of a fresh interpreter that runs `code`."""
    paths = os.pathsep.join((str(ROOT / "compiler"), str(SAMPLE)))
    start, used = time.perf_counter(), _processor()
    subprocess.run([sys.executable, "-c", code], check=True, env={**os.environ, "PYTHONPATH": paths})
    return time.perf_counter() - start, _processor() - used


def _processor() -> float:
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


def main() -> None:
    """Prints a line for each case."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    for name, code in CASES.items():
        wall, processor = zip(*(seconds(code) for _ in range(rounds)), strict=True)
        print(
            f"{name:36} best {min(wall):5.2f}  median {statistics.median(wall):5.2f}  processor {min(processor):5.2f}"
        )


if __name__ == "__main__":
    main()
