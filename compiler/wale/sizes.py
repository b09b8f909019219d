"""Published tables of body sizes: group and size name to bare body measures in cm.

Every figure carries its source and how sure it is. Figures printed in inches are kept exact (inch x 2.54), a range
gives its middle. Measures that the published tables lack are estimated from surveys, and marked so; what cannot be
estimated is left out, which means "not known". The tables and rules are explained in docs/sizes.md.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from fractions import Fraction
from functools import cache
from typing import Literal

from msgspec import Struct

from wale.published import rows_of, sources
from wale.quantity import CM_PER_INCH

Confidence = Literal["confirmed", "memory", "estimated", "given"]
Users = Literal["adults", "children", "babies"]

MEASURES: dict[str, str] = {
    "bust": "largest horizontal round of the chest, over the fullest part and under the arms (men: chest)",
    "waist": "round the natural waist, between the lowest rib and the top of the hip bone",
    "hip": "largest horizontal round of the hips",
    "neck-to-wrist": "from the bone at the neck base over the shoulder and the slightly bent arm to the wrist",
    "back-waist": "along the back from the bone at the neck base to the natural waist",
    "hip-length": "from the natural waist down to where a hip-length garment ends",
    "body-length": "from the high point of the shoulder to the lower edge of a hip-length garment",
    "cross-back": "across the back from shoulder tip to shoulder tip",
    "arm-length": "from the armpit to the wrist, arm slightly bent",
    "upper-arm": "round the upper arm at its fullest, relaxed",
    "armhole-depth": "from the top outer edge of the shoulder straight down to the armpit",
    "wrist": "round the wrist over the wrist bone",
    "hand": "round the hand over the knuckles, without the thumb",
    "head": "largest horizontal round of the head, above the ears",
    "neck-base": "round the neck where it meets the shoulders",
    "ankle": "round the ankle, just above the bone",
    "calf": "round the calf at its fullest",
    "foot-girth": "round the foot over the ball",
    "foot-length": "from the back of the heel to the tip of the longest toe",
    "heel-diagonal": "round the heel and over the instep, at its widest",
    "neck-width": "width of the neck opening of a garment, from shoulder to shoulder",
    "shoulder-girth": "round both shoulders and arms at their widest",
}
"""Every measure that a body may have, with how it is taken (EN 13402-1, Craft Yarn Council; docs/sizes.md)."""

OTHER_NAMES: dict[str, str] = {"chest": "bust", "hips": "hip"}
"""Second names of measures."""

GROUPS: tuple[str, ...] = ("women", "men", "children", "babies")
"""Names of the published tables."""

_SECOND_SIZE_NAMES: dict[str, tuple[str, ...]] = {
    "XS": ("X-Small",),
    "S": ("Small",),
    "M": ("Medium",),
    "L": ("Large",),
    "XL": ("X-Large", "1X", "1XL"),
    "2XL": ("XXL", "2X", "XX-Large"),
    "3XL": ("XXXL", "3X"),
    "4XL": ("XXXXL", "4X"),
    "5XL": ("XXXXXL", "5X"),
    **{f"{months}-months": (f"{months}mo", f"{months}-mo", f"{months}m") for months in (3, 6, 12, 18, 24)},
}

_LEFT_OUT = {"men": "men's 3XL to 5XL are left out: only the chest is published there"}


class Measured(Struct, frozen=True):
    """A body measure in cm, where it comes from, and how sure it is.

    `confidence` is "confirmed" (seen in the source), "memory" (source named, figure recalled), "estimated" (by a rule
    that `source` tells; must be printed as an assumption) or "given" (by the file).
    """

    value_cm: Fraction
    source: str
    confidence: Confidence


class Body(Struct, frozen=True):
    """A body: bare measures by name of `MEASURES`; an absent measure is not known."""

    name: str
    measures: Mapping[str, Measured]
    users: Users = "adults"


class SizeTable(Struct, frozen=True):
    """A published table.

    Attributes:
        group: one of `GROUPS`.
        users: who wears it; children and babies call for cautions.
        source: what the table is called in print.
        bodies: smallest first.
        left_out: a sentence on published sizes that are not offered, or "".
    """

    group: str
    users: Users
    source: str
    bodies: tuple[Body, ...]
    left_out: str = ""

    @property
    def names(self) -> tuple[str, ...]:
        """Names of its sizes, smallest first."""
        return tuple(body.name for body in self.bodies)

    def size(self, name: str) -> Body | None:
        """Give the size of that name or second name ("1X", "XXL", "3mo"), capitals or not; None if there is none."""
        wanted = name.casefold()
        for body in self.bodies:
            if wanted in (n.casefold() for n in (body.name, *_SECOND_SIZE_NAMES.get(body.name, ()))):
                return body
        return None


def measure_name(word: str) -> str | None:
    """Give the measure that a word names ("chest" → "bust"), or None."""
    name = OTHER_NAMES.get(word, word)
    return name if name in MEASURES else None


@cache
def group(name: str) -> SizeTable:
    """Give the published table of a group.

    Raises:
        KeyError: not one of `GROUPS`; users meet a problem earlier.
    """
    if name not in GROUPS:
        raise KeyError(name)
    users: Users = "children" if name == "children" else "babies" if name == "babies" else "adults"
    found: dict[str, dict[str, Measured]] = {}
    for row in rows_of(name):
        found.setdefault(row["size"], {})[row["measure"]] = _published(row)
    bodies = tuple(Body(size, {**known, **_estimates(name, known)}, users) for size, known in found.items())
    source = f"Craft Yarn Council, Standards & Guidelines for Crochet and Knitting, {name}"
    return SizeTable(name, users, source, bodies, _LEFT_OUT.get(name, ""))


def _published(row: Mapping[str, str]) -> Measured:
    value = (
        Fraction(row["cm"]) if row["cm"] else (Fraction(row["inch_min"]) + Fraction(row["inch_max"])) / 2 * CM_PER_INCH
    )
    confidence: Confidence = "estimated"
    if row["confidence"] in ("confirmed", "memory"):
        confidence = "confirmed" if row["confidence"] == "confirmed" else "memory"
    return Measured(value, sources()[row["source"]], confidence)


def _estimates(group_name: str, known: Mapping[str, Measured]) -> dict[str, Measured]:
    """Give what the table lacks, by the rules of `estimates.csv`: factor * bust + constant."""
    bust = known["bust"].value_cm
    found = {}
    for row in rows_of("estimates"):
        if row["group"] == group_name and row["measure"] not in known:
            value = Fraction(row["factor"]) * bust + Fraction(row["constant"])
            found[row["measure"]] = Measured(value, _estimate_source(row, bust), "estimated")
    return found


def _estimate_source(row: Mapping[str, str], bust: Fraction) -> str:
    constant = f" + {row['constant']} cm" if row["constant"] != "0" else ""
    text = f"bust × {row['factor']}{constant}; {sources()[row['source']]}"
    if row["spread_cm"]:
        text += f"; standard deviation {row['spread_cm']} cm"
    if row["bust_max"] and not Fraction(row["bust_min"]) <= bust <= Fraction(row["bust_max"]):
        text += f"; beyond the bodies measured, bust {row['bust_min']} to {row['bust_max']} cm"
    return text


_NECK_BOUNDS: dict[Users, tuple[int, int]] = {"adults": (16, 21), "children": (12, 16), "babies": (9, 12)}


def neck_width(body: Body) -> Measured | None:
    """Give the width of the neck opening: the body's own, or by rule from neck-base or cross-back.

    Neck base / pi + 6 cm (its breadth, and 3 cm of opening on each side), else 0.45 of the cross-back; kept within
    16-21 cm for adults, 12-16 for children, 9-12 for babies. Common practice, no source. None when neither is known.
    """
    if (own := body.measures.get("neck-width")) is not None:
        return own
    least, most = _NECK_BOUNDS[body.users]
    if (base := body.measures.get("neck-base")) is not None:
        wish, rule = base.value_cm * Fraction(113, 355) + 6, "neck-base / 3.1416 + 6 cm"
    elif (back := body.measures.get("cross-back")) is not None:
        wish, rule = back.value_cm * Fraction(45, 100), "cross-back × 0.45"
    else:
        return None
    source = f"{rule}, kept within {least}-{most} cm; common practice, no source"
    return Measured(min(max(wish, Fraction(least)), Fraction(most)), source, "estimated")


def body_length(body: Body) -> Measured | None:
    """Give the length of a hip-length garment: the body's own, or back-waist + hip-length; None if not known.

    The high point of the shoulder is taken as high as the bone at the neck base; common practice, no source.
    """
    if (own := body.measures.get("body-length")) is not None:
        return own
    waist, below = body.measures.get("back-waist"), body.measures.get("hip-length")
    if waist is None or below is None:
        return None
    return Measured(waist.value_cm + below.value_cm, "back-waist + hip-length; common practice, no source", "estimated")


DEFAULTS: dict[str, Callable[[Body], Measured | None]] = {"neck-width": neck_width, "body-length": body_length}
"""Measures that follow from others by rule where a body does not state them."""
