"""A written pattern as a text file: its sizes, pieces with their lines, charts in words, and what is only told.

The form, which the text of a compiled pattern has too: a heading stands alone between blank lines, with or without a
number; steps are numbered, marked with a dash, or bare; what is indented goes on, and so does a bare line that begins
with a small letter, a figure or a bracket. A section in which no line reads as an instruction is prose.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec import Struct, field

from wale.prove.hand_words import HandLine
from wale.prove.reader import Reading, Unreadable, read_by_hand
from wale.prove.words import Instruction, Refer

_SIZES = re.compile(r"Sizes?:? ([^:().]+?)(?: \(([^()]*)\))?\.?")
_HEADING = re.compile(r"(?:[0-9]+\. )?([^-.:,].{0,58}[^.:,;])")
_STEP = re.compile(r"(?:([0-9]+)\. |- )(.*)")
_CHART = re.compile(r"Chart ([^:]+):.*")
_OF_EVERY_STITCH = re.compile(r"[^:]+, size [^:]+")
"""The name of a chart of every stitch: it tells once more what the lines tell, and none of them follows it."""
_CHART_ROW = re.compile(r"((?:Row|Round) [0-9]+(?: \((?:RS|WS)\))?):? ([0-9(a-z].*)")
_GOES_ON = re.compile(r"[a-z0-9(\[*]")
_REMARK = re.compile(
    r"(?:sizes? [^:]+: )?(?:note|remark|source|hint)\b.*"
    r"|(?:sizes? [^:]+: )?(?:the piece measures|that first row is|each wedge keeps|begin at) .*"
    r"|(?:the [^:.]+ is worked before the next opening\.|cut the yarn and leave the sts on|slip the held sts of the) .*"
    r"|these sts are the foot of the placket\. .*"
    r"|worked (?:flat|in the round|after)\b.*"
    r"|(?:sizes? [^:]+: )?after row .* are bound off; fasten off\."
    r"|.*, after each shaping (?:row|round): .*"
    r"|[^:]+: [0-9]+: [0-9]+ sts?\b.*"
    r"|.*:",
    re.I | re.S,
)
"""What only tells: notes and sources, remarks of compiled patterns, and parts of a piece such as `Heel:`."""
_PARAGRAPH = re.compile(r"[^:]+, after each shaping (?:row|round):")
"""How a paragraph of a compiled pattern begins that goes on to the next blank line, unindented."""
_LARGE = re.compile(r"[0-9]{7,}")
MOST_UNREAD = 100
"""Most lines that are told as unreadable."""

ChartLines = tuple[int, str, tuple[tuple[str, str], ...]]
"""A chart: the number of its first line, its name, its rows as (label, words)."""


class Unread(Struct, frozen=True):
    """A line that does not read: number of its first line, what it says, and where reading stopped."""

    number: int
    text: str
    error: Unreadable


class Step(Struct, frozen=True):
    """A line of a piece: number in the file, and how it reads; None where it only tells. `label` 0: not numbered."""

    number: int
    label: int
    text: str
    reading: Reading[Instruction | HandLine] | None


class Piece(Struct, frozen=True):
    """A piece with its steps, those that it takes from another piece first."""

    name: str
    number: int
    steps: tuple[Step, ...]
    unread: tuple[Unread, ...]

    @property
    def remarks(self) -> int:
        """How many of its lines only tell."""
        return sum(step.reading is None for step in self.steps)


class Book(Struct, frozen=True):
    """A pattern file.

    Attributes:
        sizes: in the order of the brackets; a single "" where the pattern names none.
        charts: as they stand in the file, but for those of every stitch.
        prose: headings of sections without instructions.
    """

    sizes: tuple[str, ...]
    pieces: tuple[Piece, ...]
    charts: tuple[ChartLines, ...]
    prose: tuple[str, ...]


class _Section(Struct):
    name: str
    number: int
    lines: list[tuple[int, str]] = field(default_factory=list)


def read_book(text: str) -> Book:
    """Read a pattern file."""
    raw = [line.rstrip() for line in text.split("\n")]
    sizes: tuple[str, ...] = ()
    charts: list[ChartLines] = []
    sections = [_Section("piece", 1)]
    number = 0
    while number < len(raw):
        line = raw[number]
        number += 1
        chart = _CHART.fullmatch(line)
        if chart is not None:
            opened = number
            rows, number = _chart(raw, number)
            if rows and not _OF_EVERY_STITCH.fullmatch(chart[1].strip()):
                charts.append((opened, chart[1].strip(), rows))
        elif not sizes and (named := _SIZES.fullmatch(line)):
            sizes = _names(named[1], named[2])
        elif _is_heading(raw, number - 1):
            sections.append(_Section(_HEADING.fullmatch(line)[1], number))  # type: ignore[index]
        else:
            sections[-1].lines.append((number, line))
    return _book(sizes, sections, tuple(charts))


def _names(first: str, rest: str | None) -> tuple[str, ...]:
    names = f"{first}, {rest}" if rest else first
    return tuple(name.strip() for name in names.split(",") if name.strip())


def _is_heading(raw: Sequence[str], place: int) -> bool:
    line = raw[place]
    alone = (place == 0 or not raw[place - 1]) and (place + 1 == len(raw) or not raw[place + 1])
    return bool(line) and alone and not line.startswith(" ") and _HEADING.fullmatch(line) is not None


def _chart(raw: Sequence[str], number: int) -> tuple[tuple[tuple[str, str], ...], int]:
    """Read a chart's rows up to the next blank line, from line `number` (from 0) on; give where it ends, too."""
    rows: list[list[str]] = []
    while number < len(raw) and (raw[number] or not rows):
        line = raw[number]
        found = _CHART_ROW.fullmatch(line)
        if found is not None:
            rows.append([found[1].replace("Round", "Row"), found[2]])
        elif rows and line.startswith(" "):
            rows[-1][1] += " " + line.strip()
        elif not line and not (number + 1 < len(raw) and _CHART_ROW.fullmatch(raw[number + 1])):
            break
        number += 1
    return tuple((label, words.rstrip(".")) for label, words in rows), number


