"""Time specs of the largest size, written to be slow: python tests/bench/bench_large.py [NAME ...].

Each is within the limits of a file (5,000 lines, 200,000 characters, 10,000 in a line) or just beyond them. Processor
time of `wale check` without its start, and of putting all its problems into text. A case whose time grows faster than
its text is a defect: beside each stands the time of its half.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path
from random import Random
from time import process_time

sys.path.insert(0, str(Path(__file__).parents[1]))

from support import checked

from wale.problems.show import show

SIGNS = "abc (),;*&^%$#@! 0123456789.-+=/|\"'"
HEAD = 'wale 1\npattern "Large"\n    use "mill-yarns.wale"\n'
ONE = f"{HEAD}sizes one\n"
LINES = " worked flat\n    cast on 20 sts in plain\n"
PIECE = f"{ONE}piece p,{LINES}"


def garbage(lines: int) -> str:
    """Give lines of random signs."""
    chooser = Random(1)
    return HEAD + "\n".join("".join(chooser.choices(SIGNS, k=38)) for _ in range(lines))


CASES: dict[str, tuple[int, Callable[[int], str]]] = {
    "lines of garbage": (4990, garbage),
    "lines of garbage, too many": (20_000, garbage),
    "one line, words": (200_000, lambda n: "work " * (n // 5)),
    "one line, no end of a text": (200_000, lambda n: '"' * n),
    "brackets, 5,000 deep": (5000, lambda n: f"{HEAD}let a = {'(' * n}1 cm{')' * n}"),
    "brackets, as deep as may be": (
        1700,
        lambda n: HEAD + "".join(f"let a{i} = {'(' * 49}1 cm{')' * 49}\n" for i in range(n)),
    ),
    "`let` lines, too many": (10_000, lambda n: HEAD + "".join(f"let a{i} = {i} cm\n" for i in range(n))),
    "`let` lines, each from the next": (4900, lambda n: HEAD + "".join(f"let a{i} = a{i + 1}\n" for i in range(n))),
    "`let` lines of one name": (4900, lambda n: HEAD + "let a = 2 cm\n" * n),
    "unknown keywords": (4900, lambda n: PIECE + "    wrok 2 rows\n" * n),
    "unknown names": (4900, lambda n: PIECE + "".join(f"    cast on q{i} in z{i}\n" for i in range(n))),
    "options that come twice": (19, lambda n: ONE + f"piece p, worked flat{', make 2' * 1200}\n" * n),
    "pieces": (1200, lambda n: ONE + "".join(f"piece p{i},{LINES}    work 2 rows\n    bind off\n" for i in range(n))),
    "pieces, each as the one before": (
        2400,
        lambda n: (
            f"{PIECE}    bind off\n" + "".join(f"piece p{i}, as p{i - 1 or ''}\n    bind off\n" for i in range(1, n))
        ),
    ),
    "even rows": (4900, lambda n: PIECE + "    work 2 rows\n" * n),
    "motif rows": (19, lambda n: f"{HEAD}motif m\n    repeat 4 sts, 4 rows\n" + f"    | {'- ' * 4900}|\n" * n),
}


def timed(text: str) -> tuple[float, float, int]:
    """Give the processor seconds of checking and of showing, and how many problems there are."""
    start = process_time()
    done = checked(text)
    middle = process_time()
    show(done.problems, done.sources, colour=False, width=100)
    return middle - start, process_time() - middle, len(done.problems)


def main(names: list[str]) -> None:
    """Measure and print all."""
    checked(PIECE)
    print("| spec | characters | problems | check, ms | its half | show, ms | its half |")
    print("| --- | ---: | ---: | ---: | ---: | ---: | ---: |")
    for name, (size, make) in CASES.items():
        if names and name not in names:
            continue
        text = make(size)
        half, whole = timed(make(size // 2)), timed(text)
        check, shown = (f"{1000 * whole[at]:.0f} | {1000 * half[at]:.0f}" for at in (0, 1))
        print(f"| {name} | {len(text):,} | {whole[2]:,} | {check} | {shown} |", flush=True)


if __name__ == "__main__":
    main(sys.argv[1:])
