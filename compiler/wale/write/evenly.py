"""Rows that gain or lose stitches evenly, and ribs, as knitters write them."""

from __future__ import annotations

from wale.shaping.phrases import Phrase, Plain, Repeat
from wale.shaping.spacing import EvenRow, decrease_flat, decrease_round, increase_flat, increase_round
from wale.write.lines import Part, Times
from wale.write.row_ends import NO_ENDS, Ends, between, told_apart

STITCHES = {True: ("k", "k2tog", "m1"), False: ("p", "p2tog", "m1p")}
"""Plain stitch, decrease and increase on a right-side row or round (True) and on a wrong-side row."""


def even_row(before: int, change: int, *, in_round: bool) -> EvenRow:
    """Lay out a row from `before` stitches that gains `change` (loses where negative)."""
    if change > 0:
        return increase_round(before, change, blocks=True) if in_round else increase_flat(before, change, blocks=True)
    return decrease_round(before, -change, blocks=True) if in_round else decrease_flat(before, -change, blocks=True)


def even_words(
    before: int, change: int, *, is_right_side: bool, in_round: bool, ends: Ends = NO_ENDS
) -> tuple[Part, ...]:
    """Write the stitches of an even change: `k6, m1, (k13, m1) 11 times, k6`, between ends that are told apart."""
    plain, fewer, more = STITCHES[is_right_side]
    shaped = more if change > 0 else fewer
    words = _phrases(even_row(before - told_apart(ends), change, in_round=in_round).phrases(), plain, shaped)
    start, end = between(ends)
    return tuple(part for part in (start, *words, end) if part != "")


def _phrases(phrases: tuple[Phrase, ...], plain: str, shaped: str) -> tuple[Part, ...]:
    parts: list[Part] = []
    for phrase in phrases:
        if parts:
            parts.append(", ")
        if isinstance(phrase, Plain):
            parts += [plain, phrase.stitches]
        elif isinstance(phrase, Repeat):
            parts += ["(", *_phrases(phrase.phrases, plain, shaped), ") ", Times(phrase.times)]
        elif phrase.times == 1:
            parts.append(shaped)
        else:
            parts += [f"{shaped} ", Times(phrase.times)]
    return tuple(parts)
