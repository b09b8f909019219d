"""A pattern for a left-handed knitter: the exact mirror image of the pattern for the right hand.

Who knits as in a mirror works right-side rows from their left end to their right end. Row by row the words stay, for
they are told in working order; what names a side of the work changes sides, charts are drawn mirrored and numbered from
the left, and stitches lean the other way. The proof reads the words made here and exchanges left and right by itself.

Why the mirror image and not the same fabric: a right-handed knitter's shoulders, necks and rounds begin where a
right-side row begins, so that one side lies a row ahead. Only the mirror image has each of its rows worked alike.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from wale.pattern import (
    Bullets,
    Chart,
    ChartColour,
    Definitions,
    Drawing,
    Drawings,
    DrawnPart,
    Paragraph,
    Part,
    Pattern,
    Schematic,
    Section,
    Steps,
    Table,
)
from wale.spec import Spec
from wale.write.other_side import NOTE, exchanged, renamed

PHRASES = (
    ("on the right shoulder at the ", "on the left shoulder at the "),
    (", on the left at the ", ", on the right at the "),
    (" sts are on the right needle", " sts are on the left needle"),
    (
        "Read RS rows and rounds from right to left, WS rows from left to right;",
        "Read RS rows and rounds from left to right, WS rows from right to left;",
    ),
    ("Columns are counted from the right.", "Columns are counted from the left."),
    (
        "Both strands go on over the left side; they are cut when it is done and joined again at the neck edge for the "
        "right side.",
        "Both strands go on over the right side; they are cut when it is done and joined again at the neck edge for "
        "the left side.",
    ),
    ("Begin at the right shoulder seam, as worn.", "Begin at the left shoulder seam, as worn."),
    (
        "go up its right side as worn, over the back and down its left side",
        "go up its left side as worn, over the back and down its right side",
    ),
    ("Begin at the lower right corner of", "Begin at the lower left corner of"),
    (" to the left of the middle of the ", " to the right of the middle of the "),
)
"""What names a side of the work, for the right hand and for the left."""
TOGETHER = ("Columns that belong together, from the right:", "Columns that belong together, from the left:")
"""How a chart tells its figures of lace."""
TERMS = "abbreviations"
TITLE = "For the left hand"
HOW = (
    "This pattern is for a left-handed knitter who works as in a mirror: the stitches wait on the right needle and "
    "pass to the left one, and every movement is the mirror image of a right-handed knitter's. RS rows and rounds run "
    "from left to right, WS rows from right to left. Charts are drawn so: RS rows and rounds have their numbers at the "
    "left, where they start, and columns are counted from the left."
)
WHAT = (
    "What comes off the needles is the exact mirror image of this pattern as it is printed for the right hand: row by "
    "row the same stitches, counts and colours, with left and right exchanged. "
)
SAME = "Outlines, measures and yarn are the same; each outline of the schematics is its own mirror image."
HALVES = (
    "Measures and yarn are the same; outlines of halves are drawn mirrored. The half that is worn at the left from the "
    "right hand's pattern is worn at the right from this one; what is picked up along it, buttonholes too, goes along."
)
NAMED = " Named by the side of the wearer, {old} of the file {are} {new} here."
CHANGES = (
    ("Neck row", "the side of the neck that is worked first"),
    ("shoulder at the", "the shoulder that lies a row ahead"),
    ("shoulder seam, as worn", "the seam at which the band begins"),
    ("side as worn, over the back", "the end at which an open band begins"),
    ("evenly:", "the end from which stitches spread over a row are counted"),
)
"""What changes sides, by words that tell that a pattern has it."""
OTHER = " What changes sides: {what}."
LEANS = "{stitches} by what is done, so {lean}. "
EDGES = "Where a right-handed knitter's left edge has k2tog, yours has ssk, and both lean alike. "
MADE = "{stitches} named by how {they} in your hands; the list of abbreviations says how each is made."
REVERSED = (
    "{charts} do{es} not mirror, so {it} come{s} out reversed, as {it} {is} drawn here; letters and figures in {it} "
    "would too. For the motif the way round that it is written, let the file knit it from a motif that is `mirrored`."
)
NOTES = "Notes of the author are printed as they were written: left and right in them are those of the right hand."
ADDRESSES = (
    "Addresses are those of the right hand: `left` in one is the side of the neck that is worked first, your right "
    "one. Pieces go by the names that they have in the file."
)
PROOF = (
    "For the left hand it was knitted in the mirror: with left and right exchanged these words make every stitch of "
    "the plan, so as they stand they make its mirror image."
)

_SIDE = re.compile(r"\b(left|right|Left|Right)(?= side(?: edge)?:)")
_MADE = re.compile(r"\bm1[LR]\b")
_CABLE = re.compile(r"(?<=\bcable )((?:\d )?)(left|right)\b")
_LEANING = re.compile(r"\b(left|right)\b")
_PLACE = re.compile(r"\b(?:left|right)\b(?= (?:half|edge) as worn)|(?<= 1 st at the )(?:left|right)(?= edge)")
_AT_EDGE = re.compile(r"\bedge sts?, ssk\b")
_SIDED = re.compile(r"\b(?:left|right)\b(?! side)", re.IGNORECASE)
_LEANS = re.compile(r"\b(?:leans|leaning) (?:left|right)\b")
_OTHER = {"left": "right", "right": "left", "Left": "Right", "Right": "Left", "m1L": "m1R", "m1R": "m1L"}
_MARKS = {"ssk": "/", "k2tog": "\\", "m1L": "valley", "m1R": "peak"}
"""Marks of shapings as they look from the right side, by their names for the left hand."""
_TURNED = str.maketrans("/\\<>", "\\/><")
"""Marks of a texture's leaning stitches, and what they look like in the mirror."""


