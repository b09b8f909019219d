"""Charts of the motifs used: cells, starts of each piece and size, and the same rows in words."""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import groupby

from wale.materials import Motif, Swatch
from wale.motifs.words import in_words
from wale.pattern import Chart, ChartColour, ChartStart
from wale.plan import PiecePlan, Plan, Section
from wale.spec import Spec
from wale.stitches import TEXTURE, Stitch, groups
from wale.write.context import Context
from wale.write.multiples import multiples
from wale.write.said import said

PARTED = (
    "Where an edge, the beginning of a round, a neck or a shaping leaves only a part of a cable, or of the sts from a "
    "yarn over to the decrease that makes up for it, knit that part"
)
IN_TWO = "A cable with a number of sts in brackets goes on over the end of the repeat."
PAPER = "#ffffff"
WAYS = [way for one in TEXTURE.values() for way in (one.right, one.wrong)]
_SIGNS = ("•", "×", "○", "+", "-", "=", "L", "T", "Z", "*")


def mark(number: int) -> str:
    """Give the mark of a chart's colour by its number from 0: none, one sign, then two beside each other, and so on.

    No two numbers have the same mark, and none is that of a shaping in a chart of every stitch.
    """
    signs: list[str] = []
    while number:
        number, sign = divmod(number - 1, len(_SIGNS))
        signs.insert(0, _SIGNS[sign])
    return " ".join(signs)


def charts(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Chart, ...]:
    """Give a chart of each motif that is worked, flat and in the round apart, then of the crowns' own wedges."""
    worked: dict[tuple[str, bool], list[tuple[PiecePlan, Section]]] = {}
    wedges: dict[str, Swatch] = {}
    for piece in plan.pieces:
        for section in piece.sections:
            if section.fabric is not None and section.fabric.motif is not None:
                worked.setdefault((section.fabric.motif, piece.in_round), []).append((piece, section))
        action = piece.crown.step.action if piece.crown is not None else None
        chart = getattr(action, "chart", None)
        if chart is not None:
            wedges[chart] = spec.swatches[piece.sections[-1].swatch]
    result = []
    for (name, in_round), uses in worked.items():
        swatch = spec.swatches[uses[0][1].swatch]
        starts = _starts(spec, plan, uses, sizes)
        counts = [one.words() for one in multiples(plan, spec.motifs[name], in_round)]
        result.append(_chart(spec, spec.motifs[name], swatch, not in_round, starts, counts))
    result += [_wedge(spec, spec.motifs[name], swatch) for name, swatch in wedges.items()]
    return tuple(result)


def _chart(
    spec: Spec, motif: Motif, swatch: Swatch, flat: bool, starts: tuple[ChartStart, ...], counts: Sequence[str]
) -> Chart:
    colours = tuple(yarn for yarn, _ in motif.marks)
    rows = motif.charted(not flat)
    both = rows > motif.period
    cells = tuple(
        tuple(colours.index(motif.cell(motif.width - 1 - place, row)) for place in range(motif.width))
        for row in range(rows)
    )
    notes = [*counts, *(text for text in (in_words(*motif.captioned),) if text)]
    if motif.shift % motif.width:
        notes.append(
            f"The {len(motif.rows)} rows of the motif start {motif.shift % motif.width} sts along each time they are "
            f"repeated; the chart shows all {motif.period} rows until it stands as at first."
        )
    if both:
        notes.append("An odd number of rows: the chart shows the repeat twice, once begun on the RS, once on the WS.")
    if motif.is_texture and any(groups(row) for row in motif.rows):
        notes.append(f"{PARTED} (purl it on WS rows)." if flat else f"{PARTED}.")
        notes += [text for text in (figures_told(motif, rows),) if text]
    words = chart_words(colours, cells, flat, is_texture=motif.is_texture)
    if any(re.search(r"cable [0-9]+ \w+ \(", text) for _, text in words):
        notes.append(IN_TWO)
    notes += _origin(motif)
    return Chart(
        motif.name,
        cells,
        _stitches(colours, flat) if motif.is_texture else _colours(spec, colours),
        float(swatch.washed.rows / swatch.washed.stitches),
        flat,
        (1, motif.width, 1, rows),
        starts,
        words,
        tuple(notes),
        is_texture=motif.is_texture,
    )


def lace_figures(motif: Motif, rows: int) -> dict[tuple[tuple[int, int], ...], list[int]]:
    """Give the stretches of lace in which a yarn over and its decrease do not lie side by side, and their rows.

    Returns:
        By first and last columns, counted from 1 at the right, the rows of a chart of `rows` that have them.
    """
    found: dict[tuple[tuple[int, int], ...], list[int]] = {}
    for row in range(rows if motif.is_texture else 0):
        cells = [motif.cell(column, row) for column in range(motif.width)]
        lace = [one for one in groups(cells) or () if any(TEXTURE[cells[place]].gains for place in one)]
        if any(len(one) > 2 for one in lace):
            found.setdefault(tuple(sorted((one[0] + 1, one[-1] + 1) for one in lace)), []).append(row + 1)
    return found


