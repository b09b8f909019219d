"""The lines of a piece: each keyword's shape, and what it becomes in the spec."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from fractions import Fraction

from wale.parse.tree import Name
from wale.resolve.amounts import NEEDLE_FORMS, needle_mm, whole
from wale.resolve.context import Context
from wale.resolve.fit import FIT_OPTIONS, read_fit
from wale.resolve.names import Names
from wale.resolve.shapes import Line, Shape
from wale.resolve.swatches import find_swatch
from wale.spec import (
    Action,
    BindOff,
    CastOn,
    Crown,
    Edge,
    Fabric,
    Fit,
    Hem,
    Mark,
    Measure,
    Motif,
    Neck,
    Note,
    PomPom,
    Rib,
    Shape as Shaping,
    Shoulders,
    Swatch,
    Work,
    Yarn,
)

WORK_IN_MOTIF, WORK_IN = "work in MOTIF on SWATCH", "work in SWATCH"
RIB_OPTIONS = ("RIB", *(f"on {form}" for form in NEEDLE_FORMS))
LINES = {
    "edge": Shape({"edge N sts each side in YARN": (), "edge N sts each side": ()}),
    "cast": Shape({"cast on WIDTH in SWATCH": ("N percent narrower", "provisional")}),
    "hem": Shape({"hem DEPTH": ("folded", "purl ridge", "front in SWATCH", "knitted together")}),
    "rib": Shape({"rib DEPTH": RIB_OPTIONS}, once=False),
    "work": Shape(
        {
            WORK_IN_MOTIF: FIT_OPTIONS,
            WORK_IN: (),
            "work to LENGTH": ("named NAME",),
            "work LENGTH": ("named NAME",),
        },
        once=False,
    ),
    "shape": Shape({"shape to WIDTH over LENGTH": ("on any row", "named NAME")}, once=False),
    "mark": Shape({"mark NAME": ()}, once=False),
    "neck": Shape({"neck WIDTH wide": ("DEPTH deep", "round", "square")}),
    "shoulders": Shape({"shoulders slope DEPTH": ("short rows", "bound off in steps")}),
    "bind": Shape({"bind off": ("WORDS",)}),
    "crown": Shape({"crown N wedges over LENGTH": ("in pattern", "plain in YARN", "chart MOTIF")}),
    "pom-pom": Shape({"pom-pom LENGTH in YARN": ()}),
    "note": Shape({"note TEXT": ()}, once=False),
}
REPEATED = ("rib", "fabric", "work", "shape", "note")
"""Steps that are numbered in their address, for they may stand more than once."""
ORDER = (
    "cast-on",
    "hem",
    "rib",
    "fabric",
    "work",
    "shape",
    "mark",
    "neck",
    "shoulders",
    "crown",
    "bind-off",
    "pom-pom",
    "note",
)
"""Keywords of addresses, in the order in which a piece is usually worked."""


@dataclass
class Workshop:
    """What the lines of pieces may refer to, and the references that are checked once all pieces are known."""

    context: Context
    names: Names
    yarns: Mapping[str, Yarn]
    swatches: Mapping[str, Swatch]
    motifs: Mapping[str, Motif]
    meets: list[tuple[Name, Name]] = field(default_factory=list)

    def yarn(self, name: Name) -> str | None:
        """Give a yarn's name if there is such a yarn; poison stays silent."""
        return name.text if self.context.knows("yarn", name) and name.text in self.yarns else None

    def swatch(self, name: Name, in_round: bool, what: str) -> Swatch | None:
        """Give a swatch, warning where it was knitted at another tension than the piece."""
        found = find_swatch(self.context, name, self.swatches)
        if found is not None and found.in_round != in_round:
            has, needs = ("in the round", "flat") if found.in_round else ("flat", "in the round")
            self.context.report(
                "W261",
                f"this {what} is worked {needs}, and the swatch `{found.name}` {has}",
                name.span,
                "another tension",
                "Knit a swatch the way the piece is worked: stitches and rows differ.",
                also=[(found.span, "the swatch")],
            )
        return found

    def width(self, line: Line, slot: str = "WIDTH") -> Measure | None:
        """Give a width: a length or stitches."""
        return self.names.scope.measure(line.head.value(slot), "length", "stitches")

    def length(self, line: Line, slot: str = "LENGTH") -> Measure | None:
        """Give a length: cm or rows."""
        return self.names.scope.measure(line.head.value(slot), "length", "rows")


