"""The marks that a merge leaves where both sides changed the same lines: one problem a conflict, not one a sign."""

from __future__ import annotations

import re

from wale.problems.problem import Label, Problem
from wale.source import Source, Span

START = "<<<<<<<"
_MARK = re.compile(r"^(?:<{7,}|\|{7,}|={7,}|>{7,})(?: .*)?$", re.M)


def as_conflicts(source: Source, problems: list[Problem]) -> list[Problem]:
    """Put one problem a conflict in the place of those that the marks made.

    Args:
        source: a text that has `START` somewhere.
        problems: what was found wrong with it, without regard to marks.
    """
    marks = [Span(source.name, *match.span()) for match in _MARK.finditer(source.text)]
    starts = [mark for mark in marks if source.text.startswith(START, mark.start)]
    if not starts:
        return problems
    others = [
        found for found in problems if not any(mark.start <= found.labels[0].span.start <= mark.end for mark in marks)
    ]
    return [*others, *(_conflict(source, mark, marks) for mark in starts)]


def _conflict(source: Source, start: Span, marks: list[Span]) -> Problem:
    end = next((mark for mark in marks if mark > start and source.text[mark.start] == ">"), None)
    labels = (Label(start, "from here"), *((Label(end, "to here"),) if end is not None else ()))
    return Problem(
        "E108",
        "a merge is not finished here: both sides changed these lines",
        labels,
        help="Keep the lines that hold, and take the others and the marks away; then `git add` the file.",
    )
