"""Random small models in the likeness of garments: each kind of rule and wish that the drafts of garments state."""

from __future__ import annotations

import random
from dataclasses import dataclass, field
from fractions import Fraction
from math import ceil, floor, lcm

from wale.solve.model import Model, Rule, Unknown, Wish

STITCHES = (Fraction(50, 17), Fraction(100, 37), Fraction(20, 9), Fraction(40, 13))
ROWS = (Fraction(200, 61), Fraction(4), Fraction(10, 3), Fraction(16, 5))
TOLERANCES = (Fraction(1), Fraction(3, 2), Fraction(3, 2), Fraction(2), Fraction(5, 2))
WEIGHTS = (Fraction(1), Fraction(1), Fraction(1), Fraction(2), Fraction(1, 4))


@dataclass
class Draft:
    """A model that grows; lengths and tolerances in cm."""

    chance: random.Random
    sizes: int
    tolerance: Fraction
    unknowns: dict[str, Unknown] = field(default_factory=dict)
    rules: list[Rule] = field(default_factory=list)
    wishes: list[Wish] = field(default_factory=list)

    def rule(self, kind: str, *terms: tuple[int, str], **bounds: int) -> None:
        """Add a rule that names its kind and first unknown."""
        self.rules.append(Rule(terms, f"{kind} {terms[0][1]} {len(self.rules)}", kind, **bounds))

    def near(self, terms: list[tuple[Fraction, str]], wish: Fraction, tolerance: Fraction | None = None) -> None:
        """Wish for a length and keep it within the tolerance."""
        self.wishes.append(Wish(tuple(terms), -wish, self.chance.choice(WEIGHTS)))
        self.within(terms, wish, self.tolerance if tolerance is None else tolerance, "tolerance")

    def within(self, terms: list[tuple[Fraction, str]], middle: Fraction, slack: Fraction, kind: str) -> None:
        """Keep a sum in cm near to a middle."""
        scale = lcm(*(factor.denominator for factor, _ in terms))
        whole = tuple((int(factor * scale), key) for factor, key in terms)
        lower, upper = ceil((middle - slack) * scale), floor((middle + slack) * scale)
        self.rule(kind, *whole, lower=lower, upper=upper)

    def cm(self, low: int, high: int) -> Fraction:
        """Draw a length to the millimetre."""
        return Fraction(self.chance.randint(10 * low, 10 * high), 10)

    def model(self) -> Model:
        """Give the model."""
        return Model(tuple(self.unknowns.values()), tuple(self.rules), tuple(self.wishes))


def garment(seed: int) -> Model:
    """Give the widths, the rows, or both of a small invented garment."""
    chance = random.Random(seed)
    draft = Draft(chance, chance.choice((1, 2, 2, 3, 3, 4)), chance.choice(TOLERANCES))
    part = chance.choice(("widths", "widths", "rows", "rows", "both"))
    if part == "both":
        draft.sizes = min(draft.sizes, 2)
    if part != "rows":
        _widths(draft)
    if part != "widths":
        _rows(draft)
    if part == "both":
        _tie(draft)
    return draft.model()


def impossible(seed: int) -> Model:
    """Give the model of a garment with one to three more rules, drawn at random, of which most clash with it."""
    chance = random.Random(-seed - 1)
    model = garment(seed)
    while len(model.unknowns) < 2:
        model = garment(chance.randrange(10**9))
    keys = [one.key for one in model.unknowns]
    more = []
    for number in range(chance.randint(1, 3)):
        one, other = chance.sample(keys, 2)
        value = chance.randint(1, 160)
        more.append(
            chance.choice(
                (
                    Rule(((1, one),), f"count {number}", "exact", value, value),
                    Rule(((1, one), (1, other)), f"odd {number}", "parity", modulus=2, residue=1),
                    Rule(((1, one), (-1, other)), f"above {number}", "order", lower=chance.randint(0, 9)),
                    Rule(((1, one), (-1, other)), f"equal {number}", "join", 0, 0),
                    Rule(((1, one),), f"repeat {number}", "repeat", modulus=chance.choice((8, 12, 16)), residue=5),
                )
            )
        )
    return Model(model.unknowns, (*model.rules, *more), model.wishes)