@dataclass(frozen=True, slots=True)
class Placed:
    """A step before it has its address: keyword of the address, its own label ("" for none), and the action."""

    keyword: str
    label: str
    action: Action


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
    return CastOn(width, swatch.name, narrower, "provisional" if "provisional" in line.options else "", line.span)


def _hem(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    depth = shop.length(line, "DEPTH")
    front: str | None = None
    if "front in SWATCH" in line.options:
        swatch = shop.swatch(line.options["front in SWATCH"].name("SWATCH"), in_round, "hem")
        if swatch is None:
            return None
        front = swatch.name
    return Hem(depth, front, "knitted together" in line.options, line.span) if depth else None


def read_rib(shop: Workshop, line: Line) -> Rib | None:
    """Give a rib with its stitches and needle."""
    depth = shop.length(line, "DEPTH")
    if "RIB" not in line.options:
        shop.context.report(
            "E206",
            "this `rib` line does not say which rib",
            line.span,
            "1x1, 2x2?",
            f"Write `{shop.context.cut(line.span)}, 2x2`.",
        )
        return None
    knit, purl = (int(part) for part in line.options["RIB"].text("RIB").split("x"))
    needles = [match for form, match in line.options.items() if form.startswith("on ")]
    if len(needles) > 1:
        shop.context.report("E205", "two needles stand in one line", needles[1].span, "the second one")
        return None
    needle = needle_mm(shop.context, needles[0]) if needles else None
    if depth is None or (needles and needle is None):
        return None
    return Rib(depth, knit, purl, needle, line.span)


def _fabric(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    if line.form == WORK_IN_MOTIF:
        motif = line.head.name("MOTIF")
        known = shop.context.knows("motif", motif)
        swatch = shop.swatch(line.head.name("SWATCH"), in_round, "piece")
        pattern = shop.motifs.get(motif.text) if known else None
        fit = read_fit(shop.context, line, pattern, shop.meets)
        if swatch is None or pattern is None or fit is None:
            return None
        if swatch.motif != pattern.name:
            shop.context.report(
                "W262",
                f"`{pattern.name}` is worked at the gauge of `{swatch.name}`, which is a swatch "
                f"in {swatch.motif or swatch.stitch}",
                line.head.name("SWATCH").span,
                "another fabric",
                f"Knit a swatch in {pattern.name}: each fabric has its own gauge.",
                also=[(swatch.span, "the swatch")],
            )
        return Fabric(swatch.name, pattern.name, fit, line.span)
    return _plain_fabric(shop, line, in_round)


def _plain_fabric(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    name = line.head.name("SWATCH")
    if name.text in shop.context.blocks.get("motif", {}) and name.text not in shop.context.blocks.get("swatch", {}):
        fitting = [swatch.name for swatch in shop.swatches.values() if swatch.motif == name.text]
        shop.context.report(
            "E206",
            f"`{name.text}` is a motif; on which swatch is it worked?",
            name.span,
            "a motif",
            f"Write `work in {name.text} on {fitting[0] if fitting else 'SWATCH'}`.",
        )
        return None
    swatch = shop.swatch(name, in_round, "piece")
    if swatch is None:
        return None
    if swatch.motif is not None:
        shop.context.report(
            "E206",
            f"`{swatch.name}` is a swatch in {swatch.motif}; say how the motif is placed",
            name.span,
            "a swatch in a motif",
            f"Write `work in {swatch.motif} on {swatch.name}`.",
        )
        return None
    return Fabric(swatch.name, None, Fit("plain", line.span), line.span)


def _work(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    if line.form in (WORK_IN_MOTIF, WORK_IN):
        return _fabric(shop, line, in_round)
    length = shop.length(line)
    return Work(length, line.form == "work to LENGTH", line.span) if length else None


def _shape(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    width, over = shop.width(line), shop.length(line)
    if width is None or over is None:
        return None
    return Shaping(width, over, "on any row" in line.options, _label(line), line.span)


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
    if "round" in line.options and "square" in line.options:
        shop.context.report("E204", "a neck is round or square, not both", line.span, "both", "Leave one of them out.")
        return None
    depth = shop.names.scope.measure(line.options["DEPTH deep"].value("DEPTH"), "length", "rows")
    if width is None or depth is None:
        return None
    return Neck(width, depth, "square" if "square" in line.options else "round", line.span)


def _shoulders(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    slope = shop.length(line, "DEPTH")
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
    return BindOff(line.options["WORDS"].text("WORDS") if line.options else "", line.span)


def _crown(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    context = shop.context
    wedges, over = whole(context, line.head.number("N"), 2), shop.length(line)
    if not in_round:
        context.report(
            "E250",
            "a crown is worked in the round",
            line.span,
            "this piece is worked flat",
            "Write `in the round` in the head of the piece.",
        )
        return None
    if wedges is not None and wedges > 40:
        context.report(
            "E223",
            f"a crown of {wedges} wedges is beyond all bounds",
            line.head.number("N").span,
            "2 to 40 wedges",
            "Usual are 4 to 10 wedges.",
        )
        return None
    if len(line.options) > 1:
        context.report("E204", "a crown is worked one way, not two", line.span, "both", "Leave one of them out.")
        return None
    yarn = chart = None
    if "plain in YARN" in line.options:
        yarn = shop.yarn(line.options["plain in YARN"].name("YARN"))
        if yarn is None:
            return None
    if "chart MOTIF" in line.options:
        chart = _wedge_chart(shop, line.options["chart MOTIF"].name("MOTIF"))
        if chart is None:
            return None
    if not line.options:
        context.assume("The crown goes on in the pattern; `plain in …` or `chart …` changes it.", span=line.span)
    if wedges is None or over is None:
        return None
    return Crown(wedges, over, "plain" if yarn else "chart" if chart else "in pattern", chart, yarn, line.span)


def _wedge_chart(shop: Workshop, name: Name) -> str | None:
    motif = shop.motifs.get(name.text) if shop.context.knows("motif", name) else None
    if motif is not None and not motif.wedge:
        shop.context.report(
            "E245",
            f"the motif `{name.text}` is no wedge",
            name.span,
            "its rows don't get shorter",
            "A crown's chart is a motif with a line `wedge`.",
            also=[(motif.span, "the motif")],
        )
        return None
    return motif.name if motif else None


def _pom_pom(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    diameter = shop.names.scope.measure(line.head.value("LENGTH"), "length")
    yarn = shop.yarn(line.head.name("YARN"))
    return PomPom(diameter, yarn, line.span) if diameter and yarn else None


def _note(shop: Workshop, line: Line, in_round: bool) -> Action | None:
    return Note(line.head.text("TEXT"), line.span)


READERS: dict[str, tuple[str, Reader]] = {
    "cast": ("cast-on", _cast_on),
    "hem": ("hem", _hem),
    "rib": ("rib", lambda shop, line, in_round: read_rib(shop, line)),
    "work": ("work", _work),
    "shape": ("shape", _shape),
    "mark": ("mark", _mark),
    "neck": ("neck", _neck),
    "shoulders": ("shoulders", _shoulders),
    "bind": ("bind-off", _bind_off),
    "crown": ("crown", _crown),
    "pom-pom": ("pom-pom", _pom_pom),
    "note": ("note", _note),
}
"""For each keyword of a piece: the word of its address, and its reader."""


def read_step(shop: Workshop, line: Line, in_round: bool) -> Placed | None:
    """Give the step of a line, or None when something in it is wrong."""
    keyword, reader = READERS[line.keyword]
    action = reader(shop, line, in_round)
    if action is None:
        return None
    if isinstance(action, Fabric):
        keyword = "fabric"
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
    return Edge(stitches, yarn, line.span) if stitches is not None else None
