"""Rows of ribs and other textured edges, stitch by stitch.

A texture is a few rows over and over; a row is its first and its second kind of stitch as seen from the right side.
Garter is a purl ridge on every other row, seed is single stitches that change places on every row, moss on every second
row (common practice, no source: both names are used for both; the rows are told in the pattern).
"""

from __future__ import annotations

from collections.abc import Sequence

from wale.actions import Rib
from wale.write.context import Context
from wale.write.lines import Line, Part, Rows, Times
from wale.write.row_ends import NO_ENDS, End, Ends, between, row_ends, told_apart

_FLAT: dict[str, tuple[str, ...]] = {
    "garter": ("k", "p"),
    "seed": ("kp", "pk"),
    "moss": ("kp", "kp", "pk", "pk"),
    "rolled": ("k", "k"),
}
"""Rows of each texture but the rib's from its first right-side row on, as seen from the right side."""
STRANDS = (
    "Note (not proven): both yarns run along the wrong side; after its stitches take each yarn back there, so that no "
    "strand crosses the right side."
)
"""How both yarns of a corrugated rib run."""
_ROUND = {**_FLAT, "rolled": ("k",)}
Yarns = tuple[str, str, str]
NAMES = {"garter": "Garter", "seed": "Seed", "moss": "Moss", "rolled": "Rolled edge"}
"""How the lines of a texture begin."""


def rows_of(rib: Rib, *, in_round: bool) -> Sequence[str]:
    """Give the rows that a texture other than rib repeats, as seen from the right side."""
    return (_ROUND if in_round else _FLAT)[rib.texture]


