"""An independent, slow solver: try every assignment; and random small models to compare with."""

from __future__ import annotations

import random
from collections.abc import Sequence
from fractions import Fraction
from itertools import product

from wale.solve.model import Model, Rule, Unknown, Wish

Best = tuple[Fraction, tuple[int, ...]]


def enumerate_best(model: Model, rules: Sequence[Rule] | None = None) -> Best | None:
    """Give cost and values (in declaration order) of the best assignment under `rules`, None if there is none."""
    rules = model.rules if rules is None else rules
    best: Best | None = None
    for values in product(*(range(u.lower, u.upper + 1) for u in model.unknowns)):
        named = {unknown.key: value for unknown, value in zip(model.unknowns, values, strict=True)}
        if all(rule.holds(named) for rule in rules):
            found = (sum((wish.cost(named) for wish in model.wishes), Fraction(0)), values)
            if best is None or found < best:
                best = found
    return best


def random_model(seed: int) -> Model:
    """Give a model of 1 to 6 unknowns with 1 to 6 values, rules and wishes of 1 to 6 terms."""
    chance = random.Random(seed)
    count = chance.randint(1, 6)
    keys = [f"x{i}" for i in range(count)]
    chance.shuffle(keys)
    unknowns = []
    for key in keys:
        lower = chance.randint(-3, 4)
        unknowns.append(Unknown(key, lower, lower + chance.randint(0, 5 if count < 6 else 3)))

    def some() -> list[str]:
        return chance.sample(keys, chance.randint(1, min(count, chance.choice([1, 2, 2, 3, 6]))))

    rules = tuple(
        Rule(
            tuple((chance.choice([1, 1, 1, -1, -1, 2, -2, 3]), key) for key in some()),
            "drawn",
            chance.choice(["order", "join"]),
            chance.choice([None, None, chance.randint(-6, 6)]),
            chance.choice([None, None, chance.randint(-2, 10)]),
            chance.choice([1, 1, 2, 3, 4]),
            chance.randint(-3, 3),
        )
        for _ in range(chance.randint(0, 6))
    )
    wishes = tuple(
        Wish(
            tuple((Fraction(chance.choice([1, 1, -1, -2]), chance.choice([1, 1, 3])), key) for key in some()),
            Fraction(chance.randint(-20, 20), chance.choice([1, 2])),
            Fraction(chance.randint(0, 4), chance.choice([1, 5])),
        )
        for _ in range(chance.randint(0, 6))
    )
    return Model(tuple(unknowns), rules, wishes)
