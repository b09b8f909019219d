"""The `swatch` block: the fabric, its needle, and how it measured."""

from __future__ import annotations

from collections.abc import Mapping
from fractions import Fraction

from wale.materials import Gauge, Motif, Swatch, Yarn
from wale.parse.tree import Block, Name
from wale.problems.problem import Edit, Fix
from wale.resolve.amounts import NEEDLE_FORMS, length_cm, needle_mm, positive, whole
from wale.resolve.context import Context
from wale.resolve.shapes import Line, Match, Shape
from wale.resolve.values import plain, told_length
from wale.source import Span

FLAT, ROUND = "worked flat", "in the round"
HEAD = {"swatch": Shape({"swatch NAME": (FLAT, ROUND)})}
_STITCHES = ("stockinette", "garter")


def _gauge_forms(keyword: str) -> Shape:
    return Shape({f"{keyword} N1 sts and N2 rows in AMOUNT": (), f"{keyword} N1 sts = AMOUNT": ("N2 rows = AMOUNT",)})


LINES = {
    "motif": Shape({"motif MOTIF in YARN": ()}, listed="YARN"),
    "fabric": Shape(
        {
            **{f"fabric {stitch} in YARN": () for stitch in _STITCHES},
            "fabric rib RIB in YARN": (),
        },
        listed="YARN",
    ),
    "needle": Shape({f"needle {form}": () for form in NEEDLE_FORMS}),
    "counted": _gauge_forms("counted"),
    "washed": _gauge_forms("washed"),
    "weight": Shape({"weight WEIGHT of N1 sts": ("N2 rows",)}),
    "stretch": Shape({"stretch N sts = AMOUNT": ("edge N sts = AMOUNT",)}),
}
_MOST_PER_CM, _LEAST_PER_CM = Fraction(40), Fraction(1, 20)
_FEWEST = 4
"""Fewest stitches or rows that a swatch can be measured over; our choice."""


def worked(context: Context, line: Line, block: Block, kind: str) -> bool | None:
    """Give whether a swatch or piece is worked in the round; it must say so, for flat has another tension."""
    if FLAT in line.options and ROUND in line.options:
        context.report(
            "E204",
            f"`{FLAT}` and `{ROUND}` contradict each other",
            line.span,
            "both stand here",
            "Leave one of the two out.",
        )
        return None
    if FLAT not in line.options and ROUND not in line.options:
        end = Span(line.span.file, line.span.end, line.span.end)
        context.report(
            "E206",
            f"this {kind} does not say how it is worked",
            line.span,
            "flat or in the round?",
            f"Write `{context.cut(line.span)}, {FLAT}` or `…, {ROUND}`: the tension differs.",
            fixes=[Fix(f"add `{way}`", (Edit(end, f", {way}"),)) for way in (FLAT, ROUND)],
        )
        return None
    return ROUND in line.options


def read_swatches(
    context: Context, blocks: Mapping[str, Block], yarns: Mapping[str, Yarn], motifs: Mapping[str, Motif]
) -> dict[str, Swatch]:
    """Read all swatches; broken ones are left out."""
    found = {}
    for name, block in blocks.items():
        head = context.read(block.head, HEAD, "a file")
        swatch = read_swatch(context, name, block, head, yarns, motifs) if head is not None else None
        if swatch is not None:
            found[name] = swatch
    return found


def read_swatch(
    context: Context, name: str, block: Block, head: Line, yarns: Mapping[str, Yarn], motifs: Mapping[str, Motif]
) -> Swatch | None:
    """Read one swatch; None when something in it is wrong or broken elsewhere."""
    in_round = worked(context, head, block, "swatch")
    lines, sound = context.read_body(block, LINES, "a `swatch` block")
    if "motif" in lines and "fabric" in lines:
        context.twice(lines["fabric"][0], lines["motif"][0])
        sound = False
    if sound:
        sound = _complete(context, block, lines)
    fabric = next((lines[keyword][0] for keyword in ("motif", "fabric") if keyword in lines), None)
    made = _fabric(context, fabric, yarns, motifs) if fabric else None
    needle = needle_mm(context, lines["needle"][0].head) if "needle" in lines else None
    washed = gauge(context, lines["washed"][0]) if "washed" in lines else None
    counted = gauge(context, lines["counted"][0]) if "counted" in lines else None
    weight = _weight(context, lines["weight"][0]) if "weight" in lines else None
    if washed is None and counted is not None and "washed" not in lines:
        washed = counted
    stretch = edge_stretch = None
    if "stretch" in lines:
        pulled, at_edge = lines["stretch"][0].head, lines["stretch"][0].options.get("edge N sts = AMOUNT")
        stretch = _stretch(context, pulled, washed)
        edge_stretch = _stretch(context, at_edge, washed) if at_edge is not None else None
        if at_edge is not None and edge_stretch is None:
            stretch = None
    whole_lines = all(
        value is not None
        for value, keyword in ((counted, "counted"), (weight, "weight"), (stretch, "stretch"))
        if keyword in lines
    )
    if not (sound and whole_lines) or in_round is None or made is None or needle is None or washed is None:
        return None
    stitch, motif, names = made
    return Swatch(
        name, block.head.span, in_round, stitch, motif, names, needle, washed, counted, weight, stretch, edge_stretch
    )


