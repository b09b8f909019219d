"""Textures for the left hand: what leans is drawn, named and proven as in the mirror."""

from __future__ import annotations

import pytest
from msgspec.structs import replace
from support import EXAMPLES, SPEC, world
from test_textures_proven import GRIST, REST, SCARF, YARN

from wale.driver import Compiled, compile_spec
from wale.pattern import Chart, Definitions, Paragraph
from wale.prove.proof import prove
from wale.write.facts import facts, printed

TURNED = f"""{GRIST.replace("motif basket", "motif drawn")}
motif basket, as drawn
    mirrored
"""


def compiled(motif: str, *, is_left: bool) -> Compiled:
    done = compile_spec(world(YARN + motif + REST + SCARF), SPEC, is_left_handed=is_left)
    assert done.pattern is not None
    return done


def chart(done: Compiled) -> Chart:
    assert done.pattern is not None
    (found,) = [part for section in done.pattern.sections for part in section.parts if isinstance(part, Chart)]
    return found


def marks(one: Chart) -> list[list[str]]:
    return [[one.colours[cell].mark for cell in row] for row in one.rows]


def test_the_chart_looks_like_that_of_the_mirrored_motif() -> None:
    """What a left hand knits from a motif looks like what a right hand knits from its mirror image."""
    left, right = chart(compiled(GRIST, is_left=True)), chart(compiled(TURNED, is_left=False))
    assert marks(left) == marks(right)
    # the lowest row as typed is `- < < < < - o y s o`: in the mirror its ssk leans right, and so does the cable
    assert marks(left)[0] == ["–", "/", "o", "–", "", ">", ">", ">", ">", ""]


def test_words_stay_but_for_the_cables() -> None:
    """A row is told as it is worked; ssk is what is done, a cable is named by how it leans."""
    left, right = chart(compiled(GRIST, is_left=True)), chart(compiled(GRIST, is_left=False))
    assert right.words[0] == ("Row 1 (RS)", "p1, ssk, yo, p1, k1, cable 4 left, k1")
    assert left.words[0] == ("Row 1 (RS)", "p1, ssk, yo, p1, k1, cable 4 right, k1")
    assert left.words[1:] == right.words[1:]
    assert left.from_left


def test_the_list_of_abbreviations_leans_in_the_mirror() -> None:
    terms = []
    for is_left in (False, True):
        done = compiled(GRIST, is_left=is_left)
        assert done.pattern is not None
        (section,) = [one for one in done.pattern.sections if one.id == "abbreviations"]
        (part,) = [part for part in section.parts if isinstance(part, Definitions)]
        terms.append(dict(part.items))
    right, left = terms
    # the movements are those of the right hand's cable left: the needle in front; what they make leans right
    assert left["cable right"] == right["cable left"].replace("leans left", "leans right")
    assert "hold it in front" in left["cable right"] and "cable left" not in left
    assert "leans left" in left["k2tog"] and "leans right" in left["ssk"]


@pytest.mark.parametrize(("name", "told"), [("quern-gansey", True), ("tailwater-scarf", False)])
def test_examples_say_whether_they_come_out_reversed(name: str, told: bool) -> None:
    """The gansey's cable leans, and its mirror image leans the other way; the scarf's lace has an eye at each side."""
    there = world((EXAMPLES / f"{name}.wale").read_text("utf-8"))
    right, left = (compile_spec(there, SPEC, is_left_handed=is_left) for is_left in (False, True))
    assert left.pattern is not None
    assert right.proof is not None and left.proof is not None
    assert left.proof.facts == right.proof.facts and left.proof.printed.hand == "left"
    first = " ".join(part.text for part in left.pattern.sections[0].parts if isinstance(part, Paragraph))
    assert ("comes out reversed" in first) is told
    assert ("cable right, m1L and m1R are named by how they lean in your hands" in first) is told


def test_lace_over_several_columns_is_counted_from_the_left() -> None:
    there = world((EXAMPLES / "eddy-stole.wale").read_text("utf-8"))
    right, left = (compile_spec(there, SPEC, is_left_handed=is_left) for is_left in (False, True))
    assert left.proof is not None and left.proof.printed.hand == "left"
    told = [[note for note in chart(one).notes if note.startswith("Columns")] for one in (right, left)]
    assert told[0] and told[1] == [note.replace("from the right", "from the left") for note in told[0]]


def test_a_cable_of_the_other_hand_is_found() -> None:
    done = compiled(GRIST, is_left=True)
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    page, known = printed(done.spec, done.plan, done.pattern, done.sizes), facts(done.spec, done.plan, done.sizes)
    assert not prove(page, known)
    wrong = tuple(
        (name, tuple((label, text.replace("cable 4 right", "cable 4 left")) for label, text in words))
        for name, words in page.charts
    )
    assert wrong != page.charts and prove(replace(page, charts=wrong), known)
    assert prove(replace(page, hand="right"), known)
