"""The lines of a piece: each keyword's shape, and what it becomes in the spec."""

from __future__ import annotations

from collections.abc import Callable
from fractions import Fraction
from itertools import pairwise
from typing import Literal, get_args

from wale.actions import (
    EDGINGS,
    Action,
    BindOff,
    BindSides,
    CastOn,
    Coursed,
    Curve,
    Edge,
    Evenly,
    Fabric,
    Fold,
    Hem,
    Mark,
    Neck,
    Note,
    Placket,
    Shoulders,
    Steek,
    Work,
)
from wale.actions import Shape as Shaping
from wale.constructions import COURSES
from wale.measure import Constant, Measure
from wale.quantity import show_decimal
from wale.resolve import crowns, edgings, fabrics, halves, holding, knitted
from wale.resolve.amounts import whole
from wale.resolve.shapes import Line, Match, Shape
from wale.resolve.workshop import Placed, Workshop

COURSE_FORMS = tuple(dict.fromkeys(one.form for one in COURSES.values()))
COURSE_WORDS = tuple(dict.fromkeys(form.split()[0] for form in COURSE_FORMS))


def _course_options(form: str) -> tuple[str, ...]:
    """Give what may follow the commas of a course's line: its options, and the ways that tell courses apart."""
    alike = [one for one in COURSES.values() if one.form == form]
    return (*alike[0].options, *(one.way for one in alike if one.way))


EVENLY = {"increase": True, "decrease": False}
"""Lines that reach a width evenly, and whether they gain stitches."""
CURVES: tuple[Curve, ...] = ("round", "square", "V", "scoop", "boat")
PLACKET = "placket WIDTH wide over LENGTH"
BIND_SIDES = "bind off WIDTH each side"
STRAIGHT = "shoulders straight"
LINES = {
    "edge": Shape(
        {
            "edge N sts each side in garter in YARN": (),
            "edge N sts each side in garter": (),
            "edge N sts each side in YARN": (),
            "edge N sts each side": (),
        }
    ),
    "steek": Shape({"steek N sts": ()}),
    **halves.LINES,
    "cast": Shape({"cast on WIDTH in SWATCH": ("N percent narrower", "provisional", "closed", "named NAME")}),
    "hem": Shape({"hem DEPTH": ("folded", "purl ridge", "picot", "slipped", "front in SWATCH", "knitted together")}),
    **edgings.LINES,
    "work": Shape(
        {
            **fabrics.FORMS,
            "work to LENGTH": ("named NAME",),
            "work LENGTH": ("named NAME",),
        },
        once=False,
    ),
    "shape": Shape(
        {
            "shape to WIDTH over LENGTH": ("on any row", "named NAME"),
            "shape to WIDTH": ("fitted", "on any row", "named NAME"),
        },
        once=False,
    ),
    **{
        word: Shape(
            {f"{word} evenly to N percent of LEVEL": ("named NAME",), f"{word} evenly to WIDTH": ("named NAME",)},
            once=False,
        )
        for word in EVENLY
    },
    "mark": Shape({"mark NAME": ()}, once=False),
    "neck": Shape({"neck WIDTH wide": ("DEPTH deep", *CURVES, PLACKET)}),
    "shoulders": Shape({"shoulders slope DEPTH": ("short rows", "bound off in steps"), STRAIGHT: ()}),
    "bind": Shape({BIND_SIDES: ("named NAME",), edgings.CORD: (), "bind off": ("MANNER",)}, once=False),
    **holding.LINES,
    **crowns.LINES,
    **{
        word: Shape({form: _course_options(form) for form in COURSE_FORMS if form.split()[0] == word})
        for word in COURSE_WORDS
    },
    **knitted.LINES,
    "note": Shape({"note TEXT": ()}, once=False),
}
REPEATED = (*EDGINGS, "fabric", "work", "shape", *EVENLY, "bind-sides", "note")
"""Steps that are numbered in their address, for they may stand more than once."""
STEEK = (3, 11)
"""Fewest and most stitches of a steek."""
ORDER = (
    "cast-on",
    "join",
    "hem",
    *EDGINGS,
    "fabric",
    "work",
    "shape",
    *EVENLY,
    "bind-sides",
    "mark",
    "neck",
    "shoulders",
    "crown",
    *COURSE_WORDS,
    "bind-off",
    "hold",
    "pom-pom",
    "tassel",
    "note",
)
"""Keywords of addresses, in the order in which a piece is usually worked."""


Reader = Callable[[Workshop, Line, bool], Action | None]


