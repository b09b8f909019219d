"""Compile and prove patterns of many sizes: python tests/bench/all_proofs.py [step].

Each example in all its sizes together and in each size alone, and the millrace pullover for the 300 bodies of the
survey, each alone, centred and with whole repeats. Prints Markdown: proven, refused with ways out, mismatches; one of
these fails the script, as does a refusal without a way out. With a step of 10, every tenth body only.
"""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path
from statistics import median
from time import process_time

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "suite" / "tables")]

from msgspec import Struct, field  # noqa: E402
from support import EXAMPLES, SPEC, checked, world  # noqa: E402
from survey import rows  # noqa: E402
from survey_pullover import CENTRED, WHOLE, pullover  # noqa: E402

from wale.driver import compile_spec  # noqa: E402
from wale.proven import Unproven  # noqa: E402

NAMES = ("millrace-pullover", "sluice-hat", "first-cowl")


class Tally(Struct):
    """What became of the patterns of one kind."""

    name: str
    proven: int = 0
    refused: int = 0
    stitches: int = 0
    faults: list[str] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)

    def add(self, label: str, text: str, sizes: tuple[str, ...] = ()) -> None:
        """Compile and prove one pattern."""
        start = process_time()
        try:
            done = compile_spec(world(text), SPEC, sizes)
        except Unproven as error:
            self.faults.append(f"{self.name}, {label}: {error}")
            return
        self.seconds.append(process_time() - start)
        if done.proof is not None:
            self.proven += 1
            self.stitches += done.proof.stitches
        elif all(problem.fixes for problem in done.problems if problem.is_error):
            self.refused += 1
        else:
            self.faults.append(f"{self.name}, {label}: refused without a way out")

    @property
    def row(self) -> str:
        """Give its row of the table."""
        count = self.proven + self.refused + len(self.faults)
        return (
            f"| {self.name} | {count} | {self.proven} | {self.refused} | {len(self.faults)} | {self.stitches:,} "
            f"| {median(self.seconds or [0]):.2f} |"
        )


def tallies(step: int = 1, start: int = 0) -> Iterator[Tally]:
    """Give what becomes of each kind of pattern; of the survey's bodies every `step`-th from `start` on."""
    for name in NAMES:
        tally, text = Tally(name), (EXAMPLES / f"{name}.wale").read_text("utf-8")
        plan = checked(text).plan
        assert plan is not None
        tally.add("all sizes", text)
        for size in plan.sizes if len(plan.sizes) > 1 else ():
            tally.add(size, text, (size,))
        yield tally
    for fit in (CENTRED, WHOLE):
        tally = Tally(f"pullover of a body, {fit}")
        for row in rows()[start::step]:
            tally.add(row["body_id"], pullover([row], fit))
        yield tally


def main(step: int) -> int:
    """Run all, print the table, and give the number of faults."""
    print(
        "| pattern | compiled | proven | refused with ways out | mismatches | stitches knitted | median processor s |"
    )
    print("| --- | ---: | ---: | ---: | ---: | ---: | ---: |")
    faults: list[str] = []
    for tally in tallies(step):
        print(tally.row, flush=True)
        faults += tally.faults
    for fault in faults:
        print(fault, file=sys.stderr)
    return len(faults)


if __name__ == "__main__":
    sys.exit(1 if main(int(sys.argv[1]) if len(sys.argv) > 1 else 1) else 0)
