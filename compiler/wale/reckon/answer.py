"""Answers as data, in words and as JSON."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from msgspec import Struct

from wale.quantity import show_decimal
from wale.reckon.rules import RULES


class Figure(Struct, frozen=True):
    """One figure of an answer.

    Attributes:
        name: what it is.
        value: a number, or words (a row, a list, a range).
        unit: unit word, or "".
        places: most decimals that are printed.
    """

    name: str
    value: Fraction | int | str
    unit: str = ""
    places: int = 2

    @property
    def text(self) -> str:
        """The value with its unit, as printed."""
        value = self.value if isinstance(self.value, str) else plain(self.value, self.places)
        return f"{value} {self.unit}".rstrip()


class Answer(Struct, frozen=True):
    """What a question gives.

    Attributes:
        figures: the answer, the figure that was asked for first.
        formulas: the formulas with the numbers put in.
        rules: keys of `RULES`, in the order of the formulas.
        notes: doubts and advice, one sentence each.
    """

    figures: tuple[Figure, ...]
    formulas: tuple[str, ...]
    rules: tuple[str, ...]
    notes: tuple[str, ...] = ()


def plain(value: Fraction | int, places: int = 2) -> str:
    """Print a number with at most so many decimals: "29.41", "13.6", "4"."""
    text = show_decimal(Fraction(value), places)
    return text.rstrip("0").rstrip(".") if "." in text else text


def in_words(answer: Answer) -> str:
    """Give an answer as lines for a terminal."""
    width = max(len(figure.name) for figure in answer.figures)
    lines = [f"{figure.name:{width}}  {figure.text}" for figure in answer.figures]
    lines += ["", *(f"how:    {formula}" for formula in answer.formulas)]
    lines += [f"source: {RULES[key].source} ({RULES[key].page})" for key in dict.fromkeys(answer.rules)]
    lines += [f"note:   {note}" for note in answer.notes]
    return "".join(f"{line}\n" for line in lines)


def as_data(answer: Answer) -> dict[str, Any]:
    """Give an answer as JSON-ready data; numbers to a millionth."""
    return {
        "answer": [
            {"name": one.name, "value": _number(one.value), "unit": one.unit, "text": one.text}
            for one in answer.figures
        ],
        "formulas": list(answer.formulas),
        "sources": [{"rule": RULES[key].page, "source": RULES[key].source} for key in dict.fromkeys(answer.rules)],
        "notes": list(answer.notes),
    }


def _number(value: Fraction | int | str) -> int | float | str:
    if isinstance(value, str):
        return value
    exact = Fraction(value)
    return exact.numerator if exact.denominator == 1 else round(float(exact), 6)
