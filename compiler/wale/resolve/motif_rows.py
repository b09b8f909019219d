"""The rows of a motif as they are typed: bar rows, their key and the `repeat` line that checks them."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Mapping, Sequence

from wale.materials import Yarn
from wale.motifs.size import MOST_ROWS, MOST_STITCHES, counted, crowding, size_words
from wale.parse.tree import Bars, Name, Statement
from wale.problems.problem import Edit, Fix
from wale.resolve.amounts import whole
from wale.resolve.context import Context, near_word
from wale.resolve.shapes import Line
from wale.source import Span
from wale.stitches import TEXTURE, groups

_CELL = re.compile(r"\S+")


def is_bars(statement: Statement) -> bool:
    """Say whether a statement is a bar row."""
    return not statement.keyword.text and len(statement.items) == 1 and isinstance(statement.items[0], Bars)


def read_key(context: Context, line: Line, yarns: Mapping[str, Yarn]) -> dict[str, str] | None:
    """Give the yarn of each mark of a `key` line."""
    return _marked(context, line, "YARN", lambda yarn: context.knows("yarn", yarn) and yarn.text in yarns)


def read_stitches(context: Context, line: Line) -> dict[str, str] | None:
    """Give the stitch of each mark of a `stitches` line."""
    return _marked(context, line, "STITCH", lambda stitch: _is_stitch(context, stitch))


def _is_stitch(context: Context, stitch: Name) -> bool:
    if stitch.text in TEXTURE:
        return True
    near = near_word(stitch.text, TEXTURE)
    context.report(
        "E255",
        f"`{stitch.text}` is no stitch of a texture",
        stitch.span,
        f"did you mean `{near}`?" if near else "not known",
        f"Stitches, as they look from the right side: {', '.join(TEXTURE)}.",
        fixes=[Fix(f"write `{near}`", (Edit(stitch.span, near),))] if near else [],
    )
    return False


def _marked(context: Context, line: Line, slot: str, knows: Callable[[Name], bool]) -> dict[str, str] | None:
    """Give what each mark of a line stands for."""
    key: dict[str, str] = {}
    sound = True
    for match in (line.head, *line.listed):
        mark, name = match.text("CELL").strip(), match.name(slot)
        place = match.found["CELL"][0].span
        if not mark or _CELL.fullmatch(mark) is None:
            context.report(
                "E241",
                "a mark of the key is one sign or word between its bars",
                place,
                "no mark",
                "Write such as `key |-| rye, |x| flour`.",
            )
            sound = False
        elif mark in key:
            context.report(
                "E207",
                f"the mark `{mark}` stands twice in the key",
                place,
                "the second one",
                "Give each yarn its own mark." if slot == "YARN" else "Give each stitch its own mark.",
            )
            sound = False
        key[mark] = name.text
        sound = knows(name) and sound
    return key if sound else None


def read_cells(context: Context, statement: Statement, row: int, key: Mapping[str, str]) -> tuple[str, ...] | None:
    """Give a row's yarns left to right; an unknown cell is reported by row and column."""
    bars = statement.items[0]
    assert isinstance(bars, Bars)
    found = []
    for number, cell in enumerate(_CELL.finditer(bars.text), 1):
        mark = cell.group()
        if mark not in key:
            start = bars.span.start + cell.start()
            span = Span(bars.span.file, start, start + len(mark))
            near = near_word(mark, key)
            glued = len(mark) > 1 and all(sign in key for sign in mark)
            hint = "Leave a space between cells. " if glued else ""
            context.report(
                "E241",
                f"cell {number} of row {row} is `{mark}`, which is not in the key",
                span,
                "not in the key; row 1 is the lowest, cell 1 on the left",
                f"{hint}Marks of the key: {', '.join(f'`{each}`' for each in key)}.",
                fixes=[Fix("put spaces between", (Edit(span, " ".join(mark)),))]
                if glued
                else [Fix(f"write `{near}`", (Edit(span, near),))]
                if near
                else [],
            )
            return None
        found.append(key[mark])
    if not found:
        context.report("E240", "this row has no cells", bars.span, "empty", "Write one mark for each stitch.")
        return None
    return tuple(found)


def read_size(context: Context, repeat: Line, example: tuple[int, int]) -> tuple[int, int] | None:
    """Give the stitches and rows of a `repeat` line; one without rows is reported with an example's."""
    if "N2 rows" not in repeat.options:
        context.report(
            "E206",
            "this `repeat` line needs its rows too",
            repeat.span,
            "only stitches stand here",
            f"Write `repeat {size_words(*example)}`.",
        )
        return None
    numbers = repeat.head.number("N1"), repeat.options["N2 rows"].number("N2")
    stitches, rows = (whole(context, number) for number in numbers)
    return (stitches, rows) if stitches is not None and rows is not None else None


