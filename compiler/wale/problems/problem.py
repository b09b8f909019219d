"""A problem report as data: what is wrong, where, why, and the way out."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from wale.problems.codes import CODES, Severity
from wale.source import Span

Grade = Literal["safe", "unsafe", "show"]


class Label(Struct, frozen=True):
    """A place with a few words on what it has to do with the problem."""

    span: Span
    text: str = ""


class Edit(Struct, frozen=True):
    """Replace the text under `span` by `text`."""

    span: Span
    text: str


class Fix(Struct, frozen=True):
    """A way out: a title, the edits that do it, and how safe they are (`show`: words only)."""

    title: str
    edits: tuple[Edit, ...] = ()
    grade: Grade = "unsafe"


class Problem(Struct, frozen=True):
    """One complaint.

    Attributes:
        code: key of the closed table in `codes.py`.
        message: one line that stands alone, in knitting terms.
        labels: places, the primary one first; empty only for problems of the command line.
        help: what to do, in one or two sentences.
        fixes: edits that would mend it, best first.
        size: the size it is about, or "".
    """

    code: str
    message: str
    labels: tuple[Label, ...] = ()
    help: str = ""
    fixes: tuple[Fix, ...] = ()
    size: str = ""

    @property
    def severity(self) -> Severity:
        """How bad it is, from the table of codes."""
        return CODES[self.code].severity

    @property
    def is_error(self) -> bool:
        """Whether nothing can be compiled while it stands."""
        return self.severity == "error"


def problem(code: str, message: str, span: Span | None = None, label: str = "", **rest: object) -> Problem:
    """Build a problem with one primary place.

    Raises:
        KeyError: the code is not in the table.
    """
    CODES[code]
    labels = (Label(span, label),) if span is not None else ()
    return Problem(code, message, labels, **rest)  # type: ignore[arg-type]


def with_makes(found: Problem) -> Problem:
    """Give a problem of a line that was read for a `make` line with the place of that line, and without edits.

    What would mend the one that is made may be wrong for the others.
    """
    places = dict.fromkeys(place for label in found.labels for place in label.span.made_at)
    if not places:
        return found
    makes = (Label(place, "made here") for place in places)
    return replace(found, labels=(*found.labels, *makes), fixes=())
