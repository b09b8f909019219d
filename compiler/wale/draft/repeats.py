"""How a motif's repeat meets a stitch count: residues, and where the motif stands.

Source: multiples "m plus e" as in trade use; mirror axes as in docs/maths.md#repeats.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.actions import Fit
from wale.materials import Motif


class Residue(Struct, frozen=True):
    """count = residue (mod modulus), in words, and the balance stitches beyond whole repeats."""

    modulus: int
    residue: int
    words: str


def matching_axes(motif: Motif, axis: str | None) -> tuple[Fraction, ...]:
    """Give the motif's mirror axes of the asked sort: "stitch", "gap", or any for "first" and None."""
    axes = motif.axes()
    if axis == "stitch":
        return tuple(a for a in axes if a.denominator == 1)
    if axis == "gap":
        return tuple(a for a in axes if a.denominator == 2)
    return axes


def balance(motif: Motif, axis: str | None) -> int:
    """Stitches beyond whole repeats that make both edges mirror: 1 about a stitch, else 0."""
    axes = matching_axes(motif, axis)
    return 1 if axes and axes[0].denominator == 1 else 0


def residue(motif: Motif, fit: Fit, kind: str, edges: int, in_round: bool, carry: int = 1) -> Residue | None:
    """Give the rule that a count obeys under a fit, or None where any count will do.

    Args:
        kind: the fit asked at this level: "whole", "half", "centred" or "edge".
        edges: edge stitches of both sides, or those of a steek.
        carry: how often the balance is added: 1, or with unbroken seams 0 or -1.
    """
    width = motif.width
    if in_round:
        return None if kind == "edge" else Residue(width, 0, f"whole repeats of {width} sts in the round")
    more = carry * balance(motif, fit.axis)
    tail = f" + {more} to balance" if more > 0 else f" - {-more}, which the other piece has" if more else ""
    # edge stitches come in pairs, and a steek is odd
    tail += f" + {edges} {'steek' if edges % 2 else 'edge'} sts" if edges else ""
    if kind == "whole":
        return Residue(width, (more + edges) % width, f"whole repeats of {width} sts{tail}")
    if kind == "half":
        half = width // 2
        return Residue(half, (more + edges) % half, f"half repeats of {half} sts{tail}")
    axes = matching_axes(motif, fit.axis)
    if kind == "centred" and axes:
        kinds = {a.denominator for a in axes}
        if fit.axis != "first" and len(kinds) == 2:
            return None
        odd = axes[0].denominator == 1
        return Residue(2, (1 if odd else 0) + edges % 2, f"centred on a {'stitch' if odd else 'gap'}")
    return None


def kind_at(fit: Fit, label: str) -> str:
    """Give the fit that is asked at a level: the fit's own kind where it names the level, else `centred`."""
    if not fit.at or label in fit.at or label.rsplit("-", 1)[0] in fit.at:
        return fit.kind
    return "edge" if fit.kind == "edge" else "centred"


def centre(motif: Motif, fit: Fit, kind: str, count: int, edges: int, in_round: bool) -> Fraction:
    """Give the motif column (from 0 at the right) that stands on the piece's centre line.

    A whole number is the middle of that column's stitch, a half the gap after it. Whole and half repeats start on an
    axis at the right edge; `centred` puts an axis on the centre; `edge` and rounds start with column 0, or rounds with
    the plainest one.
    """
    middle = Fraction(count - edges - 1, 2)
    if in_round or kind == "edge":
        return (middle + round_start(motif, fit, in_round)) % motif.width
    axes = matching_axes(motif, fit.axis)
    if kind in ("whole", "half"):
        start = axes[0] if axes and axes[0].denominator == 1 else (axes[0] + Fraction(1, 2) if axes else Fraction(0))
        return (start + middle) % motif.width
    odd = middle.denominator == 1
    fitting = [a for a in axes if (a.denominator == 1) == odd]
    return fitting[0] if fitting else middle % motif.width


def round_start(motif: Motif, fit: Fit, in_round: bool) -> int:
    """Give the motif column (from 0 at the right) with which a round starts; 0 flat."""
    return plainest(motif) if in_round and fit.at_plainest else 0


def plainest(motif: Motif) -> int:
    """Give the column (from 0 at the right) whose yarn changes in the fewest rows, the last row followed by the first.

    Between equals the one whose right neighbour, the last stitch of the rounds, changes least; then the one farthest
    to the right. There the jog shows least: beside a column of one yarn nothing steps (common practice, no source).
    """
    changes = [
        sum(motif.cell(column, row) != motif.cell(column, row + 1) for row in range(motif.period))
        for column in range(motif.width)
    ]
    return min(range(motif.width), key=lambda column: (changes[column], changes[column - 1], column))
