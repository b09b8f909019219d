"""Which numbers a question is about: an address or its beginning, a line of the spec, or a printed number.

A bare number is a line (`12`, `mill-yarns.wale:12`), or, beyond the last line, a printed number. A printed number may
always stand behind `=` or with its unit (`=159`, `159sts`).
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence

from wale.explain.book import Draft, Units, printed
from wale.plan import Plan
from wale.problems.nearest import nearest
from wale.problems.problem import Problem
from wale.source import Source

_LINE = re.compile(r"(?:(?P<file>.+):)?(?P<line>\d+):?")
_NUMBER = r"(?P<number>[-+]?\d+(?:\.\d+)?)"
_PRINTED = re.compile(rf"=\s*{_NUMBER}\s*(?P<unit>[a-z]*)|{_NUMBER.replace('number', 'other')}\s*(?P<word>[a-z]+)")
UNITS = {
    "": (),
    "st": ("sts",),
    "sts": ("sts",),
    "row": ("row", "rows"),
    "rows": ("row", "rows"),
    "round": ("round", "rounds"),
    "rounds": ("round", "rounds"),
    "cm": ("cm",),
    "inch": ("cm",),
    "inches": ("cm",),
    "times": ("times", "repeats"),
}
"""Unit words of a question with the units that they match; none: any."""
LISTED = 6
PAGE = (
    *("body", "ring", "yarn", "gauge", "needles", "swatch"),
    *("chart", "floats", "crown-floats", "rests", "overs", "colour", "assumption", "weight", "care", "estimate"),
)
"""What addresses begin with whose numbers stand beside the lines of pieces and bands."""


def find(
    reasons: Sequence[Draft], what: str, spec: str, sources: Mapping[str, Source], units: Units = "cm"
) -> tuple[tuple[Draft, ...], Problem | None]:
    """Give the numbers that `what` asks for, or a problem with the names that come near.

    Args:
        spec: name of the spec's own source, which bare line numbers mean.
        units: of the pattern's lengths, as printed.
    """
    what = what.strip()
    line = _LINE.fullmatch(what)
    if line is not None and line["file"] is None and _is_beyond(int(line["line"]), sources.get(spec)):
        line, what = None, f"={what.rstrip(':')}"
    number = None if line is not None else _PRINTED.fullmatch(what)
    if line is not None:
        file = _file(line["file"], spec, sources)
        asked = int(line["line"])
        found = tuple(one for one in reasons if _stands_on(one, file, asked, sources))
        if not found and (head := _head(file, asked, sources)) != asked:
            found = tuple(one for one in reasons if _stands_on(one, file, head, sources))
        hint = f"Ask for a printed number as `={line['line']}`." if line["file"] is None else ""
        return found, None if found else _unknown(f"no number comes from line {line['line']} of {file}", hint)
    if number is not None and (number["unit"] or number["word"] or "") in UNITS:
        units_asked, digits = UNITS[number["unit"] or number["word"] or ""], number["number"] or number["other"]
        found = tuple(
            one
            for one in reasons
            if printed(one, units) == digits.lstrip("+") and (not units_asked or one.unit in units_asked)
        )
        hint = "Numbers are compared as printed: counts whole, lengths to one decimal."
        return found, None if found else _unknown(f"the pattern prints no {what.lstrip('= ')}", hint)
    return _addressed(reasons, what)


def _addressed(reasons: Sequence[Draft], what: str) -> tuple[tuple[Draft, ...], Problem | None]:
    exact = tuple(one for one in reasons if one.address == what)
    below = tuple(one for one in reasons if _is_below(one.address, what))
    if exact or below:
        return exact or below, None
    addresses = tuple(dict.fromkeys(one.address for one in reasons))
    near = nearest(what, [*addresses, *_beginnings(addresses)])
    start = what.split(".")[0]
    same = [one for one in addresses if one.split(".")[0] == start]
    if near:
        hint = f"Perhaps {', '.join(near)}? "
    elif same:
        hint = f"Numbers of {start}: {', '.join(same[:LISTED])} and more. "
    else:
        hint = f"Numbers belong to {', '.join(dict.fromkeys(one.split('.')[0] for one in addresses))}. "
    return (), _unknown(f"no number is called {what}", f"{hint}Without a name all of them are listed.")


def _is_below(address: str, beginning: str) -> bool:
    return address.startswith((f"{beginning.rstrip('.')}.", f"{beginning}["))


def _beginnings(addresses: Sequence[str]) -> dict[str, None]:
    return dict.fromkeys(one.rsplit(".", count)[0] for one in addresses for count in (1, 2))


def _unknown(message: str, help: str) -> Problem:
    return Problem("E306", message, help=help)


def _file(name: str | None, spec: str, sources: Mapping[str, Source]) -> str:
    """Give the source that is meant: a name may leave its folder out."""
    if name is None:
        return spec
    return next((one for one in sources if one == name or one.endswith(f"/{name}")), name)


def _is_beyond(line: int, source: Source | None) -> bool:
    return source is not None and line > source.text.count("\n") + 1


def _head(file: str, line: int, sources: Mapping[str, Source]) -> int:
    """Give the first line of the block that a line stands in: numbers of yarns and motifs go by that line."""
    lines = sources[file].text.split("\n") if file in sources else []
    while 0 < line <= len(lines) and lines[line - 1][:1] in ("", " ", "\t"):
        line -= 1
    return line


def _stands_on(reason: Draft, file: str, line: int, sources: Mapping[str, Source]) -> bool:
    source = sources.get(file)
    return source is not None and any(
        span.file == file and source.place(span.start)[0] <= line <= source.place(max(span.start, span.end - 1))[0]
        for each in reason.spans
        for span in each.places
    )


def owner_of(what: str, plan: Plan) -> str:
    """Give the piece, band or other owner that an address begins with; empty where a question is of another kind."""
    head = re.split(r"[.\[]", what.strip())[0]
    names = [piece.name for piece in plan.pieces] + [band.name for band in plan.bands]
    return head if head in (*names, *PAGE) else ""
