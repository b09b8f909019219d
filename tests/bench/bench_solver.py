"""Measure the solver on models like those of real garments: python tests/bench/bench_solver.py [repeats].

Gauge 40 sts = 13.6 cm and 42 rows = 13.6 cm; lengths are invented, in the usual proportions of a pullover.
"""

from __future__ import annotations

import random
import sys
from collections.abc import Callable
from fractions import Fraction
from statistics import median
from time import perf_counter

from wale.solve.exact import solve
from wale.solve.model import Conflict, Model, Rule, Unknown, Wish

STS = Fraction(400, 136)  # stitches in 1 cm
ROWS = Fraction(420, 136)
LEVELS = ("cast-on", "waist", "bust", "shoulder", "neck")
SHARES = (Fraction(96, 100), Fraction(92, 100), Fraction(1), Fraction(27, 100), Fraction(46, 100))


def widths(sizes: int, pieces: int, tolerance: Fraction, seed: int = 0) -> Model:
    """A body: five levels a piece and size, repeats at the bust, parity, caps, an equality, joins, order, evenness."""
    chance = random.Random(seed)
    unknowns, rules, wishes = [], [], []
    names = ["back", "front", "sleeve"][:pieces]
    for piece in names:
        for size in range(sizes):
            bust = Fraction(45 if piece != "sleeve" else 28) + Fraction(5, 2) * size
            for level, share in zip(LEVELS, SHARES, strict=True):
                key = f"{piece}.{level}@{size}"
                wish = bust * share + Fraction(chance.randint(-5, 5), 10)
                unknowns.append(Unknown(key, 2, 400))
                rules.append(
                    Rule(
                        ((1, key),),
                        "tolerance",
                        "tolerance",
                        -int(-(wish - tolerance) * STS // 1),
                        int((wish + tolerance) * STS),
                    )
                )
                wishes.append(Wish(((1 / STS, key),), -wish))
            at = [f"{piece}.{level}@{size}" for level in LEVELS]
            rules.append(Rule(((1, at[2]),), "repeat", "repeat", modulus=4, residue=1))
            for low, high in ((0, 1), (1, 2)):
                rules.append(Rule(((1, at[high]), (-1, at[low])), "parity", "parity", modulus=2))
                rules.append(Rule(((1, at[high]), (-1, at[low])), "cap", "shaping", -24, 24))
            rules.append(Rule(((1, at[2]), (-2, at[3]), (-1, at[4])), "equal", "exact", 0, 0))
            if piece == "front":
                for level in LEVELS[:3]:
                    link = ((1, f"front.{level}@{size}"), (-1, f"back.{level}@{size}"))
                    rules.append(Rule(link, "join", "join", -4, 4))
                link = ((1, f"front.shoulder@{size}"), (-1, f"back.shoulder@{size}"))
                rules.append(Rule(link, "join", "join", 0, 0))
            if size:
                for level in LEVELS:
                    step = ((1, f"{piece}.{level}@{size}"), (-1, f"{piece}.{level}@{size - 1}"))
                    rules.append(Rule(step, "order", "order", 0))
        for size in range(2, sizes):
            step = tuple((f / STS, f"{piece}.bust@{size - 2 + i}") for i, f in enumerate((1, -2, 1)))
            wishes.append(Wish(step, Fraction(0), Fraction(1, 20)))
    return Model(tuple(unknowns), tuple(rules), tuple(wishes))


def lengths(sizes: int, sections: int, tolerance: Fraction, seed: int = 0) -> Model:
    """Row counts: sections of 3 to 9 cm, `work to` lengths from the fold and from the armhole, even rows, order."""
    chance = random.Random(seed)
    unknowns, rules, wishes = [], [], []
    base = [Fraction(chance.randint(30, 90), 10) for _ in range(sections)]
    growth = [Fraction(chance.randint(0, 4), 8) for _ in range(sections)]  # some sections are the same in all sizes
    for size in range(sizes):
        keys = [f"back.rows{i}@{size}" for i in range(sections)]
        wish = [length + size * more for length, more in zip(base, growth, strict=True)]
        for i, key in enumerate(keys):
            unknowns.append(Unknown(key, 1, 300))
            low, high = (wish[i] - tolerance) * ROWS, (wish[i] + tolerance) * ROWS
            rules.append(Rule(((1, key),), "tolerance", "tolerance", max(1, -int(-low // 1)), int(high)))
            wishes.append(Wish(((1 / ROWS, key),), -wish[i], Fraction(1, 4)))
            if i % 2:
                rules.append(Rule(((1, key),), "even", "parity", modulus=2))
            if size:
                rules.append(Rule(((1, key), (-1, f"back.rows{i}@{size - 1}")), "order", "order", 0))
        for start, stop in ((0, 3), (0, sections), (2, sections - 1)):
            some = keys[start:stop]
            total = sum(wish[start:stop], Fraction(chance.randint(-5, 5), 10))
            wishes.append(Wish(tuple((1 / ROWS, key) for key in some), -total))
            low, high = (total - tolerance) * ROWS, (total + tolerance) * ROWS
            rules.append(Rule(tuple((1, key) for key in some), "work to", "tolerance", -int(-low // 1), int(high)))
    return Model(tuple(unknowns), tuple(rules), tuple(wishes))


def clash(model: Model, key: str) -> Model:
    """The same model with one count that no order or cap allows."""
    return Model(model.unknowns, (*model.rules, Rule(((1, key),), "count 100", "exact", 100, 100)), model.wishes)


def odd(model: Model) -> Model:
    """The same model with an odd difference between two levels of one parity, seen by search only."""
    link = ((1, "back.cast-on@0"), (1, "back.bust@0"))
    return Model(model.unknowns, (*model.rules, Rule(link, "odd", "parity", modulus=2, residue=1)), model.wishes)


def measure(name: str, make: Callable[[int], Model], repeats: int) -> None:
    """Print median and worst time over seeds."""
    times = []
    for seed in range(repeats):
        model = make(seed)
        solve(model)
        start = perf_counter()
        result = solve(model)
        times.append((perf_counter() - start) * 1000)
    kind = f"conflict of {len(result.rules)}" if isinstance(result, Conflict) else f"cost {float(result.cost):.3f}"
    print(f"{name:52} {median(times):8.1f} ms  worst {max(times):8.1f} ms  (last: {kind})", flush=True)


def main() -> None:
    """Measure all."""
    repeats = int(sys.argv[1]) if len(sys.argv) > 1 else 5
    cm = Fraction(3, 2)
    measure("widths, 9 sizes x 2 pieces x 5 levels", lambda seed: widths(9, 2, cm, seed), repeats)
    measure("widths, 9 sizes x 3 pieces x 5 levels", lambda seed: widths(9, 3, cm, seed), repeats)
    measure("widths, 9 x 2 x 5, tolerance 4 cm", lambda seed: widths(9, 2, Fraction(4), seed), repeats)
    measure("widths, 1 size x 3 pieces x 5 levels", lambda seed: widths(1, 3, cm, seed), repeats)
    measure("rows, 9 sizes x 10 sections", lambda seed: lengths(9, 10, cm, seed), repeats)
    measure("rows, 1 size x 10 sections", lambda seed: lengths(1, 10, cm, seed), repeats)
    measure(
        "conflict, 9 x 2 x 5, a count out of range", lambda seed: clash(widths(9, 2, cm, seed), "back.bust@4"), repeats
    )
    measure("conflict, 9 x 2 x 5, parity", lambda seed: odd(widths(9, 2, cm, seed)), repeats)


if __name__ == "__main__":
    main()
