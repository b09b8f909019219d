"""The known words nearest to one that is not known."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from difflib import get_close_matches

_LONGEST = 60  # difflib takes quadratic time; no name is longer
_LIKENESS = 0.65


def there_are(name: str, known: Sequence[str]) -> str:
    """Say which names there are instead of one that is not there, and which of them may be meant."""
    if len(known) < 2:
        return f"There is only {known[0]}." if known else "There is none."
    near = nearest(name, known)
    return f"There are {', '.join(known)}.{f' Perhaps {near[0]}?' if near else ''}"


def nearest(word: str, known: Iterable[str], limit: int = 3) -> tuple[str, ...]:
    """Give the known words that `word` may be a slip of, the likeliest first.

    Args:
        word: as typed; case does not count.
        known: the words to choose from; order and repetition do not count.
        limit: how many at most, >= 1.

    Returns:
        Up to `limit` words as spelt in `known`; none where nothing is near. `word` itself is never among them.
    """
    if not word or len(word) > _LONGEST:
        return ()
    spelt: dict[str, str] = {}
    for name in sorted(set(known) - {word}):
        if len(name) <= _LONGEST:
            spelt.setdefault(name.casefold(), name)
    return tuple(spelt[found] for found in get_close_matches(word.casefold(), spelt, limit, _LIKENESS))
