"""How the ends of bands that open in front lie: where picking up begins, and what is sewn there."""

from __future__ import annotations

from collections.abc import Mapping

from wale.draft.opened import front_neck, opens
from wale.plan import PiecePlan, Plan
from wale.spec import PLACKET_EDGES, Band, Spec

AROUND = "and go up its right side as worn, over the back and down its left side"
"""The way of a band that opens in front."""


def open_start(band: Band, pieces: Mapping[str, PiecePlan]) -> str:
    """Say where picking up begins, as worn; it ends there, too."""
    front = front_neck(band, pieces)
    assert front is not None, "it was checked when it was planned"
    if band.collar is not None:
        return f"Begin at the lower right corner of the {front.name} neck {AROUND}; its bound-off sts stay free."
    if band.overlap:
        before = (band.overlap + 1) // 2
        sts = "st" if before == 1 else "sts"
        return (
            f"Begin at a place {before} {sts} to the left of the middle of the {front.name} neck {AROUND} to the first "
            f"st; pick the last {band.overlap} up behind the first, in the same loops, as the end that lies below."
        )
    if front.top is not None and front.top.has_placket:
        upper = f"Begin at the upper end of the {front.name} placket {AROUND}"
        return f"{upper}; work back and forth, and leave it open there."
    return f"Begin at the middle of the {front.name} neck {AROUND}; work back and forth, and leave it open there."


def placket_feet(spec: Spec) -> list[str]:
    """Say how the lower ends of bands along plackets are sewn: the one with buttonholes lies above."""
    bands: dict[str, list[Band]] = {}
    for band in spec.bands:
        for name, edge in band.edges:
            if edge in PLACKET_EDGES:
                bands.setdefault(name, []).append(band)
    told = []
    for name, along in bands.items():
        upper, *lower = sorted(along, key=lambda band: band.buttonholes is None)
        yarn = spec.swatches[upper.swatch].yarns[0]
        text = f"Foot of the {name} placket: "
        if lower:
            text += f"lay the {upper.name} over the {lower[0].name}; "
        text += f"sew the lower end of the {upper.name} to the bound-off sts in {yarn}"
        text += f", then that of the {lower[0].name} to the wrong side behind it." if lower else "."
        told.append(text)
    return told


def collar_ends(spec: Spec, plan: Plan) -> list[str]:
    """Say how the ends of collars that lie in a square neck are sewn, and on which front buttons stand."""
    pieces = {piece.name: piece for piece in plan.pieces}
    told = []
    for band, planned in zip(spec.bands, plan.bands, strict=True):
        front = front_neck(band, pieces) if band.collar is not None and opens(band, pieces) else None
        if front is not None:
            yarn = spec.swatches[band.swatch].yarns[0]
            lay = "lay one end over the other across the bound-off sts of the"
            told.append(
                f"{band.name.capitalize()}: {lay} {front.name} neck, for women usually the right one as worn, for men "
                f"the left one. Sew the edge of the upper end to these sts in {yarn}, then that of the lower one."
            )
        if planned.collar is not None and planned.holes:
            told.append(f"Sew the buttons to the {band.name} on the left front, one opposite each buttonhole.")
    return told
