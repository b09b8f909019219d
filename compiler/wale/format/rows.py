"""One logical line: its keyword and its rest, how it was broken, and where it is broken when it is too long."""

from __future__ import annotations

from msgspec import Struct

from wale.format.spacing import Token, spaced
from wale.parse.lines import Line
from wale.source import Source

WIDTH = 100
"""Columns that code takes before it is broken after a comma; comments and texts may go beyond."""

_TWO_WORDS = {("cast", "on"), ("bind", "off"), ("pick", "up"), ("half", "turn"), ("half", "drop"), ("shawl", "collar")}
_SIGNS = ("PLUS", "MINUS", "STAR", "SLASH")
_OPEN = (*_SIGNS, "COMMA", "EQUALS", "LPAR", "CALL", "NEG")
_CLOSE = (*_SIGNS, "COMMA", "EQUALS", "RPAR")


class Part(Struct, frozen=True):
    """One physical line of a statement: how many tokens, its comment, and the comment lines below it."""

    tokens: int
    comment: str
    below: tuple[str, ...]


class Row(Struct, frozen=True):
    """A logical line on its way to the page.

    Attributes:
        above: the comments and blank lines ("") that it owns.
        keyword: its keyword, of two words where it is one in knitting; "" for a row of cells.
        head: how many tokens the keyword takes.
        texts: the texts of all tokens with the gaps before them.
        parts: the physical lines that it stands on.
        keeps_breaks: it stays broken as it was typed: comments stand in it, or it breaks where nobody breaks a line.
    """

    above: tuple[str, ...]
    tokens: tuple[Token, ...]
    texts: tuple[str, ...]
    keyword: str
    head: int
    parts: tuple[Part, ...]
    keeps_breaks: bool

    @property
    def rest(self) -> tuple[Token, ...]:
        """What stands after the keyword."""
        return self.tokens[self.head :]

    @property
    def has_values(self) -> bool:
        """Whether something stands in the column after the keyword."""
        return len(self.tokens) > self.head and self.tokens[self.head].kind != "COMMA"

    @property
    def trailing(self) -> str:
        """The comment at its end."""
        return self.parts[-1].comment


def row_of(source: Source, line: Line, tokens: tuple[Token, ...]) -> Row:
    """Take a logical line apart."""
    parts, breaks = _parts(source, line, tokens)
    keeps = bool(line.inner) or not all(tokens[i - 1].kind in _OPEN or tokens[i].kind in _CLOSE for i in breaks)
    first = tokens[0]
    keyword, head = (first.text, 1) if first.kind == "WORD" else ("", 0)
    if head and _is_double(tokens) and not (keeps and parts[0].tokens == 1):
        keyword, head = f"{keyword} {tokens[1].text}", 2
    return Row(tidied(line.above), tokens, tuple(spaced(tokens, breaks if keeps else ())), keyword, head, parts, keeps)


def _is_double(tokens: tuple[Token, ...]) -> bool:
    is_pair = len(tokens) > 1 and (tokens[0].text, tokens[1].text) in _TWO_WORDS
    return is_pair and (len(tokens) == 2 or tokens[2].kind not in _SIGNS)


def _parts(source: Source, line: Line, tokens: tuple[Token, ...]) -> tuple[tuple[Part, ...], list[int]]:
    """Sort tokens and comments by physical line; give the tokens before which the line is broken, too."""
    if len(line.parts) == 1:
        return (Part(len(tokens), line.trailing, ()),), []
    parts, breaks, at = [], [], 0
    for i, (_, end) in enumerate(line.parts):
        count = sum(line.start + token.at < end for token in tokens[at:])
        at += count
        if i == len(line.parts) - 1:
            parts.append(Part(count, line.trailing, ()))
        else:
            comment, *below = source.text[end : line.parts[i + 1][0]].split("\n")
            parts.append(Part(count, comment.strip(), tuple(note.strip() for note in below if note.strip())))
            breaks.append(at)
    return tuple(parts), breaks


def tidied(above: tuple[str, ...]) -> tuple[str, ...]:
    """Give comment lines without margins, and one blank line ("") for any number of them."""
    notes: list[str] = []
    for note in above:
        if note.strip() or not notes or notes[-1]:
            notes.append(note.strip())
    return tuple(notes)


def is_plain(tokens: tuple[Token, ...]) -> bool:
    """Say whether tokens make one entry, without a comma outside brackets."""
    return not any(cuts(tokens))


def cuts(tokens: tuple[Token, ...]) -> list[bool]:
    """Say of each token whether it is a comma outside brackets."""
    depth, found = 0, []
    for token in tokens:
        depth += (token.kind in ("LPAR", "CALL")) - (token.kind == "RPAR")
        found.append(token.kind == "COMMA" and depth == 0)
    return found


def filled(first: str, margin: str, tokens: tuple[Token, ...], texts: list[str]) -> list[str]:
    """Break a line that is too long, after commas, and where a part is still too long, in its brackets and sums.

    Args:
        first: the margin, keyword and gap that the first line starts with.
        margin: what each further line starts with.
        tokens: what follows on it.
        texts: their texts with the gaps before them.
    """
    chunks: list[list[tuple[Token, str]]] = [[]]
    for token, text, cut in zip(tokens, texts, cuts(tokens), strict=True):
        chunks[-1].append((token, text))
        if cut:
            chunks.append([])
    pieces: list[str] = []
    for chunk in chunks:
        whole = "".join(text for _, text in chunk)
        pieces += [whole] if len(margin) + len(whole) <= WIDTH else _pieces(chunk)
    lines = [first + pieces[0].lstrip()]
    for piece in pieces[1:]:
        if len(lines[-1]) + len(piece) <= WIDTH:
            lines[-1] += piece
        else:
            lines.append(margin + piece.lstrip())
    return lines


def _pieces(chunk: list[tuple[Token, str]]) -> list[str]:
    """Part a long entry after the commas in its brackets and before its plus and minus signs."""
    pieces = [""]
    for token, text in chunk:
        if token.kind in ("PLUS", "MINUS"):
            pieces.append("")
        pieces[-1] += text
        if token.kind == "COMMA":
            pieces.append("")
    return [piece for piece in pieces if piece]
