"""Hypothesis strategies that write specs: any valid one, typed by somebody with a hand of their own.

`lines()` gives a spec that resolves (two in five have a plan, too) as logical lines, `typed()` sets them with odd gaps,
broken lines, blank ones, and comments everywhere, `plain()` in the simplest way. In a logical line a space is a gap
that has to be there and `·` one that may.
"""

from __future__ import annotations

import re

from hypothesis import strategies as st
from msgspec import Struct

SIZES = ("XS", "S", "M", "L", "XL")


class Logical(Struct, frozen=True):
    """A line of a spec: 0 for the left edge or 1 for a line of the block above, and its text with its gaps marked."""

    level: int
    text: str


NUMBERS = st.sampled_from(["18", "40.5", "5 1/2", "12 3/8", "37/2"])


@st.composite
def lists(draw: st.DrawFn, count: int, low: int = 20, high: int = 60) -> str:
    """Give one value for all sizes, or one a size that never shrinks."""
    values = sorted(draw(st.lists(st.integers(2 * low, 2 * high), min_size=count, max_size=count)))
    first, *others = (f"{value // 2}{'.5' if value % 2 else ''}" for value in values)
    return f"{first} (·{'·, '.join(others)}·) cm" if others and draw(st.booleans()) else f"{first} cm"


@st.composite
def sums(draw: st.DrawFn, count: int, names: tuple[str, ...], depth: int = 2) -> str:
    """Give an expression that is a length."""
    if not depth or draw(st.integers(0, 2)) == 0:
        return draw(st.one_of(lists(count), st.sampled_from(names), NUMBERS.map(lambda number: f"{number} cm")))
    left = draw(sums(count, names, depth - 1))
    match draw(st.integers(0, 5)):
        case 0:
            return f"{left} + {draw(sums(count, names, depth - 1))}"
        case 1:
            return f"max(·{left}·, {draw(sums(count, names, depth - 1))}·)"
        case 2:
            return f"2·*·(·{left}·)"
        case 3:
            return f"(·{left}·)·/·2"
        case 4:
            return f"{draw(st.sampled_from(names))}·/·2·/·3"
        case _:
            return f"max(·-1.5 cm·, {left} + 9 cm - 1.5 cm·)"


@st.composite
def motifs(draw: st.DrawFn, name: str) -> list[Logical]:
    """Give a motif of two colours, perhaps with marks of several signs."""
    dark, light = draw(st.sampled_from([("-", "x"), ("rye", "fl"), (".", "@@"), ("--", "×")]))
    width, height = draw(st.integers(2, 6)), draw(st.integers(1, 5))
    cells = st.lists(st.sampled_from([dark, light]), min_size=width, max_size=width)
    first = [light, *[dark] * (width - 1)]
    rows = [Logical(1, f"| {' '.join(row)} |") for row in (first, *(draw(cells) for _ in range(height - 1)))]
    more = [Logical(1, f"next shifts {draw(st.integers(0, width - 1))} sts")] if draw(st.booleans()) else []
    return [
        Logical(0, f"motif {name}"),
        Logical(1, f"repeat {width} sts·, {height} rows"),
        Logical(1, f"key |{dark}| rye·, |{light}| flour"),
        *rows,
        *more,
    ]


@st.composite
def swatches(draw: st.DrawFn, name: str, motif: str, way: str) -> list[Logical]:
    """Give a swatch with its gauge, and perhaps more that was measured."""
    fabric = draw(st.sampled_from(["fabric stockinette in rye", "fabric garter in flour"]))
    stitches, rows = draw(st.integers(20, 32)), draw(st.integers(28, 40))
    more = {
        f"counted 40 sts·=·{draw(st.integers(12, 16))}.5 cm·, 40 rows·=·12 cm",
        f"weight 14.5 g of 52 sts·, {rows} rows",
        "stretch 40 sts·=·26 cm",
    }
    return [
        Logical(0, f"swatch {name}·, {way}"),
        Logical(1, f"motif {motif} in rye·, flour" if motif else fabric),
        Logical(1, draw(st.sampled_from(["needle 3.5 mm", "needle US 4", "needle 3 1/4 mm"]))),
        Logical(1, f"washed {stitches} sts and {rows} rows in 10 cm"),
        *(Logical(1, text) for text in sorted(more) if draw(st.booleans())),
    ]


