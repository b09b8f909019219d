"""The pattern as a document, section by section. Everything printed is gathered here; nothing is computed later."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from typing import Literal

from wale import __version__
from wale.checks.care import care
from wale.draft.bands import ARMHOLES
from wale.draft.pocket_edges import POCKET
from wale.draft.widths import EVEN_STEPS
from wale.pattern import Bullets, Caution, Chart, Definitions, Paragraph, Part, Pattern, Section, Steps, Table
from wale.plan import PiecePlan, Plan
from wale.problems.problem import Problem
from wale.quantity import units_in_text
from wale.spec import Assumption, Spec
from wale.write.bands import band_lines
from wale.write.charts import charts
from wale.write.colours import colour_table
from wale.write.context import Context
from wale.write.drawing import drawing
from wale.write.glossary import abbreviations
from wale.write.going_on import crown_float_list, float_list, ring_table
from wale.write.lines import Line, Merged, merge
from wale.write.making_up import finishing_steps, goes_round_armholes, shoulder_steps
from wale.write.materials import gauge_parts, needles, skills, yarn_definitions
from wale.write.measurements import deviation_table, finished_table
from wale.write.pieces import piece_lines
from wale.write.placing import starts
from wale.write.schematics import schematics
from wale.write.strands import strand_list
from wale.write.yarn_table import yarn_parts

BRACKETS = (
    "Figures for several sizes stand in brackets, in the order {sizes}; a single figure holds for all. A line that "
    "begins with sizes is for those only, and its brackets hold their figures alone."
)
PROVEN = (
    "Before it was written, this pattern was knitted from its own printed words, stitch by stitch, every piece in "
    "every size printed here. Proven: each row can be worked; stitches after every row, sides, chart rows, colours and "
    "leans, the ends and the joined edges are as chosen; finished widths and lengths follow from that fabric by the "
    "gauge, and the yarn table from its stitches of each colour. Not proven: notes, making up, what goes on over what, "
    "and the gauge itself."
)
FEW = 4
"""Fewest steps in common for which a piece refers to another."""


Extra = Literal["charts", "rows", "test-knit", "drawings"]
"""Printed only when asked for: a chart of every stitch of each piece, a sheet row by row, a sheet for a test knit, and
how each size and the fabric look."""


def document(
    spec: Spec, plan: Plan, sizes: Sequence[int], problems: Iterable[Problem] = (), extras: Sequence[Extra] = ()
) -> Pattern:
    """Write the whole pattern.

    Args:
        sizes: indexes of the sizes to print, in order, at least one.
        problems: warnings and cautions that the pattern prints too.
        extras: what else to print; it makes a document long.
    """
    names = tuple(plan.sizes[size] for size in sizes)
    bands = [_band_section(spec, plan, number, sizes) for number in range(len(plan.bands))]
    drawn = charts(spec, plan, sizes)
    sections = [
        Section("measurements", "Sizes and finished measurements", _sizes(spec, plan, sizes)),
        Section(
            "materials",
            "Yarn, needles and notions",
            (yarn_definitions(spec), *yarn_parts(spec, plan, sizes), needles(spec, plan)),
        ),
        Section("gauge", "Gauge", gauge_parts(spec, plan)),
        Section("skills", "Before you begin", _before(spec, plan, drawn, names)),
        *piece_sections(spec, plan, sizes),
        *_finish(spec, plan, sizes, bands),
    ]
    if drawn:
        sections.append(
            Section(
                "charts",
                "Charts",
                (
                    *drawn,
                    *colour_table(spec, plan, every="drawings" in extras),
                    *float_list(spec, plan),
                    *crown_float_list(spec, plan, sizes),
                    *strand_list(spec, plan),
                ),
            )
        )
    sections.append(Section("schematics", "Schematics", schematics(spec, plan, sizes)))
    sections += _extras(spec, plan, sizes, extras)
    sections.append(Section("care", "Care", tuple(Paragraph(text) for text in care(spec))))
    cautions = _cautions(problems)
    if cautions:
        sections.insert(1, Section("cautions", "Cautions", cautions))
    sections.append(Section("assumptions", "Assumptions and deviations", _assumptions(spec, plan, sizes)))
    sections.append(Section("version", "Version", _version(spec)))
    sections = [section for section in sections if section.parts]
    sections.append(Section("proof", "What was proven", (Paragraph(PROVEN),)))
    glossary = abbreviations(_texts(sections))
    first = next(i for i, section in enumerate(sections) if section.id.startswith("piece-"))
    sections.insert(first, Section("abbreviations", "Abbreviations and terms", (Definitions(glossary),)))
    return Pattern(
        spec.title,
        f"Version {spec.version}. {spec.about}".strip() if spec.version else spec.about,
        names,
        spec.paper,
        drawing(spec, plan, sizes[len(sizes) // 2]),
        tuple(sections),
        f"wale {__version__}",
        keywords=("hand knitting", *(motif for motif in spec.motifs)),
    )


def _extras(spec: Spec, plan: Plan, sizes: Sequence[int], extras: Sequence[Extra]) -> Iterator[Section]:
    if "charts" in extras:
        from wale.write.whole_charts import whole_charts

        yield Section("whole-charts", "Charts of every stitch", whole_charts(spec, plan, sizes))
    if "rows" in extras:
        from wale.write.row_sheet import row_sheets

        yield Section("rows", "Row by row", tuple(table for size in sizes for table in row_sheets(spec, plan, size)))
    if "drawings" in extras:
        from wale.write.looks import looks

        yield Section("looks", "How it looks", looks(spec, plan, sizes))
    if "test-knit" in extras:
        from wale.yardage.sheet import sheet_section

        yield sheet_section(spec, plan, sizes)


def _finish(spec: Spec, plan: Plan, sizes: Sequence[int], bands: Sequence[Section]) -> list[Section]:
    """Order what follows the pieces: bands stand between the seams they need and the rest."""
    before, after = shoulder_steps(spec, plan, sizes), finishing_steps(spec, plan, sizes)
    if not bands:
        return [Section("making-up", "Making up", (Steps((*before, *after)),))]
    seams = "seams" if goes_round_armholes(spec) else "shoulders"
    first = Section("joining", f"Blocking and {seams}", (Steps(before),))
    return [first, *bands, Section("making-up", "Making up", (Steps(after),))]


def _worn(piece: PiecePlan) -> str:
    """Say where a half piece lies in the garment, and where its rows begin."""
    if piece.half is None:
        return ""
    begin, end = ("side edge", "front edge") if piece.half.hand == "left" else ("front edge", "side edge")
    return f" It is the {piece.half.hand} half as worn: RS rows start at the {begin} and end at the {end}."


def piece_sections(spec: Spec, plan: Plan, sizes: Sequence[int]) -> list[Section]:
    """Write all pieces in the printed sizes; a piece that begins like an earlier one refers to its steps."""
    names = [plan.sizes[size] for size in sizes]
    sections = []
    earlier: list[tuple[str, list[tuple[str, str]]]] = []
    for piece in plan.pieces:
        lines = merged_lines(spec, plan, piece, sizes)
        texts = [line.text(names) for line in lines]
        other, shared = _shared(earlier, texts)
        earlier.append((piece.name, texts))
        how = "Worked in the round from the cast-on up" if piece.in_round else "Worked flat from the bottom up"
        how += ", and cut open along a steek" if piece.steek is not None else ""
        make = f" Make {piece.make}." if piece.make > 1 else ""
        parts: list[Part] = [Paragraph(f"{how}.{_worn(piece)}{make}")]
        if shared:
            parts.append(Paragraph(f"Work steps 1 to {shared} of the {other}, then go on with step {shared + 1}."))
        parts += _steps_and_tables(spec, plan, piece, lines[shared:], sizes, shared + 1)
        sections.append(Section(f"piece-{piece.name}", piece.name.capitalize(), tuple(parts)))
    return sections


def _shared(earlier: Sequence[tuple[str, list[tuple[str, str]]]], texts: list[tuple[str, str]]) -> tuple[str, int]:
    """Give the earlier piece that begins with the most of the same lines, and how many (none below FEW).

    The last line is always written, so that there is a step to go on with where two pieces are alike.
    """
    best = ("", 0)
    for name, other in earlier:
        pairs = zip(other, texts[:-1], strict=False)
        same = next((i for i, (one, two) in enumerate(pairs) if one != two), min(len(other), len(texts) - 1))
        if same >= max(FEW, best[1] + 1):
            best = (name, same)
    return best


def merged_lines(spec: Spec, plan: Plan, piece: PiecePlan, sizes: Sequence[int]) -> tuple[Merged, ...]:
    """Give a piece's lines in bracket notation."""
    return merge([piece_lines(Context(spec, plan, piece, size)) for size in sizes])


