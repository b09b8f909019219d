"""`count` and `strands`: how thick a yarn is, however it is sold, and what several make together."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.needles import show_needle
from wale.quantity import meant_unit, to_base
from wale.reckon.answer import Answer, Figure, plain
from wale.reckon.words import Words
from wale.refusals import refuse
from wale.yarn import (
    SYSTEMS,
    Fold,
    WeightClass,
    band_metres_per_100g,
    classes_by_metres,
    classes_by_wraps,
    count_in,
    held_together,
    metres_per_100g,
    metres_range,
    needle_range,
    read_fold,
    resultant,
    weight_classes,
)

OTHER_NAMES = {"denier": "den", "nec": "Ne", "nel": "lea", "decitex": "dtex", "kilotex": "ktex"}
"""Words for numbering systems beside the language's own, in small letters."""
MOST_STRANDS = 40
LEAST_METRES, MOST_METRES = Fraction(1), Fraction(200_000)
"""Metres per 100 g that a yarn can have: from rope to the finest thread."""
Range = tuple[Fraction | None, Fraction | None]


class Count(Struct, frozen=True):
    """A yarn count read.

    Attributes:
        name: as it was asked.
        metres: per 100 g; None where wraps or a class do not tell.
        formula: how it was found.
        rules: keys of the rules.
        classes: weight classes that fit.
        notes: doubts.
    """

    name: str
    metres: Fraction | None
    formula: str
    rules: tuple[str, ...]
    classes: tuple[WeightClass, ...]
    notes: tuple[str, ...] = ()


def count(words: Words) -> Answer:
    """Answer `count`."""
    yarn = read_count(words)
    put_up = words.weight() if words.take("on", "in a", "in") else None
    words.end()
    figures: list[Figure] = []
    formulas = [yarn.formula]
    if yarn.metres is None:
        figures.append(Figure("m per 100 g", f"{show_range(metres_range(yarn.classes))} m, roughly"))
    else:
        figures.append(Figure("in 100 g", yarn.metres, "m", 1))
        figures.append(Figure("in 1 g", yarn.metres / 100, "m"))
        figures.append(Figure("tex", count_in(yarn.metres, "tex"), "g per 1000 m", 1))
        formulas.append(f"100000 / {plain(yarn.metres)} = {plain(count_in(yarn.metres, 'tex'))} tex")
    if put_up is not None and yarn.metres is not None:
        figures.append(Figure(f"on {plain(put_up)} g", yarn.metres * put_up / 100, "m", 0))
        formulas.append(f"{plain(yarn.metres)} × {plain(put_up)} / 100 = {plain(yarn.metres * put_up / 100)} m")
    figures += class_figures(yarn.classes)
    return Answer(tuple(figures), tuple(formulas), (*yarn.rules, "class"), yarn.notes)


def strands(words: Words) -> Answer:
    """Answer `strands`: each `[N of] COUNT`, and what to wind off a cone."""
    each: list[tuple[int, Count]] = []
    while True:
        number = 1
        if words.peek(1).lower() in ("of", "x", "strands"):
            number = words.whole("the number of strands", most=MOST_STRANDS)
            words.take("strands of", "of", "x")
        each.append((number, read_count(words)))
        if not words.take("with", "and", "+"):
            break
    whole = words.weight() if words.take("from", "for") else None
    words.end()
    metres = [yarn.metres for number, yarn in each for _ in range(number)]
    known = [one for one in metres if one is not None]
    if len(known) < len(metres):
        raise refuse("E801", "wraps and classes give no length", "Write count or length of each yarn.")
    if len(known) > MOST_STRANDS:
        raise refuse("E802", f"more than {MOST_STRANDS} strands are beyond all bounds", "Check the numbers.")
    together = held_together(known)
    classes = classes_by_metres(together)
    figures = [
        Figure("in 100 g", together, "m", 1),
        Figure("in 1 g", together / 100, "m"),
        Figure("tex", count_in(together, "tex"), "g per 1000 m", 1),
        *class_figures(classes),
    ]
    terms = " + ".join(f"{number} / {plain(yarn.metres or Fraction(0))}" for number, yarn in each)
    formulas = [*dict.fromkeys(yarn.formula for _, yarn in each), f"1 / ({terms}) = {plain(together)} m in 100 g"]
    if whole is not None:
        for number, yarn in each:
            assert yarn.metres is not None
            grams = whole * together / yarn.metres
            length = f"{plain(grams, 1)} g ({plain(grams * yarn.metres / 100, 0)} m)"
            figures.append(Figure(f"wind off {number} x" if number > 1 else "wind off", f"{length} of {yarn.name}"))
            formulas.append(
                f"{plain(whole)} g × {plain(together)} / {plain(yarn.metres)} = {plain(grams)} g for one strand"
            )
    rules = (*(rule for _, yarn in each for rule in yarn.rules), "strands", "class")
    notes = tuple(dict.fromkeys(note for _, yarn in each for note in yarn.notes))
    return Answer(tuple(figures), tuple(formulas), rules, notes)


def class_figures(classes: tuple[WeightClass, ...]) -> list[Figure]:
    """Give weight classes, usual needles and gauge of a yarn."""
    names = "; ".join(f"{one.number} {one.name} ({one.yarns})" for one in classes)
    stitches: Range = (
        min((one.stitches[0] for one in classes if one.stitches[0] is not None), default=None),
        max((one.stitches[1] for one in classes if one.stitches[1] is not None), default=None),
    )
    return [
        Figure("weight class", names),
        Figure("needles", show_needles(needle_range(classes))),
        Figure("usual gauge", f"{show_range(stitches)} sts in 4 inches of stockinette"),
    ]


