"""Yarn, needles, notions and gauge as parts of the document."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import EDGINGS, PomPom, Rib, Tassel
from wale.checks.used import yarns_of
from wale.materials import Swatch, Yarn
from wale.pattern import Bullets, Definitions, Paragraph, Part
from wale.plan import COURSED, Plan, Section
from wale.quantity import show_decimal
from wale.spec import SewnOn, Spec
from wale.stitches import TEXTURE
from wale.write.context import about_text, gauge_text, needle_text
from wale.write.yarn_needed import SWATCH_CM


def swatches_used(spec: Spec, plan: Plan) -> tuple[Swatch, ...]:
    """Give the swatches whose fabric occurs, in knitting order."""
    names = dict.fromkeys(section.swatch for piece in plan.pieces for section in piece.sections)
    names.update(dict.fromkeys(band.swatch for band in spec.bands))
    return tuple(spec.swatches[name] for name in names)


def yarn_definitions(spec: Spec) -> Definitions:
    """Describe each yarn: count, length, strands, how it is sold; after one made of others those that it is made of."""
    names = [name for yarn in yarns_of(spec) for name in (yarn.name, *yarn.held)]
    return Definitions(tuple((name, _yarn(spec.yarns[name])) for name in dict.fromkeys(names)))


def _yarn(yarn: Yarn) -> str:
    parts = [yarn.count if yarn.fibre in yarn.count else f"{yarn.count} {yarn.fibre}".strip()]
    if yarn.held:
        parts = [f"a strand each of {' and '.join(yarn.held)}, held together"]
    if yarn.metres_per_100g is not None:
        parts.append(f"{show_decimal(yarn.metres_per_100g, 0)} m per 100 g")
    if yarn.strands > 1:
        parts.append(f"{yarn.strands} strands held together")
    for put_up in yarn.put_ups:
        price = f" at {show_decimal(put_up.price, 2)} {put_up.currency}" if put_up.price is not None else ""
        parts.append(f"sold as {show_decimal(put_up.weight, 0)} g {put_up.kind}{price}")
    if yarn.on_hand is not None:
        parts.append(f"{show_decimal(yarn.on_hand, 0)} g on hand, so less to buy")
    return "; ".join(parts)


def needles(spec: Spec, plan: Plan) -> Bullets:
    """List the needles, with what each is for, and notions."""
    uses: dict[Fraction, dict[str, None]] = {}
    flat_or_round: dict[Fraction, set[bool]] = {}
    for piece in plan.pieces:
        for section in piece.sections:
            action = section.step.action
            size = spec.swatches[section.swatch].needle_mm
            if isinstance(action, Rib) and action.needle_mm is not None:
                size = action.needle_mm
            uses.setdefault(size, {})[f"{piece.name} {_what(section.kind)}"] = None
            flat_or_round.setdefault(size, set()).add(piece.in_round)
    for band in spec.bands:
        size = band.rib.needle_mm if band.rib.needle_mm is not None else spec.swatches[band.swatch].needle_mm
        uses.setdefault(size, {})[band.name] = None
        flat_or_round.setdefault(size, set()).add(True)
    for swatch in swatches_used(spec, plan):
        if swatch.needle_mm not in uses or all(one.startswith("swatch ") for one in uses[swatch.needle_mm]):
            uses.setdefault(swatch.needle_mm, {})[f"swatch {swatch.name}"] = None
            flat_or_round.setdefault(swatch.needle_mm, set()).add(swatch.in_round)
    items = []
    for size in sorted(uses):
        kind = "circular needle" if True in flat_or_round[size] else "needles"
        items.append(Paragraph(f"{needle_text(size)} {kind}: {', '.join(uses[size])}"))
    items.append(Paragraph(", ".join(_notions(spec, plan))))
    return Bullets(tuple(items))


def _what(kind: str) -> str:
    if kind in EDGINGS:
        return kind
    return {"facing": "hem facing", "turning": "hem facing", "front": "hem front"}.get(kind, "body")


def _notions(spec: Spec, plan: Plan) -> list[str]:
    notions = ["stitch markers", "tapestry needle"]
    if spec.buttonholes:
        notions.append("a button for each buttonhole, as wide as it or a little wider")
    if any(piece.steek is not None for piece in plan.pieces):
        notions.append("small sharp scissors, and sewing thread or a crochet hook, for the steek")
    coursed = any(section.kind in COURSED for piece in plan.pieces for section in piece.sections)
    inset = any(isinstance(join, SewnOn) and join.is_inset for join in spec.joins)
    if coursed or inset or any(piece.top is not None for piece in plan.pieces):
        notions.append("stitch holders or waste yarn")
    if any(isinstance(step.action, PomPom) for piece in plan.pieces for step in piece.steps):
        notions.append("card or maker for the pom-pom")
    if any(isinstance(step.action, Tassel) for piece in plan.pieces for step in piece.steps):
        notions.append("card for the tassel")
    return notions


def gauge_parts(spec: Spec, plan: Plan) -> tuple[Part, ...]:
    """Say each fabric's gauge, washed and off the needle."""
    items = []
    for swatch in swatches_used(spec, plan):
        worked = "in the round" if swatch.in_round else "flat"
        fabric = f"chart {swatch.motif}" if swatch.motif is not None else swatch.stitch
        washed = "washed" if swatch.is_washed else "off the needle, never washed"
        text = (
            f"{gauge_text(spec, swatch.washed)}, {washed}, in {fabric} in {' and '.join(swatch.yarns)}, {worked}, on "
        )
        text += needle_text(swatch.needle_mm)
        if swatch.counted is not None and swatch.is_washed:
            text += f"; {gauge_text(spec, swatch.counted)} off the needle"
        items.append(Paragraph(text + ".", strong=f"{swatch.name}:", address=f"gauge.{swatch.name}"))
    advice = (
        f"Knit a swatch of about {about_text(spec, Fraction(SWATCH_CM))} in each fabric, wash it as you will wash the "
        "garment, dry it, and measure in its middle. If yours differs, change the needle; a swatch in the round and "
        "one worked flat differ."
    )
    return (Bullets(tuple(items)), Paragraph(advice))


