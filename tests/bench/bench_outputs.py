"""Times the outputs, each in a fresh process: python tests/bench/bench_outputs.py [rounds]; prints a table.

Cases take turns, so that a busy moment of the machine strikes all alike. Processor time is the best round, and says how
many times the import of the typesetter it is, which no PDF can go below.
"""

from __future__ import annotations

import os
import resource
import statistics
import subprocess
import sys
import tempfile
import time
from pathlib import Path

ROOT = Path(__file__).parents[2]
SAMPLE = ROOT / "tests" / "suite" / "outputs"
SQUARE = (
    "from wale.pattern import Chart, Pattern, Section; from outputs_sample import RYE, FLOUR, grist; "
    "p = Pattern('Grist', '', ('M',), 'A4', None, (Section('a', 'A', "
    "(Chart('Grist', grist({side}, {side}), (RYE, FLOUR), 0.9, True, (1, 12, 1, 28)),)),), 'wale'); "
)
ONE_CHART = SQUARE.format(side=100)
NO_CHART = "from wale.pattern import Pattern; p = Pattern('Grist', '', ('M',), 'A4', None, (), 'wale'); "
WHOLE = "from outputs_sample import millrace; p = millrace(); "
PDF = "from wale.outputs import pdf; pdf.render(p, epoch=0)"
PULLOVER = (
    "import sys; from wale.cli import main; "
    "sys.exit(main(['compile', '{root}/examples/millrace-pullover.wale', '--out', '{out}'{more}]))"
)
CASES = {
    "the interpreter alone": "pass",
    "import of the typesetter": "import weasyprint",
    "HTML of the sample": WHOLE + "from wale.outputs import html; html.render(p)",
    "text of the sample": WHOLE + "from wale.outputs import text; text.render(p)",
    "PDF of the sample": WHOLE + PDF,
    "PDF without content": NO_CHART + PDF,
    "PDF of one chart of 10,000 cells": ONE_CHART + PDF,
    "PDF of one chart of 1,000,000 cells": SQUARE.format(side=1000) + PDF,
    "PDF of the pullover in one size": ", '--size', 'M'",
    "PDF of the pullover in seven sizes": "",
}
FLOOR = "import of the typesetter"


def seconds(code: str) -> tuple[float, float]:
    """Wall and processor time of a fresh interpreter that runs `code`."""
    paths = os.pathsep.join((str(ROOT / "compiler"), str(SAMPLE)))
    surroundings = {**os.environ, "PYTHONPATH": paths}
    surroundings.pop("PYTHONDONTWRITEBYTECODE", None)
    start, used = time.perf_counter(), _processor()
    subprocess.run([sys.executable, "-c", code], check=True, env=surroundings, stderr=subprocess.DEVNULL)
    return time.perf_counter() - start, _processor() - used


def _processor() -> float:
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


def main() -> None:
    """Print a line for each case."""
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    times: dict[str, list[tuple[float, float]]] = {name: [] for name in CASES}
    with tempfile.TemporaryDirectory() as folder:
        for number in range(rounds + 1):
            for name, code in CASES.items():
                if "pullover" in name:
                    code = PULLOVER.format(root=ROOT, out=Path(folder) / "out.pdf", more=code)
                found = seconds(code)
                if number:
                    times[name].append(found)
    floor = min(used for _, used in times[FLOOR])
    print("| output | median s by the clock | processor s | typesetters |\n| --- | ---: | ---: | ---: |")
    for name, found in times.items():
        used = min(used for _, used in found)
        ratio = f"{used / floor:.1f}" if "PDF" in name or name == FLOOR else ""
        print(f"| {name} | {statistics.median(clock for clock, _ in found):.2f} | {used:.2f} | {ratio} |")


if __name__ == "__main__":
    main()
