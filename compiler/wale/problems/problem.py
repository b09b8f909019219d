"""A problem report as data: what is wrong, where, why, and the way out."""

from __future__ import annotations

from collections.abc import Iterable
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


def with_makes(problems: Iterable[Problem]) -> tuple[Problem, ...]:
    """Give problems of lines that were read for `make` lines with the places of those, and fixes told without edits.

    What would mend the one that is made may be wrong for the others. The same slip in all that are made is told once.
    """
    found: dict[Problem, dict[Span, None]] = {}
    for one in problems:
        makes = [make for label in one.labels for make in label.span.made_at]
        plain = tuple(replace(label, span=replace(label.span, made_at=())) for label in one.labels)
        told = tuple(replace(fix, edits=(), grade="show") for fix in one.fixes)
        key = replace(one, labels=plain, fixes=told) if makes else one
        found.setdefault(key, {}).update(dict.fromkeys(makes))
    return tuple(
        replace(one, labels=(*one.labels, *(Label(make, "made here") for make in makes))) if makes else one
        for one, makes in found.items()
    )
