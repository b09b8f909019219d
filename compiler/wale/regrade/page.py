"""A regraded garment as a document: what changes, and before and after side by side."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from fractions import Fraction

from wale import __version__
from wale.compare.numbers import Kind, Number, Value
from wale.pattern import Bullets, Paragraph, Part, Pattern, Section, Table
from wale.quantity import length_words, show_decimal
from wale.regrade.outcome import Outcome, numbers
from wale.regrade.ways import Keep
from wale.write.context import gauge_span, length_text, unit

KEPT: dict[Keep, str] = {
    "lengths": "The finished lengths and widths that the file asks for are kept; every count is found anew.",
    "counts": "The counts of the fabric that changes are kept; widths and lengths are counts divided by the gauge.",
    "motif": "The repeats across each piece are kept; lengths stay, and widths are what the repeats make.",
}
NONE = "–"
SECTIONS: tuple[tuple[str, tuple[Kind, ...], str], ...] = (
    ("Stitches", ("sts",), "Stitches, edge stitches included"),
    ("Repeats", ("repeats",), "Repeats across, edge stitches apart"),
    ("Rows", ("rows",), "Rows or rounds"),
    ("Widths", ("width",), "Finished widths in {unit}, washed"),
    ("Lengths", ("length",), "Lengths in {unit}, washed"),
    ("Yarn", ("grams",), "Yarn to have ready, in g"),
)


def page(found: Outcome) -> Pattern:
    """Give the document."""
    spec = found.before.spec
    sections = [Section("what", "What changes", _what(found))]
    sizes = spec.size_names
    if found.after is not None:
        sizes = found.after.plan.sizes
        told = numbers(found.before, found.after)
        for title, kinds, caption in SECTIONS:
            here = [one for one in told if one.kind in kinds]
            parts = _tables(caption.format(unit=unit(spec)), here, sizes, _figures(found, kinds[0]))
            sections.append(Section(title.lower(), title, parts))
    sections.append(Section("fits", "Whom it fits", _fits(found)))
    sections.append(Section("look", "What to look at", _look(found)))
    return Pattern(
        f"{spec.title}, regraded",
        f"{spec.title} before and after. {KEPT[found.asked.keep]}",
        sizes,
        spec.paper,
        None,
        tuple(section for section in sections if section.parts),
        f"wale {__version__}",
        keywords=("hand knitting", "regraded"),
    )


def _what(found: Outcome) -> tuple[Part, ...]:
    spec, items = found.before.spec, []
    over, words = gauge_span(spec)
    for name, take in found.change.takes.items():
        old = spec.swatches[name].washed
        gauges = [
            f"{show_decimal(one.stitches * over)} sts and {show_decimal(one.rows * over)} rows in {words}"
            for one in (old, take.gauge)
        ]
        named = name if take.name == name else f"{name}, from now on {take.name}"
        items.append(Paragraph(f"before {gauges[0]}, after {gauges[1]}.", f"{named}:"))
    if found.asked.kind == "sizes":
        items.append(Paragraph(f"before {', '.join(spec.size_names)}, after {', '.join(_names(found))}.", "Sizes:"))
    elif found.asked.kind == "body":
        items.append(Paragraph(f"{found.asked.words} alone.", "Made to measure:"))
    if not found.change.edits:
        items.append(Paragraph("Nothing: the garment is so already."))
    items += [Paragraph(f"{remark[0].upper()}{remark[1:]}.") for remark in found.change.remarks]
    return (Bullets(tuple(items)),) if items else ()


def _names(found: Outcome) -> tuple[str, ...]:
    return found.after.spec.size_names if found.after is not None else ()


def _tables(
    caption: str, here: Sequence[Number], sizes: Sequence[str], show: Callable[[Fraction], str]
) -> tuple[Part, ...]:
    """Give a table of what differs; a sentence says how much stays."""
    changed = [one for one in here if one.differs]
    stay = len(here) - len(changed)
    told = f"{stay} more {'is' if stay == 1 else 'are'} as before." if stay else ""
    if not changed:
        return (Paragraph(f"{caption}: all as before."),) if here else ()
    rows = []
    for number in changed:
        for when, values in (("before", number.before), ("after", number.after)):
            rows.append((f"{number.address}, {when}", *(_figure(one, show) for one in values)))
    return (Table(caption, ("", *sizes), tuple(rows), told),)


def _figure(value: Value, show: Callable[[Fraction], str]) -> str:
    if value is None:
        return NONE
    return show(value) if isinstance(value, Fraction) else value


def _figures(found: Outcome, kind: Kind) -> Callable[[Fraction], str]:
    spec = found.before.spec
    if kind in ("width", "length"):
        return lambda value: str(length_text(spec, value))
    if kind == "repeats":
        return lambda value: show_decimal(value, 2).rstrip("0").removesuffix(".")
    return lambda value: show_decimal(value, 0)


def _fits(found: Outcome) -> tuple[Part, ...]:
    units = found.before.spec.units

    def cm(value: Fraction) -> str:
        return length_words(value, units)

    items = [
        Paragraph(
            f"{cm(one.girth_cm)} round the {one.measure}; less the ease of {cm(one.ease_cm)} it fits a {one.measure} "
            f"of {cm(one.body_cm)}. Nearest is {one.nearest}, {cm(one.nearest_cm)}.",
            f"{one.size}:",
        )
        for one in found.fits
    ]
    return (Bullets(tuple(items)),) if items else ()


def _look(found: Outcome) -> tuple[Part, ...]:
    def said(size: str, message: str, help: str) -> Paragraph:
        text = f"{message[0].upper()}{message[1:]}{f' (size {size})' if size else ''}."
        return Paragraph(f"{text} {help}".strip())

    items = [said(one.size, one.message, one.help) for one in (*found.refusals, *found.news)]
    no_spec = "No spec can be written so: nothing is written, and what stands above is counts divided by the gauge."
    if found.refusals:
        items.insert(0, Paragraph(no_spec if found.after is not None else "No spec can be written so."))
    return (Bullets(tuple(items)),) if items else ()
