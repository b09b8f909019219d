"""Instruction lines of hems, ribs, even sections and shapings."""

from __future__ import annotations

from fractions import Fraction

from wale.actions import EDGINGS, CastOn, Hem, Rib, Shape
from wale.materials import Swatch
from wale.plan import Section
from wale.shaping.gauge import nearest
from wale.write.context import Context, length_text, needle_text, unit
from wale.write.courses import course_lines
from wale.write.evenly import even_words
from wale.write.front_bands import beside_line, front_band_lines
from wale.write.insets import inset_lines
from wale.write.jog import jog_lines
from wale.write.lines import Line, Ordinal, Part, Rows, Sts, Times
from wale.write.row_ends import NO_ENDS, End, row_ends
from wale.write.side_edges import below_top
from wale.write.textures import edging_lines


def cast_on_lines(at: Context, action: CastOn, address: str) -> list[Line]:
    """Write the cast-on."""
    swatch = at.spec.swatches[action.swatch]
    needle = needle_of(at, at.piece.sections[0]) if at.piece.sections else swatch.needle_mm
    count = at.piece.levels[0].counts[at.size]
    manner = f" with a {action.manner} cast-on" if action.manner else ""
    parts: list[Part] = ["Cast on ", Sts(count), f" in {swatch.yarns[0]} on {needle_text(needle)} needles{manner}."]
    if at.piece.in_round:
        parts.append(" Join to a round without twisting; mark its start.")
    lines = [at.line(address, "", *parts)]
    if at.border:
        text = " of every row, RS rows and WS rows; they are a border of garter, outside ribs and charts."
        border: tuple[Part, ...] = ("knit the first and the last ", Sts(at.border), text)
        lines.append(at.line(f"{at.piece.name}.border", "Border", *border))
    return [*lines, *front_band_lines(at)]


def needle_of(at: Context, section: Section) -> Fraction:
    """Give the needle of a section in mm: a rib's own, else its swatch's."""
    action = section.step.action
    if isinstance(action, Rib) and action.needle_mm is not None:
        return action.needle_mm
    return at.swatch(section).needle_mm


def section_lines(at: Context, section: Section, index: int) -> list[Line]:
    """Write one section: what changes with it, then its rows."""
    lines = inset_lines(at, index)
    if index and needle_of(at, section) != needle_of(at, at.piece.sections[index - 1]):
        text = f"Change to {needle_text(needle_of(at, section))} needles."
        lines.append(at.line(f"{section.address}.needle", "", text))
    match section.kind:
        case "facing":
            lines += _plain(at, section, "Facing")
        case "turning":
            lines += _turning(at, section)
        case "front":
            lines += _plain(at, section, "Front of the hem")
        case "rib" | "garter" | "seed" | "moss" | "rolled":
            lines += _edging(at, section, index)
        case "work":
            lines += [*_opening(at, section, index), *_work(at, section)]
        case "shape":
            lines += [*_opening(at, section, index), *_shape(at, section)]
        case "bound":
            lines += [*_opening(at, section, index), *_named_fabric(at, section, index), *_bound(at, section)]
        case "crown":
            lines += _opening(at, section, index)
        case "course" | "aside":
            lines += course_lines(at, section)
    return lines


def _side(at: Context, is_right: bool) -> str:
    return "" if at.piece.in_round else f" ({'RS' if is_right else 'WS'})"


def _plain(at: Context, section: Section, lead: str) -> list[Line]:
    rows = section.rows[at.size]
    change = section.even_change[at.size] if section.even_change is not None else 0
    plain = rows - (1 if change else 0)
    parts: list[Part] = ["work ", at.rows(plain), f" in {plain_words(at.swatch(section))}"]
    parts.append("." if at.piece.in_round else ", beginning with a RS row.")
    lines = [at.line(section.address, lead, *parts)]
    if change:
        lines.append(_even_change(at, section, change, rows))
    return lines


def _even_start(at: Context, section: Section) -> list[Line]:
    """Write an even change on a section's first row."""
    change = section.even_start[at.size] if section.even_start is not None else 0
    if not change:
        return []
    return [_even_row(at, section, f"{section.address}.evened", 1, at.first_count(section) - change, change)]


def _even_change(at: Context, section: Section, change: int, row: int) -> Line:
    return _even_row(at, section, f"{section.address}.even", row, at.first_count(section), change)


def even_side(at: Context, section: Section, row: int) -> tuple[bool, bool]:
    """Say whether an even change on a row of a section falls on the right side, and whether it is knitted."""
    is_right = at.piece.in_round or row % 2 == 1
    return is_right, is_right or "garter" in (section.kind, at.swatch(section).stitch)


