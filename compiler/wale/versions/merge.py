"""Two versions of a spec made one: block by block, line by line where both changed a block, size by size in a list.

Input: the texts of the version that both sides began with, of ours and of theirs. Output: one text. Where both sides
changed the same thing, both stand there between git's marks, and only there. Spaces alone count as no change.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Sequence

from msgspec import Struct

from wale.versions.parts import Part, Parts, Statement, parts_of
from wale.versions.sequences import Three, keyed, pick, regions
from wale.versions.size_lists import ByNames, merged_names, size_names

_FREE = ("pattern", "yarn", "swatch", "sizes", "body", "make", "construction")
"""Blocks whose lines may stand in any order; in all others the order says what is done when."""


_OPEN = re.compile(r"^<{7,} .*\n(?:.*\n)*?>{7,} .*\n", re.M)
"""What git could not settle where both sides began with two versions and it made one of them (a criss-cross merge)."""


class Marks(Struct, frozen=True):
    """How a conflict is marked: git's signs, so many of them, and what the sides are called.

    `with_base` shows the version that both began with, as `merge.conflictStyle diff3` asks for.
    """

    size: int = 7
    ours: str = "ours"
    base: str = "base"
    theirs: str = "theirs"
    with_base: bool = False


PLAIN = Marks()
"""Marks as git sets them where nothing else is asked for."""


class Merged(Struct, frozen=True):
    """What became of two versions: the text, and the kind and name of each block with a conflict."""

    text: str
    conflicts: tuple[str, ...] = ()


def merge(base: str, ours: str, theirs: str, marks: Marks = PLAIN) -> Merged:
    """Merge two versions of a spec.

    Args:
        base: what both sides began with; "" where both added the file.
        ours, theirs: the text of each side. Line ends and a byte order mark become those of `ours`.
    """
    settled = _OPEN.sub("", _plain(base))
    versions = parts_of(settled), parts_of(_plain(ours)), parts_of(_plain(theirs))
    return _Merge(versions, marks).done(ours)


def _plain(text: str) -> str:
    return text.removeprefix("\ufeff").replace("\r\n", "\n")


class _Merge:
    """One merge while it is made."""

    def __init__(self, versions: Three[Parts], marks: Marks) -> None:
        self.versions = versions
        self.marks = marks
        self.conflicts: list[str] = []
        base, ours, theirs = map(size_names, versions)
        merged = merged_names(base, ours, theirs)
        self.by_names = ByNames((base, ours, theirs, merged)) if merged is not None else None

    def done(self, ours: str) -> Merged:
        """Merge everything."""
        lines: list[str] = []
        one, two, three = self.versions
        for groups in keyed((one.groups, two.groups, three.groups), key=lambda group: group.key):
            sides = tuple(group.parts if group is not None else () for group in groups)
            for base, mine, other in keyed((sides[0], sides[1], sides[2]), key=lambda part: part.key):
                lines += self._part(base, mine, other)
        lines += _notes(one.tail, two.tail, three.tail)
        text = "".join(line + "\n" for line in lines)
        if "\r\n" in ours:
            text = text.replace("\n", "\r\n")
        return Merged(("\ufeff" if ours.startswith("\ufeff") else "") + text, tuple(dict.fromkeys(self.conflicts)))

    def _part(self, base: Part | None, mine: Part | None, other: Part | None) -> list[str]:
        """Give the lines of one block."""
        said = [part.said if part is not None else None for part in (base, mine, other)]
        if base is None and (mine is None or other is None):
            return _lines(mine or other)
        if said[1] == said[2] or said[2] == said[0]:
            return _lines(other if _lines(mine) == _lines(base) else mine)
        if said[1] == said[0]:
            return _lines(other)
        if mine is None or other is None:
            return self._clash(mine or other, base, mine, other)
        sides = base or Part(mine.key, ()), mine, other
        title = f"{mine.key[0]} {mine.key[1]}".strip() or mine.key[1]
        lines = self._free(title, *sides) if mine.key[0] in _FREE else self._steps(title, *sides)
        return [*lines, *_notes(*(side.ending for side in sides))]

    def _free(self, title: str, base: Part, mine: Part, other: Part) -> list[str]:
        """Give the lines of a block whose lines are known by their keywords."""
        triples = keyed((base.statements, mine.statements, other.statements), key=lambda one: one.key)
        return [line for triple in triples for line in self._statement(title, *triple)]

    def _steps(self, title: str, *sides: Part) -> list[str]:
        """Give the lines of a block whose lines stand in order."""
        lines: list[str] = []
        base, mine, other = (side.statements for side in sides)
        for at in regions(*([one.said for one in side.statements] for side in sides)):
            lines += self._region(title, (base[at[0]], mine[at[1]], other[at[2]]))
        return lines

    def _region(self, title: str, sides: Three[Sequence[Statement]]) -> list[str]:
        """Give the lines of a stretch: line by line where that is sure, else one side's where the other left it."""
        old, mine, other = ([one.key for one in side] for side in sides)
        if old == mine == other:
            triples: Sequence[Three[Statement | None]] = list(zip(*sides, strict=True))
            return [line for triple in triples for line in self._statement(title, *triple)]
        base, ours, theirs = ([one.said for one in side] for side in sides)
        if pick(base, ours, theirs) is not None:
            return _whole(sides[0], *((sides[2], sides[1]) if ours == base else (sides[1], sides[2])))
        both_added = set(mine) - set(old) and set(other) - set(old)
        if both_added or any(len({key[:2] for key in keys}) < len(keys) for keys in (old, mine, other)):
            self.conflicts.append(title)
            return _marked(self.marks, *(_all_lines(side) for side in sides))
        by_key = keyed(sides, key=lambda one: one.key)
        return [line for triple in by_key for line in self._statement(title, *triple)]

    def _statement(self, title: str, *triple: Statement | None) -> list[str]:
        """Give the lines of one statement."""
        base, mine, other = triple
        said = [one.said if one is not None else None for one in triple]
        if mine is None or other is None:
            kept = mine or other
            if kept is None or base is None:
                return kept.lines if kept is not None else []
            if kept.said == base.said:  # taken away by the other side; a new comment stays
                return _whole([base], [], [kept])
        else:
            code = self._code(triple, said)
            if code is not None:
                nothing: tuple[str, ...] = ()
                above = _notes(base.above if base is not None else nothing, mine.above, other.above)
                rest = _rest(base, mine, other)
                if rest is None:
                    return [*above, _margin(mine) + other.rest.strip(), *(code + mine.rest).split("\n")]
                return [*above, *(code + rest).split("\n")]
        self.conflicts.append(title)
        return _marked(self.marks, *(one.lines if one is not None else [] for one in triple))

    def _code(self, triple: Sequence[Statement | None], said: Sequence[str | None]) -> str | None:
        """Give the code of a statement that both sides have; None where they clash."""
        base, mine, other = triple
        assert mine is not None and other is not None
        if said[1] == said[2] or said[2] == said[0]:
            is_respaced = base is not None and said[1] == said[0] and mine.code == base.code
            return other.code if is_respaced else mine.code
        if said[1] == said[0]:
            return other.code
        if base is None or self.by_names is None:
            return None
        codes = base.code, mine.code, other.code
        return self.by_names.head(codes) if mine.key[0] == "sizes" else self.by_names.code(codes)

    def _clash(self, part: Part | None, *sides: Part | None) -> list[str]:
        """Give a block that one side took away and the other changed."""
        assert part is not None
        self.conflicts.append(f"{part.key[0]} {part.key[1]}".strip())
        return _marked(self.marks, *(_lines(side) for side in sides))