def show_range(bounds: Range) -> str:
    """Print a range, open where a bound is None."""
    low, high = bounds
    if low is None:
        return f"up to {plain(high)}" if high is not None else "not known"
    return f"{plain(low)} to {plain(high)}" if high is not None else f"{plain(low)} and more"


def show_needles(bounds: Range) -> str:
    """Print a range of needles with their US numbers."""
    low, high = (None if one is None else show_needle(one) for one in bounds)
    if low is None:
        return f"up to {high}" if high else "not known"
    return f"{low} to {high}" if high else f"{low} and thicker"


def read_count(words: Words) -> Count:
    """Read one yarn: `2/8 Nm`, `Nm 28/3`, `R 68 tex/2`, `34 tex x 2`, `400 m per 100 g`, `12 wpi`, `class 3`."""
    if words.take("class"):
        return _class(words)
    if words.take("R"):
        number = words.number("a yarn count")
        system = _system(words)
        if words.take("/"):
            words.whole("the number of singles")
        return _counted(number, system, f"R {plain(number)} {system}")
    if not _known(words.peek()):
        if "/" in words.peek() and words.peek(1).lower() not in ("m", "yd"):
            first, second = words.peek().split("/")
            words.name()
            return _folded(first, second, _system(words))
        number = words.number("a yarn count or a length")
        if words.take("wpi", "wraps per inch", "wraps"):
            return _wraps(number)
        if not _known(words.peek()):
            return _band(words, number)
        system = _system(words)
        if words.take("x"):
            singles = words.whole("the number of singles", most=MOST_STRANDS)
            fold = Fold(singles, int(number)) if number.denominator == 1 else None
            value = resultant(fold, system) if fold else number * singles
            return _counted(value, system, f"{plain(number)} {system} x {singles}")
        return _counted(number, system, f"{plain(number)} {system}")
    system = _system(words)
    if "/" in words.peek():
        first, second = words.name().split("/")
        return _folded(first, second, system)
    number = words.number("a yarn count")
    return _counted(number, system, f"{system} {plain(number)}")


def _known(word: str) -> str | None:
    lower = word.lower()
    return OTHER_NAMES.get(lower) or next((system for system in SYSTEMS if system.lower() == lower), None)


def _system(words: Words) -> str:
    word = words.name()
    system = _known(word)
    if system is None:
        raise words.misread(f"`{word}` is no system of yarn counts; there are {', '.join(SYSTEMS)} and wpi")
    return system


def _counted(number: Fraction, system: str, name: str, text: str = "", note: str = "") -> Count:
    metres = _bounded(metres_per_100g(number, system))
    how = f"{text or name}: {SYSTEMS[system].words}, {plain(metres)} m in 100 g"
    rules = ("count", "fold") if text else ("count",)
    return Count(name, metres, how, rules, classes_by_metres(metres), (note,) if note else ())


def _folded(first: str, second: str, system: str) -> Count:
    figures = first.isdecimal() and second.isdecimal()
    if not figures or max(len(first), len(second)) > 5 or not int(first) or not int(second):
        raise refuse("E802", f"`{first}/{second}` is no yarn count", "Both numbers are 1 to 99999.")
    fold = read_fold(int(first), int(second))
    number = resultant(fold, system)
    indirect = SYSTEMS[system].kind == "indirect"
    sign = "/" if indirect else "×"
    name = f"{first}/{second} {system}"
    text = f"{name} = {fold.single} {sign} {fold.fold} = {plain(number)} {system}"
    note = ""
    if fold.doubt:
        note = fold.doubt
        if indirect:
            other = metres_per_100g(resultant(Fold(fold.single, fold.fold), system), system)
            note += f"; as {fold.single} strands of {fold.fold} it would be {plain(other, 1)} m in 100 g"
        else:
            note += "; the product is the same the other way round"
    return _counted(number, system, name, text, note)


def _band(words: Words, number: Fraction) -> Count:
    word = words.name()
    unit = meant_unit(word)
    if unit not in ("m", "yd"):
        raise words.misread(f"`{word}` is no system of yarn counts and no length of yarn")
    words.need("per", "in", "/", "to")
    if words.take("g"):
        grams, over = Fraction(1), "1 g"
    else:
        grams = words.weight()
        over = f"{plain(grams)} g"
    metres = _bounded(band_metres_per_100g(to_base(number, unit) / 100, grams))
    shown = plain(to_base(number, unit) / 100)
    text = f"{shown} m × 100 / {over} = {plain(metres)} m in 100 g"
    return Count(f"{shown} m per {over}", metres, text, ("band",), classes_by_metres(metres))


def _wraps(number: Fraction) -> Count:
    if number > 200:
        raise refuse("E802", "no yarn has so many wraps per inch", "Check the number.")
    note = "wraps depend on the hand that wraps; weigh a measured length to be sure"
    classes = classes_by_wraps(number)
    name = f"{plain(number)} wpi"
    return Count(name, None, f"{plain(number)} wraps per inch: nearest class", ("class",), classes, (note,))


def _class(words: Words) -> Count:
    wanted = words.name().lower()
    while words.peek() and words.peek().lower() not in ("with", "and", "on", "in", "from", "for", "?"):
        wanted += f" {words.name().lower()}"
    found = tuple(
        one for one in weight_classes() if wanted in (str(one.number), one.name.lower(), *one.yarns.lower().split(", "))
    )
    if not found:
        raise words.misread(f"`{wanted}` is no weight class; they are 0 to 7, Lace to Jumbo")
    return Count(f"class {wanted}", None, f"class {wanted}", ("class",), found)


def _bounded(metres: Fraction) -> Fraction:
    if not LEAST_METRES <= metres <= MOST_METRES:
        raise refuse("E802", f"{plain(metres, 3)} m in 100 g is no yarn", "Check the number and its system.")
    return metres
