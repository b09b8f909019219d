"""Care of the finished garment in words, by fibre.

The mildest care of any yarn governs the whole (common practice, no source). For wool: hand wash at most 30 °C, no
bleach, no tumble drying, dry flat, at most a cool iron (common practice; published hand-wash limits are 30 or 40 °C).
"""

from __future__ import annotations

from wale.actions import PomPom
from wale.checks.used import yarns_of
from wale.materials import Yarn
from wale.spec import Spec

_ANIMAL = (
    "wool", "merino", "lambswool", "mohair", "angora", "alpaca", "cashmere", "silk", "camel", "yak", "llama", "vicuna",
)  # fmt: skip
_PLANT = ("cotton", "linen", "flax", "hemp", "bamboo", "viscose", "lyocell", "ramie", "modal", "rayon")
_MADE = ("acrylic", "nylon", "polyamide", "polyester", "elastane", "microfibre")

_WASH = {
    "animal": "Hand wash in lukewarm water, 30 °C at most, with a mild wool detergent; do not rub or wring.",
    "plant": "Wash at 30 °C on a gentle cycle, inside out.",
    "made": "Wash at 30 °C on a gentle cycle, inside out, with a slow spin.",
}
_IRON = {
    "animal": "Iron cool (110 °C at most) through a damp cloth, or not at all; never press ribs.",
    "plant": "Iron at 150 °C at most, on the wrong side.",
    "made": "Do not iron: heat flattens the yarn for good.",
}


_WORDS = {"animal": "animal fibre", "plant": "plant fibre", "made": "man-made fibre"}
_FINE = ("merino", "cashmere", "silk", "vicuna")
"""Animal fibres that are as a rule finer than the limit of the prickle; from memory."""


def is_superwash(yarn: Yarn) -> bool:
    """Say whether a yarn is named as wool treated against felting."""
    return "superwash" in f"{yarn.fibre} {yarn.count}".casefold()


def _growth(spec: Spec) -> list[str]:
    names = [yarn.name for yarn in yarns_of(spec) if is_superwash(yarn)]
    if not names:
        return []
    return [
        f"{' and '.join(names)}: superwash wool grows when wet, above all in length, so measure the swatch "
        "washed and dried as the garment will be, hang it to dry once to see, and lift the wet garment whole (common "
        "practice, no source; it holds for wool treated against felting)."
    ]


def _skin(spec: Spec) -> list[str]:
    coarse = [
        yarn.name
        for yarn in yarns_of(spec)
        if "animal" in fibre_kinds(yarn) and not any(word in f"{yarn.fibre} {yarn.count}".casefold() for word in _FINE)
    ]
    if not coarse:
        return []
    return [
        f"{' and '.join(coarse)} may prickle at neck and wrists: coarse fibre ends do, on average over about 22 "
        "micrometres or with over 5 % above 30 (International Wool Textile Organisation; it speaks of wool next to the "
        "skin, and of no allergy)."
    ]


def fibre_kinds(yarn: Yarn) -> tuple[str, ...]:
    """Give the kinds of fibre named for a yarn: "animal", "plant", "made"; empty where none is known."""
    words = f"{yarn.fibre} {yarn.count}".casefold()
    named = (("animal", _ANIMAL), ("plant", _PLANT), ("made", _MADE))
    return tuple(kind for kind, fibres in named if any(fibre in words for fibre in fibres))


def care(spec: Spec) -> tuple[str, ...]:
    """Give the care of the garment in sentences; a yarn of unknown fibre is treated like wool."""
    kinds = {kind for yarn in yarns_of(spec) for kind in (fibre_kinds(yarn) or ("animal",))}
    order = ("animal", "plant", "made")
    wash = next(kind for kind in order if kind in kinds or kind == "made")
    iron = next(kind for kind in ("made", "animal", "plant") if kind in kinds or kind == "plant")
    unknown = [yarn.name for yarn in yarns_of(spec) if not fibre_kinds(yarn)]
    lines = [_WASH[wash], "Do not bleach. Do not tumble dry.", "Press the water out in a towel and dry flat, in shape."]
    lines.append(_IRON[iron])
    lines += _growth(spec) + _skin(spec)
    if len(kinds) > 1:
        names = " with ".join(_WORDS[kind] for kind in order if kind in kinds)
        lines.append(
            f"Mixed fibres ({names}): they shrink, stretch and dry unlike each other, so the mildest care holds for "
            "all and the swatch is washed as the garment will be (common practice, no source)."
        )
    if any(isinstance(step.action, PomPom) for piece in spec.pieces for step in piece.steps):
        lines.append("Take the pom-pom off before washing.")
    if unknown:
        lines.append(f"No fibre is given for {' and '.join(unknown)}: cared for like wool.")
    lines.append("The mildest care of any yarn governs the whole; the label of your yarn goes before these lines.")
    return tuple(lines)
