"""Time cold starts and warm solving: python tests/bench/bench_cold.py [rounds]; prints two tables.

Cold: each command in a fresh process, files already in the system's cache and modules compiled, as after the first run
of an installed package. Cases take turns, so that a busy moment of the machine strikes all alike. The floor is what no
compiler in Python can go below: the bare interpreter, and for a PDF the import of the typesetter. Ratios are of
processor time, the best round, which other work on the machine disturbs least. Warm: in this process, after one run.
"""

from __future__ import annotations

import os
import resource
import subprocess
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path
from statistics import median
from time import perf_counter, process_time

from bench_outputs import NO_CHART, ONE_CHART, PDF, SAMPLE

ROOT = Path(__file__).parents[2]
EXAMPLES = ROOT / "examples"
WALE = str(Path(sys.executable).with_name("wale"))
BODY = """body mine
    measure bust 97 cm
    measure waist 80 cm
    measure hip 103 cm
    measure upper-arm 30 cm
    measure armhole-depth 19 cm
    measure wrist 16 cm
    measure neck-to-wrist 76 cm
    measure neck-width 17 cm
    measure body-length 60 cm
    ease bust 14 cm, waist 24 cm, hip 8 cm, upper-arm 8 cm, armhole-depth 3 cm
    ease wrist 5 cm, neck-to-wrist 0 cm

"""
PATCH = """
piece patch-{number}, worked flat
    cast on bust/4 in plain
    work    to {number} cm + 10 cm
    bind off
"""
LINES = 200


def long_spec() -> str:
    """Give the pullover with its yarns in one file, and patches to knit beside it, up to 200 lines."""
    yarns = (EXAMPLES / "mill-yarns.wale").read_text("utf-8").partition("\n")[2]
    pullover = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8").replace('    use   "mill-yarns.wale"\n', "")
    text, number = pullover + yarns, 0
    while len(text.splitlines()) < LINES:
        number += 1
        text += PATCH.format(number=number)
    return text


def pullover(sizes: str, body: str = "") -> str:
    """Give the pullover in other sizes (none: bodies only) and with a body."""
    text = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
    head, _, rest = text.partition("sizes women XS S M L XL 2XL 3XL")
    eases, _, construction = rest.partition("\n\n")
    block = f"sizes women {sizes}{eases}\n\n" if sizes else ""
    return head + block + body + construction


def cold(folder: Path) -> dict[str, list[str]]:
    """Give the commands to time by name; the first is the floor of all, the second that of a PDF."""
    python = sys.executable
    long, spec, closer = folder / "long.wale", folder / "millrace.wale", folder / "closer.wale"
    long.write_text(long_spec(), "utf-8")
    spec.write_text(pullover("XS S M L XL 2XL 3XL"), "utf-8")
    closer.write_text(pullover("XS S M L XL 2XL 3XL").replace("ease bust 14 cm", "ease bust 12 cm"), "utf-8")
    (folder / "mill-yarns.wale").write_bytes((EXAMPLES / "mill-yarns.wale").read_bytes())

    def compile_to(to: str) -> list[str]:
        return [WALE, "compile", str(spec), "--to", to, "--out", str(folder / f"out.{to}")]

    return {
        "the interpreter alone": [python, "-c", "pass"],
        "import of the typesetter": [python, "-c", "import weasyprint"],
        "`wale --version`": [WALE, "--version"],
        f"`wale check`, {LINES} lines, 7 sizes": [WALE, "check", str(long)],
        "`wale check`, pullover in 7 sizes": [WALE, "check", str(spec)],
        "`wale diff`, two pullovers in 7 sizes": [WALE, "diff", str(spec), str(closer)],
        "`wale diff --to json`, the same": [WALE, "diff", str(spec), str(closer), "--to", "json"],
        "`wale swatches`, pullover in 3 swatches and 7 sizes": [WALE, "swatches", str(spec)],
        "`wale yarn`, the same in its own": [WALE, "yarn", str(spec)],
        "`wale compile --to json`, pullover in 7 sizes": compile_to("json"),
        "`wale compile --to text`, the same": compile_to("text"),
        "`wale compile --to html`, the same": compile_to("html"),
        "`wale compile --to pdf`, the same": compile_to("pdf"),
        "PDF without content": [python, "-c", NO_CHART + PDF],
        "PDF of one chart of 10,000 cells": [python, "-c", ONE_CHART + PDF],
    }


def _processor() -> float:
    usage = resource.getrusage(resource.RUSAGE_CHILDREN)
    return usage.ru_utime + usage.ru_stime


