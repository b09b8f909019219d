"""W606 and N607: will it go on?

What: each ring of the garment against the part of the body it must pass: every ring of a body (hem, waist, bust) the
larger of bust and shoulder girth, a neck the head, a cuff and sleeve the hand, a band along an armhole the upper arm, a
hat the head, a hood three quarters of it; the hip fits at rest.
A tube that is wide in one place and narrow in another, such as a pullover from the neck down, passes at each width what
that width's own measure says.
Why: a garment may fit where it sits and still not get there.
Rule: finished girth * (1 + give) >= part. Give is the least of the fabric as its swatch was pulled, floats included,
and of the cast-on or bind-off where that was pulled too (else it is taken to give like its fabric, as rib is). A facing
is sewn down, so it is a ring of its own. Without a stretched swatch of the very fabric, or without the measure, it is
"not known", never "goes on".
Example: a cuff of 18 cm that gives 10 %, for a hand of 21 cm. Instead: more ease, or a fabric that gives more.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Literal

from msgspec import Struct

from wale.checks.ring_shapes import AT_REST, CHEEKS, HOOD, Shape, shapes
from wale.plan import Plan
from wale.problems.problem import Label, Problem
from wale.quantity import length_words, show_decimal, units_in_text
from wale.source import Span
from wale.spec import Size, Spec

Verdict = Literal["goes on", "too tight", "not known"]

EXAMPLES = {"bust": 94, "upper-arm": 29, "shoulder-girth": 104, "head": 52, "hand": 20, "heel-diagonal": 32, "hip": 98}
"""A measure in cm to show how it is written."""


class Ring(Struct, frozen=True):
    """One ring in one size.

    Attributes:
        give: width pulled / width at rest, less 1; 0 where it fits at rest; None where it is not known.
        limit: what gives least: "the fabric" or "its edge"; "" where that is not known.
        part: the measure it must pass; "" where the file does not tell.
        part_cm: None where that measure is not known.
        source: where the measure comes from; `estimated` where by a rule.
        why: what is not known, in words, or "".
        span: the line that sets the girth.
        share: what of the measure it must pass: all of it, or of the head what a hood goes round.
    """

    piece: str
    ring: str
    size: str
    girth_cm: Fraction
    give: Fraction | None
    part: str
    part_cm: Fraction | None
    source: str
    estimated: bool
    verdict: Verdict
    why: str
    span: Span
    limit: str = ""
    share: Fraction = Fraction(1)

    @property
    def part_words(self) -> str:
        """What it must pass, in words."""
        return self.part.replace("-", " ") if self.share == 1 else f"{self.part} {CHEEKS}"

    @property
    def pulled_cm(self) -> Fraction | None:
        """The girth as far as it can be pulled, or None where it is not known."""
        return None if self.give is None else self.girth_cm * (1 + self.give)

    @property
    def needed_cm(self) -> Fraction | None:
        """The finished girth that would do, or None where it is not known."""
        return None if self.give is None or self.part_cm is None else self.part_cm / (1 + self.give)

    @property
    def missing_cm(self) -> Fraction | None:
        """How much finished girth is missing, 0 where none is, or None where it is not known."""
        return None if self.needed_cm is None else max(Fraction(0), self.needed_cm - self.girth_cm)

    @property
    def needed_give(self) -> Fraction | None:
        """The give that would do at this girth, 0 where it passes at rest, or None where the part is not known."""
        return None if self.part_cm is None else max(Fraction(0), self.part_cm / self.girth_cm - 1)


def rings(spec: Spec, plan: Plan) -> tuple[Ring, ...]:
    """Hold each ring against the part that it must pass, size by size."""
    return tuple(_judge(spec, shape, index) for shape in shapes(spec, plan) for index in range(len(plan.sizes)))


def _judge(spec: Spec, shape: Shape, index: int) -> Ring:
    size = spec.sizes[index]
    girth = shape.girths[index]
    give, limit = _give(spec, shape)
    known = {part: size.measures[part] for part in shape.parts if part in size.measures}
    share = shape.share
    part = max(known, key=lambda name: known[name].value, default=shape.parts[-1] if shape.parts else "")
    whole = bool(shape.parts) and len(known) == len(shape.parts)
    if shape.at_rest and whole and girth >= known[part].value * share:
        give, limit = Fraction(0), ""
    tight = give is not None and part in known and girth * (1 + give) < known[part].value * share
    verdict: Verdict = "too tight" if tight else "goes on" if whole and give is not None else "not known"
    why = "" if verdict != "not known" else _unknown(shape, size, give)
    if verdict == "not known" and not whole and shape.parts:
        part = next(name for name in shape.parts if name not in known)
    found = known.get(part)
    return Ring(
        shape.piece,
        shape.name,
        size.name,
        girth,
        give,
        part,
        found.value * share if found else None,
        found.source if found else "",
        found is not None and found.confidence == "estimated",
        verdict,
        why,
        shape.span,
        limit,
        share,
    )


def _give(spec: Spec, shape: Shape) -> tuple[Fraction | None, str]:
    """Give the least give of the fabrics and edges that hold a ring, and which of the two it is."""
    swatches = [spec.swatches[name] for name in shape.swatches]
    fabrics = [one.stretch for one in swatches if one.stretch is not None]
    if shape.strange or len(fabrics) < len(swatches) or not fabrics:
        return None, ""
    edges = [one.edge_stretch for one in swatches if one.edge_stretch is not None] if shape.at_edge else []
    least = min([*fabrics, *edges])
    return least - 1, "the fabric" if least == min(fabrics) else "its edge"


def _unknown(shape: Shape, size: Size, give: Fraction | None) -> str:
    if not shape.parts:
        return "no line says what it goes over"
    missing = [part for part in shape.parts if part not in size.measures]
    reasons = [f"the sizes give no measure `{part}`" for part in missing]
    if shape.strange:
        reasons += [
            f"the swatch `{swatch}` was not knitted in {motif}, whose strands hold it back"
            for swatch, motif in shape.strange
        ]
    elif give is None:
        reasons.append(f"no line `stretch` says how far the swatch `{'` or `'.join(shape.swatches)}` can be pulled")
    return " and ".join(reasons)


def check(spec: Spec, plan: Plan) -> list[Problem]:
    """Warn of each ring that is too tight, and note once what is not known."""
    found = rings(spec, plan)
    groups: dict[tuple[str, str], list[Ring]] = {}
    for ring in found:
        groups.setdefault((ring.piece, ring.ring), []).append(ring)
    problems = []
    for (piece, name), group in groups.items():
        tight = [ring for ring in group if ring.verdict == "too tight"]
        if tight:
            graded = {size.name for size in spec.sizes if not size.made_to_measure}
            problems.append(_too_tight(piece, name, tight, [ring for ring in group if ring.size in graded], spec.units))
    unknown = [ring for ring in found if ring.verdict == "not known"]
    if unknown:
        problems.append(_not_known(unknown))
    return problems


def _too_tight(piece: str, name: str, tight: Sequence[Ring], graded: Sequence[Ring], units: str) -> Problem:

    def told(value: Fraction | None) -> str:
        return length_words(value or Fraction(0), units)

    figures = "; ".join(
        f"{ring.size}: {told(ring.girth_cm)}, {told(ring.pulled_cm)} pulled, for {told(ring.part_cm)}" for ring in tight
    )
    wanted = ", ".join(f"{ring.size} {told(ring.needed_cm)} ({told(ring.missing_cm)} more)" for ring in tight)
    gives = ", ".join(f"{ring.size} {_percent(ring.needed_give)}" for ring in tight)
    part, words, limit = tight[0].part, tight[0].part_words, f" of {tight[0].limit}" if tight[0].limit else ""
    guessed = (
        f" The {part} is estimated: {units_in_text(tight[0].source, units)}."
        if any(ring.estimated for ring in tight)
        else ""
    )
    return Problem(
        "W606",
        f"{name}, {piece}: may not pass the {words} ({figures})",
        (Label(tight[0].span, "this width"),),
        help=f"At this give{limit} ({_percent(tight[0].give)}) it needs a finished girth of {wanted}; at this girth a "
        f"give of {gives}.{_would_do(tight, graded)}{guessed}",
        size=tight[0].size if len(tight) == 1 else "",
    )


def _would_do(tight: Sequence[Ring], graded: Sequence[Ring]) -> str:
    """Say whose ring, of the table's sizes, would pass the part of each body that it is too tight for."""
    words = ""
    for ring in tight:
        passing = (one.size for one in graded if one.pulled_cm and ring.part_cm and one.pulled_cm >= ring.part_cm)
        size = next(passing, None)
        if size is not None and size != ring.size:
            words += f" For {ring.size} the ring of size {size} would do."
    return words


