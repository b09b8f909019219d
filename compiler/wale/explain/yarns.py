"""Reasons of the yarn table: counts and put-ups as written, grams by both ways, metres, put-ups and cost."""

from __future__ import annotations

import re
from collections.abc import Mapping
from fractions import Fraction
from math import ceil

from wale.actions import PomPom, Tassel
from wale.checks.used import yarns_of
from wale.explain.book import Book, constant, known, show
from wale.explain.reason import Input
from wale.explain.yarn_ways import Counted, by_loop, by_weight, counted
from wale.materials import Yarn
from wale.quantity import show_decimal
from wale.shaping.amounts import MARGIN, POM_POM_DIVISOR, TASSEL_DIVISOR
from wale.write.as_knitted import test_knits
from wale.write.yarn_needed import STEP, TAILS, PutUpNeed, YarnNeed, yarn_of_size
from wale.yarn import SYSTEMS, metres_per_100g, read_fold, resultant

_COUNT = re.compile(r"(\d+)/(\d+) (\w+)(?: .*)?")
_FIGURE = re.compile(r"\d+(?:\.\d+)?")
METRES_STEP = 10


def yarn_reasons(book: Book) -> None:
    """Tell everything that the section on yarn prints."""
    _rules(book)
    names = [name for yarn in yarns_of(book.spec) for name in (yarn.name, *yarn.held)]
    for name in dict.fromkeys(names):
        _yarn(book, book.spec.yarns[name])
    for name, knits in test_knits(book.spec).items():
        for number, one in enumerate(knits, 1):
            shown = show_decimal(one.grams, 1).removesuffix(".0")
            constant(
                book, f"yarn.test-knit.{name}.{number}", one.grams, "g", "weighed, as written", one.span, shown=shown
            )
    for size in book.sizes:
        at = counted(book.spec, book.plan, size)
        for need in yarn_of_size(book.spec, book.plan, size):
            _need(book, at, need, size)


def _rules(book: Book) -> None:
    """The constants of the reckoning, each printed below the table."""
    practice = "common practice, no source"
    constant(book, "yarn.per", Fraction(100), "g", "lengths of yarn are told per 100 g")
    constant(book, "yarn.margin", MARGIN * 100, "%", "margin to have ready", source=practice)
    constant(book, "yarn.step", Fraction(STEP), "g", "amounts are rounded to so many g")
    constant(
        book, "yarn.tails", TAILS * 100, "%", "cast-on, seams and ends of a yarn of unknown length", source=practice
    )
    if any(isinstance(step.action, PomPom) for piece in book.plan.pieces for step in piece.steps):
        inch = book.spec.units == "inch"
        value = Fraction(55, 100) if inch else Fraction(POM_POM_DIVISOR)
        what = "g of a pom-pom: the cube of its diameter, " + ("in inches, times this" if inch else "in cm, by this")
        constant(book, "yarn.pom-pom", value, "", what, source="rule of thumb", shown="0.55" if inch else "")
    if any(isinstance(step.action, Tassel) for piece in book.plan.pieces for step in piece.steps):
        what = "g of a tassel: its length in cm, by this"
        constant(book, "yarn.tassel", Fraction(TASSEL_DIVISOR), "", what, source="rule of thumb")


def _yarn(book: Book, yarn: Yarn) -> None:
    name, span = f"yarn.{yarn.name}", yarn.span
    for number, figure in enumerate(_FIGURE.findall(f"{yarn.count} {yarn.fibre}"), 1):
        constant(book, f"{name}.count[{number}]", Fraction(figure), "", f"as written: {yarn.count}", span, shown=figure)
    metres = yarn.metres_per_100g
    if metres is not None:
        template, given = _metres(yarn, metres)
        shown = show_decimal(metres, 0)
        book.reckon(f"{name}.metres-per-100g", None, metres, "m", template, given, spans=(span,), shown=shown)
    if yarn.strands > 1:
        constant(book, f"{name}.strands", yarn.strands, "strands", "held together, as written", span)
    if yarn.on_hand is not None:
        shown = show_decimal(yarn.on_hand, 0)
        constant(book, f"{name}.on-hand", yarn.on_hand, "g", "on hand, as written", span, shown=shown)
    for number, one in enumerate(yarn.put_ups, 1):
        shown = show_decimal(one.weight, 0)
        constant(book, f"{name}.put-up[{number}].weight", one.weight, "g", f"{one.kind} as written", span, shown=shown)
        if one.price is not None:
            shown = show_decimal(one.price, 2)
            address = f"{name}.put-up[{number}].price"
            constant(book, address, one.price, one.currency, "price as written", span, shown=shown)


