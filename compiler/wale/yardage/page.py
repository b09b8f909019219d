"""The report as a document, for text and HTML."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction

from wale import __version__
from wale.checks.yarns import MOST
from wale.pattern import Bullets, Caution, Definitions, Paragraph, Part, Pattern, Section, Table
from wale.plan import Plan
from wale.quantity import show_decimal, show_signed
from wale.spec import Spec
from wale.write.as_knitted import hours_of, knitted_of
from wale.write.materials import yarn_definitions
from wale.write.yarn_needed import YarnNeed, round_up
from wale.write.yarn_table import FINE_BELOW, LOTS, how_reckoned, money, range_text, spread_text
from wale.write.yarn_used import Spread, Use
from wale.yardage.kind import kind_words
from wale.yardage.report import SizeYarn, Winding, YarnReport
from wale.yardage.sheet import sheet_section
from wale.yardage.walk import RunOut
from wale.yardage.weighed import Weighed


def page(spec: Spec, plan: Plan, report: YarnReport, sizes: Sequence[int], sheet: bool = False) -> Pattern:
    """Give the document; `sheet` adds the sheet for a test knit."""
    sections = [
        Section("buy", "What to buy", _buy(report)),
        Section("weighed", "What was weighed", _weighed(report)),
        Section("running-out", "What runs out first", _running(report)),
        Section("pieces", "Yarn of each piece", tuple(_pieces(spec, report))),
        Section("hours", "Hours", _hours(spec, plan, report, sizes)),
        Section("savings", "What a change would save", _savings(report)),
        Section("winding", "Cones and strands", _winding(report)),
        Section("yarns", "The yarns", (yarn_definitions(spec), Definitions(kind_words(spec)))),
        Section("reckoned", "How it was reckoned", (Table(*_ways(report)), Paragraph(how_reckoned(spec, plan)))),
    ]
    if sheet:
        sections.append(sheet_section(spec, plan, sizes))
    return Pattern(
        f"{spec.title}: yarn",
        "What the garment takes, what to buy, and what is left.",
        tuple(one.size for one in report.sizes),
        spec.paper,
        None,
        tuple(section for section in sections if section.parts),
        f"wale {__version__}",
    )


def _columns(report: YarnReport) -> tuple[str, ...]:
    return ("", *(one.size for one in report.sizes))


def _by_yarn(report: YarnReport) -> Iterable[list[tuple[SizeYarn, YarnNeed]]]:
    """Give each yarn with its need in each size."""
    for number in range(len(report.sizes[0].needs)):
        yield [(one, one.needs[number]) for one in report.sizes]


def _buy(report: YarnReport) -> tuple[Part, ...]:
    rows: list[tuple[str, ...]] = []
    for pairs in _by_yarn(report):
        name = pairs[0][1].yarn
        roughly = ", roughly" if any(need.is_rough for _, need in pairs) else ""
        rows.append((f"{name}: the garment takes, g{roughly}", *(range_text(need.used) for _, need in pairs)))
        rows.append((f"{name}: have ready, g", *(_figure(need.grams) for _, need in pairs)))
        if any(one.on_hand(need) for one, need in pairs):
            rows.append((f"{name}: on hand, g", *(show_decimal(one.on_hand(need), 0) for one, need in pairs)))
        rows.append((f"{name}: missing, g", *(_figure(need.to_buy) for _, need in pairs)))
        if any(need.cheapest for _, need in pairs):
            for number in range(max(len(need.cheapest) for _, need in pairs)):
                bought = [need.cheapest[number] if number < len(need.cheapest) else None for _, need in pairs]
                rows.append((f"{name}: buy", *(one.words if one else "not known" for one in bought)))
                currency = next((one.currency for one in bought if one and one.cost is not None), "")
                if currency:
                    rows.append((f"{name}: cost in {currency}", *(money(one.cost) if one else "" for one in bought)))
        rows.append((f"{name}: left over, g", *(_left_text(one.left_over(need)) for one, need in pairs)))
    cautions = tuple(
        Caution(
            "Please check", f"The two ways differ by {show_decimal(apart * 100, 0)} % for {need.yarn} in {one.size}."
        )
        for one in report.sizes
        for need in one.needs
        if (apart := disagreement(need)) is not None and apart > MOST
    )
    note = "To have ready and missing hold the swatches and a margin; where yarn runs out is told without them."
    return (Table("By yarn", _columns(report), tuple(rows), note), *_sum_of_costs(report), *cautions)


def _sum_of_costs(report: YarnReport) -> tuple[Part, ...]:
    texts = []
    for one in report.sizes:
        sums: dict[str, Fraction] = {}
        for need in one.needs:
            if need.cheapest and need.cheapest[0].cost is not None:
                currency = need.cheapest[0].currency
                sums[currency] = sums.get(currency, Fraction(0)) + need.cheapest[0].cost
        if sums:
            texts.append(f"{one.size} {' and '.join(f'{money(cost)} {currency}' for currency, cost in sums.items())}")
    return (Paragraph(f"{'; '.join(texts)}.", "All that is to buy costs:"),) if texts else ()


def disagreement(need: YarnNeed) -> Fraction | None:
    """Give how far the two ways are apart, as a share of the larger; None where one is not known."""
    one, other = need.by_weight, need.by_loop
    return abs(one - other) / max(one, other) if one and other else None


def _figure(value: int | None) -> str:
    return "not known" if value is None else str(value)


def _left_text(spread: Spread | None) -> str:
    if spread is None:
        return "not known"
    low, high = max(0, int(spread.low // 5) * 5), max(0, round_up(spread.high, 5))
    return str(high) if low == high else f"{low} to {high}"


def _pieces(spec: Spec, report: YarnReport) -> Iterable[Table]:
    for pairs in _by_yarn(report):
        name = pairs[0][1].yarn
        rows: list[tuple[str, ...]] = []
        for number, place in enumerate(report.sizes[0].places):
            found = [one.places[number] for one in report.sizes]
            if not any(name in one.knitted or name in one.finish for one in found):
                continue
            words = f"{place.name}, all {place.make}" if place.make > 1 else place.name
            words += ", as knitted" if knitted_of(spec, place.name) else ""
            rows.append((words, *(range_text(_of_place(one.knitted, one.finish, name)) for one in found)))
        rest = [_rest(one, need) for one, need in pairs]
        if any(rest):
            rows.append(("seams and pom-poms", *(_up(one) for one in rest)))
        if any(need.swatches for _, need in pairs):
            rows.append(("swatches", *(_up(need.swatches) for _, need in pairs)))
        yield Table(f"{name}, in g", _columns(report), tuple(rows))


def _hours(spec: Spec, plan: Plan, report: YarnReport, sizes: Sequence[int]) -> tuple[Part, ...]:
    """Give the hours of what was test-knitted; in other sizes by the stitches."""
    rows: list[tuple[str, ...]] = []
    for number, place in enumerate(report.sizes[0].places):
        found = [hours_of(spec, plan, number, size) for size in sizes]
        if any(one is not None for one in found):
            words = f"{place.name}, all {place.make}" if place.make > 1 else place.name
            rows.append((words, *("" if one is None else show_decimal(one * place.make) for one in found)))
    note = "From the test knits; in other sizes by the stitches. Pieces without a time, seams and ends are left out."
    return (Table("Hours of knitting", _columns(report), tuple(rows), note),) if rows else ()


def _up(grams: Fraction) -> str:
    return str(round_up(grams, 1 if grams < FINE_BELOW else 5))


def _of_place(knitted: dict[str, Use], finish: dict[str, Fraction], name: str) -> Spread | None:
    spread, ends = knitted.get(name, Use()).spread, finish.get(name, Fraction(0))
    return spread + Spread(ends, ends, ends) if spread is not None else None


def _rest(one: SizeYarn, need: YarnNeed) -> Fraction:
    """Give grams that belong to no piece: seams and pom-poms."""
    return (
        need.finish
        + need.pom_pom
        - sum((place.finish.get(need.yarn, Fraction(0)) for place in one.places), Fraction(0))
    )


def _ways(report: YarnReport) -> tuple[str, tuple[str, ...], tuple[tuple[str, ...], ...]]:
    rows: list[tuple[str, ...]] = []
    for pairs in _by_yarn(report):
        name = pairs[0][1].yarn
        weight = [need.knitted.by_weight if need.is_weighed else None for _, need in pairs]
        rows.append((f"{name}: by the swatch's weight", *(range_text(one) for one in weight)))
        rows.append((f"{name}: by the loop", *(range_text(need.knitted.by_loop) for _, need in pairs)))
        apart = [disagreement(need) for _, need in pairs]
        if any(one is not None for one in apart):
            rows.append((f"{name}: apart, %", *("" if one is None else show_decimal(one * 100, 0) for one in apart)))
    return "Grams knitted, by two ways", _columns(report), tuple(rows)


def _running(report: YarnReport) -> tuple[Part, ...]:
    items = []
    for one in report.sizes:
        short = [run for run in one.runs_out if run.earliest is not None]
        lasting = [run.yarn for run in one.runs_out if run.earliest is None]
        texts = [_runs(run) for run in short]
        if lasting:
            texts.append(f"{' and '.join(lasting)} will do")
        if texts:
            items.append(Paragraph(f"{'. '.join(texts)}.", f"{one.size}:"))
    if not items:
        return ()
    known = {run.yarn for one in report.sizes for run in one.runs_out}
    unknown = [need.yarn for need in report.sizes[0].needs if need.yarn not in known]
    words = (
        "Rows count from the cast-on, facing and turning row included; where a neck parts the work, both sides are one."
    )
    if unknown:
        words += f" Without an `on-hand` line in the spec: {' and '.join(unknown)}."
    return (Bullets(tuple(items)), Paragraph(words))


def _runs(run: RunOut) -> str:
    """Say where a yarn runs out."""
    assert run.earliest is not None
    start = f"{run.yarn} ({show_decimal(run.on_hand, 0)} g on hand) runs out at {run.earliest.words}"
    if run.latest is None:
        return f"{start} where the work takes the most, and will do where it takes the least"
    if run.latest is run.earliest:
        return start
    return f"{start} at the earliest, at {run.latest.words} at the latest"


def _savings(report: YarnReport) -> tuple[Part, ...]:
    rows = tuple((one.change, *map(_saved, one.grams)) for one in report.savings if any(one.grams))
    if not rows:
        return ()
    note = "Each was planned anew; a minus means that more is needed. Swatches and margin are left out."
    return (Table("Grams saved", _columns(report), rows, note),)


def _saved(grams: dict[str, Fraction] | None) -> str:
    if not grams:
        return ""
    return ", ".join(
        f"{name} {show_signed(value, 0).removeprefix('+')}" for name, value in grams.items() if round(value)
    )


def _winding(report: YarnReport) -> tuple[Part, ...]:
    items = [Paragraph(_wind(one), f"{size.size}:") for size in report.sizes for one in size.windings]
    many = any(need.cheapest and need.cheapest[0].number > 1 for one in report.sizes for need in one.needs)
    lots = (Paragraph(LOTS),) if many else ()
    return (*((Bullets(tuple(items)),) if items else ()), *lots)


def _wind(one: Winding) -> str:
    metres = f", about {round_up(one.metres, 10)} m," if one.metres is not None else ""
    return (
        f"{one.yarn} is held {one.strands} times, and {one.put_ups} put-up{'' if one.put_ups == 1 else 's'} cannot be "
        f"shared out whole: wind {round_up(one.grams, 1)} g{metres} off for each strand."
    )


def _weighed(report: YarnReport) -> tuple[Part, ...]:
    items = [Paragraph(_weighing(one), f"{one.weighing.yarn}:") for size in report.sizes for one in size.weighed]
    return (Bullets(tuple(items)),) if items else ()


def _weighing(one: Weighed) -> str:
    left = show_decimal(one.weighing.left, 0)
    texts = [f"{left} g are left at {one.where}"]
    if one.used is not None and one.estimated is not None:
        low, high = one.estimated
        estimate = spread_text(Spread(low, low, high), 1)
        texts.append(f"{show_decimal(one.used, 0)} g were used, {estimate} g were estimated")
    if one.factor is not None:
        least, most = (show_decimal(each * 100, 0) for each in one.factor)
        texts.append(f"you use {least if least == most else f'{least} to {most}'} % of the estimate")
        if one.is_doubtful and one.begun is not None:
            begun = show_decimal(one.begun, 0)
            texts.append(
                f"so far from it, did the work begin with {begun} g? If not, write `{one.weighing.yarn} {left} g "
                "of ... g at ...`"
            )
    elif one.why:
        texts.append(f"the estimate stands as it is: {one.why}")
    if one.rest is not None:
        texts.append(f"the rest takes {spread_text(Spread(one.rest[0], one.rest[0], one.rest[1]), 1)} g")
    verdict = {"enough": "it is enough", "not known": "whether it is enough is not known"}.get(one.verdict, one.verdict)
    if one.missing:
        verdict += f": up to {round_up(one.missing, 1)} g are missing"
    return f"{'; '.join([*texts, verdict])}."