def figures_told(motif: Motif, rows: int) -> str:
    """Tell the columns of lace figures, "" where there are none."""
    parts = []
    for stretches, which in lace_figures(motif, rows).items():
        columns = ", ".join(f"{first} to {last}" for first, last in stretches)
        parts.append(f"{'rows' if len(which) > 1 else 'row'} {', '.join(map(str, which))}: {columns}")
    return f"Columns that belong together, from the right: {'; '.join(parts)}." if parts else ""


def _wedge(spec: Spec, motif: Motif, swatch: Swatch) -> Chart:
    colours = tuple(yarn for yarn, _ in motif.marks)
    cells = tuple((-1,) * (motif.width - len(row)) + tuple(colours.index(yarn) for yarn in row) for row in motif.rows)
    return Chart(
        motif.name,
        cells,
        _colours(spec, colours),
        float(swatch.washed.rows / swatch.washed.stitches),
        False,
        (1, motif.width, 1, len(cells)),
        (),
        chart_words(colours, cells, False),
        ("One wedge. Where a row is a stitch shorter than the one below, k2tog at the wedge's end.", *_origin(motif)),
    )


def _origin(motif: Motif) -> list[str]:
    """Tell where a motif comes from, whose it is and who is thanked."""
    return [f"{kind.capitalize()}: {words}" for kind, words in motif.origin]


def _colours(spec: Spec, colours: tuple[str, ...]) -> tuple[ChartColour, ...]:
    return tuple(ChartColour(yarn, spec.yarns[yarn].colour, mark(number)) for number, yarn in enumerate(colours))


def _stitches(stitches: tuple[str, ...], flat: bool) -> tuple[ChartColour, ...]:
    """Give the cells of a texture, named by what is done: on the right side, and flat on the wrong side too."""
    return tuple(ChartColour(_worked(TEXTURE[one], flat), PAPER, TEXTURE[one].mark) for one in stitches)


def _worked(stitch: Stitch, flat: bool) -> str:
    """Say how a stitch is worked; one that is the same on both sides, or worked on one alone, is said once."""
    if not flat or stitch.wrong in ("", stitch.right):
        return stitch.right
    return f"{stitch.right} on RS rows, {stitch.wrong} on WS rows"


def chart_words(
    colours: tuple[str, ...], cells: tuple[tuple[int, ...], ...], flat: bool, *, is_texture: bool = False
) -> tuple[tuple[str, str], ...]:
    """Give each row as it is worked: right-side rows and rounds from the right, wrong-side rows from the left."""
    exact: dict[tuple[int, ...], str] = {}
    seen: dict[tuple[int, ...], str] = {}
    words = []
    for number, row in enumerate(cells, 1):
        wrong = flat and number % 2 == 0
        order = tuple(index for index in (row if wrong else row[::-1]) if index >= 0)
        names = [_told(colours[index], wrong) if is_texture else colours[index] for index in order]
        text = said(_whole(names) if is_texture else names, is_texture=is_texture)
        label = f"Row {number}" + (f" ({'WS' if wrong else 'RS'})" if flat else "")
        # of a texture rows are alike that are worked alike, of colours those that look alike
        order = tuple(map(list(dict.fromkeys(WAYS)).index, names)) if is_texture else order
        same = exact.get(order) or seen.get(order)
        words.append((label, f"{text} ({same})" if same is not None else text))
        exact.setdefault(order, f"as row {number}")
        for along in range(1, len(order)):
            begun = f", begun {along} {'st' if along == 1 else 'sts'} along"
            seen.setdefault(order[along:] + order[:along], f"as row {number}{begun}")
    return tuple(words)


def _told(stitch: str, wrong: bool) -> str:
    return TEXTURE[stitch].wrong if wrong else TEXTURE[stitch].right


def _whole(names: Sequence[str]) -> list[str]:
    """Give a row's stitches with each cable told once, one that goes on over the end of the repeat in two parts."""
    told: list[str] = []
    for name, run in groupby(names):
        cable = re.fullmatch(r"cable ([0-9]+) .*", name)
        times, part = divmod(len(list(run)), int(cable[1]) if cable is not None else 1)
        parts = [f"{name} ({part} {'st' if part == 1 else 'sts'})"] if part else []
        told += [name] * times + parts if told else parts + [name] * times
    return told


def _starts(
    spec: Spec, plan: Plan, uses: Sequence[tuple[PiecePlan, Section]], sizes: Sequence[int]
) -> tuple[ChartStart, ...]:
    """Where the first row of each piece and size starts, pieces and sizes with one start taken together."""
    found: dict[tuple[int, int], dict[str, list[str]]] = {}
    seen = set()
    for piece, section in uses:
        if piece.name in seen:
            continue
        seen.add(piece.name)
        for size in sizes:
            at = Context(spec, plan, piece, size)
            column, _ = at.start_columns(section, at.first_count(section))
            place = (column, at.chart_row(section, 1))
            found.setdefault(place, {}).setdefault(piece.name, []).append(plan.sizes[size])
    starts = []
    for (column, row), names in sorted(found.items()):
        everyone = len(sizes)
        texts = [
            name if len(which) == everyone or everyone == 1 else f"{name} {', '.join(which)}"
            for name, which in names.items()
        ]
        suffix = f" (row {row})" if row != 1 else ""
        starts.append(ChartStart("; ".join(texts) + suffix, column))
    return tuple(starts)
