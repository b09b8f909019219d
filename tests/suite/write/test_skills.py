"""What a knitter is told before she begins fits the garment."""

from __future__ import annotations

from garments import cowl, pullover
from msgspec.structs import replace

from wale.actions import Fabric
from wale.plan import Plan
from wale.write.materials import skills


def plain(plan: Plan) -> Plan:
    """The garment without its motif."""
    pieces = tuple(
        replace(
            piece,
            sections=tuple(
                replace(one, fabric=replace(one.fabric, motif=None) if isinstance(one.fabric, Fabric) else one.fabric)
                for one in piece.sections
            ),
        )
        for piece in plan.pieces
    )
    return replace(plan, pieces=pieces)


def test_a_two_colour_top_tells_of_both_strands_and_of_the_neck() -> None:
    words = " ".join(skills(*pullover()))
    assert "both strands turn together" in words
    assert "bind off with the main colour" in words
    assert "work each wrap together with its stitch" in words
    assert "the left side is the wearer's right shoulder" in words
    assert "include the edge stitches" in words


def test_a_garment_of_one_colour_tells_of_no_strands() -> None:
    spec, plan = pullover()
    words = " ".join(skills(spec, plain(plan)))
    assert "strand" not in words
    assert "wearer's right shoulder" in words


def test_a_cowl_has_neither_shoulders_nor_edges() -> None:
    words = " ".join(skills(*cowl()))
    assert "shoulder" not in words
    assert "edge stitches" not in words
