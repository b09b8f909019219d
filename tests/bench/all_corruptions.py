"""Damage the examples' instructions in every way and knit them: python tests/bench/all_corruptions.py [swaps] [seed]

Every slip of each sort in each example, printed for one size, and a seeded sample of brackets in which the figures of
two sizes change places, printed for all sizes. Then every figure of the tables, schematics, lists and remarks, one up
and one down in its last place. Prints Markdown: what was made and caught, and why the rest changes
nothing. A slip that is neither is printed and makes the script fail.
"""

from __future__ import annotations

import random
import sys
from collections import Counter
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
sys.path.insert(0, str(Path(__file__).parents[1] / "suite" / "prove"))

from prove_corruptions import bracket_swaps, corruptions, harmless
from prove_patterns import compiled
from test_corruptions import page, proved
from test_measured import damaged_figures

from wale.prove.proof import prove
from wale.write.facts import facts, printed

EXAMPLES = {"millrace-pullover": "L", "sluice-hat": "medium", "first-cowl": "one"}
SWAPPED = "figures of two sizes swapped"


class Tally:
    """What became of the slips, sort by sort."""

    def __init__(self) -> None:
        self.made: Counter[str] = Counter()
        self.caught: Counter[str] = Counter()
        self.reasons: Counter[str] = Counter()
        self.missed: list[str] = []

    def add(self, sort: str, line: str, *, caught: bool, reason: str) -> None:
        """Take one slip."""
        self.made[sort] += 1
        self.caught[sort] += caught
        if not caught and reason:
            self.reasons[f"{sort}: {reason}"] += 1
        elif not caught:
            self.missed.append(f"{sort}: {line}")

    def show(self) -> None:
        """Print the tables."""
        print("| slip | made | caught | changes nothing | missed |\n| --- | ---: | ---: | ---: | ---: |")
        missed = Counter(one.partition(":")[0] for one in self.missed)
        for sort in sorted(self.made):
            same = self.made[sort] - self.caught[sort] - missed[sort]
            print(f"| {sort} | {self.made[sort]} | {self.caught[sort]} | {same} | {missed[sort]} |")
        made, caught = sum(self.made.values()), sum(self.caught.values())
        print(f"| all | {made} | {caught} | {made - caught - len(self.missed)} | {len(self.missed)} |\n")
        for reason, times in sorted(self.reasons.items()):
            print(f"- {reason} ({times})")
        for line in self.missed:
            print(f"MISSED {line}")


def main(swaps: int, seed: int) -> int:
    """Run all and give the number of slips that were missed."""
    tally = Tally()
    for name, size in EXAMPLES.items():
        whole, known = page(name, size)
        for sort, line, damaged in corruptions(whole):
            tally.add(sort, line, caught=not proved(whole, damaged, known), reason=harmless(sort, line))
        for sort, line, damaged in damaged_figures(whole):
            tally.add(sort, line, caught=bool(prove(damaged, known)), reason="")
    for name in EXAMPLES:
        done = compiled(name)
        assert done.spec is not None and done.plan is not None and done.pattern is not None
        whole, known = printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)
        every = list(bracket_swaps(whole))
        for line, sizes, page_of_all in random.Random(f"{seed} {name}").sample(every, min(swaps, len(every))):
            found = {finding.size for finding in prove(page_of_all, known)}
            tally.add(SWAPPED, line, caught=found == sizes, reason="")
    tally.show()
    return len(tally.missed)


if __name__ == "__main__":
    arguments = [int(one) for one in sys.argv[1:]]
    sys.exit(1 if main(*(arguments + [150, 20261125][len(arguments) :])) else 0)
