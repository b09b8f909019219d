"""Text of one file and places in it.

Offsets are code points everywhere; this module alone converts them to lines, columns and UTF-16 units.
"""

from __future__ import annotations

from bisect import bisect_right
from functools import cached_property

from msgspec import Struct


class Span(Struct, frozen=True, order=True, repr_omit_defaults=True):
    """Half-open range of code points in one file.

    `made_at` holds the `make` line for which a line of a construction was read, and nothing else.
    """

    file: str
    start: int
    end: int
    made_at: tuple[Span, ...] = ()

    @property
    def places(self) -> tuple[Span, ...]:
        """The place itself, and that of its `make` line."""
        return self, *self.made_at

    def to(self, other: Span) -> Span:
        """Give the least span that holds this one and `other` of the same file."""
        return Span(self.file, min(self.start, other.start), max(self.end, other.end), self.made_at)


class Source(Struct, frozen=True, dict=True):
    """A file's name (as the user wrote it) and its text."""

    name: str
    text: str

    @cached_property
    def line_starts(self) -> tuple[int, ...]:
        """Offset of the first code point of each line."""
        return (0, *(i + 1 for i, c in enumerate(self.text) if c == "\n"))

    def place(self, offset: int) -> tuple[int, int]:
        """Give the line and column, both from 1, of an offset."""
        line = bisect_right(self.line_starts, offset)
        return line, offset - self.line_starts[line - 1] + 1

    def line(self, number: int) -> str:
        """Give the text of a line (from 1) without its line end."""
        start = self.line_starts[number - 1]
        end = self.line_starts[number] - 1 if number < len(self.line_starts) else len(self.text)
        return self.text[start:end].rstrip("\r")

    def utf16_column(self, offset: int) -> int:
        """Give the column from 0 in UTF-16 units, as editors count."""
        line, _ = self.place(offset)
        return len(self.text[self.line_starts[line - 1] : offset].encode("utf-16-le", "surrogatepass")) // 2

    def cut(self, span: Span) -> str:
        """Give the text that a span covers."""
        return self.text[span.start : span.end]
