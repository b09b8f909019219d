"""Lists with one value a size, merged size by size: what each side did to a size is known by the size's name.

One side adds XS, the other XL; or one adds a size while the other mends the value of another: `18 (19, 20) cm` then
gets what both did. Input: the codes of one statement in three versions and the sizes of each version.
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec import Struct

from wale.versions.parts import Parts
from wale.versions.sequences import keyed, pick

_NUMBER = r"-?\d+(?:\.\d+|[ ]\d+/\d+|/\d+)?"
_LIST = re.compile(
    rf'"[^"\n]*"|(?<!\S)--[^\n]*|\|[^|\n]*\||(?<![\w.])(?P<first>{_NUMBER})\s*\(\s*(?P<more>{_NUMBER}(?:\s*,\s*{_NUMBER})*)\s*\)'
)


class SizeNames(Struct, frozen=True):
    """What the `sizes` line and the bodies of a version are called; `table` is what stands before the sizes, if any."""

    table: str
    sizes: tuple[str, ...]
    bodies: tuple[str, ...]

    def of(self, length: int) -> tuple[str, ...] | None:
        """Give whose values a list of that length holds; None where its length is neither."""
        return next((names for names in (self.sizes, self.sizes + self.bodies) if len(names) == length), None)


def size_names(parts: Parts) -> SizeNames:
    """Read the names of a version's sizes."""
    from wale.sizes import GROUPS

    heads = [part.statements[0].said.split() for part in parts.parts if part.key[0] == "sizes"]
    words = heads[0][1:] if heads else []
    begins = 2 if words[:1] == ["from"] else int(words[:1] != [] and words[0] in GROUPS)
    bodies = tuple(part.key[1] for part in parts.parts if part.key[0] == "body")
    return SizeNames(" ".join(words[:begins]), tuple(words[begins:]), bodies)


def merged_names(base: SizeNames, ours: SizeNames, theirs: SizeNames) -> SizeNames | None:
    """Give the sizes of both sides: those of a published table in its order, all others behind what they follow.

    Returns:
        None where both sides changed the table.
    """
    from wale.sizes import GROUPS, group

    table = pick(base.table, ours.table, theirs.table)
    if table is None:
        return None
    sizes = _union(base.sizes, ours.sizes, theirs.sizes)
    known = group(table).names if table in GROUPS else ()
    if all(name in known for name in sizes):
        sizes = tuple(sorted(sizes, key=known.index))
    return SizeNames(table, sizes, _union(base.bodies, ours.bodies, theirs.bodies))


def _union(base: Sequence[str], ours: Sequence[str], theirs: Sequence[str]) -> tuple[str, ...]:
    """Give the names that neither side took away, those that a side added included."""
    kept = []
    for old, mine, other in keyed((base, ours, theirs), key=lambda name: name):
        if (mine and other) if old else (mine or other):
            kept.append(mine or other or "")
    return tuple(kept)


class ByNames(Struct, frozen=True):
    """The sizes of three versions, and of what they become; `names` is base, ours, theirs, merged."""

    names: tuple[SizeNames, SizeNames, SizeNames, SizeNames]

    def head(self, codes: Sequence[str]) -> str | None:
        """Give the `sizes` line of all sizes, from the line of our side; None where more than sizes changed."""
        merged = self.names[3]
        words = ["sizes", *([merged.table] if merged.table else []), *merged.sizes]
        whole = all(len(code.split()) > 1 and "\n" not in code for code in codes)
        return " ".join(words) if whole and merged.sizes else None

    def code(self, codes: tuple[str, str, str]) -> str | None:
        """Merge the lists of one statement.

        Args:
            codes: the statement's code in base, ours, theirs.

        Returns:
            Its code with the lists of both; None where something else than lists was changed by both sides, or both
            changed the value of the same size.
        """
        taken = [_taken(code) for code in codes]
        if not taken[0][1] or len({len(lists) for _, lists in taken}) != 1:
            return None
        chosen = pick(*(" ".join("\0".join(between).split()) for between, _ in taken))
        frame = next((between for between, _ in taken if " ".join("\0".join(between).split()) == chosen), None)
        if chosen is None or frame is None:
            return None
        done = frame[0]
        for after, base, ours, theirs in zip(frame[1:], *(lists for _, lists in taken), strict=True):
            values = self._list((base, ours, theirs))
            if values is None:
                return None
            done += values + after
        return done

    def _list(self, lists: tuple[list[str], list[str], list[str]]) -> str | None:
        """Merge one list."""
        by_name = []
        has_bodies = False
        for names, values in zip(self.names, lists, strict=False):
            called = names.of(len(values))
            if called is None:
                return None
            has_bodies = has_bodies or len(called) > len(names.sizes)
            by_name.append(dict(zip(called, values, strict=True)))
        wanted = self.names[3].sizes + (self.names[3].bodies if has_bodies else ())
        merged = [pick(*(known.get(name) for known in by_name)) for name in wanted]
        if not merged or any(value is None for value in merged):
            return None
        first, *more = [value for value in merged if value is not None]
        return f"{first} ({', '.join(more)})" if more else first


def _taken(code: str) -> tuple[list[str], list[list[str]]]:
    """Give the text between the lists of a statement, and the values of each list."""
    between, lists, at = [], [], 0
    for match in _LIST.finditer(code):
        if match["first"] is None:
            continue
        between.append(code[at : match.start()])
        lists.append([match["first"], *re.split(r"\s*,\s*", match["more"])])
        at = match.end()
    return [*between, code[at:]], lists