def left_handed(pattern: Pattern, spec: Spec) -> Pattern:
    """Give a pattern for the left hand: all its parts mirrored, and a first section that says what that means."""
    sections = [
        replace(section, parts=tuple(_terms(part) if section.id == TERMS else mirrored(part) for part in section.parts))
        for section in pattern.sections
    ]
    has_notes = any(_SIDED.search(text.partition(NOTE)[2]) for section in pattern.sections for text in _texts(section))
    names = exchanged(spec)
    told = [HOW, _what(pattern, spec), *_leans(pattern), *_reversed(pattern, spec), *([NOTES] if has_notes else [])]
    first = Section("left-handed", TITLE, tuple(Paragraph(text) for text in told))
    sections = [
        replace(section, parts=(*section.parts, Paragraph(PROOF))) if section.id == "proof" else section
        for section in sections
    ]
    drawing = None if pattern.drawing is None else _drawing(pattern.drawing)
    return replace(
        pattern,
        title=f"{pattern.title}, left-handed",
        drawing=renamed(drawing, names),
        sections=(first, *renamed(tuple(sections), names)),
        hand="left",
    )


def with_left_reasons(pattern: Pattern) -> Pattern:
    """Give a pattern for the left hand with the reasons of its numbers, its last section, told for that hand too."""
    *sections, why = pattern.sections
    told = tuple(map(mirrored, why.parts))
    return replace(pattern, sections=(*sections, replace(why, parts=(told[0], Paragraph(ADDRESSES), *told[1:]))))


def mirrored(part: Part) -> Part:
    """Give a part of the document with left and right exchanged."""
    match part:
        case Paragraph():
            return _paragraph(part)
        case Steps() | Bullets():
            return replace(part, items=tuple(map(_paragraph, part.items)))
        case Table():
            return replace(
                part,
                rows=tuple(tuple(map(_words, row)) for row in part.rows),
                caption=_words(part.caption),
                note=_words(part.note),
            )
        case Chart():
            return _chart(part)
        case Drawing():
            return _drawing(part)
        case Schematic():
            return _schematic(part)
        case Drawings():
            return replace(part, items=tuple(map(_drawing, part.items)))
        case _:
            return part


def _words(text: str) -> str:
    """Exchange the sides that a text of ours names; an author's note stays as it was written."""
    if NOTE in text:
        return text
    for right, left in PHRASES:
        text = text.replace(right, left)
    text = _CABLE.sub(lambda found: f"{found[1]}{_OTHER[found[2]]}", text)
    return _MADE.sub(_swapped, _SIDE.sub(_swapped, _PLACE.sub(_swapped, text)))


def _swapped(found: re.Match[str]) -> str:
    return _OTHER[found[0]]


def _paragraph(item: Paragraph) -> Paragraph:
    if NOTE in item.text or NOTE in item.strong:
        return item
    return replace(item, text=_words(item.text), strong=_words(item.strong))


def _terms(part: Part) -> Part:
    """The list of abbreviations, in its order."""
    return Definitions(tuple(sorted(map(_term, part.items), key=_order))) if isinstance(part, Definitions) else part


def _term(item: tuple[str, str]) -> tuple[str, str]:
    term, meaning = item
    return _words(term), _LEANS.sub(lambda found: _LEANING.sub(_swapped, found[0]), meaning)


def _order(item: tuple[str, str]) -> tuple[str, str]:
    return item[0].lower(), item[0]


def _chart(chart: Chart) -> Chart:
    return replace(
        chart,
        rows=tuple(row[::-1] for row in chart.rows),
        colours=tuple(map(_stitch if chart.is_texture else _colour, chart.colours)),
        words=tuple((label, _words(text)) for label, text in chart.words),
        notes=tuple(note.replace(*TOGETHER) for note in chart.notes),
        from_left=True,
    )