def _lines(part: Part | None) -> list[str]:
    return part.lines if part is not None else []


def _all_lines(statements: Sequence[Statement]) -> list[str]:
    return [line for one in statements for line in one.lines]


def _whole(base: Sequence[Statement], kept: Sequence[Statement], left: Sequence[Statement]) -> list[str]:
    """Give a stretch as one side has it, and above it the comments that the other side wrote new."""
    old, here, other = (
        [note.strip() for one in side for note in (*one.above, one.rest) if note.strip()] for side in (base, kept, left)
    )
    margin = _margin((*kept, *left)[0])
    return [*(margin + note for note in other if note not in (*old, *here)), *_all_lines(kept)]


def _margin(statement: Statement) -> str:
    return statement.code[: len(statement.code) - len(statement.code.lstrip())]


def _notes(base: Sequence[str], ours: Sequence[str], theirs: Sequence[str]) -> Sequence[str]:
    """Merge comments: those of the side that changed them, or of both where both did."""
    old, mine, other = ([note.strip() for note in notes if note.strip()] for notes in (base, ours, theirs))
    if mine == other or other == old:
        return theirs if mine == old and list(ours) == list(base) else ours
    if mine == old:
        return theirs
    return [*ours, *(note for note in theirs if note.strip() and note.strip() not in (*mine, *old))]


def _rest(base: Statement | None, mine: Statement, other: Statement) -> str | None:
    """Merge what stands behind a statement; None where both sides changed it."""
    chosen = pick(*(one.rest.strip() if one is not None else "" for one in (base, mine, other)))
    if chosen is None:
        return None
    return mine.rest if mine.rest.strip() == chosen else other.rest


def _marked(marks: Marks, base: list[str], ours: list[str], theirs: list[str]) -> list[str]:
    """Put both sides between git's marks."""
    sign: Callable[[str, str], str] = lambda mark, name: f"{mark * marks.size} {name}".rstrip()  # noqa: E731
    middle = [sign("|", marks.base), *base] if marks.with_base else []
    return [sign("<", marks.ours), *ours, *middle, "=" * marks.size, *theirs, sign(">", marks.theirs)]
