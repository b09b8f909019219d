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
            "The steek is left out of all widths. Colours change at the start of the round, in its middle; their ends "
            "need no weaving in, for they are cut away.",
        ),
    ]


def cutting(plan: Plan) -> list[str]:
    """Say how the steeks are secured and cut, a text for each piece."""
    return [
        f"Steek of the {piece.name} (not proven): the middle stitch is the first of the round. Secure the steek on "
        "both sides of it from the cast-on to the top, with two rows of small machine or hand stitches each, or with "
        "a chain of slip-stitch crochet that joins a leg of the middle stitch to the leg beside it. Cut up through the "
        "middle stitch, between the two rows, and through no other. The cut edges roll to the wrong side: trim loose "
        "ends, sew the edges down there, or cover them with a ribbon (kddandco.com, abfabulies.com). Secure and cut "
        "the swatch first, to see how the yarn holds (common practice, no source)."
        for piece in plan.pieces
        if piece.steek is not None
    ]
