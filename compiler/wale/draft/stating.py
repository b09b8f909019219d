"""What models of stitches and rows are stated with: names of unknowns, their bounds, and how near a wish they stay."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil

from msgspec import Struct, field

from wale.measure import Measure
from wale.quantity import length_words
from wale.solve.model import Model, Rule, Unknown, Wish
from wale.source import Span
from wale.spec import Spec

ROOM = 20
"""Room in cm beyond twice a wish, within which counts are looked for."""

FITTED = 60
"""Length in cm within which the rows of a fitted shaping are looked for."""


def at(key: str, spec: Spec, size: int) -> str:
    """Name the unknown of a level or section in one size."""
    return f"{key}@{spec.sizes[size].name}"


class Builder(Struct):
    """Gathers a model; each unknown is declared once, however many pieces share it."""

    unknowns: dict[str, Unknown] = field(default_factory=dict)
    rules: dict[Rule, None] = field(default_factory=dict)
    wishes: dict[Wish, None] = field(default_factory=dict)

    def unknown(self, key: str, lower: int, upper: int) -> None:
        """Declare an unknown."""
        self.unknowns.setdefault(key, Unknown(key, lower, upper))

    def rule(self, kind: str, why: str, terms: Sequence[tuple[int, str]], spans: Sequence[Span], **rest: int) -> Rule:
        """Add a hard rule and give it."""
        rule = Rule(tuple(terms), why, kind, spans=tuple(dict.fromkeys(spans)), **rest)
        self.rules.setdefault(rule)
        return rule

    def model(self) -> Model:
        """Give the model."""
        return Model(tuple(self.unknowns.values()), tuple(self.rules), tuple(self.wishes))


def most_stitches(measure: Measure, gauge: Fraction, size: int) -> int:
    """Bound an unknown generously: twice its wish and more, far outside every tolerance."""
    wish = measure.at(size)
    return int(wish) if measure.is_count else (2 * ceil(wish) + ROOM) * ceil(gauge)


def counts_within(wish: Fraction, tolerance: Fraction, gauge: Fraction, taken: int = 0) -> tuple[int, int]:
    """Give the least and the most stitches or rows that come within a tolerance (cm) of a wish, `taken` ones apart."""
    # in whole numbers: a model has hundreds of these, and Fractions cost most of its making
    below = wish.denominator * tolerance.denominator * gauge.denominator
    middle = wish.numerator * tolerance.denominator * gauge.numerator
    slack = tolerance.numerator * wish.denominator * gauge.numerator
    return taken - (slack - middle) // below, taken + (middle + slack) // below


def within(tolerance: Fraction, wish: Fraction, units: str) -> str:
    """Say how near to a wish (cm) a rule holds a count, in the pattern's unit."""
    return f"within {length_words(tolerance, units, 2)} of {length_words(wish, units, 2, trim=False)}"


def state_width(
    build: Builder,
    spec: Spec,
    key: str,
    measure: Measure,
    size: int,
    gauge: Fraction,
    what: str,
    name: str,
    taken: int = 0,
) -> None:
    """Declare stitches that are a width of their own, no level: `what` they are, and the `name` of their weight.

    `taken` of them lie outside the width.
    """
    build.unknown(key, 2, most_stitches(measure, gauge, size))
    if measure.is_count:
        count = int(measure.at(size))
        build.rule("exact", f"{count} sts as written", ((1, key),), (measure.span,), lower=count, upper=count)
        return
    wish = measure.at(size)
    lower, upper = counts_within(wish, spec.width_tolerance, gauge, taken)
    why = f"{what} {within(spec.width_tolerance, wish, spec.units)}"
    build.rule("tolerance", why, ((1, key),), (measure.span,), lower=max(2, lower), upper=upper)
    build.wishes.setdefault(Wish(((1 / gauge, key),), -taken / gauge - wish, spec.weight(name, *measure.names)))
