"""The signs of one line, and the spaces between them.

Input: the code of a logical line that the grammar reads. Output: its tokens, and their text with the gaps before them.
Gaps never join two tokens to another one: what is read again is the same line.
"""

from __future__ import annotations

from collections.abc import Collection
from typing import Any

from msgspec import Struct

from wale.parse.reader import sound_line

_OPENING = ("LPAR", "CALL", "NEG")
_DIVIDED = ("NUMBER", "WORD", "CALL", "LPAR")


class Token(Struct, frozen=True):
    """One sign: the name of its terminal in the grammar, its text, and its offset in the code."""

    kind: str
    text: str
    at: int


def tokens_of(code: str) -> tuple[Token, ...] | None:
    """Give the tokens of a line's code from left to right, or None where it cannot be read."""
    raw = sound_line(code)
    if raw is None:
        return None
    found: list[Token] = []
    _gather(raw, found)
    return tuple(found)


def _gather(raw: Any, found: list[Token]) -> None:
    for child in raw.children:
        if hasattr(child, "children"):
            _gather(child, found)
        else:
            found.append(Token(child.type, str(child), child.start_pos))


def spaced(tokens: tuple[Token, ...], breaks: Collection[int] = ()) -> list[str]:
    """Give the text of each token with the gap before it: `hip/2`, `2 * armhole`, `18 (19, 20) cm`, `max(a, b)`.

    Cells lose their margins, colours their capitals; texts stay as they are.

    Args:
        tokens: a line's tokens.
        breaks: indices of tokens that start a line of their own.
    """
    tight = {i for i, token in enumerate(tokens) if token.kind == "SLASH" and _is_tight(tokens, i)}
    # a second division of the same term, `hip/2/3`: the number after a slash starts no fraction
    for i in range(len(tokens)):
        is_second = tokens[i].kind == "SLASH" and tokens[i - 1].kind == "NUMBER" and i - 2 in tight
        if is_second and i - 1 not in breaks and _divides(tokens, i):
            tight.add(i)
    return [("" if i == 0 or _is_glued(tokens, i, tight) else " ") + _plain(token) for i, token in enumerate(tokens)]


def _is_tight(tokens: tuple[Token, ...], i: int) -> bool:
    return tokens[i - 1].kind in ("WORD", "RPAR") and _divides(tokens, i)


def _divides(tokens: tuple[Token, ...], i: int) -> bool:
    """Say whether what follows a slash may touch it: no fraction and no number with one, which would read ill."""
    right = tokens[i + 1]
    mixed = right.kind == "NUMBER" and i + 2 < len(tokens) and tokens[i + 2].kind == "RATIO"
    return right.kind in _DIVIDED and not mixed


def _is_glued(tokens: tuple[Token, ...], i: int, tight: set[int]) -> bool:
    return (
        tokens[i].kind in ("COMMA", "RPAR")
        or tokens[i - 1].kind in _OPENING
        or i in tight
        or (tokens[i - 1].kind == "SLASH" and i - 1 in tight)
    )


def _plain(token: Token) -> str:
    if token.kind == "COLOUR":
        return token.text.lower()
    if token.kind == "BARS":
        return f"|{' '.join(token.text[1:-1].split())}|"
    return token.text