def _widths(draft: Draft) -> None:
    """Levels of one or two pieces: tolerance, repeats, parity, caps on shaping, the whole width, order, even steps."""
    chance, gauge = draft.chance, draft.chance.choice(STITCHES)
    levels = ["hem", "waist", "bust"][: chance.randint(1, 3)]
    top = chance.random() < 0.5
    edges, modulus = chance.choice((0, 2)), chance.choice((1, 2, 4, 6, 8, 12))
    residue, cap = chance.randrange(modulus), 2 * chance.randint(2, 12)
    shares = {level: Fraction(chance.randint(90, 104), 100) for level in levels}
    pieces = ["back", "front"][: chance.choice((1, 1, 2))]
    base, step = draft.cm(30, 45), draft.cm(0, 3)
    for size in range(draft.sizes):
        wide = base + step * size + draft.cm(-1, 1)
        for piece in pieces:
            for below, level in zip((None, *levels), levels, strict=False):
                key = f"{piece}.{level}@{size}"
                draft.unknowns[key] = Unknown(key, 1, 250)
                draft.near([(1 / gauge, key)], wide * shares[level] + edges / gauge)
                if below is not None:
                    link = ((1, key), (-1, f"{piece}.{below}@{size}"))
                    draft.rule("parity", *link, modulus=2)
                    draft.rule("shaping", *link, lower=-cap, upper=cap)
            draft.rule("repeat", (1, f"{piece}.{levels[-1]}@{size}"), modulus=modulus, residue=residue)
            if top:
                neck, shoulder = f"{piece}.neck@{size}", f"{piece}.shoulder@{size}"
                draft.unknowns[neck], draft.unknowns[shoulder] = Unknown(neck, 2, 120), Unknown(shoulder, 2, 120)
                draft.near([(1 / gauge, neck)], wide * Fraction(chance.randint(38, 46), 100))
                draft.rule("join", (1, f"{piece}.{levels[-1]}@{size}"), (-1, neck), (-2, shoulder), lower=0, upper=0)
        if len(pieces) == 2:
            part = "shoulder" if top else levels[0]
            draft.rule("join", (1, f"back.{part}@{size}"), (-1, f"front.{part}@{size}"), lower=0, upper=0)
    for key in list(draft.unknowns):
        _order(draft, key)
    for size in range(2, draft.sizes):
        parts = zip((1, -2, 1), range(size - 2, size + 1), strict=True)
        steps = tuple((factor / gauge, f"back.{levels[-1]}@{one}") for factor, one in parts)
        draft.wishes.append(Wish(steps, Fraction(0), Fraction(1, 20)))


def _order(draft: Draft, key: str) -> None:
    name, _, size = key.rpartition("@")
    larger = f"{name}@{int(size) + 1}"
    if larger in draft.unknowns:
        draft.rule("order", (1, larger), (-1, key), lower=0)


def _rows(draft: Draft) -> None:
    """Sections of one or two pieces: tolerance, row parity, shaping that takes rows, `work to`, order, equal sides."""
    chance = draft.chance
    # the hem or rib in one gauge, all above it in another
    gauges = [chance.choice(ROWS), *[chance.choice(ROWS)] * chance.randint(1, 4)]
    base = [draft.cm(2, 9) for _ in gauges]
    growth = [Fraction(chance.choice((0, 0, 1, 2, -1)), 4) for _ in gauges]
    even = [chance.random() < 0.6 for _ in gauges]
    shaped = [2 * chance.randint(0, 12) if chance.random() < 0.4 else 0 for _ in gauges]
    stops = sorted(chance.sample(range(len(gauges)), chance.randint(0, 2)))
    pieces = ["body", "other"][: chance.choice((1, 1, 2))]
    reached: dict[tuple[str, int, int], Fraction] = {}
    for size in range(draft.sizes):
        for piece in pieces:
            keys = [f"{piece}.rows{at}@{size}" for at in range(len(gauges))]
            wishes = [length + size * more for length, more in zip(base, growth, strict=True)]
            for at, key in enumerate(keys):
                draft.unknowns[key] = Unknown(key, 0, 120)
                if at not in stops:
                    draft.near([(1 / gauges[at], key)], wishes[at])
                if even[at]:
                    draft.rule("parity", (1, key), modulus=2)
                if shaped[at]:
                    draft.rule("shaping", (1, key), lower=shaped[at])
            for stop in stops:
                running = [(1 / gauge, key) for gauge, key in zip(gauges[: stop + 1], keys, strict=False)]
                reached[piece, stop, size] = sum(wishes[: stop + 1], draft.cm(-1, 1))
                draft.near(running, reached[piece, stop, size])
        if len(pieces) == 2:
            sides = [
                (sign, f"{piece}.rows{at}@{size}")
                for piece, sign in zip(pieces, (1, -1), strict=False)
                for at in range(len(gauges))
            ]
            draft.rule("join", *sides, lower=0, upper=0)
    for piece in pieces:
        for size in range(1, draft.sizes):
            for at, more in enumerate(growth):
                if at not in stops and more >= 0:
                    _order(draft, f"{piece}.rows{at}@{size - 1}")
            for stop in stops:
                if reached[piece, stop, size] >= reached[piece, stop, size - 1]:
                    _order_of_sums(draft, piece, gauges[: stop + 1], size)


def _order_of_sums(draft: Draft, piece: str, gauges: list[Fraction], size: int) -> None:
    scale = lcm(*((1 / gauge).denominator for gauge in gauges))
    longer = [(int(scale / gauge), f"{piece}.rows{at}@{size}") for at, gauge in enumerate(gauges)]
    shorter = [(-factor, key.replace(f"@{size}", f"@{size - 1}")) for factor, key in longer]
    draft.rule("order", *longer, *shorter, lower=0)


def _tie(draft: Draft) -> None:
    """Tie rows to stitches: an armhole as long as a top is wide, or stitches picked up along rows, 3 for 4."""
    chance = draft.chance
    rows = [key for key in draft.unknowns if ".rows" in key]
    picked_up, more = chance.random() < 0.5, chance.randint(-20, 60)
    middle, slack = draft.cm(-12, 6), Fraction(chance.randint(6, 40), 10)
    for size in range(draft.sizes):
        mine = [key for key in rows if key.endswith(f"@{size}")][:2]
        width = next(key for key in draft.unknowns if key.endswith(f"@{size}") and ".rows" not in key)
        if picked_up:
            draft.rule("join", (3, mine[0]), (-1, width), lower=-60, upper=more)
        else:
            draft.within([*((2 / ROWS[0], key) for key in mine), (-1 / STITCHES[0], width)], middle, slack, "join")
