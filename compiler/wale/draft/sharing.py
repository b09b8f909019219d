"""What a piece shares with one before it (`front, as back`): its rules are the same, so they are stated once."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct, field

from wale.draft.layout import Layout, LevelDraft, SectionDraft


def own_levels(layouts: Sequence[Layout]) -> list[tuple[LevelDraft, ...]]:
    """Give the levels of each piece that no piece before it has alike."""
    seen: dict[str, tuple[LevelDraft, bool, int]] = {}
    result = []
    for layout in layouts:
        own = []
        for level in layout.levels:
            alike = (level, layout.piece.in_round, layout.carry)
            if seen.get(level.key) != alike:
                own.append(level)
                seen.setdefault(level.key, alike)
        result.append(tuple(own))
    return result


class _Node(Struct):
    """Sections that some pieces begin with, as a tree: each with those that come next, by the keys of its levels."""

    after: dict[tuple[str, ...], list[tuple[SectionDraft, _Node]]] = field(default_factory=dict)


def own_from(layouts: Sequence[Layout]) -> list[int]:
    """Give the index of each piece's first section that no piece before it has alike, all below it alike too."""
    roots: dict[int, _Node] = {}
    return [0 if one.crown is not None else _shared(roots.setdefault(one.fold, _Node()), one) for one in layouts]


def _shared(node: _Node, layout: Layout) -> int:
    """Count the sections that are in the tree from its root on, and add the others."""
    count = 0
    for place, section in enumerate(layout.sections):
        key = (section.key, layout.levels[section.first].key, layout.levels[section.last].key)
        same = node.after.setdefault(key, [])
        found = next((after for other, after in same if other == section), None)
        if found is None:
            found = _Node()
            same.append((section, found))
        elif count == place:
            count += 1
        node = found
    return count