def _cast_on(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    width = shop.width(line)
    swatch = shop.swatch(line.head.name("SWATCH"), in_round, "piece")
    narrower: Fraction | None = None
    if "N percent narrower" in line.options:
        number = line.options["N percent narrower"].number("N")
        if not 0 <= number.value <= 30:
            shop.context.report(
                "E223",
                "a facing is 0 to 30 percent narrower than what it backs",
                number.span,
                "beyond the bounds",
                "Usual are 3 to 10 percent.",
            )
            return None
        narrower = number.value
    if width is None or swatch is None:
        return None
    manners = [manner for manner in ("provisional", "closed") if manner in line.options]
    if len(manners) > 1:
        shop.context.report(
            "E204", "a cast-on is provisional or closed, not both", line.span, "both", "Leave one of them out."
        )
        return None
    return CastOn(width, swatch.name, narrower, manners[0] if manners else "", line.span, _label(line))


def _hem(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    depth = shop.length(line, "DEPTH")
    folds = [fold for fold in get_args(Fold) if fold in line.options]
    if len(folds) > 1:
        said = " and ".join(folds)
        shop.context.report("E204", "a hem folds in one way", line.span, said, "Leave all but one of them out.")
        return None
    front: str | None = None
    if "front in SWATCH" in line.options:
        swatch = shop.swatch(line.options["front in SWATCH"].name("SWATCH"), in_round, "hem")
        if swatch is None:
            return None
        front = swatch.name
    fold: Fold = folds[0] if folds else "purl ridge"
    return Hem(depth, front, "knitted together" in line.options, line.span, fold) if depth else None


def _work(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    if line.form in fabrics.FORMS:
        return fabrics.read_fabric(shop, line, in_round)
    length = shop.length(line)
    return Work(length, line.form == "work to LENGTH", line.span) if length else None


def _shape(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    fitted = "fitted" in line.options
    if not fitted and "LENGTH" not in line.head.found:
        shop.context.report(
            "E206",
            "this `shape` line does not say over what length",
            line.span,
            "over what?",
            f"Write `{shop.context.cut(line.head.span)} over 6 cm`; in the cap of a sleeve `fitted` finds the length.",
        )
        return None
    width, over = shop.width(line), None if fitted else shop.length(line)
    if width is None or (over is None and not fitted):
        return None
    return Shaping(width, over, "on any row" in line.options, _label(line), line.span)


def _evenly(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    grows = EVENLY[line.keyword]
    if "LEVEL" in line.head.found:
        percent = line.head.number("N")
        if not 1 <= percent.value <= 1000 or (percent.value > 100) != grows:
            shop.context.report(
                "E223",
                f"stitches do not {line.keyword} to {show_decimal(percent.value, 1)} percent",
                percent.span,
                "101 to 1000" if grows else "1 to 99",
                "Less than 100 percent is fewer stitches, more than 100 percent is more.",
            )
            return None
        of = line.head.name("LEVEL").text
        return Evenly(None, grows, _label(line), line.span, percent.value, of)
    width = shop.width(line)
    return Evenly(width, grows, _label(line), line.span) if width is not None else None


def _label(line: Line) -> str:
    return line.options["named NAME"].name("NAME").text if "named NAME" in line.options else ""


def _mark(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    return Mark(line.head.name("NAME").text, line.span)


def _neck(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    width = shop.width(line)
    if "DEPTH deep" not in line.options:
        shop.context.report(
            "E206",
            "this `neck` line does not say how deep the neck is",
            line.span,
            "how deep?",
            f"Write `{shop.context.cut(line.head.span)}, 8 cm deep`.",
        )
        return None
    curves = [curve for curve in CURVES if curve in line.options]
    if len(curves) > 1:
        both = f"`{curves[0]}` and `{curves[1]}`"
        shop.context.report("E204", "a neck has one form, not two", line.span, both, "Leave one of them out.")
        return None
    depth = shop.names.scope.measure(line.options["DEPTH deep"].value("DEPTH"), "length", "rows")
    width, depth = shop.known(width), shop.known(depth)
    placket = _placket(shop, line.options[PLACKET]) if PLACKET in line.options else None
    if placket is not None and "scoop" in curves:
        help = "Write `round`, `square`, `boat` or `V`, or leave the placket out."
        shop.context.report("E405", "a scoop has no placket yet", placket.span, "below a scoop", help)
        return None
    if width is None or depth is None or (PLACKET in line.options and placket is None):
        return None
    return Neck(width, depth, curves[0] if curves else "round", line.span, placket)


def _placket(shop: Workshop, match: Match) -> Placket | None:
    width = shop.known(shop.names.scope.measure(match.value("WIDTH"), "length", "stitches"))
    length = shop.known(shop.names.scope.measure(match.value("LENGTH"), "length", "rows"))
    return Placket(width, length, match.span) if width is not None and length is not None else None


def _shoulders(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    if line.form == STRAIGHT:
        none = Constant(tuple(Fraction(0) for _ in shop.names.scope.names))
        return Shoulders(Measure(none, "rows", line.span, "no slope"), "short rows", line.span)
    slope = shop.known(shop.length(line, "DEPTH"))
    if len(line.options) > 1:
        shop.context.report(
            "E204", "shoulders are sloped one way, not two", line.span, "both", "Leave one of them out."
        )
        return None
    if not line.options:
        shop.context.assume("Shoulders are sloped by short rows; `bound off in steps` changes it.", span=line.span)
    steps = "bound off in steps" in line.options
    return Shoulders(slope, "steps" if steps else "short rows", line.span) if slope else None


def _bind_off(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    if line.form == BIND_SIDES:
        width = shop.known(shop.width(line))
        return BindSides(width, _label(line), line.span) if width is not None else None
    if line.form == edgings.CORD:
        cord = edgings.read_cord(shop, line)
        return BindOff("", line.span, cord) if cord else None
    return BindOff(line.options["MANNER"].text("MANNER") if line.options else "", line.span)


def _course(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    """Give a course with its slots by the words before them: `over LENGTH` is `over`."""
    course = next(one for one in COURSES.values() if one.form == line.head.form and (one.way or None) == _way(line))
    given: dict[str, Measure] = {}
    for form, match in [(line.head.form, line.head), *line.options.items()]:
        words = form.split()
        for before, slot in pairwise(words):
            if slot in ("WIDTH", "LENGTH"):
                kind: Literal["stitches", "rows"] = "stitches" if slot == "WIDTH" else "rows"
                found = shop.known(shop.names.scope.measure(match.value(slot), "length", kind))
                if found is None:
                    return None
                given[before] = found
    missing = [form for form in course.options if form not in line.options]
    if missing:
        told = f"`{missing[0].split()[0]}`"
        shop.context.report(
            "E206", f"this line does not say its {told}", line.span, f"{told} is missing", f"Write `{course.example}`."
        )
        return None
    return Coursed(course.line, line.span, given)


def _way(line: Line) -> str | None:
    """Give the option that tells a course from another of the same form."""
    ways = {one.way for one in COURSES.values()}
    return next((option for option in line.options if option in ways), None)


def _note(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    return Note(line.head.text("TEXT"), line.span)


READERS: dict[str, tuple[str, Reader]] = {
    "cast": ("cast-on", _cast_on),
    "hem": ("hem", _hem),
    **{keyword: (keyword, edgings.read_edging) for keyword in EDGINGS},
    "work": ("work", _work),
    "shape": ("shape", _shape),
    **{word: (word, _evenly) for word in EVENLY},
    "mark": ("mark", _mark),
    "neck": ("neck", _neck),
    "shoulders": ("shoulders", _shoulders),
    "bind": ("bind-off", _bind_off),
    "hold": ("hold", holding.read_hold),
    "join": ("join", holding.read_joining),
    "crown": ("crown", crowns.read_crown),
    "pom-pom": ("pom-pom", crowns.read_pom_pom),
    "tassel": ("tassel", crowns.read_tassel),
    **{word: (word, _course) for word in COURSE_WORDS},
    "note": ("note", _note),
}
"""For each keyword of a piece: the word of its address, and its reader."""


_OTHER_KEYWORD: dict[type[Action], str] = {Fabric: "fabric", BindSides: "bind-sides"}
"""Actions whose lines begin like others, and the word of their addresses."""


def read_step(shop: Workshop, line: Line, in_round: bool) -> Placed | None:
    """Give the step of a line, or None when something in it is wrong."""
    keyword, reader = READERS[line.keyword]
    action = reader(shop, line, in_round)
    if action is None:
        return None
    keyword = _OTHER_KEYWORD.get(type(action), keyword)
    label = action.name if isinstance(action, Mark) else _label(line)
    return Placed(keyword, label, action)


def read_edge(shop: Workshop, line: Line) -> Edge | None:
    """Give the edge stitches of a piece."""
    stitches = whole(shop.context, line.head.number("N"), 0)
    yarn: str | None = None
    if "YARN" in line.head.found:
        yarn = shop.yarn(line.head.name("YARN"))
        if yarn is None:
            return None
    if stitches is not None and stitches > 20:
        shop.context.report("E223", f"{stitches} edge stitches are beyond all bounds", line.span, "0 to 20", "")
        return None
    return Edge(stitches, yarn, line.span, "garter" in line.form.split()) if stitches is not None else None


def read_steek(shop: Workshop, line: Line) -> Steek | None:
    """Give the steek of a piece.

    Odd, so that a stitch stands in its middle. 5 are usual, 3 possible, 9 to 11 make a wide facing of fine yarn
    (https://docslib.org/doc/5596780/steeks-cut-your-knitting,
    https://kddandco.com/2012/04/29/steeks-2-reinforcing-and-cutting/).
    """
    stitches = whole(shop.context, line.head.number("N"), 0)
    if stitches is None:
        return None
    if stitches % 2 == 0 or not STEEK[0] <= stitches <= STEEK[1]:
        shop.context.report(
            "E254",
            f"a steek of {stitches} sts cannot be cut through a stitch in its middle"
            if stitches % 2 == 0
            else f"a steek of {stitches} sts is too {'narrow' if stitches < STEEK[0] else 'wide'}",
            line.span,
            "an odd number from 3 to 11",
            "Write `steek 5 sts`, which is usual, or `steek 7 sts`; 9 or 11 make a wide facing of fine yarn.",
        )
        return None
    return Steek(stitches, line.span)
