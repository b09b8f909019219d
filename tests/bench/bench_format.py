"""Time `wale format`: python tests/bench/bench_format.py [rounds]; prints a table.

Each command in a fresh process, modules compiled, as in `bench_cold.py`. The file of 2,000 lines is the pullover with
its yarns and patches to knit beside it, laid out; with every line typed in another way; and with one such line.
"""

from __future__ import annotations

import sys
import tempfile
from pathlib import Path
from statistics import median

import bench_cold
from bench_cold import EXAMPLES, WALE, long_spec, run

from wale.format import format_source
from wale.source import Source

LINES = 2_000


def loose(line: str) -> str:
    """Give a line with another margin and other gaps."""
    code = line.split()
    if not code or line.lstrip().startswith("--"):
        return line
    return ("  " if line.startswith(" ") else "") + "  ".join(code)


def cases(folder: Path) -> dict[str, list[str]]:
    """Give the commands to time by name."""
    bench_cold.LINES = LINES
    laid, _ = format_source(Source("long.wale", long_spec()), lambda name: None)
    assert laid is not None
    text = laid.text
    lines = text.splitlines()
    changed = next(number for number in range(len(lines) // 2, len(lines)) if loose(lines[number]) != lines[number])
    one_loose = [loose(line) if number == changed else line for number, line in enumerate(lines)]
    texts = {
        "typed": "\n".join(map(loose, lines)) + "\n",
        "one": "\n".join(one_loose) + "\n",
        "laid": text,
    }
    for name, each in texts.items():
        (folder / f"{name}.wale").write_text(each, "utf-8")
    (folder / "pullover.wale").write_bytes((EXAMPLES / "millrace-pullover.wale").read_bytes())
    return {
        "the interpreter alone": [sys.executable, "-c", "pass"],
        "`wale --version`": [WALE, "--version"],
        "the pullover, laid out": [WALE, "format", str(folder / "pullover.wale")],
        f"{LINES} lines, laid out": [WALE, "format", str(folder / "laid.wale")],
        f"{LINES} lines, one of them not": [WALE, "format", str(folder / "one.wale")],
        f"{LINES} lines, none of them": [WALE, "format", str(folder / "typed.wale")],
    }


def main(rounds: int) -> None:
    """Print the table; files are put back before each run."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        commands = cases(folder)
        files = {path: path.read_bytes() for path in folder.glob("*.wale")}
        times: dict[str, list[tuple[float, float]]] = {case: [] for case in commands}
        for number in range(rounds + 1):
            for path, data in files.items():
                path.write_bytes(data)
            for case, command in commands.items():
                seconds = run(command, folder / "compiled")
                if number:
                    times[case].append(seconds)
    print("| cold | median s | processor s |\n| --- | ---: | ---: |")
    for case, found in times.items():
        clock = median(seconds for seconds, _ in found)
        print(f"| {case} | {clock:.2f} | {min(used for _, used in found):.2f} |")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
