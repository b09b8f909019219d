"""Slips of the keyboard and the typesetter in one line: found before parsing, told as problems, and mended.

Input: the code of one logical line (comments blanked). Output: problems, each with a safe fix where one reading is
clear, and the edits that mend the line, so that one slip does not hide the rest of it.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable

from msgspec import Struct

W = r"[^\x00-\x2f:-@\[-`{-\x7f]"
MAX_SLIPS = 50  # of one line; a line with more is no knitter's

UNITS = "cm|mm|m|in|inch|inches|yd|yards|g|kg|oz|st|sts|row|rows|rnd|rnds|wpi|ply|EUR"

_SIGNS = {
    "×": "*",
    "÷": "/",
    "⁄": "/",
    "∕": "/",
    "−": "-",
    "–": "-",
    "‐": "-",
    "‑": "-",
    "″": " inch",
    "＝": "=",
    "，": ", ",
}
_FRACTIONS = "¼½¾⅐⅑⅒⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞"
_HIDDEN = "\u00ad\u200b\u2060\ufeff"

# Texts and rows of cells match first and are skipped: a sign inside them is the user's own.
_SLIP = re.compile(
    rf"""
    (?P<inch_mark>(?<=[0-9])["″])
  | "[^"\n]*" | \|[^|\n]*\|
  | (?P<curly>[“„«‟][^"“”«»\n]*["“”»]|"[^"“”\n]*[“”]|(?<!\S)(?:'[^'\n]*'|‘[^‘’\n]*’))
  | (?P<fraction>[{_FRACTIONS}])
  | (?P<comma>(?<![^\s(\-*/])[0-9]+(?:,[0-9]+)+(?:(?:{UNITS})(?!{W}))?)
  | (?P<point>(?<!{W})(?<![.)])\.(?=[0-9]))
  | (?P<inside>(?<![^\s(\-])[0-9.]+[ ]*(?:{UNITS})[ ]*\([^()\n]*\)(?!{W}))
  | (?P<glued>(?<!{W})(?<![._])(?:(?:[0-9]+/)?[0-9]+(?:{UNITS})|[0-9]+\.[0-9]+[A-Za-z]+)(?!{W}|[-.]{W}))
  | (?P<bracket>(?<![^\s(,*/\-])(?:[0-9]+\s)?[0-9]+(?:[./][0-9]+)?\()
  | (?P<inches>(?:(?:(?<![^\s(,\-+*/])[0-9]+\s+)?(?<![^\s(,\-+*/])[0-9]+(?:[./][0-9]+)?|\))\s+in(?![-.]?{W}|\())
  | (?P<low_line>(?<={W})_+(?={W}))
  | (?P<short_colour>\#[0-9A-Fa-f]{{3}}(?!{W}))
  | (?P<sign>[{"".join(_SIGNS)}{_HIDDEN}])
  | (?P<other>[^\x00-\x7f])
    """,
    re.VERBOSE,
)


class Slip(Struct, frozen=True):
    """One slip: its code, place in the line, what is put instead (None: nobody can know), and the words for it."""

    code: str
    start: int
    end: int
    instead: str | None
    message: str
    help: str = ""
    is_safe: bool = True


def find_slips(line: str) -> list[Slip]:
    """Give the slips of a line from left to right, not overlapping, `MAX_SLIPS` at most."""
    found: list[Slip] = []
    for match in _SLIP.finditer(line):
        if match.lastgroup is not None:
            slip = _READERS[match.lastgroup](line, match)
            if slip is not None:
                found.append(slip)
            if len(found) == MAX_SLIPS:
                break
    return found


def _typeset(match: re.Match[str], instead: str, seen: str = "") -> Slip:
    seen = seen or f"`{match[0]}`"
    put = f"`{instead.strip()}`" if instead.strip() else "a plain space" if instead else "nothing"
    return Slip(
        "E111", match.start(), match.end(), instead, f"{seen} stands where {put} belongs", "Use the plain sign."
    )


def _inch_mark(line: str, match: re.Match[str]) -> Slip | None:
    return _typeset(match, " inch")


def _curly(line: str, match: re.Match[str]) -> Slip | None:
    return _typeset(match, '"' + match[0][1:-1].replace('"', "") + '"', "another kind of quotes")


def _fraction(line: str, match: re.Match[str]) -> Slip | None:
    over, under = unicodedata.normalize("NFKC", match[0]).split("⁄")
    before = " " if re.match(W, line[match.start() - 1 : match.start()] or " ") else ""
    after = " " if re.match(W, line[match.end() : match.end() + 1]) else ""
    return _typeset(match, f"{before}{over}/{under}{after}")


def _comma(line: str, match: re.Match[str]) -> Slip | None:
    number, unit = re.fullmatch(r"([0-9,]+)([A-Za-z]*)", match[0]).groups()  # type: ignore[union-attr]
    opening = line.rfind("(", 0, match.start())
    closing = line.find(")", opening + 1) if opening >= 0 else -1
    is_inside = opening >= 0 and (closing < 0 or closing > match.start())
    bracket = line[opening : closing if closing >= 0 else len(line)]
    parts = number.split(",")
    if is_inside and not re.search(r",\s", bracket):
        instead, is_safe, message = ", ".join(parts), True, f"`{number}` needs a space after each comma"
    elif len(parts) > 2:
        instead, is_safe, message = ", ".join(parts), False, f"`{number}` needs a space after each comma"
    elif len(parts[1]) == 3:
        instead, is_safe = "".join(parts), False
        message = f"`{number}` may mean {''.join(parts)} or {'.'.join(parts)}"
    else:
        instead, is_safe = ".".join(parts), not is_inside
        message = f"`{number}` is written with a decimal comma: the decimal mark is a point"
    rule = "Decimals take a point, `3.5 cm`; a comma between two things has a space after it."
    unit = f" {'inch' if unit == 'in' else unit}" if unit else ""
    return Slip("E121", match.start(), match.end(), instead + unit, message, rule, is_safe)


def _point(line: str, match: re.Match[str]) -> Slip | None:
    rule = "Write the 0 before the point: `0.5 cm`."
    return Slip("E121", match.start(), match.end(), "0.", "a number starts with its point", rule)


def _inside(line: str, match: re.Match[str]) -> Slip | None:
    number, unit, rest = re.fullmatch(r"([0-9.]+) *([A-Za-z]+) *(\(.*\))", match[0]).groups()  # type: ignore[union-attr]
    if not re.fullmatch(r"\([-0-9./, ]+\)", rest):
        return None
    rule = "One unit for all sizes, after the bracket: `18 (19, 20) cm`."
    message = f"the unit `{unit}` stands before the list of sizes"
    return Slip("E125", match.start(), match.end(), f"{number} {rest} {unit}", message, rule)


def _glued(line: str, match: re.Match[str]) -> Slip | None:
    number, unit = re.fullmatch(r"([0-9./]+)([A-Za-z]+)", match[0]).groups()  # type: ignore[union-attr]
    instead = f"{number} {'inch' if unit == 'in' else unit}"
    rule = "A number and its unit are two words."
    return Slip("E120", match.start(), match.end(), instead, f"`{match[0]}` runs together: write `{instead}`", rule)


def _bracket(line: str, match: re.Match[str]) -> Slip | None:
    rule = "A space stands before the bracket of a list of sizes: `18 (19, 20) cm`."
    number = match[0][:-1]
    return Slip("E125", match.start(), match.end(), f"{number} (", f"`{number}` and its bracket run together", rule)


def _inches(line: str, match: re.Match[str]) -> Slip | None:
    before = line[: match.start()]
    if match[0][0] == ")":
        if not re.search(rf"(?<!{W})[0-9]+\s*$", before[: _opening(before)]):
            return None
    elif re.search(r"[*/]\s*$", before):  # `hip/2 in facing`: a factor takes no unit
        return None
    word = match.end() - 2
    is_safe = not re.match(r"\s+[A-Za-z]", line[match.end() :])
    rule = "Inches are written `inch`: `in` is the word of `in grist`."
    return Slip("E122", word, match.end(), "inch", "`in` after a number is not inches", rule, is_safe)


def _opening(before: str) -> int:
    """Give the offset of the bracket that is closed right after a text, 0 where none is."""
    depth = 1
    for i in range(len(before) - 1, -1, -1):
        depth += (before[i] == ")") - (before[i] == "(")
        if not depth:
            return i
    return 0


def _low_line(line: str, match: re.Match[str]) -> Slip | None:
    rule = "Words are joined by hyphens: `upper-arm`."
    return Slip("E112", match.start(), match.end(), "-", f"`{match[0]}` joins no words", rule)


def _short_colour(line: str, match: re.Match[str]) -> Slip | None:
    instead = "#" + "".join(digit * 2 for digit in match[0][1:])
    rule = "A colour is `#` and six digits 0-9 or a-f."
    return Slip("E115", match.start(), match.end(), instead, f"the colour `{match[0]}` has three digits", rule)


def _sign(line: str, match: re.Match[str]) -> Slip | None:
    if match[0] in _HIDDEN:
        return _typeset(match, "", f"an invisible sign (U+{ord(match[0]):04X})")
    around = line[match.start() - 1 : match.start()], line[match.end() : match.end() + 1]
    if match[0] == "×" and all(side.isdigit() for side in around):
        return _typeset(match, "x")
    return _typeset(match, _SIGNS[match[0]])


def _other(line: str, match: re.Match[str]) -> Slip | None:
    sign = match[0]
    category = unicodedata.category(sign)
    if category == "Zs":
        return _typeset(match, " ", f"a special space (U+{ord(sign):04X})")
    if category == "Nd":
        return _typeset(match, str(unicodedata.decimal(sign)))
    if "！" <= sign <= "～":
        return _typeset(match, unicodedata.normalize("NFKC", sign))
    if category[0] in "LM" or sign in "\u200c\u200d":
        return None
    name = unicodedata.name(sign, f"U+{ord(sign):04X}").lower()
    return Slip("E112", match.start(), match.end(), None, f"`{sign}` ({name}) means nothing here")


_READERS: dict[str, Callable[[str, re.Match[str]], Slip | None]] = {
    "inch_mark": _inch_mark,
    "curly": _curly,
    "fraction": _fraction,
    "comma": _comma,
    "point": _point,
    "inside": _inside,
    "glued": _glued,
    "bracket": _bracket,
    "inches": _inches,
    "low_line": _low_line,
    "short_colour": _short_colour,
    "sign": _sign,
    "other": _other,
}
