"""The comparison as a document, for the same renderers as the pattern: one column a swatch."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from wale import __version__
from wale.materials import Gauge
from wale.needles import show_needle
from wale.pattern import Bullets, Caution, Drawing, Drawings, Paragraph, Part, Pattern, Section, Steps, Table
from wale.quantity import show_decimal, show_signed
from wale.spec import Spec
from wale.swatching.compare import BUSY, Comparison
from wale.swatching.facts import Facts
from wale.swatching.garment import PARTS, Outcome, SizeOutcome
from wale.swatching.garment import Part as BodyPart
from wale.swatching.ranking import CRITERIA
from wale.write.context import gauge_span, length_text, unit

UNKNOWN = "not known"
HOW = (
    "Gauge, weight and give are as the swatches were measured. A square metre by the loop, yarn in a stitch and the "
    "tightness factor use the constants of fully relaxed plain wool (wales per cm × loop = 4.2, courses per cm × loop "
    "= 5.5; Doyle 1953, Munden 1959); ribs, garter and motifs are reckoned like plain knitting, with a stitch width "
    "for each stitch that a strand passes (common practice, no source). By width and by height differ where the fabric "
    "is not as relaxed, or not plain.",
    "The tightness factor is the square root of the main yarn's tex, divided by the cm of yarn in a stitch. Machines "
    "knit plain fabric at about 13 to 15; hand knitting is looser.",
    "Each garment is planned anew with the swatch in place of the main fabric; hems, ribs and bands stay in theirs. "
    "Yarn and cost are reckoned as in the pattern. Half a stitch miscounted in a swatch of n stitches makes each width "
    "1 / (2n - 1) wider; the same the other way makes it a little less narrow.",
)


def page(spec: Spec, found: Comparison, *, is_drawn: bool = False) -> Pattern:
    """Give the document.

    Args:
        is_drawn: with pictures of the fabrics.
    """
    sections = [
        Section("order", "Which fabric", _order(found)),
        Section("looks", "How they look", _looks(spec, found) if is_drawn else ()),
        Section("garment", "What each would do to the garment", _garment(spec, found)),
        Section("swatches", "The swatches as measured", _measured(spec, found)),
        Section("unknown", "What is not known", _unknown(found)),
        Section("how", "How this is reckoned", tuple(Paragraph(text) for text in HOW)),
    ]
    about = (
        f"Each swatch of the spec, and what {spec.title} would be in its fabric. The file works in {found.main.name}."
    )
    return Pattern(
        f"{spec.title}: swatches compared",
        about,
        found.sizes,
        spec.paper,
        None,
        tuple(section for section in sections if section.parts),
        f"wale {__version__}",
        keywords=("hand knitting", "swatches"),
    )


def _order(found: Comparison) -> tuple[Part, ...]:
    items = []
    for place in found.ranking:
        here = " (as in the file)" if place.outcome.is_used else ""
        remarks = "".join(f" {remark[0].upper()}{remark[1:]}." for remark in place.outcome.remarks)
        name = place.outcome.swatch.name
        items.append(Paragraph(place.why + remarks, f"{name}{here}:", f"order.{name}"))
    asked = "; ".join(f"({number}) {each.words}" for number, each in enumerate(CRITERIA, 1))
    words = f"Ordered by, each only where those before are equal: {asked}. What it looks like is yours to judge."
    left = [f"{name} ({why})" for name, why in found.left_out]
    more = " `--try NAME` tries one of the plain ones." if any(why == BUSY for _, why in found.left_out) else ""
    out = (Paragraph(f"Not tried as the main fabric: {', '.join(left)}.{more}"),) if left else ()
    return (Steps(tuple(items)), Paragraph(words), *out)


def _looks(spec: Spec, found: Comparison) -> tuple[Part, ...]:
    """Draw a patch of each swatch that has a motif, in the order of the files."""
    from wale.write.looks import PATCH_NOTE, patch

    drawn: list[Drawing] = []
    for one in found.facts:
        motif = spec.motifs[one.swatch.motif] if one.swatch.motif is not None else None
        if motif is not None and not motif.wedge:
            drawn += patch(spec, motif, one.swatch)
    return (Drawings("The fabrics", PATCH_NOTE, tuple(drawn)),) if drawn else ()


def _garment(spec: Spec, found: Comparison) -> tuple[Part, ...]:
    planned = [place.outcome for place in found.ranking if place.outcome.compiles]
    parts: list[Part] = [_refusal(one) for one in found.outcomes if not one.compiles]
    if not planned:
        return tuple(parts)
    level = " or ".join(dict.fromkeys(one.level for one in planned))

    def add(
        caption: str, cell: Callable[[SizeOutcome], str], note: str = "", only: Sequence[Outcome] = planned
    ) -> None:
        rows = tuple((name, *(cell(one.sizes[number]) for one in only)) for number, name in enumerate(found.sizes))
        if any(any(row[1:]) for row in rows):
            parts.append(Table(caption, ("", *(one.swatch.name for one in only)), rows, note))

    add(f"Stitches at the {level}, edge stitches included", lambda one: str(one.stitches))
    add(
        f"Round the {level} in {unit(spec)}, and how far a piece misses its wish",
        lambda one: f"{length_text(spec, one.girth_cm)} ({show_signed(_in_unit(spec, one.off_cm))})",
    )
    motifs = [one for one in planned if one.motif_cm is not None]
    if motifs:
        size = "; ".join(f"{one.swatch.name} {_size(spec, one)}" for one in motifs)
        add(
            f"Repeats across the piece at the {level}, and all round",
            lambda one: f"{_times(one.repeats)}, {_times(one.around)}",
            f"One repeat, wide × high in {unit(spec)}: {size}.",
            motifs,
        )
    add("Yarn to have ready, all yarns, in g", lambda one: UNKNOWN if one.grams is None else str(one.grams))
    add("Cost of whole put-ups", _cost)
    for part in PARTS:
        add(
            f"Over the {part}: {unit(spec)} to spare, pulled" if part != "hip" else f"The hip: {unit(spec)} to spare",
            lambda one, part=part: _going(spec, one, part),  # type: ignore[misc]
        )
    add(
        f"Half a stitch miscounted: {unit(spec)} round the {level}",
        lambda one: UNKNOWN if one.miscount_cm is None else show_decimal(_in_unit(spec, one.miscount_cm)),
    )
    return tuple(parts)


def _refusal(one: Outcome) -> Caution:
    first = one.refusals[0] if one.refusals else None
    if first is None:
        return Caution("Cannot be planned", f"{one.swatch.name}.")
    ways = "; ".join(fix.title for fix in first.fixes)
    text = f"{one.swatch.name}: {first.message}. {first.help} {f'Ways out: {ways}.' if ways else ''}"
    return Caution("Cannot be planned", text.strip())


def _going(spec: Spec, one: SizeOutcome, part: BodyPart) -> str:
    ring = one.tightest.get(part)
    if ring is None:
        return ""
    if ring.verdict == "not known" or ring.pulled_cm is None or ring.part_cm is None:
        return UNKNOWN
    spare = _in_unit(spec, ring.pulled_cm - ring.part_cm)
    if spare >= 0:
        return show_decimal(spare)
    assert ring.missing_cm is not None
    return f"too tight: {ring.ring} needs {show_decimal(_in_unit(spec, ring.missing_cm))} more"


def _cost(one: SizeOutcome) -> str:
    if one.costs is None:
        return UNKNOWN
    return " and ".join(f"{show_decimal(cost, 2)} {currency}" for currency, cost in one.costs)


def _size(spec: Spec, one: Outcome) -> str:
    assert one.motif_cm is not None
    return " × ".join(str(length_text(spec, each)) for each in one.motif_cm)


def _in_unit(spec: Spec, value: Fraction) -> Fraction:
    return value if spec.units == "cm" else value / Fraction(254, 100)


def _times(value: Fraction | None) -> str:
    return "" if value is None else show_decimal(value)


def _measured(spec: Spec, found: Comparison) -> tuple[Part, ...]:
    parts: list[Part] = []
    for caption, in_round in (("Worked flat", False), ("Worked in the round", True)):
        some = [one for one in found.facts if one.swatch.in_round == in_round]
        if some:
            rows = [(title, *(cell(one) for one in some)) for title, cell in _rows(spec, found)]
            rows = [row for row in rows if any(row[1:])]
            parts.append(Table(caption, ("", *(one.swatch.name for one in some)), tuple(rows)))
    return tuple(parts)


def _rows(spec: Spec, found: Comparison) -> tuple[tuple[str, Callable[[Facts], str]], ...]:
    over, words = gauge_span(spec)

    def gauge(found: Gauge | None) -> str:
        return (
            UNKNOWN if found is None else f"{show_decimal(found.stitches * over)} × {show_decimal(found.rows * over)}"
        )

    return (
        ("fabric", lambda one: f"{one.swatch.motif or one.swatch.stitch} in {' and '.join(one.swatch.yarns)}"),
        ("needle", lambda one: show_needle(one.swatch.needle_mm)),
        ("here", lambda one: "main fabric" if one.swatch == found.main else "used" if one.used else "not used"),
        (f"sts and rows in {words}, off the needle", lambda one: gauge(one.swatch.counted)),
        (f"sts and rows in {words}, washed", lambda one: gauge(one.swatch.washed if one.swatch.is_washed else None)),
        ("grew in the wash, across and up, %", lambda one: _pair(one.change)),
        ("rows to a stitch", _ratio),
        ("g/m² by its weight", lambda one: _figure(one.weighed, 0)),
        ("g/m² by the loop", lambda one: _figure(one.reckoned, 0)),
        ("yarn in a stitch by width, cm", lambda one: _figure(one.by_width, 2)),
        ("yarn in a stitch by height, cm", lambda one: _figure(one.by_height, 2)),
        ("tightness factor", lambda one: _figure(one.tightness, 1)),
        ("gives across, %", lambda one: _percent(one.give)),
        ("its edge gives, %", lambda one: "" if one.edge_give is None else _percent(one.edge_give)),
        ("longest strand", _longest),
        ("catch strands in chart rows", _catch),
        ("half a stitch miscounted, %", lambda one: _figure(None if one.miscount is None else one.miscount * 100, 1)),
    )


def _pair(change: tuple[Fraction, Fraction] | None) -> str:
    return UNKNOWN if change is None else ", ".join(show_signed(each * 100, 1) for each in change)


def _ratio(one: Facts) -> str:
    ratio = show_decimal(one.ratio, 2)
    if one.usual is None:
        return ratio
    usual = "usual" if one.is_plausible else f"usual {' to '.join(show_decimal(each) for each in one.usual)}"
    return f"{ratio} ({usual})"


def _figure(value: Fraction | None, places: int) -> str:
    return UNKNOWN if value is None else show_decimal(value, places)


def _percent(share: Fraction | None) -> str:
    return UNKNOWN if share is None else show_decimal(share * 100, 0)


def _longest(one: Facts) -> str:
    if one.swatch.motif is None:
        return ""
    if one.longest is None:
        return "none"
    return f"{one.longest.yarn}, {one.longest.stitches} sts, {show_decimal(one.longest.cm)} cm"


def _catch(one: Facts) -> str:
    if one.swatch.motif is None:
        return ""
    return ", ".join(str(row) for row in one.longest.rows) if one.longest and one.longest.rows else "none"


def _unknown(found: Comparison) -> tuple[Part, ...]:
    items = [Paragraph("; ".join(one.unknown) + ".", f"{one.swatch.name}:") for one in found.facts if one.unknown]
    reasons: dict[str, dict[str, None]] = {}
    for one in found.outcomes:
        for size in one.sizes:
            for part, ring in size.tightest.items():
                if ring.verdict == "not known":
                    reasons.setdefault(ring.why, {})[part] = None
    guessed = dict.fromkeys(
        ring.part for one in found.outcomes for size in one.sizes for ring in size.tightest.values() if ring.estimated
    )
    items += [Paragraph(f"whether it passes {', '.join(parts)}: {why}.", "Garment:") for why, parts in reasons.items()]
    if guessed:
        items.append(Paragraph(f"{', '.join(guessed)}: estimated, so measure.", "Bodies:"))
    return (Bullets(tuple(items)),) if items else ()
