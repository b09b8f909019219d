"""A number of the plan with everything that it rests on."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.source import Span

Value = int | Fraction
Unit = str
"""sts, rows, rounds, cm, times, repeats; row, round and column (the number of one); mm, g, m, per cent and others."""


class Input(Struct, frozen=True):
    """Something that a number is made of.

    Attributes:
        name: the address of another number, or words ("bust, body", "gauge of easy").
        value: its exact value; None for a line of the spec that is quoted as it stands.
        said: how it stands in the formula ("2.941 sts/cm").
        where: its line in the spec.
        source: where a body measure comes from: table and confidence.
        unit, places: how its value is said, where `said` is empty.
    """

    name: str
    value: Value | None
    said: str = ""
    where: Span | None = None
    source: str = ""
    unit: str = ""
    places: int = 2


class Candidate(Struct, frozen=True):
    """A count that was weighed, everything else solved anew with it fixed.

    Attributes:
        deviation: from the wish in cm; None where there is no wish.
        costs_more: squared cm (weighted, see docs/maths.md#widths) beyond the best plan, 0 for the chosen; None: it
            cannot be.
        conflict: the rules that then clash, in words; empty where it can be.
    """

    count: int
    is_chosen: bool
    deviation: Fraction | None
    costs_more: Fraction | None
    conflict: tuple[str, ...] = ()


class Reason(Struct, frozen=True):
    """Why a number is what it is, in one size, or in all where `size` is empty.

    Attributes:
        address: stable name of the number: `back.bust`, `sleeve.shape[1].rows`.
        value: what is printed, exact.
        exact: what `expression` gives: the unrounded wish of a solved count, else the value itself.
        formula: the calculation as a knitter reads it.
        expression: the same over exact numbers with + - * / and floor, ceil, mod, min, max.
        rounding: what the whole number had to obey, in words.
        candidates: of a solved count, once weighed: the next below, the chosen and the next above.
        deviation: got less wished in cm, of a count with a wish.
        spans: lines of the spec that it comes from, the one that asks for it first.
        unknown: name of the solver's unknown; empty where a fixed rule gives the number.
        shown: how it is printed, where its unit does not tell.
        whole: where `exact` is not the value, arithmetic that gives the value from it.
    """

    address: str
    size: str
    value: Value
    unit: Unit
    exact: Fraction
    formula: str
    expression: str
    inputs: tuple[Input, ...] = ()
    rounding: tuple[str, ...] = ()
    candidates: tuple[Candidate, ...] = ()
    deviation: Fraction | None = None
    spans: tuple[Span, ...] = ()
    unknown: str = ""
    shown: str = ""
    whole: str = ""
