"""Two prints compared line by line: what to strike out, insert, or read for what, in the order of the old print.

Lines are told apart by their words without figures. Where those are the same, each figure that differs is an entry of
its own ("for 159 read 161"); any other line is struck out, or read anew as a whole.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from difflib import SequenceMatcher
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from wale.errata.printed import Line

SHARE = Fraction(1, 2)
"""The largest share of the instructions that errata may touch: where more change, most of the print is not to be
trusted by itself (a choice of ours, no source)."""
FIGURE = re.compile(r"\d+(?:[./]\d+)*")
_GROUP = re.compile(r"(\d[\d./]*) \((\d[\d./]*(?:, \d[\d./]*)*)\)")


class Reading(Struct, frozen=True):
    """For `old` read `new`; it is the `count`th (from 1) of `times` places where the line has `old` as a figure.

    `size` is the size whose figure it is, "" where it holds for all.
    """

    old: str
    new: str
    count: int
    times: int
    size: str


class Entry(Struct, frozen=True):
    """What to do at one line of the old print.

    Attributes:
        kind: `figures`: read other figures; `words`: read the whole line anew; `strike`: strike it out; `after`:
            insert a line after it (where `place` is "", at the section's beginning).
        readings: the figures, for `figures`.
        text: the new line, for `words` and `after`.
        is_step: it is an instruction.
    """

    kind: Literal["figures", "words", "strike", "after"]
    section: str
    place: str
    readings: tuple[Reading, ...] = ()
    text: str = ""
    is_step: bool = False


class Errata(Struct, frozen=True):
    """The entries in the old print's order, how many instructions it has and how many of them change.

    `redesign` says why it is no correction but another pattern, "" where it is one.
    """

    entries: tuple[Entry, ...]
    steps: int
    changed: int
    redesign: str


def compare(old: Sequence[Line], new: Sequence[Line], sizes: tuple[str, ...], new_sizes: tuple[str, ...]) -> Errata:
    """Compare two prints.

    Args:
        old, new: their lines.
        sizes, new_sizes: their sizes, in order.
    """
    titles = list(dict.fromkeys(line.section for line in old))
    entries: list[Entry] = []
    for title in titles:
        entries += _section(
            [one for one in old if one.section == title], [one for one in new if one.section == title], sizes
        )
    for title in dict.fromkeys(line.section for line in new):
        if title not in titles:
            added = [one for one in new if one.section == title]
            entries += [Entry("after", title, "", text=one.text, is_step=one.is_step) for one in added]
    steps = sum(line.is_step for line in old)
    changed = len({(one.section, one.place, one.kind == "after", one.text) for one in entries if one.is_step})
    return Errata(tuple(entries), steps, changed, _redesign(old, new, sizes, new_sizes, steps, changed))


def _redesign(
    old: Sequence[Line],
    new: Sequence[Line],
    sizes: tuple[str, ...],
    new_sizes: tuple[str, ...],
    steps: int,
    changed: int,
) -> str:
    pieces, others = ([one.section for one in lines if one.is_step] for lines in (old, new))
    gone = [piece for piece in dict.fromkeys(pieces) if piece not in others]
    come = [piece for piece in dict.fromkeys(others) if piece not in pieces]
    if gone:
        return f"the new pattern has no {gone[0].lower()}"
    if come:
        return f"the new pattern has a piece more, {come[0].lower()}"
    if sizes != new_sizes:
        return f"the sizes were {', '.join(sizes)} and are {', '.join(new_sizes)}"
    if changed > SHARE * steps:
        return f"{changed} of {steps} steps change, more than half"
    return ""


def _section(old: Sequence[Line], new: Sequence[Line], sizes: tuple[str, ...]) -> Iterator[Entry]:
    keys = [[_words(line) for line in lines] for lines in (old, new)]
    for tag, start, end, first, last in SequenceMatcher(None, keys[0], keys[1], autojunk=False).get_opcodes():
        before, after = old[start:end], new[first:last]
        for one, other in zip(before, after, strict=False):
            if tag == "equal":
                readings = tuple(_readings(one, other, sizes))
                if readings:
                    yield Entry("figures", one.section, one.place, readings, is_step=one.is_step)
            else:
                yield Entry("words", one.section, one.place, (), other.text, one.is_step)
        for one in before[len(after) :]:
            yield Entry("strike", one.section, one.place, is_step=one.is_step)
        place = old[start + len(before) - 1].place if start + len(before) else ""
        for other in after[len(before) :]:
            yield Entry("after", other.section, place, (), other.text, other.is_step)


def _words(line: Line) -> tuple[str, bool]:
    return FIGURE.sub("#", line.text), line.is_step


def _readings(old: Line, new: Line, sizes: tuple[str, ...]) -> Iterator[Reading]:
    figures = list(FIGURE.finditer(old.text))
    whose = _sizes_of(old, sizes)
    words = [figure[0] for figure in figures]
    for number, (figure, other) in enumerate(zip(figures, FIGURE.findall(new.text), strict=True)):
        if figure[0] != other:
            count, times = words[: number + 1].count(figure[0]), words.count(figure[0])
            yield Reading(figure[0], other, count, times, whose.get(figure.start(), old.size))


def _sizes_of(line: Line, sizes: tuple[str, ...]) -> dict[int, str]:
    """Give the size of each figure in brackets by its offset; a line that begins with sizes is for those alone."""
    lead = re.match(r"Sizes? ([^:]*):", line.text)
    named = tuple(name for name in (lead[1].split(", ") if lead else ()) if name in sizes) or sizes
    found: dict[int, str] = {}
    for group in _GROUP.finditer(line.text):
        figures = list(FIGURE.finditer(line.text, group.start(), group.end()))
        if len(figures) == len(named):
            found |= {figure.start(): name for figure, name in zip(figures, named, strict=True)}
    return found
