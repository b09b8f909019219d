"""A row's plain and shaped stitches with its repeats folded, the form in which patterns print them.

Input: the units of a row in order. Output: the same row with repeats folded. `expand` undoes `fold`.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from msgspec import Struct


class Plain(Struct, frozen=True):
    """Stitches worked plain: k6."""

    stitches: int


class Shaped(Struct, frozen=True):
    """Increases or decreases side by side: k2tog 3 times."""

    times: int


class Repeat(Struct, frozen=True):
    """Phrases worked several times over: (k6, k2tog) 12 times."""

    phrases: tuple[Phrase, ...]
    times: int


Phrase = Plain | Shaped | Repeat
Unit = tuple[Phrase, ...]


def merge(phrases: Iterable[Phrase]) -> list[Phrase]:
    """Drop empty phrases and join neighbours of the same kind."""
    result: list[Phrase] = []
    for phrase in phrases:
        last = result[-1] if result else None
        if phrase in (Plain(0), Shaped(0)):
            continue
        if isinstance(phrase, Plain) and isinstance(last, Plain):
            result[-1] = Plain(last.stitches + phrase.stitches)
        elif isinstance(phrase, Shaped) and isinstance(last, Shaped):
            result[-1] = Shaped(last.times + phrase.times)
        else:
            result.append(phrase)
    return result


def fold(units: Sequence[Unit]) -> tuple[Phrase, ...]:
    """Fold a row of units into repeats, the longest saving first; no repeat stands in another.

    Args:
        units: phrases that belong together ("k6, k2tog"), in row order.

    Returns:
        Phrases in row order; `expand` of them is the row again. Between equal savings the shortest repeat wins, then
        the earliest, so that the result depends on the row alone.
    """
    found = _best_repeat(units)
    if found is None:
        return tuple(merge(phrase for unit in units for phrase in unit))
    start, period, times = found
    inner = fold(units[start : start + period])
    # A unit of shapings alone is counted, not bracketed: "k2tog 6 times".
    if len(inner) == 1 and isinstance(inner[0], Shaped):
        repeat: tuple[Phrase, ...] = (Shaped(inner[0].times * times),)
    elif any(isinstance(phrase, Repeat) for phrase in inner):
        repeat = min((Repeat(expand(inner), times),), inner * times, key=weigh)
    else:
        repeat = (Repeat(inner, times),)
    return tuple(merge((*fold(units[:start]), *repeat, *fold(units[start + period * times :]))))


def expand(phrases: Iterable[Phrase]) -> tuple[Phrase, ...]:
    """Write all repeats out and join neighbours, so that equal rows have equal expansions."""
    flat: list[Phrase] = []
    for phrase in phrases:
        flat += expand(phrase.phrases) * phrase.times if isinstance(phrase, Repeat) else (phrase,)
    return tuple(merge(flat))


def weigh(phrases: Iterable[Phrase]) -> int:
    """Count the words to keep in mind: one for each stretch and one for each repeat."""
    return sum(1 + (weigh(phrase.phrases) if isinstance(phrase, Repeat) else 0) for phrase in phrases)


def _best_repeat(units: Sequence[Unit]) -> tuple[int, int, int] | None:
    best: tuple[int, int, int] | None = None
    best_saving = 0
    for period in range(1, len(units) // 2 + 1):
        alike = 0
        for i in range(len(units) - period - 1, -1, -1):
            alike = alike + 1 if units[i] == units[i + period] else 0
            saving = alike // period * period
            # Walking backwards, >= within one period keeps the earliest start; a longer period must save more.
            if saving and (saving > best_saving or (best and saving == best_saving and period == best[1])):
                best, best_saving = (i, period, alike // period + 1), saving
    return best