def _metres(yarn: Yarn, metres: Fraction) -> tuple[str, dict[str, Input]]:
    """The length of 100 g from a folded count; as written where the count says it in another way."""
    found = _COUNT.fullmatch(yarn.count)
    if found is not None and found[3] in SYSTEMS:
        system = SYSTEMS[found[3]]
        fold = read_fold(int(found[1]), int(found[2]))
        if metres_per_100g(resultant(fold, found[3]), found[3]) == metres:
            given = {
                "single": Input("count of a single", fold.single, f"{fold.single} {found[3]}", yarn.span),
                "fold": Input("singles twisted together", fold.fold, f"{fold.fold} singles", yarn.span),
                "tex": Input(
                    f"tex of number 1 in {found[3]}", system.tex, f"{show(system.tex)} tex", None, "docs/yarn.md"
                ),
            }
            if system.kind == "indirect":
                return "100000 * {single} / {fold} / {tex}", given
            return "100000 / ({single} * {fold} * {tex})", given
    said = f"{show(metres)} m, from {yarn.count or 'its lines'}"
    return "{metres}", {"metres": Input(f"metres of 100 g of {yarn.name}", metres, said, yarn.span)}


def _need(book: Book, at: Counted, need: YarnNeed, size: int) -> None:
    name = f"yarn.{need.yarn}"
    spans = (book.spec.yarns[need.yarn].span,)
    step = known("yarn.step", STEP, "g")
    for way, grams, reckoned in (("by-weight", need.by_weight, by_weight), ("by-loop", need.by_loop, by_loop)):
        if grams is not None:
            template, given = reckoned(at, need.yarn, grams)
            given["step"] = step
            template = f"{{step}} * ceil(({template}) / {{step}})"
            book.reckon(f"{name}.{way}", size, ceil(grams / STEP) * STEP, "g", template, given, spans=spans)
    spread = need.knitted.spread
    if need.grams is None or need.used is None or spread is None:
        return
    parts = {
        "finish": known("cast-on, bind-off, seams and ends", need.finish, "g of edges and ends"),
        "pom": known("pom-poms and tassels", need.pom_pom, "g of pom-poms and tassels"),
        "step": step,
    }
    edges = " + {finish}" + (" + {pom}" if need.pom_pom else "")
    if not need.pom_pom:
        del parts["pom"]
    for what, knitted, rounded in (("least", spread.low, "floor"), ("most", spread.high, "ceil")):
        given = {"knitted": known(f"knitted, the {what} of both ways", knitted, "g"), **parts}
        template = f"{{step}} * {rounded}(({{knitted}}{edges}) / {{step}})"
        bound = need.used.low if what == "least" else need.used.high
        value = (int(bound // STEP) if what == "least" else ceil(bound / STEP)) * STEP
        book.reckon(f"{name}.{what}", size, value, "g", template, given, spans=spans)
    given = {
        "middle": known("knitted, the larger way", spread.middle, "g"),
        "most": known("knitted, the most of both ways", spread.high, "g"),
        "margin": known("yarn.margin", MARGIN, "margin"),
        "swatches": known("swatches", need.swatches, "g of swatches"),
        **parts,
    }
    whole = f"max(({{middle}}{edges}) * (1 + {{margin}}), {{most}}{edges}) + {{swatches}}"
    book.reckon(f"{name}.ready", size, need.grams, "g", f"{{step}} * ceil(({whole}) / {{step}})", given, spans=spans)
    ready = known(f"{name}.ready", need.grams, "g to have ready")
    metres = book.spec.yarns[need.yarn].metres_per_100g
    if need.metres is not None and metres is not None:
        given = {
            "grams": ready,
            "metres": known(f"{name}.metres-per-100g", metres, "m per 100 g"),
            "ten": known("metres are rounded up to", METRES_STEP, "m"),
        }
        template = "{ten} * ceil({grams} * {metres} / 100 / {ten})"
        book.reckon(f"{name}.metres", size, need.metres, "m", template, given, spans=spans)
    on_hand = known("on hand", book.spec.yarns[need.yarn].on_hand or Fraction(0), "g on hand", *spans)
    for number, one in enumerate(need.put_ups, 1):
        _put_up(book, f"{name}.put-up[{number}]", one, size, {"grams": ready, "hand": on_hand, "step": step})


def _put_up(book: Book, name: str, one: PutUpNeed, size: int, given: Mapping[str, Input]) -> None:
    weight = known(f"{name}.weight", one.put_up.weight, "g")
    unit = f"{one.put_up.kind}s"
    mine = {"grams": given["grams"], "weight": weight}
    book.reckon(f"{name}.needed", size, one.needed, unit, "ceil({grams} / {weight})", mine)
    template = "ceil({step} * ceil(max(0, {grams} - {hand}) / {step}) / {weight})"
    book.reckon(f"{name}.to-buy", size, one.to_buy, unit, template, {**given, "weight": weight})
    if one.cost is not None and one.put_up.price is not None:
        cost = {"needed": known(f"{name}.needed", one.needed, unit), "price": known(f"{name}.price", one.put_up.price)}
        shown = show_decimal(one.cost, 2)
        book.reckon(f"{name}.cost", size, one.cost, one.put_up.currency, "{needed} * {price}", cost, shown=shown)
