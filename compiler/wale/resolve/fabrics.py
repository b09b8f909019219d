"""`work in MOTIF on SWATCH` and `work in SWATCH`: from here on, another fabric."""

from __future__ import annotations

from wale.actions import Action, Fabric, Fit
from wale.resolve.fit import FIT_OPTIONS, read_fit
from wale.resolve.shapes import Line
from wale.resolve.workshop import Workshop

WORK_IN_MOTIF, WORK_IN = "work in MOTIF on SWATCH", "work in SWATCH"
FORMS: dict[str, tuple[str, ...]] = {WORK_IN_MOTIF: FIT_OPTIONS, WORK_IN: ()}


def read_fabric(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    """Give the fabric of a line, or None when something in it is wrong."""
    if line.form == WORK_IN_MOTIF:
        motif = line.head.name("MOTIF")
        known = shop.context.knows("motif", motif)
        swatch = shop.swatch(line.head.name("SWATCH"), in_round, "piece")
        pattern = shop.motifs.get(motif.text) if known else None
        fit = read_fit(shop.context, line, pattern, shop.meets, in_round and not shop.is_cut)
        if swatch is None or pattern is None or fit is None:
            return None
        if swatch.motif != pattern.name:
            shop.context.report(
                "W262",
                f"`{pattern.name}` is worked at the gauge of `{swatch.name}`, which is a swatch "
                f"in {swatch.motif or swatch.stitch}",
                line.head.name("SWATCH").span,
                "another fabric",
                f"Knit a swatch in {pattern.name}: each fabric has its own gauge.",
                also=[(swatch.span, "the swatch")],
            )
        return Fabric(swatch.name, pattern.name, fit, line.span)
    return _plain_fabric(shop, line, in_round)


def _plain_fabric(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    name = line.head.name("SWATCH")
    if name.text in shop.context.blocks.get("motif", {}) and name.text not in shop.context.blocks.get("swatch", {}):
        fitting = [swatch.name for swatch in shop.swatches.values() if swatch.motif == name.text]
        shop.context.report(
            "E206",
            f"`{name.text}` is a motif; on which swatch is it worked?",
            name.span,
            "a motif",
            f"Write `work in {name.text} on {fitting[0] if fitting else 'SWATCH'}`.",
        )
        return None
    swatch = shop.swatch(name, in_round, "piece")
    if swatch is None:
        return None
    if swatch.motif is not None:
        shop.context.report(
            "E206",
            f"`{swatch.name}` is a swatch in {swatch.motif}; say how the motif is placed",
            name.span,
            "a swatch in a motif",
            f"Write `work in {swatch.motif} on {swatch.name}`.",
        )
        return None
    return Fabric(swatch.name, None, Fit("plain", line.span), line.span)