def fit(context: Context, repeat: Line, bars: list[Statement], rows: tuple[tuple[str, ...], ...], wedge: bool) -> bool:
    """Say whether the rows agree with each other and with the `repeat` line."""
    size = read_size(context, repeat, (len(rows[0]), len(rows)))
    if size is None:
        return False
    stitches, row_count = size
    numbers = repeat.head.number("N1"), repeat.options["N2 rows"].number("N2")
    if not _even_rows(context, bars, rows, wedge, stitches):
        return False
    if len(rows) != row_count or len(rows[0]) != stitches:
        wrote = size_words(len(rows[0]), len(rows))
        context.report(
            "E242",
            f"the repeat says {size_words(stitches, row_count)}, and the bar rows are {wrote}",
            numbers[0].span.to(numbers[1].span),
            f"the rows below: {wrote}",
            "Mend the `repeat` line or the rows.",
            fixes=[Fix(f"write `{wrote}`", (Edit(numbers[0].span.to(numbers[1].span), wrote),))],
            also=[(bars[0].span.to(bars[-1].span), counted(len(rows), "row"))],
        )
        return False
    if len(rows) > MOST_ROWS or len(rows[0]) > MOST_STITCHES:
        context.report(
            "E223",
            f"a motif has at most {MOST_STITCHES} stitches and {MOST_ROWS} rows",
            repeat.span,
            "larger than that",
            "Split the picture into several motifs.",
        )
        return False
    return True


def _even_rows(
    context: Context, bars: list[Statement], rows: tuple[tuple[str, ...], ...], wedge: bool, stitches: int
) -> bool:
    lengths = [len(row) for row in rows]
    if wedge:
        for index in range(1, len(rows)):
            if lengths[index] > lengths[index - 1]:
                context.report(
                    "E240",
                    f"row {index + 1} of the wedge has {lengths[index]} cells, more than the "
                    f"{lengths[index - 1]} of the row below",
                    bars[len(rows) - 1 - index].span,
                    f"{lengths[index]} cells",
                    "The rows of a wedge get shorter upwards.",
                )
                return False
        return True
    usual = stitches if stitches in lengths else Counter(lengths).most_common(1)[0][0]
    sound = True
    for index, length in enumerate(lengths):
        if length != usual:
            context.report(
                "E240",
                f"row {index + 1} of the motif has {length} cells, the others have {usual}",
                bars[len(rows) - 1 - index].span,
                f"{length} cells; row 1 is the lowest",
                f"Write {usual} cells in each row; a crown's wedge, whose rows get shorter, says so in a line `wedge`.",
            )
            sound = False
    return sound


def crowded_help(row: tuple[str, ...]) -> str:
    """Say what to do with a row of three colours or more: do without all but the two of the most stitches."""
    return (
        "Several strands carried behind every stitch are slow and thick; most stranded motifs keep to two colours. "
        f"Knit the row without {' and '.join(crowding(row))} and embroider in duplicate stitch, or spread the colours "
        "over rows of their own."
    )


def count_colours(context: Context, bars: list[Statement], rows: tuple[tuple[str, ...], ...]) -> None:
    """Warn of each row that has more than two colours."""
    for index, row in enumerate(rows):
        colours = tuple(dict.fromkeys(row))
        if len(colours) > 2:
            context.report(
                "W243",
                f"row {index + 1} of the motif has {len(colours)} colours: {', '.join(colours)}",
                bars[len(rows) - 1 - index].span,
                f"{len(colours)} colours in one row",
                crowded_help(row),
            )


def whole_stitches(context: Context, name: str, rows: tuple[tuple[str, ...], ...], places: Sequence[Span]) -> bool:
    """Say whether each row of a texture can be worked: it keeps its stitches and has whole cables.

    Args:
        rows: bottom row first, each left to right.
        places: of the rows.
    """
    sound = True
    for number, (row, place) in enumerate(zip(rows, places, strict=True), 1):
        one_sided = next((cell for cell in row if not TEXTURE[cell].wrong), "")
        if groups(row[::-1]) is None:
            gained = sum(TEXTURE[cell].gains for cell in row)
            why = f"gains {gained} sts" if gained > 0 else f"loses {-gained} sts" if gained else "has a part of a cable"
            why = why.replace(" 1 sts", " 1 st")
            help = (
                "Give the row as many yarn overs as its decreases take stitches away (k3tog, sssk and s2kp take two), "
            )
            help += "and put as many cells of a cable side by side as it has stitches."
        elif one_sided and (number % 2 == 0 or len(rows) % 2):
            why = f"has {one_sided} and is worked on the wrong side where the piece is flat"
            help = "Give the motif an even number of rows, and such stitches odd ones; row 1 is the lowest."
        else:
            continue
        context.report("E257", f"row {number} of the motif `{name}` {why}", place, "row 1 is the lowest", help)
        sound = False
    return sound
