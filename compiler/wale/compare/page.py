"""A comparison as a document for the web page: outlines laid over each other, charts in pairs, and tables."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from wale import __version__
from wale.compare.comparison import Comparison, Told
from wale.compare.motif_charts import motif_parts, motif_words
from wale.compare.numbers import Number, Value
from wale.compare.outlines import FEW, outlines
from wale.compare.wordings import Wording
from wale.compare.words import (
    LABELS,
    NONE,
    PLACES,
    UNITS,
    by_part,
    figure,
    listed,
    material,
    of_no_part,
    place_words,
    summary,
    together,
    units_of,
)
from wale.pattern import Bullets, Paragraph, Part, Pattern, Section, Table
from wale.quantity import show_signed, unit_word

HEADER = ("", "old", "new", "change")
NO_OUTLINES = "Outlines are drawn where both sides are specs or PDFs; a plan alone does not hold them."
Row = tuple[str, str, str, str]


def page(found: Comparison) -> Pattern:
    """Give the document; sections in which nothing changes are left out."""
    new = found.new
    rest = of_no_part(found)
    sections = (
        Section("changes", "What changes", (Bullets(tuple(_summary(found))),)),
        Section("outlines", "Outlines", _outlines(found)),
        Section("charts", "Charts", tuple(part for motif in found.motifs for part in motif_parts(found, motif))),
        Section("pieces", "Stitches, rows and lengths", tuple(_piece_tables(found))),
        Section("materials", "Yarn and fabric", tuple(_materials(found, rest))),
        Section("cautions", "Cautions and assumptions", tuple(_told(found))),
        Section("words", "Words of the pattern", tuple(_words(rest))),
    )
    return Pattern(
        f"{new.plan['title']}: old and new",
        f"Old is {found.old.name}, new is {new.name}.",
        found.sizes,
        new.garment.spec.paper if new.garment is not None else "A4",
        None,
        tuple(section for section in sections if section.parts),
        f"wale {__version__}",
        keywords=("hand knitting", "comparison"),
        hand=new.plan["hand"],
    )


def _summary(found: Comparison) -> Iterator[Paragraph]:
    yield from map(Paragraph, summary(found))
    for motif in found.motifs:
        yield Paragraph(" ".join(motif_words(motif)), f"Motif {motif.name}:")
    yarns = dict.fromkeys(one.address for one in material(found))
    if yarns:
        yield Paragraph(f"{', '.join(yarns)}.", "Other amounts or costs of yarn:")
    told = [f"{len(some)} {word}" for some, word in ((found.gained, "gained"), (found.lost, "lost")) if some]
    if told:
        yield Paragraph(f"{', '.join(told)}.", "Cautions and notes:")


def _piece_tables(found: Comparison) -> Iterator[Table]:
    """Give a table a piece or band; those that change alike have one."""
    groups: dict[tuple[Row, ...], list[str]] = {}
    for name, numbers, words in by_part(found):
        rows = [row for one in numbers for row in _rows(one, place_words(one.address, name), found)]
        rows += [_said(of, one) for of, one in together(name, words)]
        if rows:
            groups.setdefault(tuple(rows), []).append(name)
    for told, names in groups.items():
        yield Table(" and ".join(names).capitalize(), HEADER, told)


def _rows(one: Number, place: str, found: Comparison) -> Iterator[Row]:
    """Give a row for the sizes that change alike: by the same amount, or from and to the same."""
    groups: dict[object, list[tuple[str, Value, Value]]] = {}
    for size, old, new in zip(found.sizes, one.before, one.after, strict=True):
        if old != new:
            step = _step(old, new, one)
            groups.setdefault((old, new) if step is None else step, []).append((size, old, new))
    for key, members in groups.items():
        sizes, before, after = zip(*members, strict=True)
        old, new = (listed(values, one, found) for values in (before, after))
        where = "" if sizes == found.sizes else f", {_sizes(sizes)}"
        change = ""
        if isinstance(key, Fraction):
            change = (
                _change(old, new)
                if len(set(before)) == 1
                else _change(*(figure(at, one, found) for at in (Fraction(0), key)))
            )
        yield f"{place}, {_label(one, found)}{where}", old, new, change


def _step(old: Value, new: Value, one: Number) -> Fraction | None:
    """Give by how much a value changes; None where that says nothing, as of words and of places in a chart."""
    if one.kind not in PLACES and isinstance(old, Fraction) and isinstance(new, Fraction):
        return new - old
    return None


def _sizes(sizes: Sequence[str]) -> str:
    """Name sizes as patterns do: "sizes XS (S, M)"."""
    first, *more = sizes
    return f"sizes {first} ({', '.join(more)})" if more else f"size {first}"


def _label(one: Number, found: Comparison) -> str:
    if one.kind.endswith(("width", "length")):
        return f"{LABELS[one.kind]} in {unit_word(units_of(found))}"
    return LABELS.get(one.kind, UNITS.get(one.kind, ("", one.kind))[1])


def _change(old: str, new: str) -> str:
    """Give the difference of two figures as they are printed, with its sign."""
    places = max(len(one.partition(".")[2]) for one in (old, new))
    return show_signed(Fraction(new) - Fraction(old), places)


def _said(of: str, one: Wording) -> Row:
    if one.what == "row by row":
        return f"{of}, row by row", "", f"some rows differ in sizes {one.after}", ""
    return f"{of}, {one.what}" if one.what and of else of or one.what, one.before or NONE, one.after or NONE, ""


def _outlines(found: Comparison) -> tuple[Part, ...]:
    if found.old.garment is None or found.new.garment is None:
        return (Paragraph(NO_OUTLINES),) if found.changes else ()
    drawn = outlines(found)
    if len(found.sizes) > FEW and drawn:
        first = "The first size in which a piece differs is drawn; `wale diff --size` draws another."
        return (Paragraph(first), *drawn)
    return drawn


def _materials(found: Comparison, rest: Sequence[Wording]) -> Iterator[Part]:
    rows = [row for one in material(found) for row in _rows(one, one.address, found)]
    if rows:
        yield Table("Yarn to have ready, and what it costs", HEADER, tuple(rows))
    words = tuple(_said(one.of, one) for one in rest if one.of)
    if words:
        yield Table("Yarns, swatches, sizes and motifs", HEADER[:3], tuple(row[:3] for row in words))


def _told(found: Comparison) -> Iterator[Part]:
    for lead, some in (
        ("Gained:", found.gained),
        ("Lost:", found.lost),
        ("Now assumed:", found.assumed_after),
        ("No longer assumed:", found.assumed_before),
    ):
        if some:
            yield Paragraph("", lead)
            yield Bullets(tuple(map(_point, some)))


def _point(one: Told) -> Paragraph:
    size = f" (size {one.size})" if one.size else ""
    message = one.message.removesuffix(".")
    if "." not in message.split(" ", 1)[0]:  # an address stays as it is
        message = message[:1].upper() + message[1:]
    return Paragraph(f"{message}{size}. {one.help}".strip(), one.code)


def _words(rest: Sequence[Wording]) -> Iterator[Part]:
    rows = tuple(_said("", one)[:3] for one in rest if not one.of)
    if rows:
        yield Table("What the pattern says of itself", HEADER[:3], rows)
