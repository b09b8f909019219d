"""The lines of one block, or of a run of `let` lines, in their columns.

The columns of keywords and of the names of measures are settled for the whole block.
"""

from __future__ import annotations

from msgspec import Struct

from wale.format.cells import cell_rows
from wale.format.columns import Listed, Printed, aligned_lists, listed
from wale.format.rows import WIDTH, Row, filled, is_plain

INDENT = 4
MOST_KEYWORD, MOST_NAME = 12, 24
"""Longer keywords and names widen no column."""

_NAMING = ("measure", "ease", "give")


class Placed(Struct, frozen=True):
    """A row and its place: the margin and what fills the first columns, and the margin of further lines.

    Attributes:
        first: margin, keyword and gap, or a whole row of cells.
        taken: how many of the row's tokens `first` holds.
        margin: what further lines start with.
        name_width: columns of the token after `first`.
    """

    row: Row
    first: str
    taken: int
    margin: str
    name_width: int = 0

    def texts(self) -> list[str]:
        """Give the texts of what follows on `first`."""
        texts = list(self.row.texts[self.taken :])
        if len(texts) > 1:
            texts[0] = texts[0].strip().ljust(self.name_width)
        elif texts:
            texts[0] = texts[0].lstrip()
        return texts


def head_line(row: Row) -> Printed:
    """Give the line of a block's head or of the edition."""
    return Printed("".join(row.texts), row.trailing)


def body_lines(rows: list[Row]) -> list[Printed]:
    """Give the lines of a block below its head."""
    words = [len(row.keyword) for row in rows if row.keyword and row.has_values]
    width = max((word for word in words if word <= MOST_KEYWORD), default=0)
    names = [len(row.rest[0].text) for row in rows if _names_measure(row)]
    name_width = max((name for name in names if name <= MOST_NAME), default=0)
    is_wedge = any(row.keyword == "wedge" for row in rows)
    cells = iter(cell_rows([row.tokens[0].text[1:-1] for row in rows if not row.keyword], is_wedge))
    margin, deep = " " * INDENT, " " * (INDENT + width + 1)
    placed = []
    for row in rows:
        if not row.keyword:
            placed.append(Placed(row, margin + next(cells), 1, deep))
            continue
        start = f"{row.keyword:{width}} " if row.has_values else row.keyword
        placed.append(Placed(row, margin + start, row.head, deep, name_width if _names_measure(row) else 0))
    lines = _laid(placed, margin)
    while lines and lines[0].is_blank:
        del lines[0]
    return lines


def _names_measure(row: Row) -> bool:
    """Say whether a row gives a single measure."""
    rest = row.rest
    return row.keyword in _NAMING and len(rest) > 1 and rest[0].kind == "WORD" and is_plain(rest)


def let_lines(rows: list[Row]) -> list[Printed]:
    """Give `let` lines that stand together, their signs `=` in one column."""
    named = [len(row.tokens[1].text) for row in rows if _is_let(row)]
    width = max((name for name in named if name <= MOST_NAME), default=0)
    margin = " " * (len("let ") + width + len(" = "))
    placed = []
    for row in rows:
        if _is_let(row):
            placed.append(Placed(row, f"let {row.tokens[1].text:{width}} = ", 3, margin))
        else:
            placed.append(Placed(row, "let ", 1, margin))
    return _laid(placed, "")


def _is_let(row: Row) -> bool:
    kinds = [token.kind for token in row.tokens[:3]]
    return kinds == ["WORD", "WORD", "EQUALS"] and len(row.tokens) > 3 and _whole_start(row)


def _whole_start(row: Row) -> bool:
    return not row.keeps_breaks or row.parts[0].tokens >= 3


def _laid(placed: list[Placed], margin: str) -> list[Printed]:
    """Give the lines of rows, and above each row the comments and blank lines that it owns."""
    texts = [one.texts() for one in placed]
    is_single = [
        not one.row.keeps_breaks and len(one.first) + sum(map(len, rest)) <= WIDTH
        for one, rest in zip(placed, texts, strict=True)
    ]
    lists: list[Listed | None] = []
    run = 0
    for one, rest, single in zip(placed, texts, is_single, strict=True):
        run += "" in one.row.above
        lists.append(listed(run, one.first, one.row.tokens[one.taken :], rest) if single else None)
    done: list[Printed] = []
    for one, rest, single, padded in zip(placed, texts, is_single, aligned_lists(lists), strict=True):
        done += [Printed(margin + note if note else "") for note in one.row.above]
        if single:
            done.append(Printed(padded or one.first + "".join(rest), one.row.trailing))
        elif one.row.keeps_breaks:
            done += _as_typed(one, rest)
        else:
            *lines, last = filled(one.first, one.margin, one.row.tokens[one.taken :], rest)
            done += [*map(Printed, lines), Printed(last, one.row.trailing)]
    return done


def _as_typed(one: Placed, texts: list[str]) -> list[Printed]:
    """Give the lines of a row that stays broken as it was, with the comments in it."""
    done, at, start = [], 0, one.first
    for i, part in enumerate(one.row.parts):
        count = part.tokens - (0 if i else one.taken)
        code = (start + "".join(texts[at : at + count]).lstrip()).rstrip()
        done.append(Printed(code, part.comment))
        done += [Printed(one.margin + note) for note in part.below]
        at, start = at + count, one.margin
    return done
