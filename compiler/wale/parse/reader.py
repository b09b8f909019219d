"""One logical line: from its code to a statement, or to the reason why not.

Slips are told and mended first; the mended line is parsed, and places are counted back to the source as typed.
"""

from __future__ import annotations

import re
from functools import lru_cache
from itertools import groupby
from typing import Any

from wale.parse.build import Unreadable, statement
from wale.parse.lines import Line
from wale.parse.slips import Slip, find_slips
from wale.parse.syntax import line_parser
from wale.parse.tree import Statement
from wale.parse.unread import unread
from wale.problems.problem import Edit, Fix, Label, Problem, problem
from wale.source import Source, Span

MAX_LINE = 10_000
MAX_DEPTH = 50
MAX_OPERATORS = 100
_PLAIN = re.compile(r'"[^"\n]*"|\|[^|\n]*\|')


def read_line(source: Source, line: Line, is_head: bool) -> tuple[Statement | None, Span | None, list[Problem]]:
    """Read one logical line.

    Args:
        source: the file.
        line: which parts of it make the line.
        is_head: whether it stands at the left edge; then options after an unreadable one are given up, not the block.

    Returns:
        The statement without trivia or None; the place of the options given up or None; the problems.
    """
    from lark.exceptions import UnexpectedInput

    code = code_of(source, line)
    raw = sound_line(code)
    if raw is not None:
        base, file = line.start, source.name
        try:
            return statement(raw, lambda start, end: Span(file, base + start, base + end)), None, []
        except Unreadable:
            pass
    limit = _limit(code, Span(source.name, line.start, line.end))
    if limit is not None:
        return None, None, [limit]
    slips = find_slips(code)
    problems = _tell(source, line.start, slips)
    mended = _Mended(source.name, line.start, code, slips)
    if any(slip.instead is None for slip in slips) or not mended.text.strip():
        return None, None, problems
    text = mended.text + " "  # a minus at the very end has its space too
    try:
        return statement(line_parser().parse(text), mended.span), None, problems
    except Unreadable as refusal:
        found, at = refusal.problem, len(text)
    except UnexpectedInput as complaint:
        found, at = unread(text, complaint, mended.span)
    problems.append(found)
    cut = text.rfind(",", 0, at) if is_head else -1
    if cut > 0:
        try:
            kept = statement(line_parser().parse(text[:cut]), mended.span)
            return kept, Span(source.name, kept.span.end, line.end), problems
        except (Unreadable, UnexpectedInput):
            pass
    return None, None, problems


@lru_cache(maxsize=5_000)
def sound_line(code: str) -> Any:
    """Give the grammar's raw tree of a line's code, or None where anything is wrong with it.

    Kept, for formatting and comparing read nearly the same file again. The tree is not to be changed.
    """
    from lark.exceptions import UnexpectedInput

    if _limit(code, Span("", 0, 0)) is not None or find_slips(code):
        return None
    try:
        return line_parser().parse(code + " ")  # a minus at the very end has its space too
    except UnexpectedInput:
        return None


def code_of(source: Source, line: Line) -> str:
    """Give the line's text with all between its parts blanked, so that offsets hold."""
    pieces, at = [], line.start
    for start, end in line.parts:
        pieces += [" " * (start - at), source.text[start:end]]
        at = end
    return "".join(pieces)


def _limit(code: str, here: Span) -> Problem | None:
    """Tell a line that is longer or deeper than any knitting needs."""
    if len(code) > MAX_LINE:
        return problem("E131", f"the line has {len(code)} characters, {MAX_LINE} at most are read", here)
    if len(code) <= MAX_OPERATORS and code.count("(") <= MAX_DEPTH:
        return None
    plain = _PLAIN.sub("", code)
    depth = deepest = 0
    for sign in re.findall(r"[()]", plain):
        depth += 1 if sign == "(" else -1
        deepest = max(deepest, depth)
    if deepest > MAX_DEPTH:
        return problem(
            "E131",
            f"brackets stand {deepest} deep, {MAX_DEPTH} at most are read",
            here,
            help="Give parts of it a name with `let`.",
        )
    if len(re.findall(r"[*/×÷+]|\s[-−–]\s", plain)) > MAX_OPERATORS:
        return problem(
            "E131",
            f"the line reckons with more than {MAX_OPERATORS} signs",
            here,
            help="Give parts of it a name with `let`.",
        )
    return None


def _tell(source: Source, start: int, slips: list[Slip]) -> list[Problem]:
    """Give one problem for each kind of slip in the line, with all its places and one fix."""
    problems = []
    for (code, is_safe), group in groupby(sorted(slips, key=_kind), key=_kind):
        same = list(group)
        edits = tuple(
            Edit(Span(source.name, start + slip.start, start + slip.end), slip.instead)
            for slip in same
            if slip.instead is not None
        )
        shown = ", ".join(dict.fromkeys((slip.instead or "").strip() or "a space" for slip in same[:3]))
        title = f"write `{shown}`" if len(same) <= 3 else "mend them all"
        problems.append(
            Problem(
                code,
                same[0].message + (f", and {len(same) - 1} more on this line" if len(same) > 1 else ""),
                tuple(Label(Span(source.name, start + slip.start, start + slip.end)) for slip in same),
                help=same[0].help,
                fixes=(Fix(title, edits, "safe" if is_safe else "unsafe"),) if edits else (),
            )
        )
    return problems


def _kind(slip: Slip) -> tuple[str, bool]:
    return slip.code, slip.is_safe and slip.instead is not None


class _Mended:
    """A line with its slips mended, and the way back from its offsets to the source's."""

    def __init__(self, file: str, start: int, code: str, slips: list[Slip]) -> None:
        self.file = file
        self.base = start
        self.text = code
        self.typed: list[tuple[int, int]] = []  # for each mended character, the range as typed
        if not slips:
            return
        pieces, at = [], 0
        for slip in slips:
            pieces.append(code[at : slip.start])
            self.typed += [(i, i + 1) for i in range(at, slip.start)]
            instead = slip.instead or ""
            pieces.append(instead)
            self.typed += [(slip.start, slip.end)] * len(instead)
            at = slip.end
        pieces.append(code[at:])
        self.typed += [(i, i + 1) for i in range(at, len(code))]
        self.text = "".join(pieces)

    def span(self, start: int, end: int) -> Span:
        """Give the place in the source of a range of the mended line."""
        if not self.typed:
            return Span(self.file, self.base + start, self.base + end)
        last = len(self.typed) - 1
        first = self.typed[min(start, last)][start > last]
        after = self.typed[min(end - 1, last)][1] if end else 0
        return Span(self.file, self.base + first, self.base + max(first, after))
