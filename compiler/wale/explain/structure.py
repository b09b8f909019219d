"""Numbers of a pattern that have no reason since they only give order or are part of a name: a closed list of classes.

Each class is recognised by its own rule, from the words around a number and the part in which it stands, never from
the lack of a reason. They are listed in docs/explain.md.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from wale.published import sources
from wale.spec import Spec
from wale.write.glossary import MEANINGS

CLASSES: dict[str, str] = {
    "title": "in the title of the pattern or what its author says about it",
    "step": "number of a step or section, and a reference to one",
    "row": "label of a row or round that is told by itself, a reference to one, and row 1 and column 1 of a repeat",
    "size": "part of the name of a size",
    "name": "part of the name of a piece, level, yarn, swatch, motif or formula",
    "address": "part of an address, by which `explain` names a number",
    "colour": "part of the code of a colour (`#8a5a2b`)",
    "term": "part of a stitch's name, and what the list of abbreviations says of it",
    "example": "in a line of a spec that is quoted as an example",
    "source": "in the title of a source: its year, edition, report number",
    "note": "in a note that the author of the pattern or of a motif wrote",
    "version": "version of the compiler",
}
"""Every class, with what belongs to it."""


def _any_of(words: Iterable[str]) -> re.Pattern[str]:
    """Match any of some words that hold a figure, as words of their own, the longest first."""
    figured = sorted({one for one in words if re.search(r"\d", one)}, key=lambda one: (-len(one), one))
    return re.compile(rf"(?<!\w)(?:{'|'.join(map(re.escape, figured))})(?!\w)" if figured else r"(?!)")


_STEPS = re.compile(r"\bsteps \d+ to \d+ of\b|\bgo on with step \d+")
_ROWS = re.compile(
    r"\brow \d+(?=: \S+ passes )|\bin chart rows? \d+(?:, \d+)*|\bas row \d+|\bcolumns 1(?= to )|(?<=, )rows 1(?= to )"
    r"|, then 1(?= to \d|[.:;])"
    r"|\brepeat (?:rows?|rounds?) \d+(?: (?:and|to) \d+)?|\bbeginning with (?:row|round) \d+"
    r"|(?:^|: )(?:[a-z]+ |rolled edge |crown, )?(?:rows?|rounds?) \d+(?: (?:and|to) \d+)?(?: \([\d, ]+\))?"
    r"(?: \([RW]S\))?:$",
    re.IGNORECASE,
)
TERMS = _any_of(MEANINGS)
"""Abbreviations that hold a figure."""
_CABLE = re.compile(r"\bcable \d+ (?:left|right)\b")
_QUOTED = re.compile(r"`[^`]*`")
_COLOUR = re.compile(r"#[0-9a-f]{6}\b")
_NUMBERED = re.compile(
    r"(?<![\w.])[a-z]+(?:-[a-z]+)*-\d+(?!\w)|\bat the (?:(?!row\b|round\b|column\b)[a-z]+ )+\d+(?=[,;.:])"
)
_STANDARD = re.compile(r"\bEN \d+\b")
_NOTE = re.compile(r"Note \(not proven\).*", re.S)


def masks(spec: Spec) -> tuple[tuple[str, re.Pattern[str]], ...]:
    """Give the rules that hold in every part, as (class, pattern); what a pattern covers belongs to the class."""
    found = [("note", _NOTE), ("colour", _COLOUR), ("example", _QUOTED), ("step", _STEPS), ("row", _ROWS)]
    found += [("term", _CABLE), ("term", TERMS), ("source", _STANDARD)]
    named = ["CIEDE2000", *spec.yarns, *spec.swatches, *spec.motifs, *(one.name for one in (*spec.pieces,))]
    named += [band.name for band in spec.bands]
    groups: tuple[tuple[str, Iterable[str]], ...] = (
        ("source", sources().values()),
        ("size", spec.size_names),
        ("name", named),
    )
    for kind, words in groups:
        found.append((kind, _any_of(words)))
    return (*found, ("name", _NUMBERED))


def covered(rules: Iterable[tuple[str, re.Pattern[str]]], text: str) -> Iterator[tuple[int, int, str]]:
    """Give what the rules cover of a text as (start, end, class), rule by rule."""
    for kind, pattern in rules:
        for found in pattern.finditer(text):
            yield found.start(), found.end(), kind
