"""A written pattern knitted from its file: what came off the needles, and what is wrong with the text."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from wale.problems.problem import Label, Problem
from wale.prove.book import Book, Piece, Step, Unread, locate, read_book
from wale.prove.charts import Charts, ReadChart, read_chart
from wale.prove.fabric import Contradiction
from wale.prove.hand_words import HandLine
from wale.prove.reader import Unreadable, lines_of
from wale.prove.trial import Trial, work_through
from wale.prove.words import Instruction
from wale.source import Source, Span

MOST_EXPECTED = 8
"""Most things named that could stand in a place."""
MOST_PROBLEMS = 100
"""Most problems of a file that are told."""
WORDING = "`docs/instructions.md` shows the wording. `Note:` in front of a line marks it as one that only tells."


class Knitted(Struct, frozen=True):
    """A pattern file, the trials of its pieces in each size, and its problems in the order of lines.

    Attributes:
        lines: number of the file's line for each instruction of a trial.
    """

    book: Book
    trials: tuple[Trial, ...]
    lines: dict[tuple[str, str], tuple[int, ...]]
    problems: tuple[Problem, ...]


def knit_pattern(source: Source, wanted: Sequence[str] = ()) -> Knitted:
    """Knit all pieces of a pattern file.

    Args:
        wanted: sizes to knit, of those that the file names; by default all.
    """
    book = read_book(source.text)
    problems = [_unread(source, piece, one) for piece in book.pieces for one in piece.unread]
    charts = _charts(source, book, problems)
    trials: list[Trial] = []
    lines: dict[tuple[str, str], tuple[int, ...]] = {}
    if not book.pieces:
        problems.append(_problem("E854", "no line of this file is an instruction", source, 1))
    for piece in book.pieces:
        bad: dict[int, str] = {}
        for index, size in enumerate(book.sizes):
            if wanted and size not in wanted:
                continue
            steps = list(_steps(piece, book.sizes, index, bad))
            lines[piece.name, size] = tuple(number for number, _, _ in steps)
            trials.append(work_through(piece.name, size, [(text, said) for _, text, said in steps], charts))
        problems += [
            _problem("E855", f"{piece.name}: {message}", source, number, WORDING) for number, message in bad.items()
        ]
    problems += _of_trials(source, trials, lines)
    problems.sort(key=lambda one: one.labels[0].span.start if one.labels else 0)
    return Knitted(book, tuple(trials), lines, tuple(problems[:MOST_PROBLEMS]))


def _steps(
    piece: Piece, sizes: Sequence[str], size: int, bad: dict[int, str]
) -> Iterator[tuple[int, str, Instruction | HandLine]]:
    """Give the instructions of one size with their lines; brackets that do not fit are noted in `bad`."""
    for step in piece.steps:
        if step.reading is None:
            continue
        try:
            for text, said in lines_of([step.reading], sizes, size):
                yield step.number, text, said
        except Unreadable as error:
            bad[step.number] = str(error).removesuffix(f": {step.reading.text}")


def _charts(source: Source, book: Book, problems: list[Problem]) -> Charts:
    charts: dict[tuple[str, bool], ReadChart] = {}
    for number, name, words in book.charts:
        try:
            chart = read_chart(words)
        except Contradiction as error:
            told = f"chart {name}: {error}"
            problems.append(_problem("E856", told, source, number, "Write each row as `Row 2 (WS): 1 flour, 3 rye`."))
            continue
        charts[name, chart.is_flat] = chart
    return charts


def _unread(source: Source, piece: Piece, one: Unread) -> Problem:
    rows = source.text.split("\n")
    line, column = locate(rows, one.number, one.error.place)
    start = source.line_starts[line - 1] + column
    end = max(start, source.line_starts[line - 1] + len(rows[line - 1].rstrip()))
    expected = one.error.expected
    more = " or another thing" if len(expected) > MOST_EXPECTED else ""
    label = f"expected here: {', '.join(expected[:MOST_EXPECTED])}{more}" if expected else ""
    rest = source.text[start : min(end, start + 30)].strip() or "its end"
    told = f"{piece.name}: a line does not read from `{rest}` on" if expected else f"{piece.name}: {one.error}"
    return Problem("E851", told, (Label(Span(source.name, start, end), label),), WORDING)


def _of_trials(
    source: Source, trials: Sequence[Trial], lines: dict[tuple[str, str], tuple[int, ...]]
) -> Iterator[Problem]:
    """Give stops and contradictions; what is the same in several sizes is told once."""
    found: dict[tuple[str, int, str, str], list[str]] = {}
    for trial in trials:
        numbers = lines[trial.piece, trial.size]
        for one in trial.stated:
            if one.message:
                told = f"after row {one.row} {one.message}"
                found.setdefault(("E853", numbers[one.line], trial.piece, told), []).append(trial.size)
        if trial.stop is not None:
            told = f"row {trial.stop.row + 1} cannot be worked: {trial.stop.message}"
            found.setdefault(("E852", numbers[trial.stop.line], trial.piece, told), []).append(trial.size)
    for (code, number, piece, told), sizes in found.items():
        names = [size for size in sizes if size]
        where = f"{piece}, size {', '.join(names)}" if names else piece
        how = "Nothing after this line was knitted." if code == "E852" else "The rest was knitted with what is there."
        yield _problem(code, f"{where}: {told}", source, number, how)


def _problem(code: str, message: str, source: Source, number: int, advice: str = "") -> Problem:
    text = source.line(number)
    end = source.line_starts[number - 1] + len(text.rstrip())
    span = Span(source.name, end - len(text.strip()), end)
    return Problem(code, message, (Label(span),), advice)


def remarks(book: Book) -> tuple[Step, ...]:
    """Give the lines of pieces that only tell, each once, in order."""
    found = {step.number: step for piece in book.pieces for step in piece.steps if step.reading is None}
    return tuple(found[number] for number in sorted(found))
