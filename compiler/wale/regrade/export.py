"""A regraded garment as JSON."""

from __future__ import annotations

import json
from fractions import Fraction

from wale import __version__
from wale.compare.numbers import Values
from wale.problems.export import as_json
from wale.regrade.outcome import Outcome, numbers
from wale.source import Source

FORMAT = "wale regrade 1"


def render(found: Outcome, sources: dict[str, Source]) -> str:
    """Give the object; docs/regrade.md tells its fields."""
    data = {
        "format": FORMAT,
        "compiler": __version__,
        "title": found.before.spec.title,
        "asked": {"way": found.asked.kind, "words": found.asked.words, "of": found.asked.of, "keep": found.asked.keep},
        "is_changed": bool(found.change.edits),
        "sizes": list(found.after.plan.sizes if found.after is not None else found.before.plan.sizes),
        "swatches": [
            {
                "before": name,
                "after": take.name,
                "gauge_before": _gauge(found.before.spec.swatches[name].washed.stitches, _rows(found, name)),
                "gauge_after": _gauge(take.gauge.stitches, take.gauge.rows),
            }
            for name, take in found.change.takes.items()
        ],
        "remarks": list(found.change.remarks),
        "numbers": [
            {"address": one.address, "kind": one.kind, "before": _values(one.before), "after": _values(one.after)}
            for one in (numbers(found.before, found.after) if found.after is not None else ())
        ],
        "fits": [
            {
                "size": one.size,
                "measure": one.measure,
                "girth_cm": _number(one.girth_cm),
                "ease_cm": _number(one.ease_cm),
                "body_cm": _number(one.body_cm),
                "nearest": one.nearest,
                "nearest_cm": _number(one.nearest_cm),
            }
            for one in found.fits
        ],
        "refusals": as_json(found.refusals, sources),
        "news": as_json(found.news, sources),
    }
    return json.dumps(data, ensure_ascii=False, indent=1) + "\n"


def _rows(found: Outcome, name: str) -> Fraction:
    return found.before.spec.swatches[name].washed.rows


def _gauge(stitches: Fraction, rows: Fraction) -> dict[str, object]:
    return {"sts_per_cm": _number(stitches), "rows_per_cm": _number(rows)}


def _values(values: Values) -> list[object]:
    return [_number(one) if isinstance(one, Fraction) else one for one in values]


def _number(value: Fraction) -> int | float:
    return int(value) if value.denominator == 1 else round(float(value), 4)