def _steps_and_tables(
    spec: Spec, plan: Plan, piece: PiecePlan, lines: Sequence[Merged], sizes: Sequence[int], number: int
) -> list[Part]:
    """Number the lines; after each shaping stands where its rows start."""
    shaped = {f"{section.address}.measured": section for section in piece.sections if section.kind == "shape"}
    parts: list[Part] = []
    gathered: list[Merged] = []
    for line in lines:
        gathered.append(line)
        found = starts(spec, plan, piece, shaped[line.slot], sizes) if line.slot in shaped else ()
        if found:
            parts += [_steps(gathered, plan, sizes, number), *found]
            number += len(gathered)
            gathered = []
    if gathered:
        parts.append(_steps(gathered, plan, sizes, number))
    return parts


def _steps(lines: Sequence[Merged], plan: Plan, sizes: Sequence[int], number: int = 1) -> Steps:
    names = [plan.sizes[size] for size in sizes]
    items = []
    for line in lines:
        lead, text = line.text(names)
        items.append(Paragraph(text, f"{lead}:" if lead else "", line.slot))
    return Steps(tuple(items), start=number)


def _band_section(spec: Spec, plan: Plan, number: int, sizes: Sequence[int]) -> Section:
    band, planned = spec.bands[number], plan.bands[number]
    rows: list[list[Line]] = [band_lines(Context(spec, plan, plan.pieces[0], size), band, planned) for size in sizes]
    sides = " and the sides" if any(edge == ARMHOLES for _, edge in band.edges) else ""
    make = f" Make {band.make}." if band.make > 1 else ""
    held = [name for name, edge in band.edges if edge == POCKET]
    when = f"the {held[0]} is done" if held else f"the shoulders{sides} are joined"
    before = Paragraph(f"Worked after {when}.{make}")
    return Section(f"band-{band.name}", band.name.capitalize(), (before, _steps(merge(rows), plan, sizes)))


