"""The errata sheet as a document, for the same renderers as the pattern."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

from msgspec.structs import replace

from wale import __version__
from wale.errata.compare import Entry, Errata, Reading
from wale.pattern import Bullets, Caution, Paragraph, Part, Pattern, Section

HOW = (
    "Each entry names the place in the old print. Figures are counted within that line, from its beginning, before any "
    "of them is changed; in a table, within the column of the size. Drawn outlines change with their figures."
)
_COUNTS = ("first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth", "tenth")


def page(old: Pattern, found: Errata) -> Pattern:
    """Give the sheet.

    Args:
        old: the old pattern.
        found: what is to change in it.
    """
    about = "Corrections by hand to the printed pattern, in its order."
    sections = [Section("how", "How to use this sheet", (Paragraph(HOW), *_cautions(found)))]
    if not found.entries:
        sections.append(Section("none", "Nothing to change", (Paragraph("Both prints say the same."),)))
    for number, (title, entries) in enumerate(groupby(found.entries, lambda one: one.section), 1):
        items = tuple(_item(one) for one in _rows(entries))
        sections.append(Section(f"errata-{number}", title, (Bullets(items),)))
    return Pattern(
        f"{old.title}: errata",
        about,
        old.sizes,
        old.paper,
        None,
        tuple(sections),
        f"wale {__version__}",
        keywords=("hand knitting", "errata"),
        hand=old.hand,
    )


def _rows(entries: Iterable[Entry]) -> Iterator[Entry]:
    """Give entries, the figures of one row of a table together: each stands in its size's column."""
    for row, cells in groupby(entries, _row):
        found = list(cells)
        if row and len({one.place for one in found}) > 1:
            readings = tuple(reading for one in found for reading in one.readings)
            yield replace(found[0], place=row, readings=readings)
        else:
            yield from found


def _row(entry: Entry) -> str:
    """Give the place of a cell's row, "" for any other line."""
    sizes = {one.size for one in entry.readings}
    row, comma, size = entry.place.rpartition(", ")
    return row if entry.kind == "figures" and comma and sizes == {size} else ""


def _cautions(found: Errata) -> Sequence[Part]:
    if not found.redesign:
        return ()
    text = f"This is a redesign, no correction: {found.redesign}. Better take the new pattern."
    return (Caution("Please check", text),)


def _item(entry: Entry) -> Paragraph:
    lead = f"{entry.place[:1].upper()}{entry.place[1:]}:"
    match entry.kind:
        case "figures":
            return Paragraph(f"{'; '.join(_reading(one) for one in entry.readings)}.", lead)
        case "words":
            return Paragraph(f"read the whole line so: {entry.text}", lead)
        case "strike":
            return Paragraph("strike out the line.", lead)
        case "after" if entry.place:
            return Paragraph(f"insert after it: {entry.text}", lead)
    return Paragraph(f"insert: {entry.text}", "At the beginning:")


def _reading(one: Reading) -> str:
    size = f"size {one.size}, " if one.size else ""
    which = f"the {_ordinal(one.count)} " if one.times > 1 else ""
    return f"{size}for {which}{one.old} read {one.new}"


def _ordinal(number: int) -> str:
    return _COUNTS[number - 1] if number <= len(_COUNTS) else f"{number}th"
