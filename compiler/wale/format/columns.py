"""What stands below one another from line to line: lists of sizes, and comments at the ends of lines."""

from __future__ import annotations

from itertools import groupby

from msgspec import Struct

from wale.format.spacing import Token

MOST_CODE = 72
"""Code of more columns pushes no comment of other lines to the right."""


class Printed(Struct, frozen=True):
    """One line on the page: its code with the margin, and its comment; both empty for a blank line."""

    code: str
    comment: str = ""

    @property
    def is_blank(self) -> bool:
        """Whether it is a blank line, which ends what is aligned."""
        return not self.code and not self.comment


class Listed(Struct, frozen=True):
    """A line with a list of sizes in it: what stands before, the values, what stands after the last one.

    `run` tells apart what blank lines part.
    """

    run: int
    before: str
    values: tuple[str, ...]
    after: str

    def padded(self, widths: tuple[int, ...]) -> str:
        """Give the whole line, each value moved to the right of its column."""
        first, *others = (value.rjust(width) for value, width in zip(self.values, widths, strict=True))
        return f"{self.before}{first} ({', '.join(others)}{self.after}"


def listed(run: int, start: str, tokens: tuple[Token, ...], texts: list[str]) -> Listed | None:
    """Part a line at its first list of sizes; None where it has none.

    Args:
        run: number of the lines that no blank line parts.
        start: the margin, keyword and gap before `tokens`.
        tokens: the rest of the line.
        texts: their texts with the gaps before them.
    """
    for opening in range(1, len(tokens)):
        if tokens[opening].kind == "LPAR" and tokens[opening - 1].kind in ("NUMBER", "RATIO"):
            break
    else:
        return None
    closing = next(i for i in range(opening, len(tokens)) if tokens[i].kind == "RPAR")
    first = opening - 1
    first -= tokens[first].kind == "RATIO" and first > 0 and tokens[first - 1].kind == "NUMBER"
    first -= first > 0 and tokens[first - 1].kind == "NEG"
    gap = " " if texts[first].startswith(" ") else ""
    entries = "".join(texts[opening + 1 : closing]).split(",")
    values = ("".join(texts[first:opening]).strip(), *(entry.strip() for entry in entries))
    return Listed(run, start + "".join(texts[:first]) + gap, values, "".join(texts[closing:]))


def aligned_lists(lines: list[Listed | None]) -> list[str | None]:
    """Give the lines that have a list of sizes: neighbours whose lists start in one column have them in columns.

    Args:
        lines: the lines of a block, None for one without a list.
    """
    done: list[str | None] = []
    for key, group in groupby(lines, key=lambda line: line and (line.run, len(line.before), len(line.values))):
        run = list(group)
        same = [line for line in run if line is not None]
        widths = tuple(max(map(len, column)) for column in zip(*(line.values for line in same), strict=True))
        done += [line.padded(widths) for line in same] if key else [None] * len(run)
    return done


def with_comments(lines: list[Printed]) -> list[str]:
    """Give the lines with their comments, in one column from one blank line to the next."""
    done = []
    for is_blank, group in groupby(lines, key=lambda line: line.is_blank):
        run = list(group)
        widths = [len(line.code) for line in run if line.comment and len(line.code) <= MOST_CODE]
        width = max(widths, default=0)
        done += (
            [""] * len(run)
            if is_blank
            else [f"{line.code:{width}}  {line.comment}" if line.comment else line.code for line in run]
        )
    return done