def _even_row(at: Context, section: Section, slot: str, row: int, before: int, change: int) -> Line:
    is_right, knitted = even_side(at, section, row)
    ends = NO_ENDS if at.piece.in_round else row_ends(at, is_right_side=is_right)
    words = even_words(before, change, is_right_side=knitted, in_round=at.piece.in_round, ends=ends)
    lead = f"Next {'round' if at.piece.in_round else 'row'}{_side(at, is_right)}"
    what = "increase " if change > 0 else "decrease "
    after_chart = section.kind in EDGINGS and slot.endswith(".evened")
    yarn = f"in {at.swatch(section).yarns[0]}, " if after_chart or at.motif(section) is not None else ""
    tail: tuple[Part, ...] = (". ", before + change, " sts.")
    return at.line(slot, lead, yarn + what, Sts(abs(change)), " evenly: ", *words, *tail)


def _turning(at: Context, section: Section) -> list[Line]:
    hem = section.step.action
    ridge = not isinstance(hem, Hem) or hem.fold == "purl ridge"
    if at.piece.in_round:
        words = ("purl",) if ridge else _pairs(at, section)
        lines = [at.line(section.address, "Turning round", *words, ". This round is the fold.")]
    else:
        words = ("knit",) if ridge else _pairs(at, section)
        lines = [at.line(section.address, "Turning row (WS)", *words, ". This row is the fold.")]
    if isinstance(hem, Hem) and hem.knitted_together:
        lines.append(_knitted_together(at, section))
    return lines


def fold_pairs(at: Context, section: Section) -> tuple[int, int, int]:
    """Give the pairs of a turning row that is no purl ridge, and the plain stitches before and after them.

    Pairs are (k2tog, yo), so the count stays, or (k1, sl1); edge stitches, and flat at least one stitch at each end,
    are no part of them. Sources: https://www.pressreader.com/australia/the-knitter/20210304/281715502337459,
    http://knitsimplemag.com/Beyond-the-Basics/hems.
    """
    count, least = at.first_count(section), 0 if at.piece.in_round else max(at.edge, 1)
    pairs = (count - 2 * least) // 2
    return pairs, least, count - 2 * pairs - least


def _pairs(at: Context, section: Section) -> tuple[Part, ...]:
    pairs, before, after = fold_pairs(at, section)
    plain = "k" if at.piece.in_round else "p"
    hem = section.step.action
    pair = f"{plain}1, sl1" if isinstance(hem, Hem) and hem.fold == "slipped" else f"{plain}2tog, yo"
    end = "k" if at.border else plain
    start: tuple[Part, ...] = (end, before, ", ") if before else ()
    tail: tuple[Part, ...] = (", ", end, after) if after else ()
    if at.border and after > before:
        tail = (", ", plain, after - before, ", ", end, before)
    return (*start, f"({pair}) ", Times(pairs), *tail)


def _knitted_together(at: Context, turning: Section) -> Line:
    """Say on which row above the fold the facing is knitted in: as high as the facing is deep, a right-side row."""
    index = at.piece.sections.index(turning)
    facing, above = at.piece.sections[index - 1], at.piece.sections[index + 1]
    row = nearest(facing.length(at.size) * above.rows_per_cm, 1 if at.piece.in_round else 2, at.piece.in_round ^ 1)
    word = "round" if at.piece.in_round else "row"
    where: tuple[Part, ...] = (f"on {word} ", row, f"{_side(at, True)} above the fold")
    text = ", knit the cast-on edge in, one of its sts with each st, what is missing spread evenly."
    return at.line(f"{turning.step.address}.join", "Hem", *where, text)


def _edging(at: Context, section: Section, index: int) -> list[Line]:
    action = section.step.action
    assert isinstance(action, Rib)
    rows, count = section.rows[at.size], at.first_count(section)
    change = section.even_change[at.size] if section.even_change is not None else 0
    lines = _even_start(at, section)
    plain, start = rows - (1 if change else 0) - len(lines), 1 + len(lines)
    after_chart = index > 0 and at.motif(at.piece.sections[index - 1]) is not None
    main = at.swatch(section).yarns[0]
    yarn, in_round = main if after_chart else "", at.piece.in_round
    lines += edging_lines(
        at, section.address, action, count, plain, in_round=in_round, main=main, start=start, yarn=yarn
    )
    if change:
        lines.append(_even_change(at, section, change, rows))
    return lines