def _book(sizes: tuple[str, ...], sections: Sequence[_Section], charts: tuple[ChartLines, ...]) -> Book:
    pieces: list[Piece] = []
    prose = []
    for section in sections:
        names = [piece.name.lower() for piece in pieces]
        alike = sum(name.partition(" (")[0] == section.name.lower() for name in names)
        piece = _piece(section, f"{section.name} ({alike + 1})" if alike else section.name, pieces)
        if piece is not None:
            pieces.append(piece)
        elif section.lines and section is not sections[0]:
            prose.append(section.name)
    if not sizes:
        widest = max((_width(step) for piece in pieces for step in piece.steps), default=1)
        sizes = tuple(str(size) for size in range(1, widest + 1)) if widest > 1 else ("",)
    return Book(sizes, tuple(pieces), charts, tuple(prose))


def _width(step: Step) -> int:
    return len(step.reading.instructions) if step.reading is not None else 1


def _piece(section: _Section, name: str, earlier: Sequence[Piece]) -> Piece | None:
    """Read a section, or give None where nothing in it is an instruction."""
    steps: list[Step] = []
    unread: list[Unread] = []
    is_piece = False
    for number, label, text in _paragraphs(section.lines):
        if _REMARK.fullmatch(text):
            steps.append(Step(number, label, text, None))
            continue
        try:
            reading = _read(text)
            is_piece = True
            said = reading.instructions[0]
            if isinstance(said, Refer):
                steps += _referred(said, earlier)
            else:
                steps.append(Step(number, label, text, reading))
        except Unreadable as error:
            unread.append(Unread(number, text, error))
    if not is_piece:
        return None
    is_title = section.number == 1 and bool(unread) and unread[0].number == 1
    return Piece(name, section.number, tuple(steps), tuple(unread[is_title:][:MOST_UNREAD]))


def _read(text: str) -> Reading[Instruction | HandLine]:
    large = _LARGE.search(text)
    if large is not None:
        raise Unreadable(f"the figure {large[0]} is larger than any of knitting", large.start())
    return read_by_hand(text if text.endswith(".") else f"{text}.")


def _referred(said: Refer, earlier: Sequence[Piece]) -> tuple[Step, ...]:
    """Give the steps that a piece takes over: by their printed numbers, or counted where none are printed."""
    found = next((piece for piece in earlier if piece.name.lower() == said.piece.lower()), None)
    if found is None:
        raise Unreadable(f"there is no piece {said.piece} before this one")
    told = [step for step in found.steps if step.label or step.reading is not None]
    labels = [step.label or place for place, step in enumerate(told, 1)]
    if said.last not in labels:
        raise Unreadable(f"the {said.piece} has no step {said.last}")
    return tuple(told[: labels.index(said.last) + 1])


def _paragraphs(lines: Sequence[tuple[int, str]]) -> Iterator[tuple[int, int, str]]:
    """Put wrapped lines together; give each with its first line's number and its own, marks of steps taken off."""
    number, label, text, is_told = 0, 0, "", False
    for at, line in lines:
        step = _STEP.fullmatch(line)
        goes_on = line.startswith(" ") or (step is None and (is_told or _GOES_ON.match(line) is not None))
        if line and text and goes_on:
            text += " " + line.strip()
            continue
        if text:
            yield number, label, text
        number, text = at, step[2] if step is not None else line.strip()
        label = int(step[1] or 0) if step is not None else 0
        is_told = step is None and _PARAGRAPH.match(text) is not None
    if text:
        yield number, label, text


def locate(lines: Sequence[str], number: int, place: int) -> tuple[int, int]:
    """Give the line (from 1) and column (from 0) of a place in a step that begins on line `number`."""
    step = _STEP.fullmatch(lines[number - 1].rstrip())
    start = step.start(2) if step is not None else len(lines[number - 1]) - len(lines[number - 1].lstrip())
    while place > (length := len(lines[number - 1].rstrip()) - start) and number < len(lines):
        place -= length + 1
        number += 1
        start = len(lines[number - 1]) - len(lines[number - 1].lstrip())
    return number, start + min(place, length)