def _stitch(cell: ChartColour) -> ChartColour:
    """A texture's stitch: a cable is named by its lean, other stitches by what is done."""
    return replace(cell, name=_words(cell.name), mark=cell.mark.translate(_TURNED))


def _colour(colour: ChartColour) -> ChartColour:
    """A cell's name, and its mark where it is a shaping's, for the left hand."""
    shaping, joined, yarn = colour.name.partition(" in ")
    if not joined or shaping not in _MARKS:
        return colour
    shaping = _OTHER.get(shaping, shaping)
    _, beside, own = colour.mark.partition(" ")
    return ChartColour(f"{shaping} in {yarn}", colour.colour, f"{_MARKS[shaping]}{beside}{own}")


def _schematic(drawn: Schematic) -> Schematic:
    """An outline that is not its own mirror image, such as that of a half, mirrored with all that is drawn on it."""
    if set(drawn.outline) == set(map(_flip, drawn.outline)):
        return drawn
    return replace(
        drawn,
        outline=tuple(map(_flip, drawn.outline)),
        lines=tuple((_flip(start), _flip(end)) for start, end in drawn.lines),
        dimensions=tuple(replace(one, start=_flip(one.start), end=_flip(one.end)) for one in drawn.dimensions),
    )


def _flip(point: tuple[float, float]) -> tuple[float, float]:
    return -point[0], point[1]


def _drawing(drawing: Drawing) -> Drawing:
    return replace(drawing, parts=tuple(map(_drawn, drawing.parts)))


def _drawn(part: DrawnPart) -> DrawnPart:
    """A part mirrored about the middle line; its tiling runs on both ways, so any corner of a tile serves."""
    return replace(
        part,
        outline=tuple(map(_flip, part.outline)),
        tile=tuple(row[::-1] for row in part.tile),
        origin=None if part.origin is None else _flip(part.origin),
        turn=-part.turn,
    )


def _what(pattern: Pattern, spec: Spec) -> str:
    """Say what is made, and which of two sides the pattern means by another name than for the right hand."""
    told = [text for section in pattern.sections for text in _texts(section)]
    what = [change for words, change in CHANGES if any(words in text for text in told)]
    names = exchanged(spec)
    are = "are" if len(names) > 1 else "is"
    called = NAMED.format(old=_and(list(names)), are=are, new=_and(list(names.values()))) if names else ""
    same = HALVES if any(piece.half is not None for piece in spec.pieces) else SAME
    return WHAT + same + called + (OTHER.format(what=_and(what)) if what else "")


def _leans(pattern: Pattern) -> Iterator[str]:
    """Tell of the leaning stitches that the pattern has."""
    terms = {
        _words(term)
        for section in pattern.sections
        if section.id == TERMS
        for part in section.parts
        if isinstance(part, Definitions)
        for term, _ in part.items
    }
    done = [name for name in ("k2tog", "k3tog", "ssk", "ssp", "sssk") if name in terms]
    text = ""
    if done:
        verb = "are named" if len(done) > 1 else "is named"
        ways = [f"{name} {'leans left' if name[0] == 'k' else 'leans right'}" for name in done]
        text = LEANS.format(stitches=f"{_and(done)} {verb}", lean=f"in your hands {_and(ways)}")
    if {"k2tog", "ssk"} <= terms and any(_AT_EDGE.search(told) for one in pattern.sections for told in _texts(one)):
        text += EDGES
    made = [name for name in ("cable left", "cable right", "m1L", "m1R") if name in terms]
    if made:
        verb, they = ("are", "they lean") if len(made) > 1 else ("is", "it leans")
        text += MADE.format(stitches=f"{_and(made)} {verb}", they=they)
    if text:
        yield text.strip()


def _and(words: Sequence[str]) -> str:
    return " and ".join((", ".join(words[:-1]), words[-1])) if len(words) > 1 else words[0]


def _reversed(pattern: Pattern, spec: Spec) -> Iterator[str]:
    """Tell of the charts that are not their own mirror image."""
    names = [
        part.name
        for section in pattern.sections
        for part in section.parts
        if isinstance(part, Chart) and part.repeat is not None and not spec.motifs[part.name].mirrors
    ]
    names = list(dict.fromkeys(names))
    if names:
        told = f"Charts {' and '.join(names)}" if len(names) > 1 else f"Chart {names[0]}"
        verbs = {"es": "", "s": "", "it": "they", "is": "are"} if len(names) > 1 else {}
        yield REVERSED.format(charts=told, **({"es": "es", "s": "s", "it": "it", "is": "is"} | verbs))


def _texts(section: Section) -> Iterator[str]:
    for part in section.parts:
        if isinstance(part, Steps | Bullets):
            yield from (f"{item.strong} {item.text}" for item in part.items)
        elif isinstance(part, Paragraph):
            yield f"{part.strong} {part.text}"
