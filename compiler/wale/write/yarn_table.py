"""The table of yarn needed that the pattern prints, and how it was reckoned."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from wale.actions import PomPom
from wale.checks.used import yarns_of
from wale.pattern import Paragraph, Part, Table
from wale.plan import Plan
from wale.quantity import show_decimal
from wale.shaping.amounts import MARGIN
from wale.spec import Spec
from wale.write.as_knitted import told
from wale.write.context import about_text
from wale.write.yarn_lengths import usual_metres
from wale.write.yarn_needed import STEP, SWATCH_CM, TAILS, PutUpNeed, YarnNeed, bought_yarns, round_up, yarn_needed
from wale.write.yarn_used import Spread

FINE_BELOW = 20
"""Below so many grams a range is told to 1 g."""
LOTS = (
    "Buy all of a colour at once, of one dye lot. Where cones, balls or lots differ, alternate them every two rows, "
    "and begin a new one inside a piece rather than with it, so that no sleeve stands out (common practice)."
)


def yarn_parts(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Part, ...]:
    """Give the table of yarn needed for the printed sizes, and how it was reckoned."""
    rows: list[tuple[str, ...]] = []
    is_several = False
    for needs in yarn_needed(spec, plan).yarns:
        mine = [needs[size] for size in sizes]
        rows += _rows(mine)
        is_several |= any(put_up.needed > 1 for need in mine for put_up in need.put_ups)
    if not rows:
        return ()
    header = ("", *(plan.sizes[size] for size in sizes))
    advice = (Paragraph(LOTS),) if is_several else ()
    return (Table("Yarn needed", header, tuple(rows)), *advice, Paragraph(how_reckoned(spec, plan)))


def how_reckoned(spec: Spec, plan: Plan) -> str:
    """Say how the yarn was reckoned."""
    words = (
        "To have ready: the larger of the two ways, cast-on, bind-off, seams and ends, "
        f"{show_decimal(MARGIN * 100, 0)} % of margin (common practice), and a swatch of each fabric (as it was "
        f"weighed, else {about_text(spec, Fraction(SWATCH_CM))} square), rounded up to {STEP} g. By the loop: yarn in "
        "a stitch from its area, as in relaxed plain knitting, and carried strands. Fabrics whose swatch was not "
        "weighed are reckoned by the loop in both ways. A range runs from the lower bound of both ways to the higher."
    )
    words += "".join(f" {more}" for more in (told(spec), *rough_words(spec)) if more)
    if any(yarn.metres_per_100g is None for yarn in yarns_of(spec)):
        words += f" Where a yarn's length is not known, {show_decimal(TAILS * 100, 0)} % are taken for seams and ends."
    if any(isinstance(step.action, PomPom) for piece in plan.pieces for step in piece.steps):
        cube = "inches, times 0.55," if spec.units == "inch" else "cm, divided by 30,"  # 2.54 cubed / 30 is 0.546
        words += f" A pom-pom takes the cube of its diameter in {cube} in g (a rule of thumb)."
    return words


def rough_words(spec: Spec) -> tuple[str, ...]:
    """Say of each yarn known by its class alone what its grams are reckoned from, and that they are a range."""
    texts = []
    for name in bought_yarns(spec):
        usual = usual_metres(spec.yarns[name])
        if usual is not None:
            low, high = (show_decimal(each, 0) for each in usual)
            texts.append(
                f"{name} is known by its weight class alone, usually {low} to {high} m per 100 g (common practice): "
                "its grams are a rough range by the loop, and what to have ready its upper end. A weighed swatch or "
                "test knit tells more."
            )
    return tuple(texts)


def _rows(needs: Sequence[YarnNeed]) -> list[tuple[str, ...]]:
    name = needs[0].yarn
    rows = [(f"{name}, to have ready, g", *(_figure(need.grams) for need in needs))]
    if needs[0].metres is not None:
        rows.append((f"{name}, the same in m", *(_figure(need.metres) for need in needs)))
    for way, words in (("by_weight", "by the swatch's weight"), ("by_loop", "by the loop")):
        grams = [getattr(need, way) for need in needs]
        if any(one is not None for one in grams):
            cells = (_figure(None if one is None else round_up(one, STEP)) for one in grams)
            rows.append((f"{name}, knitted, {words}, g", *cells))
    rows.append((f"{name}, the garment takes, g{_roughly(needs)}", *(spread_text(need.used) for need in needs)))
    for number, first in enumerate(needs[0].put_ups):
        put_ups = [need.put_ups[number] for need in needs]
        kind = f"{first.put_up.kind}s of {show_decimal(first.put_up.weight, 0)} g"
        rows.append((f"{name}, {kind}", *(str(one.needed) for one in put_ups)))
        rows += _buying(name, kind, put_ups)
    return rows


def _roughly(needs: Sequence[YarnNeed]) -> str:
    return ", roughly" if any(need.is_rough for need in needs) else ""


def _buying(name: str, kind: str, put_ups: Sequence[PutUpNeed]) -> list[tuple[str, ...]]:
    rows: list[tuple[str, ...]] = []
    if any(one.to_buy != one.needed for one in put_ups):
        rows.append((f"{name}, {kind} to buy", *(str(one.to_buy) for one in put_ups)))
    if put_ups[0].cost is not None:
        currency = put_ups[0].put_up.currency
        rows.append((f"{name}, cost of all in {currency}", *(money(one.cost) for one in put_ups)))
    return rows


def spread_text(spread: Spread | None, step: int = STEP) -> str:
    """Write a range of grams, rounded outwards: "280 to 315"; "not known"."""
    if spread is None:
        return "not known"
    low, high = int(spread.low // step) * step, round_up(spread.high, step)
    return str(high) if low == high else f"{low} to {high}"


def range_text(spread: Spread | None) -> str:
    """Write a range of grams, to 1 g where it is small, else to 5 g."""
    return spread_text(spread, 1 if spread is not None and spread.high < FINE_BELOW else STEP)


def _figure(value: int | None) -> str:
    return "not known" if value is None else str(value)


def money(value: Fraction | None) -> str:
    """Write a price; empty where there is none."""
    return "" if value is None else show_decimal(value, 2)