@st.composite
def sizing(draw: st.DrawFn) -> tuple[int, list[Logical]]:
    """Give how many sizes and bodies there are, and their blocks."""
    names = SIZES[: draw(st.integers(1, len(SIZES)))]
    count = len(names)
    if draw(st.booleans()):
        head, measures = f"sizes women {' '.join(names)}", []
    else:
        head = f"sizes {' '.join(names)}"
        bust, hip, head_round = (draw(lists(count, low, low + 30)) for low in (76, 80, 50))
        measures = [f"measure bust {bust}", f"measure hip {hip}", f"measure head {head_round}"]
    eases = ["ease bust 10 cm·, hip 6 cm", "ease head -2.5 cm"]
    if draw(st.booleans()):
        return count, [Logical(0, head), *(Logical(1, text) for text in (*measures, *eases))]
    body = ["measure bust 97 cm", "measure hip 103 cm", "measure head 56 cm", "ease hip 9 cm"]
    blocks = [(head, [*draw(st.permutations(measures)), "ease bust 10 cm·, hip 6 cm", "ease head 1 inch"])]
    if not measures:
        blocks.append(("body mine", body))
    return count + len(blocks) - 1, [Logical(bool(i), text) for h, b in blocks for i, text in enumerate((h, *b))]


@st.composite
def lines(draw: st.DrawFn) -> list[Logical]:
    """Give a whole spec that resolves, as logical lines."""
    count, sizes = draw(sizing())
    names = ("bust", "hip", "head")
    lets = [Logical(0, f"let {name}·=·{draw(sums(count, names))}") for name in ("depth", "very-long-name", "a")]
    known = (*names, "depth", "very-long-name", "a", "body.hip")
    length = sums(count, known)
    heading = [
        'about "A cloth -- with | signs,  (two) of them."',
        "version 1.10",
        'changes "The neck is 2 cm deeper."',
        'changes "Sleeves: 1 row less"',
        "units inch",
        "tolerance 2 cm",
        "tolerance lengths 1 1/4 inch",
        "prefer even-steps 0.2",
        "floats 5 sts",
    ]
    yarns = [
        Logical(0, "yarn rye"),
        Logical(1, draw(st.sampled_from(["count 2/8 Nm wool", "count 400 m per 100 g wool", "count 34 tex x 2"]))),
        Logical(1, "colour #8A5a2b"),
        *(Logical(1, text) for text in ("put-up 100 g cone·, 11.50 EUR", "on-hand 3 cones")),
        Logical(0, "yarn flour"),
        Logical(1, "count Nm 2/8"),
        Logical(1, "colour #efe6d2"),
    ]
    flat, tube = "worked flat", "in the round"
    back = [
        "edge 2 sts each side in rye",
        "cast on hip·/·2 in plain",
        "hem 3 cm·, folded·, purl ridge",
        "work in seed on easy·, whole repeats at hip·, tolerance 2 cm",
        f"shape to {draw(length)} over {draw(length)}·, on any row·, named chest",
        "work 8 rows",
        "mark underarm",
        f"work to {draw(length)}",
        f"neck {draw(lists(count, 10, 20))} wide·, 8 cm deep·, round",
        'note "Leave  it -- for now."',
    ]
    hat = [
        f"cast on {draw(length)} in plain-round",
        f"rib {draw(lists(count, 2, 9))}·, 2x2·, on 3 mm",
        *draw(st.sampled_from([[], ["work in seed on easy-round·, whole repeats·, starts at the plainest column"]])),
        f"work to {draw(length)}",
        draw(st.sampled_from(["bind off", "bind off·, loosely in rib", "crown 6 wedges over 9 cm·, plain in rye"])),
    ]
    panel = [
        f"steek {draw(st.sampled_from([3, 5, 7, 9, 11]))} sts",
        f"cast on {draw(length)} in plain-round",
        f"work to {draw(length)}",
        "bind off",
    ]
    chosen = [text for text in back if text.startswith(("cast", "work to")) or draw(st.booleans())]
    pieces = [
        Logical(0, f"piece back·, {flat}"),
        *(Logical(1, text) for text in chosen),
        Logical(0, f"piece tube·, {tube}·, make 2"),
        *(Logical(1, text) for text in hat),
        *draw(st.sampled_from([[], [Logical(0, f"piece panel·, {tube}"), *(Logical(1, text) for text in panel)]])),
    ]
    if any(text.startswith("neck") for text in chosen):
        pieces += [
            *(Logical(0, "piece front·, as back"), Logical(1, "neck 18 cm wide·, 9 cm deep·, square")),
            *(Logical(0, "join"), Logical(1, "seam sides·, mattress stitch")),
            *(Logical(0, "band collar"), Logical(1, "pick up along back neck·, front neck in plain-round")),
            *(Logical(1, "rib 2.5 cm·, 1x1·, on 3 mm"), Logical(1, "bind off")),
        ]
    units = [
        [Logical(0, 'pattern "Mill -- pond"'), *(Logical(1, text) for text in heading if draw(st.booleans()))],
        sizes,
        yarns,
        draw(motifs("seed")),
        draw(swatches("easy", "seed", flat)),
        draw(swatches("easy-round", "seed", tube)),
        draw(swatches("plain", "", flat)),
        draw(swatches("plain-round", "", tube)),
        *([let] for let in lets),
        pieces,
    ]
    return [Logical(0, "wale 1"), *(line for unit in draw(st.permutations(units)) for line in unit)]


