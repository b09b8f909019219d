"""The top of a hat: `crown`, `pom-pom` and `tassel`."""

from __future__ import annotations

from wale.actions import Action, Crown, PomPom, Tassel
from wale.parse.tree import Name
from wale.resolve.amounts import whole
from wale.resolve.shapes import Line, Shape
from wale.resolve.workshop import Workshop

LINES = {
    "crown": Shape({"crown N wedges over LENGTH": ("in pattern", "plain in YARN", "chart MOTIF")}),
    "pom-pom": Shape({"pom-pom LENGTH in YARN": ()}),
    "tassel": Shape({"tassel LENGTH in YARN": ()}),
}


def read_crown(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    """Give a crown, or None when something in it is wrong."""
    context = shop.context
    wedges, over = whole(context, line.head.number("N"), 2), shop.known(shop.length(line))
    if not in_round:
        context.report(
            "E250",
            "a crown is worked in the round",
            line.span,
            "this piece is worked flat",
            "Write `in the round` in the head of the piece.",
        )
        return None
    if wedges is not None and wedges > 40:
        context.report(
            "E223",
            f"a crown of {wedges} wedges is beyond all bounds",
            line.head.number("N").span,
            "2 to 40 wedges",
            "Usual are 4 to 10 wedges.",
        )
        return None
    if len(line.options) > 1:
        context.report("E204", "a crown is worked one way, not two", line.span, "both", "Leave one of them out.")
        return None
    yarn = chart = None
    if "plain in YARN" in line.options:
        yarn = shop.yarn(line.options["plain in YARN"].name("YARN"))
        if yarn is None:
            return None
    if "chart MOTIF" in line.options:
        chart = _wedge_chart(shop, line.options["chart MOTIF"].name("MOTIF"))
        if chart is None:
            return None
    if not line.options:
        context.assume("The crown goes on in the pattern; `plain in …` or `chart …` changes it.", span=line.span)
    if wedges is None or over is None:
        return None
    return Crown(wedges, over, "plain" if yarn else "chart" if chart else "in pattern", chart, yarn, line.span)


def _wedge_chart(shop: Workshop, name: Name) -> str | None:
    motif = shop.motifs.get(name.text) if shop.context.knows("motif", name) else None
    if motif is not None and not motif.wedge:
        shop.context.report(
            "E245",
            f"the motif `{name.text}` is no wedge",
            name.span,
            "its rows don't get shorter",
            "A crown's chart is a motif with a line `wedge`.",
            also=[(motif.span, "the motif")],
        )
        return None
    return motif.name if motif else None


def read_pom_pom(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    """Give a pom-pom, or None when something in it is wrong."""
    diameter = shop.known(shop.names.scope.measure(line.head.value("LENGTH"), "length"))
    yarn = shop.yarn(line.head.name("YARN"))
    return PomPom(diameter, yarn, line.span) if diameter and yarn else None


def read_tassel(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    """Give a tassel, or None when something in it is wrong."""
    length = shop.known(shop.names.scope.measure(line.head.value("LENGTH"), "length"))
    yarn = shop.yarn(line.head.name("YARN"))
    return Tassel(length, yarn, line.span) if length and yarn else None
