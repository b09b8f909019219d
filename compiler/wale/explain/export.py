"""Reasons as plain data for JSON: counts as numbers, everything else with its exact fraction."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from fractions import Fraction
from typing import Any

from wale.explain.book import Units, printed
from wale.explain.reason import Candidate, Reason, Value
from wale.quantity import show_decimal
from wale.source import Source, Span

Json = dict[str, Any]


def as_json(reasons: Iterable[Reason], sources: Mapping[str, Source], units: Units = "cm") -> list[Json]:
    """Give reasons as JSON-ready dictionaries, described in docs/explain.md."""
    return [
        {
            "address": one.address,
            "size": one.size or None,
            "value": _number(one.value),
            "unit": one.unit,
            "wish": _number(one.exact),
            "formula": one.formula,
            "expression": one.expression,
            "whole": one.whole or None,
            "printed": printed(one, units),
            "deviation": None if one.deviation is None else _number(one.deviation),
            "inputs": [
                {
                    "name": part.name,
                    "value": None if part.value is None else _number(part.value),
                    "place": _place(part.where, sources),
                    "source": part.source,
                }
                for part in one.inputs
            ],
            "rules": list(one.rounding),
            "candidates": [_candidate(part) for part in one.candidates],
            "places": [_place(place, sources) for span in one.spans for place in span.places],
        }
        for one in reasons
    ]


def _candidate(one: Candidate) -> Json:
    return {
        "count": one.count,
        "chosen": one.is_chosen,
        "deviation": None if one.deviation is None else _number(one.deviation),
        "costs_more": None if one.costs_more is None else _number(one.costs_more),
        "conflict": list(one.conflict),
    }


def _number(value: Value) -> int | Json:
    if isinstance(value, int):
        return value
    exact = Fraction(value)
    return {"decimal": show_decimal(exact, 3), "exact": f"{exact.numerator}/{exact.denominator}"}


def _place(span: Span | None, sources: Mapping[str, Source]) -> Json | None:
    if span is None:
        return None
    source = sources.get(span.file)
    return {"file": span.file, "line": source.place(span.start)[0] if source is not None else None}