def _sizes(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Part, ...]:
    parts: list[Part] = []
    if len(sizes) > 1:
        parts.append(Paragraph(BRACKETS.format(sizes=", ".join(plan.sizes[size] for size in sizes))))
    return (*parts, finished_table(spec, plan, sizes), *ring_table(spec, plan, sizes))


def _before(spec: Spec, plan: Plan, drawn: Sequence[Chart], names: Sequence[str]) -> tuple[Part, ...]:
    items = [Paragraph(text) for text in skills(spec, plan)]
    if drawn:
        colours = "knit on RS rows and rounds, purl on WS rows"
        if any(chart.is_texture for chart in drawn):
            only = all(chart.is_texture for chart in drawn)
            stitches = "work each stitch as the key of the chart says for that side"
            colours = stitches if only else f"in charts of colours {colours}, in those of stitches {stitches}"
        items.append(
            Paragraph(
                "Charts show the right side. Read RS rows and rounds from right to left, WS rows from left to right; "
                f"{colours}. Columns are counted from the right."
            )
        )
    if len(names) > 1:
        items.append(Paragraph("Mark the figures of your size throughout before you cast on."))
    return (Bullets(tuple(items)),) if items else ()


def _version(spec: Spec) -> tuple[Part, ...]:
    told = (Paragraph(f"This is version {spec.version} of the pattern."),) if spec.version else ()
    if not spec.changes:
        return told
    return (*told, Paragraph("It changes:"), Bullets(tuple(Paragraph(one) for one in spec.changes)))


def _cautions(problems: Iterable[Problem]) -> tuple[Part, ...]:
    titles = {"caution": "Caution", "warning": "Please check"}
    return tuple(
        Caution(titles[one.severity], f"{one.message[:1].upper()}{one.message[1:]}. {one.help}".strip())
        for one in problems
        if one.severity in titles
    )


def _assumptions(spec: Spec, plan: Plan, sizes: Sequence[int]) -> tuple[Part, ...]:
    noted = [one for one in spec.assumptions if one.holds(sizes)]
    names = [plan.sizes[size] for size in sizes]
    items = [Paragraph(f"{one.said(sizes, spec.units)} Basis: {_basis(spec, one, sizes, names)}.") for one in noted]
    weights = {"even-steps": EVEN_STEPS, **{name: weight for name, (weight, _) in spec.preferences.items()}}
    told = ", ".join(f"{name} {float(weight):g}" for name, weight in weights.items())
    items.append(Paragraph(f"Weights of squared deviations: {told}, all else 1; a line `prefer` changes them."))
    return (Bullets(tuple(items)), deviation_table(spec, plan, sizes))


def _basis(spec: Spec, one: Assumption, sizes: Sequence[int], names: Sequence[str]) -> str:
    """Give the sources of an assumption; what one of them has beyond another is told of its sizes alone."""
    whose: dict[str, list[str]] = {}
    for size, name in zip(sizes, names, strict=True):
        source = one.sources[size] if one.sources else one.source
        if source:
            whose.setdefault(source, []).append(name)
    told = []
    for source, named in whose.items():
        longer = [other for other in whose if other != source and other.startswith(f"{source};")]
        shorter = [other for other in whose if other != source and source.startswith(f"{other};")]
        if longer:
            continue
        sized = f", in size{'s' if len(named) > 1 else ''} {', '.join(named)}" if shorter else ""
        told.append(f"{source}{sized}")
    return units_in_text("; ".join(told), spec.units)


def _texts(sections: Iterable[Section]) -> Iterable[str]:
    for section in sections:
        for part in section.parts:
            if isinstance(part, Steps | Bullets):
                for item in part.items:
                    yield f"{item.strong} {item.text}"
            elif isinstance(part, Paragraph):
                yield f"{part.strong} {part.text}"
            elif isinstance(part, Table):
                yield f"{part.caption} {' '.join(cell for row in part.rows for cell in row)} {part.note}"
            elif isinstance(part, Definitions):
                yield " ".join(f"{term} {meaning}" for term, meaning in part.items)
            elif isinstance(part, Chart):
                yield " ".join(f"{label} {text}" for label, text in part.words)