def row_words(
    count: int,
    look: str,
    sizes: tuple[int, int],
    ends: Ends,
    *,
    is_right_side: bool,
    in_round: bool,
    twisted: bool = False,
    yarns: Yarns = ("", "", ""),
) -> tuple[Part, ...]:
    """Write one row: `k1, (k2, p2) 11 times, k2, k1`; edge stitches are knitted on the right side.

    Args:
        look: its stitches from the right side, of one kind or two by turns, the first kind at both ends where flat.
        sizes: how many of each kind.
        twisted: the first kind is worked through the back loop.
        yarns: of the first kind, the second, and the edge stitches where they are of different colours.
    """
    of_first, of_second, of_edge = (f" in {yarn}" if yarn else "" for yarn in yarns)
    turned = look if is_right_side else look.translate(str.maketrans("kp", "pk"))
    if len(look) == 1:
        # ends that lie as the row does are none to be told
        apart = tuple(End(0) if one.words == f"{turned}{one.stitches}" else one for one in ends)
        start, end = between((apart[0], apart[1]))
        return tuple(part for part in (start + turned, count - told_apart((apart[0], apart[1])), end) if part != "")
    first, second = turned[0], turned[1]
    loop = " tbl" if twisted else ""
    many, others = sizes
    if in_round:
        return (f"({first}{many}{loop}{of_first}, {second}{others}{of_second}) ", Times(count // (many + others)))
    knit = "k" if is_right_side else "p"
    plain = [f"{knit}{one.stitches}{of_edge}" if one.stitches else "" for one in ends]
    start, end = between(
        (ends[0]._replace(words=ends[0].words or plain[0]), ends[1]._replace(words=ends[1].words or plain[1]))
    )
    times = (count - ends[0].stitches - ends[1].stitches - many) // (many + others)
    repeat = f"({first}{many}{loop}{of_first}, {second}{others}{of_second}) "
    return (f"{start}{repeat}", Times(times), f", {first}{many}{loop}{of_first}{end}")


def edging_lines(
    at: Context,
    address: str,
    rib: Rib,
    count: int,
    rows: int,
    *,
    in_round: bool,
    main: str,
    start: int = 1,
    yarn: str = "",
) -> list[Line]:
    """Write an edging: its rows, and how many of them.

    Args:
        start: which of its rows comes first, for a row in which stitches are evened out may take the place of row 1.
        main: the yarn of its swatch.
        yarn: named where the row below is in a chart.
    """
    lead = f"in {yarn}, " if yarn else ""
    if rib.texture == "rib":
        return _rib_lines(at, address, rib, count, rows, in_round, start, lead, main)
    return _texture_lines(at, address, rib, count, rows, in_round, start, lead)


def _rib_lines(
    at: Context, address: str, rib: Rib, count: int, rows: int, in_round: bool, start: int, lead: str, main: str
) -> list[Line]:
    kinds = f"{'twisted ' if rib.twisted else ''}{'corrugated ' if rib.purls is not None else ''}"
    name, work = f"{rib.knit}x{rib.purl} {kinds}rib", f"{lead}work "
    yarns, lines = ("", "", ""), []
    if rib.purls is not None:
        yarns = (main, rib.purls, at.piece.edge.yarn or main)
        lines.append(at.remark(f"{address}.strands", STRANDS))
    if in_round:
        words = row_words(
            count,
            "kp",
            (rib.knit, rib.purl),
            NO_ENDS,
            is_right_side=True,
            in_round=True,
            twisted=rib.twisted,
            yarns=yarns,
        )
        return [*lines, at.line(address, "Rib", work, Rows(rows, "round"), f" in {name}: ", *words, ".")]
    for is_right, side, slot in ((True, "RS", "right"), (False, "WS", "wrong")):
        words = row_words(
            count,
            "kp",
            (rib.knit, rib.purl),
            row_ends(at, is_right_side=is_right),
            is_right_side=is_right,
            in_round=False,
            twisted=rib.twisted,
            yarns=yarns,
        )
        lines.append(at.line(f"{address}.{slot}", f"Each rib row ({side})", *words, "."))
    begins = "RS" if start == 1 else "WS"
    return [*lines, at.line(address, "Rib", work, Rows(rows), f" in {name}, beginning with the {begins} rib row.")]


def _texture_lines(
    at: Context, address: str, rib: Rib, count: int, rows: int, in_round: bool, start: int, yarn: str
) -> list[Line]:
    return [
        *texture_told(at, address, rib, count, has_ends=not in_round, in_round=in_round),
        texture_run(at, address, rib, rows, in_round=in_round, start=start, yarn=yarn),
    ]


def texture_told(
    at: Context, address: str, rib: Rib, count: int, *, has_ends: bool = False, in_round: bool = False
) -> list[Line]:
    """Tell the rows that a texture other than rib repeats, stitch by stitch; `has_ends`: between a piece's own ends."""
    name, word = NAMES[rib.texture], "round" if in_round else "row"
    lines = []
    for number, look in enumerate(rows_of(rib, in_round=in_round), 1):
        is_right = in_round or number % 2 == 1
        side = "" if in_round else f" ({'RS' if is_right else 'WS'})"
        ends = row_ends(at, is_right_side=is_right) if has_ends else NO_ENDS
        words = row_words(count, look, (1, 1), ends, is_right_side=is_right, in_round=in_round)
        lines.append(at.line(f"{address}.texture[{number}]", f"{name} {word} {number}{side}", *words, "."))
    return lines


def texture_run(
    at: Context, slot: str, rib: Rib, rows: int, *, in_round: bool = False, start: int = 1, yarn: str = ""
) -> Line:
    """Tell how many of a texture's rows are worked, from which of them on."""
    of, word = len(rows_of(rib, in_round=in_round)), "round" if in_round else "row"
    begins: tuple[Part, ...] = (f", beginning with {word} ", (start - 1) % of + 1, ".")
    over = (f", repeating these {of} {word}s", *begins)
    told: tuple[Part, ...] = (Rows(rows, word), *over) if of > 1 else (rows, f" such {word}s.")
    return at.line(slot, NAMES[rib.texture], f"{yarn}work ", *told)