def _percent(share: Fraction | None) -> str:
    return f"{show_decimal((share or Fraction(0)) * 100, 0)} %"


def _not_known(unknown: Sequence[Ring]) -> Problem:
    causes: dict[str, dict[str, None]] = {}
    for ring in unknown:
        causes.setdefault(ring.why, {})[ring_words(ring)] = None
    words = "; ".join(f"{why} (for {', '.join(rings)})" for why, rings in causes.items())
    pieces = list(dict.fromkeys(ring.piece for ring in unknown))
    whole = f"the {pieces[0]}" if len(pieces) == 1 else f"the {', '.join(pieces[:-1])} and {pieces[-1]}"
    ways = []
    if any("no line `stretch`" in ring.why for ring in unknown):
        ways.append("Pull the swatch as wide as is comfortable and write what it measures: `stretch 40 sts = 17.4 cm`.")
    if any("was not knitted in" in ring.why for ring in unknown):
        ways.append("Knit a swatch in the motif and pull that.")
    if any(ring.part and ring.part_cm is None for ring in unknown):
        part = next(ring.part for ring in unknown if ring.part and ring.part_cm is None)
        ways.append(f"Write the missing measure into the sizes, such as `measure {part} {EXAMPLES.get(part, 52)} cm`.")
    return Problem(
        "N607",
        f"not known whether {whole} can be put on: {words}",
        (Label(unknown[0].span, "this width, the first of them" if len(unknown) > 1 else "this width"),),
        help=" ".join(ways) or "Name the piece's width after a measure, such as `cast on head in plain`.",
    )


def ring_words(ring: Ring) -> str:
    """Name a ring as knitters do: "the sleeve at the wrist", "the facing of the hat's hem"."""
    known = {
        "facing of the hem": f"the facing of the {ring.piece}'s hem",
        "rib at the cast-on": f"the {ring.piece}'s ribbed cast-on",
        "cast-on edge": f"the {ring.piece}'s cast-on edge",
        "neck opening": "the neck opening",
        "band": f"the {ring.piece}",
        HOOD: f"the {ring.piece}'s width as a hood",
        AT_REST: f"the {ring.piece} at the hip, not pulled",
        "sleeve": f"the {ring.piece}'s sleeve",
        "cuff": f"the {ring.piece}'s cuff",
    }
    # A level that no measure names is called `body`, further ones `body-2` and so on.
    plain = f"the {ring.piece} itself" if ring.ring.partition("-")[0] == "body" else ""
    return known.get(ring.ring) or plain or f"the {ring.piece} at the {ring.ring.replace('-', ' ')}"