def _opening(at: Context, section: Section, index: int) -> list[Line]:
    """Say what changes when a fabric begins: needle, chart, first column."""
    before = at.piece.sections[:index]
    if section.fabric is None or any(one.fabric == section.fabric for one in before):
        return []
    swatch, motif = at.swatch(section), at.motif(section)
    slot = section.step.address if index == 0 else section.address
    lines: list[Line] = []
    if motif is None:
        return [at.line(f"{slot}.plain", "", f"Continue in {plain_words(swatch)}.")]
    right, wrong = at.start_columns(section, at.first_count(section))
    row = at.chart_row(section, 1)
    begin = f"Begin chart {motif.name}{f', a texture in {swatch.yarns[0]},' if motif.is_texture else ''}"
    if at.piece.in_round:
        parts: tuple[Part, ...] = (
            f"{begin} on the next round with chart row ",
            row,
            ": start at column ",
            right,
            f" and repeat the {motif.width} columns to the {'end of the round' if at.piece.is_tube else 'steek'}.",
        )
        return [*lines, at.line(f"{slot}.chart", "", *parts), *jog_lines(at, section, slot)]
    parts = (
        f"{begin} on the next row (RS) with chart row ",
        row,
        ": RS rows start at column ",
        right,
        ", WS rows start at column ",
        wrong,
        f"; repeat the {motif.width} columns across.",
    )
    lines.append(at.line(f"{slot}.chart", "", *parts))
    if section.kind == "shape" and section.schedules[at.size].first == 1:
        after = at.first_count(section) + at.each_shaping(section)
        text = "That first row is a shaping row: its own first chart stitch is already column "
        lines.append(at.remark(f"{slot}.first", text, at.start_columns(section, after)[0], "."))
    if at.piece.half is not None and at.piece.half.band is not None:
        lines.append(beside_line(at, slot, swatch.yarns[0]))
    elif at.edge:
        yarn = at.piece.edge.yarn or swatch.yarns[0]
        plural = "st" if at.edge == 1 else "sts"
        text = f"Work {at.edge} edge {plural} in {yarn} at each end of every row, outside the chart."
        lines.append(at.line(f"{slot}.edge", "", text))
    return lines


def in_words(at: Context, section: Section) -> str:
    """Say what a section is worked in."""
    motif = at.motif(section)
    return f"chart {motif.name}" if motif is not None else plain_words(at.swatch(section))


def plain_words(swatch: Swatch) -> str:
    """Say a fabric without a motif."""
    return f"{plain_stitch(swatch)} in {swatch.yarns[0]}"


def plain_stitch(swatch: Swatch) -> str:
    """Name the stitch of a fabric without a motif; a swatch of a motif stands for its gauge only."""
    return "stockinette" if swatch.motif is not None else swatch.stitch


def chart_range(at: Context, section: Section, rows: int, start: int = 1) -> tuple[Part, ...]:
    """Say which chart rows a section covers from its row `start` to its row `rows`: 21 to 28, then 1 to 24."""
    motif = at.motif(section)
    if motif is None:
        return ()
    count, height, first = rows - start + 1, motif.charted(at.piece.in_round), at.chart_row(section, start)
    if count == 1:
        return (", chart row ", first)
    whole, rest = divmod(first - 1 + count, height)
    if not whole or (whole, rest) == (1, 0):
        return (", chart rows ", first, " to ", first + count - 1)
    if first == 1:
        parts: list[Part] = [", all chart rows ", Times(whole)]
    else:
        parts = [", chart rows ", first, f" to {height}" if first < height else ""]
        if whole > 1:
            parts += [", then all rows ", Times(whole - 1)]
    if rest:
        parts += [", then 1 to ", rest] if rest > 1 else [", then 1"]
    return tuple(parts)


def _work(at: Context, section: Section) -> list[Line]:
    rows = section.rows[at.size]
    change = section.even_change[at.size] if section.even_change is not None else 0
    lines = _even_start(at, section)
    below = below_top(at, section)
    plain = below - (1 if change else 0) - len(lines)
    if plain > 0:
        parts: tuple[Part, ...] = ("Work ", at.rows(plain), f" in {in_words(at, section)}")
        lines.append(at.line(section.address, "", *parts, *chart_range(at, section, plain), "."))
    if change:
        lines.append(_even_change(at, section, change, rows))
    return [*lines, *_measured_below(at, section)]


def _measured_below(at: Context, section: Section) -> list[Line]:
    """Say how long the piece is above a section, unless its last rows are told with the neck."""
    ends = at.piece.top is not None and section is at.piece.sections[-1]
    rows = section.rows[at.size]
    return measured(at, section) if rows and below_top(at, section) == rows and not ends else []


def measured(at: Context, section: Section) -> list[Line]:
    """Say how long the piece is now, washed and on the needles."""
    spec, swatch = at.spec, at.swatch(section)
    washed = section.position[at.size]
    hem = any(isinstance(step.action, Hem) for step in at.piece.steps)
    turn = at.piece.anew
    turned = turn is not None and at.piece.sections.index(section) >= turn
    begun = "the fold" if hem else "the join" if at.piece.joined else "the cast-on"
    origin = f"the {at.piece.sections[turn].folds}" if turned and turn else begun
    parts: list[Part] = ["The piece measures about ", length_text(spec, washed)]
    parts.append(f" {unit(spec)} from {origin}, washed")
    if swatch.counted is not None:
        on_needles = washed * swatch.washed.rows / swatch.counted.rows
        parts += ["; ", length_text(spec, on_needles), f" {unit(spec)} as measured on the needles"]
    return [at.remark(f"{section.address}.measured", *parts, ".")]


