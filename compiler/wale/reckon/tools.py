"""`needle` and `contrast`: sizes in other systems, and whether two colours stand apart."""

from __future__ import annotations

import re
from fractions import Fraction

from wale.colour import ALIKE_BELOW, CLOSE_BELOW, SAME_BELOW, SIGHTS, apart, luminance
from wale.colour import contrast as contrast_of
from wale.needles import SYSTEMS, is_believable, needle_from_number, numbers_for, numbers_of, sizes
from wale.reckon.answer import Answer, Figure, plain
from wale.reckon.words import Words
from wale.refusals import refuse

NAMES = {"US": "US", "UK": "old UK and Canadian", "JP": "Japanese"}
SPOKEN = {"us": "US", "old uk": "UK", "uk": "UK", "canadian": "UK", "jp": "JP", "japanese": "JP", "japan": "JP"}


def needle(words: Words) -> Answer:
    """Answer `needle`."""
    notes: list[str] = []
    spoken = words.take(*SPOKEN)
    if spoken:
        mm, how = _numbered(words, SPOKEN[spoken], notes)
    else:
        mm = words.number("a needle size")
        words.need("mm")
        if not is_believable(mm):
            raise refuse("E802", f"{plain(mm)} mm is no knitting needle", "Needles are 0.5 to 50 mm thick.")
        how = f"{plain(mm)} mm, looked up"
    words.end()
    numbers = dict(numbers_for(mm))
    figures = [Figure("size", mm, "mm")]
    for system in SYSTEMS:
        figures.append(Figure(NAMES[system], _halves(numbers[system]) if system in numbers else _nearest(system, mm)))
        found = needle_from_number(system, numbers[system]) if system in numbers else None
        if found is not None and found.doubt and found.doubt not in notes:
            notes.append(found.doubt)
    return Answer(tuple(figures), (how,), ("needle",), tuple(notes))


def _numbered(words: Words, system: str, notes: list[str]) -> tuple[Fraction, str]:
    number = words.name()
    if re.fullmatch(r"\d/\d", words.peek()):
        number += f" {words.name()}"
    found = needle_from_number(system, number)
    if found is None:
        known = ", ".join(numbers_of(system))
        raise refuse("E802", f"there is no {NAMES[system]} needle `{number}`", f"There are {known}.")
    if found.doubt:
        notes.append(found.doubt)
    return found.mm, f"{NAMES[system]} {number} is {plain(found.mm)} mm, looked up"


def _halves(number: str) -> str:
    return number.replace(".5", " 1/2")


def _nearest(system: str, mm: Fraction) -> str:
    """Say that a size has no number, and which sizes nearby do."""
    known = sizes(system)
    below = [one for one in known if one < mm][-1:]
    above = [one for one in known if one > mm][:1]
    near = " and ".join(f"{_halves(dict(numbers_for(one))[system])} is {plain(one)} mm" for one in (*below, *above))
    return f"none; {near}"


def contrast(text: str) -> Answer:
    """Answer `contrast`, from the text as it is: two colours of six digits, with or without `#`."""
    found = re.findall(r"#?\b([0-9a-fA-F]{6})\b", text)
    rest = re.sub(r"#?\b[0-9a-fA-F]{6}\b|\b(and|on|with|against)\b|[,\s?]", "", text)
    if len(found) != 2 or rest:
        raise refuse(
            "E801",
            "a contrast is asked of two colours",
            "Write each as six digits, red, green and blue, such as `8a5a2b c9a36b`; `#` before them needs quotes.",
        )
    first, second = (f"#{one.lower()}" for one in found)
    ratio, seen = contrast_of(first, second), apart(first, second)
    light = seen.lights
    if seen.difference < SAME_BELOW:
        verdict = "hardly different: a motif will not tell"
    elif seen.grey < ALIKE_BELOW:
        verdict = "too alike: a motif will hardly tell"
    else:
        verdict = "rather alike: a motif may tell but faintly" if seen.grey < CLOSE_BELOW else "a motif will tell"
    if seen.blind and seen.difference >= SAME_BELOW:
        verdict += f"; alike to {' and '.join(seen.blind)} eyes"
    figures = (
        Figure("verdict", verdict),
        Figure("contrast", Fraction(ratio), "to 1"),
        Figure("L* apart", Fraction(seen.grey), "", 1),
        Figure("CIEDE2000", Fraction(seen.difference), "", 1),
        *(Figure(name, Fraction(one), "", 1) for name, one in zip(SIGHTS.values(), seen.seen, strict=True)),
        Figure(first, f"L* {light[0]:.1f}"),
        Figure(second, f"L* {light[1]:.1f}"),
    )
    low, high = sorted((luminance(first), luminance(second)))
    formulas = (
        f"({high:.4f} + 0.05) / ({low:.4f} + 0.05) = {ratio:.2f}",
        f"|{light[0]:.1f} − {light[1]:.1f}| = {seen.grey:.1f}; alike below {ALIKE_BELOW}, "
        f"rather alike below {CLOSE_BELOW}",
        f"CIEDE2000, also of the colours as simulated for colour-blind eyes; hardly different below {SAME_BELOW}",
    )
    note = "the limits are our own choice; screens and wool differ, so look at both yarns in a grey photograph"
    return Answer(figures, formulas, ("contrast", "lightness", "difference", "eyes"), (note,))
