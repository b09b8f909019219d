"""How colours are carried: which strand lies below, which wait or are cut, edges, new stitches, what is not there.

Advice beside the charts, marked as not proven; the rows themselves say the colour of each stitch.
"""

from __future__ import annotations

from collections.abc import Iterator

from wale.actions import Crown
from wale.checks.resting import CARRIED, Rest, edge_yarn, gathered, over_words, overs, rest_words
from wale.checks.used import Worked, motifs_worked
from wale.motifs.size import crowding
from wale.pattern import Bullets, Paragraph, Part
from wale.plan import Plan, Section
from wale.quantity import length_words
from wale.spec import Spec

LEAD = "How the colours are carried (advice, not proven)."
DOMINANT = (
    "the later of these comes from below the ones before it, in every row alike: its stitches come out slightly larger "
    "and stand out (ysolda.com). The main colour, which the gauge names first, lies on top, so that the motif stands "
    "out from its ground (theyarnsite.com)."
)
SHAPED = (
    "a stitch that is made, and the one that a decrease leaves, is worked with the strand that the chart has at its "
    "column; the other strand passes behind it."
)
STEEK = (
    "WS rows are purled with both strands. The piece has no stitches to be cut open (a steek), and none are added to "
    "its counts: knit the swatch in rows, too, for WS rows may come out looser. Worked in the round and cut open it "
    "would be another piece, with other counts (common practice, no source)."
)


def strand_order(spec: Spec, plan: Plan) -> tuple[str, ...]:
    """Give the yarns of all motifs, each before those that come from below it: as the gauges name them."""
    found: dict[str, None] = {}
    for one in motifs_worked(spec, plan):
        found.update(dict.fromkeys(yarn for yarn in one.swatch.yarns if yarn in dict(one.motif.marks)))
        found.update(dict.fromkeys(yarn for row in one.motif.rows for yarn in row))
    return tuple(found)


def strand_list(spec: Spec, plan: Plan) -> tuple[Part, ...]:
    """Tell how the colours of the motifs are carried; empty where no motif is worked."""
    worked = motifs_worked(spec, plan)
    if not worked:
        return ()
    return Paragraph(LEAD), Bullets(tuple(_items(spec, plan, worked)))


def _items(spec: Spec, plan: Plan, worked: tuple[Worked, ...]) -> Iterator[Paragraph]:
    order = strand_order(spec, plan)
    if len(order) > 1:
        yield Paragraph(f"{', '.join(order)}: {DOMINANT}", "Order of strands:")
    for one in worked:
        yield from _crowded(one)
    resting = gathered(spec, plan)
    if resting:
        limit = length_words(CARRIED, spec.units, trim=False)
        text = f"carried up where they wait for at most {limit}, else cut (knitting.about.com)."
        yield Paragraph(text, "Yarns that rest:", "rests.limit")
    for rest, rows in resting:
        yield Paragraph(f"{rest_words(spec, rest, rows)}.", f"{rest.motif}, {rest.swatch}:", rest_address(rest))
    for number, over in enumerate(overs(spec, plan), 1):
        text = f"{over_words(over)}: catch it behind the last stitch of the round."
        yield Paragraph(text, f"{over.piece}:", f"overs.{number}")
    yield from _of_pieces(spec, plan)


def rest_address(one: Rest) -> str:
    """Give the address of the numbers of a rest: `rests.drift.easy.flour.18`, `rests.drift.easy.flour.18-round`."""
    return f"rests.{one.motif}.{one.swatch}.{one.yarn}.{one.rows}{'-round' if one.in_round else ''}"


def _crowded(one: Worked) -> Iterator[Paragraph]:
    """Tell of rows in which three colours or more meet."""
    rows = [number for number, row in enumerate(one.motif.rows, 1) if len(set(row)) > 2]
    if rows:
        crowded = crowding(max((one.motif.rows[row - 1] for row in rows), key=lambda row: len(set(row))))
        named = f"in chart row{'s' if len(rows) > 1 else ''} {', '.join(map(str, rows))}"
        yield Paragraph(
            f"more than two colours meet {named}. Keep all strands in their order, pull none tight, and expect a "
            f"thicker fabric there; or knit these rows without {' and '.join(crowded)} and embroider in duplicate "
            "stitch (common practice, no source).",
            f"{one.motif.name}:",
        )


def _of_pieces(spec: Spec, plan: Plan) -> Iterator[Paragraph]:
    """Tell of edges, stitches made and joined, and of pieces worked flat."""
    edges: dict[str, list[str]] = {}
    flat, shaped = False, False
    for piece in plan.pieces:
        sections = [one for one in piece.sections if one.fabric is not None and one.fabric.motif is not None]
        if sections:
            edge = edge_yarn(piece, spec.swatches[sections[0].swatch])
            if edge:
                edges.setdefault(edge, []).append(piece.name)
            flat |= not piece.in_round
            shaped |= any(one.kind == "shape" or _is_crown_in_pattern(one) for one in sections)
    if shaped:
        yield Paragraph(SHAPED, "New stitches and decreases:")
    for edge, names in edges.items():
        text = f"in {edge} in every row ({', '.join(names)}); the other strands come along and are twisted there."
        yield Paragraph(text, "Edge stitches:")
    if flat:
        yield Paragraph(STEEK, "Worked flat:")


def _is_crown_in_pattern(section: Section) -> bool:
    action = section.step.action
    return isinstance(action, Crown) and action.manner == "in pattern"
