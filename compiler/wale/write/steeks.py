"""A steek: its stitches in each round, the line that tells them, and how it is secured and cut.

Sources: https://kddandco.com/2012/04/29/steeks-2-reinforcing-and-cutting/,
https://abfabulies.com/en/2011/09/how-to-steek-crochet-method.html,
https://docslib.org/doc/5596780/steeks-cut-your-knitting.
"""

from __future__ import annotations

from wale.materials import Motif
from wale.plan import PiecePlan, Plan
from wale.spec import Spec
from wale.write.context import Context
from wale.write.lines import Line, Part, Sts


def stripe_yarns(spec: Spec, piece: PiecePlan) -> tuple[str, ...]:
    """Give the yarns of a piece's motifs, as their gauges name them; empty where it has no motif."""
    found: dict[str, None] = {}
    for section in piece.sections:
        if section.fabric is not None and section.fabric.motif is not None:
            used = dict(spec.motifs[section.fabric.motif].marks)
            found.update(dict.fromkeys(yarn for yarn in spec.swatches[section.swatch].yarns if yarn in used))
            found.update(dict.fromkeys(used))
    return tuple(found)


def stripes(at: Context, motif: Motif, row: int) -> tuple[str, ...]:
    """Give the yarns of the steek's stitches in a round of a motif (its row from 0), in the order of the round.

    They alternate over the end of the round, so that no float passes more than a stitch of the steek where a round has
    two yarns.
    """
    steek = at.piece.steek
    assert steek is not None
    own = [yarn for yarn in stripe_yarns(at.spec, at.piece) if yarn in motif.rows[row % len(motif.rows)]]
    across = [own[number % len(own)] for number in range(steek.stitches)]
    last = steek.ends[1]
    return (*across[last:], *across[:last])


def steek_lines(at: Context) -> list[Line]:
    """Say, below the cast-on, which stitches are the steek and in which yarns they are worked."""
    steek = at.piece.steek
    if steek is None:
        return []
    first, last = steek.ends
    parts: list[Part] = ["the first ", first, " and the last ", Sts(last)]
    parts.append(" of every round are the steek, outside any chart.")
    yarns = stripe_yarns(at.spec, at.piece)
    if len(yarns) > 1:
        parts.append(f" Work them in the yarns of the round, a st each by turns in the order {', '.join(yarns)}, ")
        parts.append("beginning with the first of the last ones.")
    return [
        at.line(f"{at.piece.name}.steek", "Steek", *parts),
        at.remark(
            f"{at.piece.name}.steek-note",
            f"Note (not proven): the steek is left out of all widths and of the chart{_begins(yarns, last)}. New yarns "
            "are joined at the start of the round, in the middle of the steek; their ends are cut away there.",
        ),
    ]


def _begins(yarns: tuple[str, ...], last: int) -> str:
    """Say with which yarn rounds begin, where they all turn about with two."""
    return f"; a round in both yarns begins with {yarns[last % 2]}" if len(yarns) == 2 else ""


def cutting(plan: Plan) -> list[str]:
    """Say how the steeks are secured and cut, a text for each piece."""
    return [
        f"Steek of the {piece.name} (not proven): the first stitch of the round is its middle stitch. Secure the steek "
        "on both sides of that stitch, from the cast-on to the bound-off edge: sew two close lines of small stitches, "
        "by machine or by hand, or crochet a chain of slip stitches, each through one leg of the middle stitch and the "
        "nearer leg of its neighbour. Cut up through the middle stitch, between the two lines. The cut edges roll to "
        "the wrong side; trim the ends and sew the edges down there, or cover them with a ribbon (kddandco.com, "
        "abfabulies.com). Secure and cut a swatch first, to see how the yarn holds (common practice, no source)."
        for piece in plan.pieces
        if piece.steek is not None
    ]