def skills(spec: Spec, plan: Plan) -> tuple[str, ...]:
    """Say what a knitter must be able to do."""
    found = []
    sections = [section for piece in plan.pieces for section in piece.sections]
    if any(_in_colours(spec, section) for section in sections):
        found.append(
            "Two-colour knitting with the strands carried on the wrong side. Hold the strands in one order throughout: "
            "the one that comes from below stands out."
        )
    names = {section.fabric.motif for section in sections if section.fabric is not None}
    textures = [spec.motifs[name] for name in names if name is not None and not spec.coloured(name)]
    stitches = {stitch for motif in textures for stitch, _ in motif.marks}
    if any(TEXTURE[stitch].together > 1 for stitch in stitches):
        found.append("Cables: half of some stitches crossed over the other half, with a cable needle.")
    if "yo" in stitches:
        found.append("Yarn overs, and decreases that make up for them in the same row.")
    tops = [(piece, piece.top) for piece in plan.pieces if piece.top is not None]
    if any(top.manner == "short rows" and max(top.slope_rows) for _, top in tops):
        found.append(
            "Short rows: turn by wrapping the next stitch, or by the method you like. On the row that closes the turns "
            "work each wrap together with its stitch, so that no hole shows."
        )
    if any(_in_colours(spec, piece.sections[-1]) for piece, _ in tops):
        found.append(
            "In two-colour rows both strands turn together. At the neck bind off with the main colour (the first that "
            "the gauge names), weaving the other in at the back. Both strands go on over the left side; they are cut "
            "when it is done and joined again at the neck edge for the right side."
        )
    if tops:
        found.append(
            "Left and right are as you look at the right side of the piece: on a front, the left side is the wearer's "
            "right shoulder."
        )
    if any(piece.edge.stitches for piece in plan.pieces if not piece.in_round):
        found.append("Figures of stitches include the edge stitches.")
    if any(piece.steek is not None for piece in plan.pieces):
        found.append(
            "A steek: stitches between the two edges of a piece that is worked in the round; they are secured and cut "
            "through when it is done, and the piece lies flat. Figures of stitches include them."
        )
    if any(piece.in_round for piece in plan.pieces):
        found.append("Knitting in the round; a small crown needs double-pointed needles or a long circular needle.")
    kinds = {section.kind for section in sections}
    if "facing" in kinds:
        found.append("A folded hem, sewn down stitch by stitch.")
    if spec.bands:
        found.append("Picking up stitches along a neck.")
    return tuple(found)


def _in_colours(spec: Spec, section: Section) -> bool:
    return section.fabric is not None and spec.coloured(section.fabric.motif)
