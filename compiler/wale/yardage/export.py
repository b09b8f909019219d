"""The report as data for JSON, described in docs/yarn.md. Weights are in g, lengths in m, to one decimal."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Any

from wale.quantity import show_decimal
from wale.spec import Knitted
from wale.write.yarn_needed import Place, YarnNeed
from wale.write.yarn_used import Spread, Use
from wale.yardage.purchase import Purchase
from wale.yardage.report import SizeYarn, Winding, YarnReport
from wale.yardage.savings import Saving
from wale.yardage.walk import Event, RunOut
from wale.yardage.weighed import Weighed

FORMAT = "wale yarn 1"
"""Name and version of the format; a reader refuses a version it does not know."""

Json = dict[str, Any]


def as_json(report: YarnReport) -> Json:
    """Give the report as data for JSON."""
    return {
        "format": FORMAT,
        "title": report.title,
        "sizes": [_size(report, number) for number in range(len(report.sizes))],
    }


def _size(report: YarnReport, number: int) -> Json:
    one = report.sizes[number]
    return {
        "size": one.size,
        "yarns": [_need(one, need) for need in one.needs],
        "places": [_place(place, report.test_knits.get(place.name, ())) for place in one.places],
        "runs_out": [_run_out(run) for run in one.runs_out],
        "savings": [_saving(saving, number) for saving in report.savings if saving.grams[number] is not None],
        "winding": [_winding(each) for each in one.windings],
        "weighed": [_weighed(each) for each in one.weighed],
    }


def _figure(value: Fraction | None) -> float | None:
    return None if value is None else float(show_decimal(value, 1))


def _figures(values: Mapping[str, Fraction]) -> dict[str, float | None]:
    return {name: _figure(value) for name, value in values.items()}


def _spread(spread: Spread | None) -> Json | None:
    if spread is None:
        return None
    return {"low": _figure(spread.low), "middle": _figure(spread.middle), "high": _figure(spread.high)}


def _use(use: Use) -> Json:
    return {"by_weight": _spread(use.by_weight), "by_loop": _spread(use.by_loop)}


def _need(one: SizeYarn, need: YarnNeed) -> Json:
    return {
        "yarn": need.yarn,
        "takes": _spread(need.used),
        "knitted": {"weighed": need.is_weighed, **_use(need.knitted)},
        "ends_and_seams": _figure(need.finish),
        "pom_poms": _figure(need.pom_pom),
        "swatches": _figure(need.swatches),
        "is_rough": need.is_rough,
        "have_ready": need.grams,
        "have_ready_metres": need.metres,
        "on_hand": _figure(one.on_hand(need)),
        "missing": need.to_buy,
        "buy": [_purchase(each) for each in need.cheapest],
        "left_over": _spread(one.left_over(need)),
    }


def _purchase(purchase: Purchase) -> Json:
    return {
        "put_ups": [
            {"kind": put_up.kind, "weight": _figure(put_up.weight), "number": number}
            for put_up, number in purchase.items
        ],
        "weight": _figure(purchase.grams),
        "cost": None if purchase.cost is None else show_decimal(purchase.cost, 2),
        "currency": purchase.currency,
    }


def _place(place: Place, test_knits: Sequence[Knitted]) -> Json:
    return {
        "place": place.name,
        "make": place.make,
        "knitted": {name: _use(use) for name, use in place.knitted.items()},
        "ends": _figures(place.finish),
        "test_knits": [
            {"size": one.size, "weight": _figure(one.grams), "hours": _figure(one.hours)} for one in test_knits
        ],
    }


def _event(event: Event | None) -> Json | None:
    if event is None:
        return None
    return {"place": event.place, "copy": event.copy, "row": event.row, "rows": event.rows, "what": event.what}


def _run_out(run: RunOut) -> Json:
    return {
        "yarn": run.yarn,
        "on_hand": _figure(run.on_hand),
        "earliest": _event(run.earliest),
        "latest": _event(run.latest),
    }


def _saving(saving: Saving, number: int) -> Json:
    return {"change": saving.change, "saves": _figures(saving.grams[number] or {})}


def _winding(one: Winding) -> Json:
    return {
        "yarn": one.yarn,
        "strands": one.strands,
        "put_ups": one.put_ups,
        "each": _figure(one.grams),
        "each_metres": _figure(one.metres),
    }


def _pair(pair: tuple[Fraction, Fraction] | None) -> Json | None:
    return None if pair is None else {"low": _figure(pair[0]), "high": _figure(pair[1])}


def _weighed(one: Weighed) -> Json:
    percent = None if one.factor is None else (one.factor[0] * 100, one.factor[1] * 100)
    return {
        "yarn": one.weighing.yarn,
        "left": _figure(one.weighing.left),
        "at": one.where,
        "used": _figure(one.used),
        "estimated": _pair(one.estimated),
        "began_with": _figure(one.begun),
        "percent_of_estimate": _pair(percent),
        "is_doubtful": one.is_doubtful,
        "not_corrected": one.why or None,
        "rest_takes": _pair(one.rest),
        "verdict": one.verdict,
        "missing": _figure(one.missing),
    }
