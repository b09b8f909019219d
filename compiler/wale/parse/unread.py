"""Why a line cannot be read, in a knitter's words.

Input: the line and lark's complaint. Output: one problem with the place, what fits there, and a fix where one is clear.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from typing import Any

from wale.parse.slips import W
from wale.parse.tokens import fitting
from wale.problems.problem import Edit, Fix, Label, Problem, problem
from wale.source import Span

Spanner = Callable[[int, int], Span]
_SHOWN = 30
_ROUND = "Brackets are round: `53 (58) cm` is a value for each of two sizes, `(bust + 4 cm)/2` a sum that is halved."


def unread(line: str, complaint: Any, span_of: Spanner) -> tuple[Problem, int]:
    """Explain a line that does not parse.

    Args:
        line: code of one logical line, its comments blanked.
        complaint: lark's `UnexpectedCharacters` or `UnexpectedToken`.
        span_of: span of a half-open range of offsets in the line.

    Returns:
        The problem and the offset where it was met.
    """
    token = getattr(complaint, "token", None)
    if token is None:
        at = complaint.pos_in_stream
        return _sign(line, at, span_of), at
    accepted = complaint.accepts or complaint.expected
    if token.type == "$END":
        return _early(line, accepted, span_of), len(line)
    return _misfit(line, token, accepted, span_of), token.start_pos


def _short(text: str) -> str:
    return text if len(text) <= _SHOWN else text[: _SHOWN - 1] + "…"


def _sign(line: str, at: int, span_of: Spanner) -> Problem:
    """Explain a sign that starts no word, number or other token."""
    sign, rest = line[at], span_of(at, len(line.rstrip()))
    if sign == '"':
        return problem("E113", "a text in quotes is not closed on its line", rest, help='Close it with `"`.')
    if sign == "|":
        return problem(
            "E114", "a row of cells starts with `|` and is not closed", rest, help="Set a `|` after the last cell."
        )
    if sign == "#":
        word = re.match(r"#[^\s,]*", line[at:])
        return problem(
            "E115",
            f"`{_short(word[0] if word else sign)}` is no colour",
            span_of(at, at + (word.end() if word else 1)),
            help="A colour is `#` and six digits 0-9 or a-f, such as `#8a5a2b`.",
        )
    if sign in "+-":
        left, right = line[:at].rstrip(), line[at + 1 :].lstrip()
        edits = (Edit(span_of(len(left), len(line) - len(right)), f" {sign} "),)
        name = "plus" if sign == "+" else "minus"
        fixes = (Fix(f"write `{sign}` between spaces", edits, "safe" if sign == "+" else "unsafe"),)
        return problem(
            "E123",
            f"a {name} stands between two spaces, or it is taken for part of a word",
            span_of(at, at + 1),
            help=f"Write ` {sign} `. A range is written `2 to 3`." if sign == "-" else f"Write ` {sign} `.",
            fixes=fixes if left and right else (),
        )
    if sign == ",":
        return problem("E121", "a comma has no space after it", span_of(at, at + 1), help="Write `, `.")
    if sign.isalnum():
        word = re.match(rf"(?:{W}|[-.])+", line[at:])
        end = at + (word.end() if word else 1)
        return problem("E117", f"`{_short(line[at:end])}` is neither a word nor a number", span_of(at, end))
    hints = {
        ";": "Options are parted by commas.",
        ":": "A line is its keyword, then what belongs to it, with no colon between.",
        "[": _ROUND,
        "]": _ROUND,
        "{": _ROUND,
        "}": _ROUND,
        ".": "A point stands between the digits of a number or inside a name such as `back.bust`.",
        "'": 'Texts stand in double quotes: `"`.',
    }
    return problem("E112", f"`{sign}` means nothing here", span_of(at, at + 1), help=hints.get(sign, "Leave it out."))


def _early(line: str, accepted: set[str], span_of: Spanner) -> Problem:
    """Explain a line that stops where more has to follow."""
    end = len(line.rstrip())
    opening = _open_bracket(line)
    if opening is not None and "RPAR" in accepted:
        return problem(
            "E119",
            "a bracket is opened and not closed",
            span_of(opening, opening + 1),
            "opened here",
            help="Close it with `)`.",
        )
    last = re.search(r"\S+$", line[:end])
    word = last[0] if last else ""
    after = "the comma" if word.endswith(",") else f"`{_short(word)}`"
    what = "an option" if word.endswith(",") else fitting(accepted)
    return problem(
        "E118",
        f"the line ends after {after}, where more must follow",
        span_of(max(end - 1, 0), end),
        f"here fits {what}",
        help="Finish the line, or take the last sign away.",
    )


def _misfit(line: str, token: Any, accepted: set[str], span_of: Spanner) -> Problem:
    """Explain a token that does not fit where it stands."""
    span = span_of(token.start_pos, token.end_pos)
    if token.start_pos == 0 and token.type != "BARS":
        return problem(
            "E116",
            f"the line starts with `{_short(str(token))}`, not with its keyword",
            span,
            "a keyword fits here",
            help="Each line starts with the word that says what it does: `work`, `shape`, `needle` and so on.",
        )
    if token.type == "RPAR" and _open_bracket(line[: token.start_pos]) is None:
        return problem("E119", "a bracket is closed that was not opened", span, help="Take `)` away or write its `(`.")
    opening = _open_bracket(line[: token.start_pos])
    labels = [Label(span, f"here fits {fitting(accepted)}")]
    help_line = ""
    if opening is not None:
        labels.append(Label(span_of(opening, opening + 1), "in the bracket opened here"))
        if token.type == "COMMA" and not re.search(rf"{W}\($", line[: opening + 1]):
            help_line = "A list of sizes starts with the first size's number before the bracket: `18 (19, 20) cm`."
    if token.type == "COMMA" and line[: token.start_pos].rstrip().endswith(","):
        help_line = "Take one of the two commas away."
    return Problem("E117", f"`{_short(str(token))}` does not fit here", tuple(labels), help=help_line)


def _open_bracket(line: str) -> int | None:
    """Give the offset of the innermost bracket still open at the line's end, texts and cells left aside."""
    opened: list[int] = []
    for match in re.finditer(r'"[^"\n]*"|\|[^|\n]*\||[()]', line):
        if match[0] == "(":
            opened.append(match.start())
        elif match[0] == ")" and opened:
            opened.pop()
    return opened[-1] if opened else None