def _complete(context: Context, block: Block, lines: Mapping[str, list[Line]]) -> bool:
    needed = {
        ("motif", "fabric"): ("a `fabric` or `motif` line", "fabric stockinette in rye"),
        ("needle",): ("a `needle` line", "needle 3.5 mm"),
        ("washed", "counted"): ("a `washed` line (the gauge)", "washed 40 sts = 13.6 cm, 40 rows = 12.2 cm"),
    }
    found = True
    for keywords, (what, example) in needed.items():
        if not any(keyword in lines for keyword in keywords):
            context.missing(block, what, example)
            found = False
    return found


def _fabric(
    context: Context, line: Line, yarns: Mapping[str, Yarn], motifs: Mapping[str, Motif]
) -> tuple[str, str | None, tuple[str, ...]] | None:
    names = [line.head.name("YARN"), *(more.name("YARN") for more in line.listed)]
    known = [context.knows("yarn", name) for name in names]
    sound = all(known) and all(name.text in yarns for name in names)
    held = tuple(name.text for name in names)
    if line.keyword == "motif":
        motif = line.head.name("MOTIF")
        if not context.knows("motif", motif) or motif.text not in motifs or not sound:
            return None
        is_texture = motifs[motif.text].is_texture
        if is_texture and len(held) > 1:
            context.report(
                "E256",
                f"the motif `{motif.text}` is a texture, which is worked in one yarn",
                names[1].span.to(names[-1].span),
                "one yarn too many",
                f"Write `motif {motif.text} in {held[0]}`.",
                also=[(motifs[motif.text].span, "the motif")],
            )
            return None
        missing = [] if is_texture else [yarn for yarn, _ in motifs[motif.text].marks if yarn not in held]
        if missing:
            context.report(
                "E211",
                f"the motif `{motif.text}` is knitted in {' and '.join(missing)} too",
                names[-1].span,
                "not all yarns of the motif stand here",
                "Name every yarn of the motif, main colour first.",
                also=[(motifs[motif.text].span, "the motif")],
            )
            return None
        return "motif", motif.text, held
    if not sound:
        return None
    if "RIB" in line.head.found:
        return f"rib {line.head.text('RIB')}", None, held
    return line.form.split()[1], None, held


def gauge(context: Context, line: Line) -> Gauge | None:
    """Give stitches and rows per cm from `40 sts = 13.6 cm, 40 rows = 12.2 cm` or `27 sts and 38 rows in 10 cm`."""
    if "N2" in line.head.found:
        rows, width = line.head.number("N2"), line.head.number("AMOUNT")
        height = width
    else:
        second = line.options.get("N2 rows = AMOUNT")
        if second is None:
            context.report(
                "E206",
                f"this `{line.keyword}` line needs its rows too",
                line.span,
                "only stitches stand here",
                f"Write such as `{line.keyword} 40 sts = 13.6 cm, 40 rows = 12.2 cm`.",
            )
            return None
        rows, width, height = second.number("N2"), line.head.number("AMOUNT"), second.number("AMOUNT")
    counts = whole(context, line.head.number("N1"), _FEWEST), whole(context, rows, _FEWEST)
    sides = length_cm(context, width), (length_cm(context, height) if height is not width else None)
    stitches, row_count, wide = counts[0], counts[1], sides[0]
    high = wide if height is width else sides[1]
    if stitches is None or row_count is None or wide is None or high is None:
        return None
    found = Gauge(stitches / wide, row_count / high, line.span, (stitches, row_count))
    for value, what in ((found.stitches, "stitches"), (found.rows, "rows")):
        if not _LEAST_PER_CM <= value <= _MOST_PER_CM:
            context.report(
                "E223",
                f"a gauge of {plain(value)} {what} to the cm is beyond all bounds",
                line.span,
                f"{plain(value)} {what} to the cm",
                "Check the counts and the units of this line.",
            )
            return None
    return found


def _weight(context: Context, line: Line) -> tuple[Fraction, int, int] | None:
    grams = positive(context, line.head.number("WEIGHT"), "weight")
    stitches = whole(context, line.head.number("N1"), _FEWEST)
    if "N2 rows" not in line.options:
        context.report(
            "E206",
            "this `weight` line needs the rows of the swatch too",
            line.span,
            "only stitches",
            "Write such as `weight 14.5 g of 52 sts, 60 rows`.",
        )
        return None
    rows = whole(context, line.options["N2 rows"].number("N2"), _FEWEST)
    return (grams[0], stitches, rows) if grams and stitches is not None and rows is not None else None


def _stretch(context: Context, line: Match, washed: Gauge | None) -> Fraction | None:
    """Give the ratio of the pulled width to the washed width of the same stitches."""
    stitches, width = whole(context, line.number("N"), _FEWEST), length_cm(context, line.number("AMOUNT"))
    if stitches is None or width is None or washed is None:
        return None
    ratio = width * washed.stitches / stitches
    if not 1 <= ratio <= 10:
        context.report(
            "E222" if ratio < 1 else "E223",
            f"pulled, the swatch is {plain(ratio)} times as wide as at rest",
            line.span,
            f"{told_length(context, stitches / washed.stitches)} at rest",
            "Write how wide the same stitches are when pulled as far as is comfortable.",
            also=[(washed.span, "the gauge at rest")],
        )
        return None
    return ratio


def find_swatch(context: Context, name: Name, swatches: Mapping[str, Swatch]) -> Swatch | None:
    """Give a swatch by name, or None after reporting it unknown (silently when it is broken)."""
    return swatches.get(name.text) if context.knows("swatch", name) else None
