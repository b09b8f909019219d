"""The `join` block and the `band` blocks: which edges meet, and what is picked up."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Literal

from wale.actions import EDGINGS, BindOff, Neck, Shoulders
from wale.parse.tree import Block, Name
from wale.problems.problem import Edit, Fix
from wale.resolve.amounts import whole
from wale.resolve.buttonholes import LINES as BUTTONHOLE_LINES
from wale.resolve.buttonholes import read_buttonholes
from wale.resolve.context import near_word
from wale.resolve.edgings import BAND_LINES as EDGING_LINES
from wale.resolve.edgings import CORD, OPEN, OVERLAP, read_collar, read_cord, read_edging, read_hood
from wale.resolve.knitted import LINES as KNITTED_LINES
from wale.resolve.knitted import read_knitted
from wale.resolve.shapes import Line, Match, Shape
from wale.resolve.workshop import Workshop
from wale.spec import PLACKET_EDGES, Band, Collar, Join, Piece, Seam, SetIn, SewnOn

BAND_HEAD = {"band": Shape({"band NAME": ("make NUMBER",)})}
_WITH, _SIDES, _SLEEVES = "seam PIECE1 EDGE1 with PIECE2 EDGE2", "seam sides", "seam sides and sleeves"
_CAP = "set PIECE cap into armholes"
_UP, _ASIDE = "LENGTH up", "LENGTH from the centre"
JOIN_LINES = {
    "seam": Shape({_SLEEVES: ("MANNER",), _SIDES: ("MANNER",), _WITH: ("MANNER",)}, once=False),
    "set": Shape({"set PIECE top into armholes": (), _CAP: ()}, once=False),
    "sew": Shape({"sew PIECE1 on PIECE2": (_UP, _ASIDE)}, once=False),
    "inset": Shape({"inset PIECE1 in PIECE2": (_UP, _ASIDE)}, once=False),
}
_PICK = "pick up along PIECE EDGE in SWATCH"
BAND_LINES = {
    "pick": Shape({_PICK: (), "pick up along PIECE EDGE": ("PIECE EDGE in SWATCH",)}, listed="PIECE EDGE"),
    **EDGING_LINES,
    "bind": Shape({CORD: (), "bind off": ("MANNER",)}),
    **BUTTONHOLE_LINES,
    **KNITTED_LINES,
}
POCKETS = ("sew", "inset")
"""Lines of a pocket: sewn onto a piece, or inset with a lining."""
BANDS = (*EDGINGS, "hood", "shawl")
"""What a band is worked as, by keyword."""
HOOD_MANNER = (
    "by a three-needle bind-off: half of them on each of two needles, the hood folded in half with the right sides "
    "together"
)
"""How a hood is joined at its top."""
MOST_OVERLAP = 60
"""Most stitches by which the ends of a hood lie on each other (our choice)."""
ARMHOLES = 2
"""Armholes of a garment, and so the bands along them."""
EDGES = ("neck", "shoulders", "sides", "armholes", "top", "cast-on", "front-edge", "pocket", *PLACKET_EDGES)
"""Edges of a piece that can be joined or picked up."""
END = "end"
"""The edge of a band that another one is picked up along: one of its two ends."""


def read_joins(shop: Workshop, block: Block, pieces: Mapping[str, Piece]) -> tuple[Join, ...]:
    """Read a `join` block; what is broken is left out. Its `sides` are those of the pieces that stand with it."""
    context = shop.context
    if block.head.items or block.head.options:
        context.report("E203", "a `join` block has no name", block.head.span, "only `join`", "Write `join`.")
    lines = [line for statement in block.body if (line := context.read(statement, JOIN_LINES, "a `join` block"))]
    set_in = {line.head.name("PIECE").text for line in lines if line.keyword == "set"}
    sewn_on = {line.head.name("PIECE1").text for line in lines if line.keyword in POCKETS}
    found = [_join(shop, line, pieces, set_in, sewn_on) for line in lines]
    return tuple(join for join in found if join is not None)


def _join(shop: Workshop, line: Line, pieces: Mapping[str, Piece], set_in: set[str], sewn_on: set[str]) -> Join | None:
    if line.keyword in POCKETS:
        return _sewn_on(shop, line)
    if line.keyword == "set":
        name = line.head.name("PIECE")
        edge: Literal["top", "cap"] = "cap" if line.form == _CAP else "top"
        return SetIn(name.text, line.span, edge) if shop.context.knows("piece", name) else None
    manner = line.options["MANNER"].text("MANNER") if "MANNER" in line.options else ""
    if line.form == _WITH:
        pairs = [_edge(shop, line.head, number, pieces) for number in ("1", "2")]
        edges = tuple(pair for pair in pairs if pair is not None)
        return Seam(edges, manner, line.span) if len(edges) == len(pairs) else None
    beside = {name: piece for name, piece in pieces.items() if piece.span.made_at == line.span.made_at}
    bodies = [name for name, piece in beside.items() if not piece.in_round and name not in set_in | sewn_on]
    sleeves = [name for name in beside if name in set_in] if line.form == _SLEEVES else []
    return Seam(tuple((name, "sides") for name in (*bodies, *sleeves)), manner, line.span)


def _sewn_on(shop: Workshop, line: Line) -> SewnOn | None:
    """Read where a pocket is sewn on."""
    names = [line.head.name(slot) for slot in ("PIECE1", "PIECE2")]
    known = [shop.context.knows("piece", name) for name in names]
    if _UP not in line.options:
        shop.context.report(
            "E206",
            f"this line does not say where on the {names[1].text} the {names[0].text} lies",
            line.span,
            "how far up?",
            f"Write `{shop.context.cut(line.head.span)}, 8 cm up`.",
        )
        return None
    lengths = {
        form: shop.known(shop.names.scope.measure(match.value("LENGTH"), "length"))
        for form, match in line.options.items()
    }
    up = lengths[_UP]
    if up is None or None in lengths.values() or not all(known):
        return None
    return SewnOn(names[0].text, names[1].text, up, lengths.get(_ASIDE), line.span, line.keyword == "inset")


_ENDS = "Write `along right-front front-edge, neckband end`, or `along neckband end, left-front front-edge`."
_MISSING = {
    "front-edge": "Only half pieces have a front edge, such as `piece left-front, as back, left half`.",
    **dict.fromkeys(
        PLACKET_EDGES, "A front has a placket where its `neck` line says so: `placket 3 cm wide over 12 cm`."
    ),
}


def _edge(shop: Workshop, match: Match, number: str, pieces: Mapping[str, Piece]) -> tuple[str, str] | None:
    """Give a piece's edge; unknown pieces, unknown edges, and edges that the piece lacks are reported."""
    name, edge = match.name(f"PIECE{number}"), match.name(f"EDGE{number}")
    context = shop.context
    known = context.knows("piece", name)
    if edge.text not in EDGES:
        near = near_word(edge.text, EDGES)
        context.report(
            "E216",
            f"`{edge.text}` is no edge of a piece",
            edge.span,
            f"did you mean `{near}`?" if near else "unknown edge",
            f"Edges: {', '.join(EDGES)}; and `{END}` of a band that is worked flat.",
            fixes=[Fix(f"write `{near}`", (Edit(edge.span, near),))] if near else [],
        )
        return None
    if not known:
        return None
    piece = pieces.get(name.text)
    if piece is not None and not _has_edge(piece, edge):
        context.report(
            "E216",
            f"the piece `{name.text}` has no {edge.text}",
            name.span.to(edge.span),
            "no such edge here",
            _MISSING.get(edge.text, f"A piece has {edge.text} where a line `{edge.text}` shapes it."),
            also=[(piece.span, "the piece")],
        )
        return None
    return name.text, edge.text


