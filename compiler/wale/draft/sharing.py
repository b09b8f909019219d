"""What a piece shares with one before it (`front, as back`): its rules are the same, so they are stated once."""

from __future__ import annotations

from collections.abc import Sequence

from wale.draft.layout import Layout, LevelDraft


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


def own_from(layouts: Sequence[Layout]) -> list[int]:
    """Give the index of each piece's first section that no piece before it has alike, all below it alike too."""
    return [max((_alike(other, one) for other in layouts[:place]), default=0) for place, one in enumerate(layouts)]


def _alike(one: Layout, other: Layout) -> int:
    if one.fold != other.fold or one.crown is not None or other.crown is not None:
        return 0
    count = 0
    for first, second in zip(one.sections, other.sections, strict=False):
        ends = [
            [layout.levels[at].key for at in (section.first, section.last)]
            for layout, section in ((one, first), (other, second))
        ]
        if first != second or ends[0] != ends[1]:
            break
        count += 1
    return count