def _shape(at: Context, section: Section) -> list[Line]:
    address, rows = section.address, below_top(at, section)
    schedule = section.schedules[at.size].up_to(rows)
    change = at.each_shaping(section) * schedule.steps
    lines = []
    if change:
        lines += _shaping_rows(at, section, change > 0, {row % 2 == 1 for row in schedule.rows()})
        word = "increase" if change > 0 else "decrease"
        parts: list[Part] = [f"Work the {word} row on row ", schedule.first, " from here"]
        for interval, times in schedule.then:
            parts += [", then on every ", Ordinal(interval), " row ", Times(times)]
        parts += [f"; work the other rows even in {in_words(at, section)}", *chart_range(at, section, rows)]
        parts += [": ", Rows(rows), ", ", at.first_count(section) + change, " sts."]
        lines.append(at.line(address, "", *parts))
    elif rows:
        tail = chart_range(at, section, rows)
        lines.append(at.line(address, "", "Work ", Rows(rows), f" in {in_words(at, section)}", *tail, "."))
    return [*lines, *_measured_below(at, section)]


def _named_fabric(at: Context, section: Section, index: int) -> list[Line]:
    """Name the fabric of rows that bind off right above a cast-on or an edge, for their own words do not."""
    before = [one for one in at.piece.sections[:index] if one.rows[at.size]]
    if section.fabric is not None or not below_top(at, section) or (before and before[-1].kind not in EDGINGS):
        return []
    return [at.line(f"{section.address}.plain", "", f"Continue in {plain_words(at.swatch(section))}.")]


def _bound(at: Context, section: Section) -> list[Line]:
    """Write the two rows that bind off at their starts, one side each; a half piece works one of them even."""
    motif, after = at.motif(section), at.first_count(section)
    inside, lines = "work in chart" if motif is not None else "work", []
    if not below_top(at, section):
        return []
    for row, side in ((1, "RS"), (2, "WS")):
        where, count, address = chart_range(at, section, row, row), at.bound_at(section, row), f"{section.address}.row"
        after -= count
        if count:
            parts: tuple[Part, ...] = ("bind off ", Sts(count), f", {inside} to the end", *where, ". ", Sts(after), ".")
            lines.append(at.line(f"{address}.{side}", f"Next row ({side})", *parts))
        else:
            even = f" in {in_words(at, section)}"
            lines.append(at.line(f"{address}.{side}", "", "Work ", at.rows(1), even, *where, "."))
    return [*lines, *measured(at, section)]


def _shaping_rows(at: Context, section: Section, grows: bool, right: set[bool]) -> list[Line]:
    """Say the shaping row, on whichever sides it falls; `right` are those: True the right side.

    Leans are mirrored as seen from the right side: a wrong-side row starts at the left edge, where `p2tog` leans right.
    """
    action = section.step.action
    assert isinstance(action, Shape)
    inside = "work in chart" if at.motif(section) is not None else "work"
    works = {"RS": ("m1L", "m1R") if grows else ("ssk", "k2tog"), "WS": ("m1p", "m1p") if grows else ("p2tog", "ssp")}
    sides = {side: work for side, work in works.items() if (side == "RS") in right}
    half = at.piece.half
    change = f"{at.piece.ends_shaped} {'st' if half is not None else 'sts'} {'more' if grows else 'fewer'}"
    lines = []
    for side, (first, last) in sides.items():
        # of a half piece the end at the side is shaped; the other one is at the opening
        begins = half is None or (half.side == "right") == (side == "RS")
        ends = half is None or not begins
        first_end, last_end = row_ends(at, is_right_side=side == "RS")
        start, end = (_end_words(at, one) for one in (first_end, last_end))
        start, end = f"{start}, " if start else "", f", {end}" if end else ""
        taken = last_end.stitches + (0 if grows or not ends else 2)
        upto = f"to the last {taken} st{'' if taken == 1 else 's'}" if taken else "to the end"
        words = f"{start}{f'{first}, ' if begins else ''}{inside} {upto}{f', {last}' if ends else ''}{end}. {change}."
        lead = f"Each {'increase' if grows else 'decrease'} row ({side})"
        lines.append(at.line(f"{section.address}.row.{side}", lead, words))
    return lines


def _end_words(at: Context, end: End) -> str:
    """Name the stitches at an end of a shaping row."""
    if not end.stitches:
        return ""
    is_band = bool(end.words) and not at.border
    return f"{end.stitches} {'band' if is_band else 'edge'} {'st' if end.stitches == 1 else 'sts'}"