def _has_edge(piece: Piece, edge: Name) -> bool:
    if edge.text == "neck":
        return any(isinstance(step.action, Neck) for step in piece.steps)
    if edge.text in PLACKET_EDGES:
        return any(isinstance(step.action, Neck) and step.action.placket is not None for step in piece.steps)
    if edge.text == "front-edge":
        return piece.half is not None
    if edge.text == "shoulders":
        return any(isinstance(step.action, Shoulders | BindOff | Neck) for step in piece.steps)
    return True


def read_band(shop: Workshop, name: str, block: Block, pieces: Mapping[str, Piece]) -> Band | None:
    """Read a band; None when something in it is wrong."""
    context = shop.context
    head = context.read(block.head, BAND_HEAD, "a file")
    lines, sound = context.read_body(block, BAND_LINES, "a `band` block")
    if sound:
        if "pick" not in lines:
            context.missing(block, "a `pick up` line", "pick up along back neck, front neck in plain")
            sound = False
        sound = _one_edging(shop, block, [line for kind in BANDS for line in lines.get(kind, ())]) and sound
    edging = next((lines[kind][0] for kind in EDGINGS if kind in lines), None)
    hood = read_hood(shop, lines["hood"][0]) if "hood" in lines else None
    collar = read_collar(shop, lines["shawl"][0]) if "shawl" in lines else None
    special = hood or collar
    rib = special[0] if special is not None else read_edging(shop, edging) if edging is not None else None
    if rib is not None and shop.known(rib.depth) is None:
        return None
    if "pick" not in lines:
        return None
    line = lines["pick"][0]
    last = line.options.get("PIECE EDGE in SWATCH", line.head)
    if "SWATCH" not in last.found:
        context.report(
            "E206",
            "this band does not say in which swatch's fabric it is worked",
            line.span,
            "in what?",
            f"Write `{context.cut(line.span)} in SWATCH`.",
        )
        return None
    swatch = context.knows("swatch", last.name("SWATCH")) and last.name("SWATCH").text in shop.swatches
    matches = [line.head, *line.listed, *([last] if last is not line.head else [])]
    ends, matches = _ends(shop, name, matches)
    if ends is None:
        return None
    if len(ends) > 1 or (ends and not matches):
        message = "a band is picked up along an edge of a piece, and along the end of one other band beside it"
        context.report("E216", message, line.span, "no edge" if not matches else "two ends", _ENDS)
        return None
    pairs = [_picked(shop, match, pieces) for match in matches]
    edges = tuple(pair for pair in pairs if pair is not None)
    knitted = read_knitted(shop, lines.get("knitted", ()))
    holes = read_buttonholes(shop, lines["buttonholes"][0]) if "buttonholes" in lines else None
    if "buttonholes" in lines and holes is None:
        return None
    if head is None or not sound or rib is None or not swatch or len(edges) < len(pairs) or knitted is None:
        return None
    make = _make(shop, head, block, [edge for _, edge in edges])
    if make is None:
        return None
    mitred, folded, is_open = (edging is not None and word in edging.options for word in ("mitred", "folded", OPEN))
    overlap = _overlap(shop, lines["hood"][0]) if hood is not None else 0
    manner = "loosely in rib" if rib.texture == "rib" else "loosely"
    if "bind" in lines and "MANNER" in lines["bind"][0].options:
        manner = lines["bind"][0].options["MANNER"].text("MANNER")
    if hood is not None:
        manner = HOOD_MANNER
    corded = "bind" in lines and lines["bind"][0].form == CORD
    cord = read_cord(shop, lines["bind"][0]) if corded else 0
    if (corded and not cord) or overlap is None:
        return None
    swatch_name = last.name("SWATCH").text
    return Band(
        name,
        block.head.span,
        edges,
        swatch_name,
        rib,
        manner,
        knitted,
        holes,
        make,
        mitred,
        folded,
        cord,
        hood[1] if hood else None,
        Collar(collar[1]) if collar else None,
        is_open,
        overlap or 0,
        ends[0] if ends else "",
    )


