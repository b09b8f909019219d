"""What a knitter is told before she begins fits the garment."""

from __future__ import annotations

from garments import cowl, pullover
from msgspec.structs import replace
from support import EXAMPLES, written

from wale.actions import Fabric
from wale.plan import Plan
from wale.write.making_up import finishing_steps
from wale.write.materials import needles, skills


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


def test_every_swatch_has_its_needles_in_the_list() -> None:
    """The ribs are on 3 mm, but the gauge asks for swatches on 3.25 mm: those needles are needed, too."""
    done = written((EXAMPLES / "millrace-pullover.wale").read_text("utf-8"))
    assert done.spec is not None and done.plan is not None
    listed = [item.text for item in needles(done.spec, done.plan).items]
    assert "3.25 mm (US 3) circular needle: swatch plain, swatch plain-round" in listed
    assert not [text for text in listed if text.startswith("3 mm") and "swatch" in text]


def test_making_up_names_its_yarn_and_says_no_seam_of_none() -> None:
    text = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
    straight = written(text.replace("shoulders slope slope, short rows", "shoulders straight"))
    assert straight.spec is not None and straight.plan is not None
    steps = " ".join(one.text for one in finishing_steps(straight.spec, straight.plan, straight.sizes))
    assert "between the underarm mark and the shoulder, the middle" in steps and "slope" not in steps
    for edge, said in (
        ("1 st each", "The edge stitch of each side goes"),
        ("2 sts each", "(2) go into"),
        ("0 sts each", ""),
    ):
        done = written(text.replace("1 st each", edge))
        assert done.spec is not None and done.plan is not None, edge
        (seam,) = [one.text for one in finishing_steps(done.spec, done.plan, done.sizes) if "mattress" in one.text]
        assert "mattress stitch in rye" in seam
        assert said in seam and (said or "edge st" not in seam)
