"""What the checks found: which rings go on, and where strands are to be caught."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from wale.checks.crown_floats import alike, crown_floats, crown_words, round_words
from wale.checks.floats import catch_words, long_floats
from wale.checks.ring_shapes import AT_REST, CHEEKS
from wale.checks.rings import Ring, ring_words, rings
from wale.pattern import Bullets, Paragraph, Part, Table
from wale.plan import Plan
from wale.quantity import units_in_text
from wale.spec import Spec
from wale.write.context import length_text, unit

SPREAD = "; standard deviation"
"""From here on a source tells of its spread, which stands in the docs."""
LEAD = "Will it go on?"


def ring_table(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Part, ...]:
    """Name the rings that go on in all printed sizes; give figures for the others and for the closest of all.

    Empty where the garment has no ring.
    """
    rows: dict[tuple[str, str], list[Ring]] = {}
    for ring in rings(spec, plan):
        rows.setdefault((ring.piece, ring.ring), []).append(ring)
    shown = [[found[size] for size in sizes] for found in rows.values()]
    if not shown:
        return ()
    sure = [found for found in shown if all(ring.verdict == "goes on" for ring in found)]
    unknown = [found for found in shown if all(ring.verdict == "not known" for ring in found)]
    doubtful = [found for found in shown if found not in sure and found not in unknown]
    pulled = [found for found in sure if found[0].ring != AT_REST]
    closest = max(pulled, key=lambda found: max(map(_share, found)), default=None)
    sizes_word = " in all sizes" if len(sizes) > 1 else ""
    parts: list[Part] = []
    if sure:
        parts.append(Paragraph(f"These go on{sizes_word}, pulled as far as the swatch was: {_listed(sure)}.", LEAD))
    if unknown:
        reasons = dict.fromkeys(ring.why for found in unknown for ring in found)
        parts.append(Paragraph(f"{_listed(unknown)} ({'; '.join(reasons)}).", "Not known whether these go on:"))
    told = doubtful + ([closest] if closest is not None else [])
    if told:
        caption = "Rings in doubt, then the closest that goes on" if doubtful and closest else "Rings in doubt"
        caption = f"{caption if doubtful else 'The closest ring'}: pulled, and what it passes, in {unit(spec)}"
        header = ("", *(plan.sizes[size] for size in sizes))
        cells = tuple((_title(found), *(_cell(spec, ring) for ring in found)) for found in told)
        parts.append(Table(caption, header, cells, _note(spec, shown, doubtful)))
    return tuple(parts)


def _listed(group: Sequence[Sequence[Ring]]) -> str:
    by_part: dict[str, list[str]] = {}
    for found in group:
        by_part.setdefault(_part(found[0]), []).append(ring_words(found[0]))
    return "; ".join(
        f"{f'over the {part}: ' if part else ''}{', '.join(dict.fromkeys(names))}" for part, names in by_part.items()
    )


def _share(ring: Ring) -> Fraction:
    """The share of its pulled girth that a ring needs: near 1 where it goes on only just."""
    assert ring.part_cm is not None and ring.pulled_cm is not None, "it is known to go on"
    return ring.part_cm / ring.pulled_cm


def _note(spec: Spec, shown: Sequence[Sequence[Ring]], doubtful: Sequence[Sequence[Ring]]) -> str:
    found = [ring for each in shown for ring in each]
    note = ""
    rules = (
        f"{_words(ring.part)}: {units_in_text(ring.source.partition(SPREAD)[0], spec.units)}"
        for ring in found
        if ring.estimated
    )
    sources = dict.fromkeys(rules)
    unknown = dict.fromkeys(ring.why for each in doubtful for ring in each if ring.why)
    if sources:
        note += f"Estimated, so measure: {'; '.join(sources)}."
    if any(ring.share != 1 for ring in found):
        note += f" The head {CHEEKS} is three quarters of its girth."
    if unknown:
        note += f" Not known: {'; '.join(unknown)}."
    return note.strip()


def _title(found: Sequence[Ring]) -> str:
    name, part = ring_words(found[0]), _part(found[0])
    return f"{name}, over the {part}" if part else name


def _part(ring: Ring) -> str:
    return "bust and shoulders" if ring.part in ("bust", "shoulder-girth") else ring.part_words


def _words(label: str) -> str:
    return label.replace("-", " ")


def _cell(spec: Spec, ring: Ring) -> str:
    if ring.pulled_cm is None or ring.part_cm is None:
        return ring.verdict
    figures = f"{length_text(spec, ring.pulled_cm)} for {length_text(spec, ring.part_cm)}"
    return figures if ring.verdict == "goes on" else f"{figures}: {ring.verdict}"


def float_list(spec: Spec, plan: Plan) -> tuple[Part, ...]:
    """List by chart row the strands that are to be caught; empty where none is too long."""
    items = tuple(
        Paragraph(f"{catch_words(one)}.", f"{one.motif}, {one.swatch}:", f"floats.{one.motif}.{one.swatch}.{one.row}")
        for one in long_floats(spec, plan)
    )
    return (
        (Paragraph("Catch long strands; stitches count from either end of the run."), Bullets(items)) if items else ()
    )


def crown_float_list(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Part, ...]:
    """List by size and round the strands of crowns that are to be caught; empty where none is too long."""
    told: dict[tuple[str, int, str], list[str]] = {}
    addresses: dict[tuple[str, int, str], str] = {}
    for group in alike(crown_floats(spec, plan)):
        one = group[0]
        if one.size in sizes:
            where = (one.piece, one.size, round_words(one))
            told.setdefault(where, []).append(crown_words(group))
            addresses[where] = f"crown-floats.{one.piece}.{plan.sizes[one.size]}.{one.round}"
    if not told:
        return ()
    items = tuple(
        Paragraph(f"{'; '.join(words)}.", f"{where[0]}, {plan.sizes[where[1]]}, {where[2]}:", addresses[where])
        for where, words in told.items()
    )
    lead = "Catch these in crowns, too; stitches count as you work, from where the yarn was last used."
    return Paragraph(lead), Bullets(items)