def _make(shop: Workshop, head: Line, block: Block, edges: list[str]) -> int | None:
    """Read how often a band is worked; where the line does not say it, once, along armholes twice."""
    if "make NUMBER" not in head.options:
        if "armholes" not in edges:
            return 1
        text = "A band along armholes is worked twice, once along each; `make 2` says it."
        shop.context.assume(text, span=block.head.span)
        return ARMHOLES
    make = whole(shop.context, head.options["make NUMBER"].number("NUMBER"))
    fits = (1, ARMHOLES) if "pocket" in edges else (ARMHOLES,) if "armholes" in edges else (1,)
    if make is not None and make not in fits:
        shop.context.report(
            "E223",
            f"a band along {edges[0]} is not made {make} times",
            head.span,
            "too many" if "armholes" not in edges else "there are two armholes",
            "Write `make 2` for a band along armholes or two pockets, and no `make` for another one.",
        )
        return None
    return make


def _overlap(shop: Workshop, line: Line) -> int | None:
    """Read by how many stitches the ends of a hood lie on each other; None after reporting what is wrong."""
    if OVERLAP not in line.options:
        return 0
    number = line.options[OVERLAP].number("N")
    count = whole(shop.context, number)
    if count is not None and not 1 <= count <= MOST_OVERLAP:
        help = f"Ends overlap by 1 to {MOST_OVERLAP} stitches; 4 to 8 are usual."
        shop.context.report("E223", f"an overlap of {count} stitches is none", number.span, "beyond the bounds", help)
        return None
    return count


def _one_edging(shop: Workshop, block: Block, found: list[Line]) -> bool:
    """See that a band is worked in one texture."""
    if not found:
        shop.context.missing(block, "a `rib` line", "rib 2.5 cm, 1x1")
    for line in found[1:]:
        shop.context.report(
            "E405",
            f"a band is worked in one texture; this one has `{found[0].keyword}` and `{line.keyword}`",
            line.span,
            "the second one",
            "Leave one of them out.",
        )
    return len(found) == 1


def _ends(shop: Workshop, name: str, matches: list[Match]) -> tuple[list[str] | None, list[Match]]:
    """Part the ends of other bands, by the names of these, from the edges of pieces; None after reporting no band."""
    bands = [one for one in shop.context.blocks.get("band", {}) if one != name]
    ends, others = [], []
    for one in matches:
        band = one.name("PIECE")
        if one.name("EDGE").text != END:
            others.append(one)
        elif band.text in bands or shop.context.is_lost(band.text):
            ends.append(band.text)
        else:
            near = near_word(band.text, bands)
            shop.context.report(
                "E216",
                f"there is no other band named `{band.text}`",
                band.span,
                f"did you mean `{near}`?" if near else "no such band",
                f"Other bands: {', '.join(bands) or 'none'}.",
                fixes=[Fix(f"write `{near}`", (Edit(band.span, near),))] if near else [],
            )
            return None, others
    return ends, others


def _picked(shop: Workshop, match: Match, pieces: Mapping[str, Piece]) -> tuple[str, str] | None:
    plain = Match(match.form, {"PIECE1": match.found["PIECE"], "EDGE1": match.found["EDGE"]}, match.span)
    return _edge(shop, plain, "1", pieces)