def run(command: list[str], compiled: Path) -> tuple[float, float]:
    """Give the seconds of one run, by the clock and of processor time."""
    paths = os.pathsep.join((str(ROOT / "compiler"), str(SAMPLE)))
    surroundings = {**os.environ, "PYTHONPATH": paths, "PYTHONPYCACHEPREFIX": str(compiled)}
    surroundings.pop("PYTHONDONTWRITEBYTECODE", None)
    start, used = perf_counter(), _processor()
    done = subprocess.run(command, env=surroundings, capture_output=True, text=True)
    seconds = perf_counter() - start, _processor() - used
    if done.returncode > (command[1] == "diff"):  # 1: the two differ
        sys.exit(f"{' '.join(command)}\n{done.stdout}{done.stderr}")
    return seconds


def time_cold(rounds: int) -> None:
    """Print the table of cold starts."""
    with tempfile.TemporaryDirectory() as name:
        commands = cold(Path(name))
        times: dict[str, list[tuple[float, float]]] = {case: [] for case in commands}
        for number in range(rounds + 1):
            for case, command in commands.items():
                seconds = run(command, Path(name) / "compiled")
                if number:
                    times[case].append(seconds)
    best = {case: min(used for _, used in found) for case, found in times.items()}
    bare, typesetter = list(best.values())[:2]
    print("| cold | median s | processor s | interpreters | typesetters |\n| --- | ---: | ---: | ---: | ---: |")
    for case, value in best.items():
        ratio = f"{value / typesetter:.1f}" if "pdf" in case.lower() or "typesetter" in case else ""
        clock = median(seconds for seconds, _ in times[case])
        print(f"| {case} | {clock:.2f} | {value:.2f} | {value / bare:.0f} | {ratio} |")


def warm() -> dict[str, Callable[[], object]]:
    """Give what to time in this process by name."""
    from wale.draft.planner import plan
    from wale.driver import check_spec
    from wale.files import MemoryWorld
    from wale.outputs import html, text
    from wale.spec import Spec
    from wale.write.document import document

    yarns = (EXAMPLES / "mill-yarns.wale").read_text("utf-8")

    def world(spec: str) -> MemoryWorld:
        return MemoryWorld({"a.wale": spec, "mill-yarns.wale": yarns})

    def resolved(spec: str) -> Spec:
        done = check_spec(world(spec), "a.wale")
        assert done.spec is not None and done.plan is not None, [one.message for one in done.problems]
        return done.spec

    seven = pullover("XS S M L XL 2XL 3XL")
    specs = {
        "7 sizes": resolved(seven),
        "9 sizes": resolved(pullover("XS S M L XL 2XL 3XL 4XL 5XL")),
        "one made-to-measure body": resolved(pullover("", BODY)),
        "7 sizes and a body": resolved(pullover("XS S M L XL 2XL 3XL", BODY)),
    }
    cases: dict[str, Callable[[], object]] = {
        f"draft and solve, {name}": (lambda spec=spec: plan(spec)) for name, spec in specs.items()
    }
    done = check_spec(world(seven), "a.wale")
    assert done.spec is not None and done.plan is not None
    spec, solved, sizes, problems = done.spec, done.plan, done.sizes, done.problems
    pattern = document(spec, solved, sizes, problems)
    cases["all phases up to the checks, 7 sizes"] = lambda: check_spec(world(seven), "a.wale")
    cases["write the pattern, 7 sizes"] = lambda: document(spec, solved, sizes, problems)
    cases["set it as text"] = lambda: text.render(pattern)
    cases["set it as HTML"] = lambda: html.render(pattern)
    return cases


def time_warm(rounds: int) -> None:
    """Print the table of warm runs."""
    cases = warm()
    times: dict[str, list[tuple[float, float]]] = {case: [] for case in cases}
    for _ in range(rounds + 1):
        for case, call in cases.items():
            start, used = perf_counter(), process_time()
            call()
            times[case].append((perf_counter() - start, process_time() - used))
    print("| warm | median ms | processor ms |\n| --- | ---: | ---: |")
    for case, found in times.items():
        clock = median(seconds for seconds, _ in found[1:])
        print(f"| {case} | {clock * 1000:.0f} | {min(used for _, used in found[1:]) * 1000:.0f} |")


if __name__ == "__main__":
    count = int(sys.argv[1]) if len(sys.argv) > 1 else 9
    time_cold(count)
    print()
    time_warm(count)