def plain(spec: list[Logical]) -> str:
    """Give a spec's text, each gap one space, no comments."""
    return "".join("    " * line.level + line.text.replace("·", "") + "\n" for line in spec)


WORDS = st.text(
    st.characters(blacklist_categories=("Cc", "Cf", "Zl", "Zp", "Cs", "Co", "Cn"), blacklist_characters="\u00a0"),
    max_size=12,
)
COMMENTS = st.one_of(
    st.sampled_from(["--", "-- flat", "--no space", '-- "quote', "-- | bar", "-- two -- three", "--\tédge"]),
    WORDS.map(lambda words: f"-- {words}".rstrip()),
)
_TOKEN = re.compile(r'"[^"]*"|\|[^|]*\||[ ·]|[^ ·"|]+')


@st.composite
def typed(draw: st.DrawFn, spec: list[Logical], line_end: str | None = None) -> str:
    """Give a spec's text, typed oddly: gaps, margins, broken lines, blank lines, and comments everywhere."""
    end = line_end or draw(st.sampled_from(["\n", "\n", "\r\n"]))
    chance = draw(st.integers(0, 6))
    written: list[str] = []
    margin = 4
    for line in spec:
        for _ in range(draw(st.integers(0, 2)) if chance else 0):
            blank = draw(st.sampled_from(["", "", "  ", "\t"]))
            written.append(
                draw(st.one_of(st.just(blank), COMMENTS.map(lambda note: " " * draw(st.integers(0, 6)) + note)))
            )
        if not line.level:
            margin = draw(st.integers(1, 8))
        is_let = line.text.startswith("let ")
        deep = draw(st.integers(1, 9)) + (0 if is_let else margin)
        text = " " * margin if line.level else ""
        for token in _TOKEN.findall(line.text):
            if token not in (" ", "·"):
                text += token
            elif chance > 3 and (line.level or is_let) and draw(st.integers(0, 7)) == 0:
                note = draw(COMMENTS) if draw(st.booleans()) else ""
                written.append(f"{text}   {note}" if note else text)
                if draw(st.integers(0, 3)) == 0:
                    written.append(draw(st.one_of(st.just(""), COMMENTS.map(lambda note: f"  {note}"))))
                text = " " * deep
            else:
                least = token == " "
                text += draw(st.sampled_from([" " * least, " " * least, "  ", "\t "])) if chance > 1 else " " * least
        if chance > 2 and draw(st.integers(0, 3)) == 0:
            text += draw(st.sampled_from([" ", "  ", "\t"])) + draw(COMMENTS)
        written.append(text)
    if chance and draw(st.booleans()):
        written += ["", draw(COMMENTS)]
    return end.join(written) + draw(st.sampled_from([end, end, "", end + end]))


@st.composite
def specs(draw: st.DrawFn) -> str:
    """Give the text of any spec that resolves, typed oddly."""
    return draw(typed(draw(lines())))
