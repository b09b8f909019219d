"""The comparison as JSON: see docs/swatches.md for each field. Lengths are cm, shares of 1, weights g."""

from __future__ import annotations

import json
from fractions import Fraction
from typing import Any

from wale import __version__
from wale.swatching.compare import Comparison
from wale.swatching.facts import Facts
from wale.swatching.garment import Outcome, SizeOutcome
from wale.swatching.ranking import CRITERIA

FORMAT = "wale swatches 1"
"""Name and version of the format; a reader refuses a version it does not know."""

Json = dict[str, Any]


def render(title: str, found: Comparison) -> str:
    """Give the comparison as JSON text; the same comparison gives the same bytes."""
    told = {
        "format": FORMAT,
        "compiler": f"wale {__version__}",
        "title": title,
        "sizes": list(found.sizes),
        "main": found.main.name,
        "criteria": [each.words for each in CRITERIA],
        "ranking": [{"place": p.number, "swatch": p.outcome.swatch.name, "why": p.why} for p in found.ranking],
        "left_out": [{"swatch": name, "why": why} for name, why in found.left_out],
        "garments": [_outcome(one) for one in found.outcomes],
        "swatches": [_facts(one) for one in found.facts],
    }
    return json.dumps(told, indent=1, ensure_ascii=False) + "\n"


def _number(value: Fraction | None) -> float | None:
    return None if value is None else round(float(value), 4)


def _facts(one: Facts) -> Json:
    swatch, longest, change = one.swatch, one.longest, one.change
    before = swatch.counted
    return {
        "name": swatch.name,
        "worked": "in the round" if swatch.in_round else "flat",
        "fabric": swatch.stitch,
        "motif": swatch.motif,
        "yarns": list(swatch.yarns),
        "needle_mm": _number(swatch.needle_mm),
        "used": one.used,
        "is_washed": swatch.is_washed,
        "gauge": {"sts_per_cm": _number(swatch.washed.stitches), "rows_per_cm": _number(swatch.washed.rows)},
        "off_the_needle": before and {"sts_per_cm": _number(before.stitches), "rows_per_cm": _number(before.rows)},
        "grew_in_the_wash": change and {"across": _number(change[0]), "up": _number(change[1])},
        "rows_to_a_stitch": _number(one.ratio),
        "usual_rows_to_a_stitch": one.usual and [_number(each) for each in one.usual],
        "is_plausible": one.is_plausible,
        "grams_per_m2": {"weighed": _number(one.weighed), "by_loop": _number(one.reckoned)},
        "loop_cm": {"by_width": _number(one.by_width), "by_height": _number(one.by_height)},
        "tightness": _number(one.tightness),
        "give": _number(one.give),
        "edge_give": _number(one.edge_give),
        "longest_float": longest
        and {
            "yarn": longest.yarn,
            "stitches": longest.stitches,
            "cm": _number(longest.cm),
            "limit": longest.limit,
            "catch_in_rows": list(longest.rows),
        },
        "miscount": _number(one.miscount),
        "unknown": list(one.unknown),
    }


def _outcome(one: Outcome) -> Json:
    return {
        "swatch": one.swatch.name,
        "is_used": one.is_used,
        "refusals": [
            {"code": each.code, "message": each.message, "help": each.help, "size": each.size} for each in one.refusals
        ],
        "remarks": list(one.remarks),
        "level": one.level or None,
        "repeat_cm": one.motif_cm and {"width": _number(one.motif_cm[0]), "height": _number(one.motif_cm[1])},
        "sizes": [_size(size) for size in one.sizes],
    }


def _size(one: SizeOutcome) -> Json:
    return {
        "size": one.size,
        "stitches": one.stitches,
        "girth_cm": _number(one.girth_cm),
        "off_cm": _number(one.off_cm),
        "worst_cm": _number(one.worst_cm),
        "repeats": _number(one.repeats),
        "repeats_around": _number(one.around),
        "grams": one.grams,
        "costs": None
        if one.costs is None
        else [{"currency": currency, "cost": _number(cost)} for currency, cost in one.costs],
        "goes_on": {
            part: {
                "verdict": ring.verdict,
                "piece": ring.piece,
                "ring": ring.ring,
                "girth_cm": _number(ring.girth_cm),
                "give": _number(ring.give),
                "part": ring.part,
                "part_cm": _number(ring.part_cm),
                "missing_cm": _number(ring.missing_cm),
                "needed_give": _number(ring.needed_give),
                "why": ring.why,
            }
            for part, ring in one.tightest.items()
        },
        "miscount_cm": _number(one.miscount_cm),
    }
