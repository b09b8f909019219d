"""Tables of what the checks found: which rings go on, and where strands are to be caught."""

from __future__ import annotations

from collections.abc import Sequence

from wale.checks.floats import catch_words, long_floats
from wale.checks.rings import Ring, rings
from wale.pattern import Bullets, Paragraph, Part, Table
from wale.plan import Plan
from wale.spec import Spec
from wale.write.context import length_text, unit


def ring_table(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Part, ...]:
    """Give a table of rings, pulled girth and verdict for each printed size; empty where the garment has none."""
    rows: dict[tuple[str, str], list[Ring]] = {}
    for ring in rings(spec, plan):
        rows.setdefault((ring.piece, ring.ring), []).append(ring)
    if not rows:
        return ()
    header = ("", *(plan.sizes[size] for size in sizes))
    cells = tuple((_title(found), *(_cell(spec, found[size]) for size in sizes)) for found in rows.values())
    guessed = dict.fromkeys(one.part for found in rows.values() for one in found if one.estimated)
    unknown = dict.fromkeys(one.why for found in rows.values() for one in found if one.why)
    note = "Girth as far as the swatch was pulled, against the part of the body that it must pass."
    if guessed:
        note += f" Estimated from the bust, so measure: {', '.join(guessed)}."
    if unknown:
        note += f" Not known: {'; '.join(unknown)}."
    return (Table(f"Will it go on? Lengths in {unit(spec)}", header, cells, note),)


def _title(found: Sequence[Ring]) -> str:
    part = "bust and shoulders" if found[0].part in ("bust", "shoulder-girth") else found[0].part
    over = f" over the {part}" if part else ""
    return f"{found[0].piece}, {found[0].ring}{over}"


def _cell(spec: Spec, ring: Ring) -> str:
    if ring.give is None or ring.part_cm is None:
        return ring.verdict
    pulled = length_text(spec, ring.girth_cm * (1 + ring.give))
    return f"{pulled} for {length_text(spec, ring.part_cm)}: {ring.verdict}"


def float_list(spec: Spec, plan: Plan) -> tuple[Part, ...]:
    """List by chart row the strands that are to be caught; empty where none is too long."""
    items = tuple(
        Paragraph(f"{catch_words(one)}.", f"{one.motif}, {one.swatch}:", f"floats.{one.motif}.{one.swatch}.{one.row}")
        for one in long_floats(spec, plan)
    )
    return (
        (Paragraph("Catch long strands; stitches count from either end of the run."), Bullets(items)) if items else ()
    )
