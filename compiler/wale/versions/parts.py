"""A spec as the parts that a merge takes and leaves: blocks, their statements, and the comments of each.

Input: the text of one version, LF line ends. Nothing is read but which words start a line and what continues it, so a
spec that cannot be parsed has parts too. `lines_of` gives the text back, to the letter.
"""

from __future__ import annotations

import re
from collections import Counter
from itertools import pairwise

from msgspec import Struct

from wale.parse.lines import HEADS, Line, lay_out
from wale.parse.parser import EDITION
from wale.source import Source

_NAMELESS = (EDITION, "pattern", "sizes", "join")
"""What a file has one of: its name says nothing."""

_NAMED = ("measure", "ease", "use", "work", "shape", "pick", "seam", "set")
"""Keywords that may stand several times, told apart by the word that follows."""

_BEFORE = ("give", "takes")
"""Keywords that are told apart by the word before the sign `=`, or by the last one."""

CONSTRUCTION = "construction"

Key = tuple[str, str, int]
"""Kind or keyword, name, and the how-manieth of both: what makes a part the same one in two versions."""
_OWN: Key = ("", "", 0)


class Statement(Struct, frozen=True):
    """One logical line as typed.

    Attributes:
        key: keyword, the word that tells it apart, and the how-manieth of these in its block.
        above: comments and blank lines that it owns, as typed.
        code: its text with its margin, without the comment at its end; several physical lines where it is continued.
        rest: what stands behind the code on its last physical line: spaces and a comment.
    """

    key: Key
    above: tuple[str, ...]
    code: str
    rest: str

    @property
    def said(self) -> str:
        """What it says, however it is spaced."""
        return " ".join(self.code.split())

    @property
    def lines(self) -> list[str]:
        """Its physical lines, comments included."""
        return [*self.above, *(self.code + self.rest).split("\n")]


class Part(Struct, frozen=True):
    """A block, a `let` line, the edition, or a stray line, with all that it owns.

    Attributes:
        key: kind, name, and the how-manieth of these in the file.
        statements: its head, then its lines.
        ending: indented comments below the last of them.
    """

    key: Key
    statements: tuple[Statement, ...]
    ending: tuple[str, ...] = ()

    @property
    def said(self) -> tuple[str, ...]:
        """What it says, comments included, however it is spaced."""
        return tuple(" ".join(line.split()) for line in self.lines if line.strip())

    @property
    def lines(self) -> list[str]:
        """Its physical lines."""
        return [*(line for one in self.statements for line in one.lines), *self.ending]


class Group(Struct, frozen=True):
    """Parts that may change places with one another, and the key of the construction that has them."""

    key: Key
    parts: tuple[Part, ...] = ()


class Parts(Struct, frozen=True):
    """A whole file: its parts, and the comments and blank lines below the last of them."""

    parts: tuple[Part, ...]
    tail: tuple[str, ...] = ()

    @property
    def groups(self) -> tuple[Group, ...]:
        """What stands above the constructions, then each of them with what stands below its line."""
        at = [place for place, part in enumerate(self.parts) if part.key[0] == CONSTRUCTION]
        ends = (*at, len(self.parts))
        below = (Group(self.parts[first].key, self.parts[first:after]) for first, after in pairwise(ends))
        return Group(_OWN, self.parts[: ends[0]]), *below

    @property
    def lines(self) -> list[str]:
        """Its physical lines."""
        return [*(line for part in self.parts for line in part.lines), *self.tail]


def parts_of(text: str) -> Parts:
    """Take the text of a spec apart."""
    source = Source("", text)
    layout = lay_out(source)
    heads = [at for at, line in enumerate(layout.lines) if line.owner < 0]
    parts: list[Part] = []
    seen: Counter[tuple[str, str]] = Counter()
    for first, after in zip(heads, [*heads, len(layout.lines)][1:], strict=True):
        above = layout.lines[first].above
        if parts:
            ending, above = _parted(above)
            parts[-1] = Part(parts[-1].key, parts[-1].statements, ending)
        kind, name = _identity(source, layout.lines[first])
        if kind == CONSTRUCTION:  # names of blocks are its own
            seen = Counter({key: times for key, times in seen.items() if key[0] == CONSTRUCTION})
        statements = _statements(source, layout.lines[first:after], above)
        parts.append(Part((kind, name, seen[kind, name]), statements))
        seen[kind, name] += 1
    tail = layout.tail
    if parts:
        ending, tail = _parted(tail)
        parts[-1] = Part(parts[-1].key, parts[-1].statements, ending)
    return Parts(tuple(parts), tail)


def _parted(notes: tuple[str, ...]) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Part the lines between two blocks: indented comments right below the upper one are its own."""
    left = next((at for at, note in enumerate(notes) if note.strip() and not note[0].isspace()), len(notes))
    last = max((at for at in range(left) if notes[at].strip()), default=-1)
    return notes[: last + 1], notes[last + 1 :]


def _identity(source: Source, line: Line) -> tuple[str, str]:
    """Give kind and name of what starts at the left edge; a stray line is known by its words."""
    words = re.split(r"[\s,=]+", source.text[line.start : line.end], maxsplit=2)
    if line.first in _NAMELESS:
        return line.first, ""
    if line.owner == -1 and line.first in (*HEADS, "let"):
        return line.first, words[1] if len(words) > 1 else ""
    return "", " ".join(source.text[line.start : line.end].split())


def _statements(source: Source, lines: list[Line], above: tuple[str, ...]) -> tuple[Statement, ...]:
    seen: Counter[tuple[str, str]] = Counter()
    found = []
    for at, line in enumerate(lines):
        start = source.text.rfind("\n", 0, line.start) + 1
        stop = source.text.find("\n", line.end)
        rest = source.text[line.end : len(source.text) if stop < 0 else stop]
        words = source.text[line.start : line.end].split()
        name = words[1].strip(",") if len(words) > 1 and (line.first in _NAMED) and at else ""
        if line.first in ("work", "shape") and name not in ("in", "to"):
            name = ""
        if line.first in _BEFORE:
            name = source.text[line.start : line.end].partition("=")[0].split()[-1]
        key = line.first, name, seen[line.first, name]
        seen[line.first, name] += 1
        found.append(Statement(key, line.above if at else above, source.text[start : line.end], rest))
    return tuple(found)
