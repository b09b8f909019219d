"""Half pieces for the left hand: worn at the other side, named after it, and proven to be the mirror image."""

from __future__ import annotations

import re

import pytest
from msgspec.structs import replace
from support import EXAMPLES, SPEC, errors, world
from test_halves import BODY

from wale.driver import Compiled, compile_spec
from wale.outputs.text import render
from wale.pattern import Paragraph, Pattern, Schematic, Steps
from wale.prove.facts import Printed
from wale.prove.proof import prove
from wale.write.facts import facts, printed
from wale.write.left_handed import mirrored

NAMES = ("weir-cardigan", "sluice-cardigan")
EVERY = pytest.mark.parametrize("name", NAMES)


def both(name: str) -> tuple[Compiled, Compiled]:
    there = world((EXAMPLES / f"{name}.wale").read_text("utf-8"))
    right, left = (
        compile_spec(there, SPEC, ("S", "L"), ("charts", "rows", "drawings"), is_left_handed=is_left)
        for is_left in (False, True)
    )
    return right, left


def page(done: Compiled) -> Pattern:
    assert done.pattern is not None
    return done.pattern


def taken(done: Compiled) -> Printed:
    assert done.spec is not None and done.plan is not None
    return printed(done.spec, done.plan, page(done), done.sizes)


def told(done: Compiled, id: str) -> list[str]:
    (section,) = [one for one in page(done).sections if one.id == id]
    texts = [section.title]
    for part in section.parts:
        texts += [item.text for item in part.items] if isinstance(part, Steps) else []
        texts += [part.text] if isinstance(part, Paragraph) else []
    return texts


@EVERY
def test_halves_are_proven_and_worn_at_the_other_side(name: str) -> None:
    right, left = both(name)
    assert right.proof is not None and left.proof is not None
    assert left.proof.facts == right.proof.facts and left.proof.printed.hand == "left"
    # the file's left front begins RS rows at its side edge; so does the mirror image, which is worn at the right
    words = told(left, "piece-left-front")
    assert words[0] == "Right-front" and told(right, "piece-left-front")[0] == "Left-front"
    assert "It is the right half as worn: RS rows start at the side edge and end at the front edge." in words[1]
    assert any(
        text.startswith("Work steps 1 to") and "of the right-front" in text for text in told(left, "piece-right-front")
    )
    assert any("along the front edge of the left-front" in text for text in told(left, "band-buttonhole-band"))


@EVERY
def test_halves_are_drawn_mirrored(name: str) -> None:
    sides = []
    for done in both(name):
        (section,) = [one for one in page(done).sections if one.id == "schematics"]
        sides.append({part.name: part for part in section.parts if isinstance(part, Schematic)})
    right, left = sides
    for old, new in (("Left-front", "Right-front"), ("Right-front", "Left-front")):
        assert left[new].outline == tuple((-x, y) for x, y in right[old].outline)
        assert [one.values for one in left[new].dimensions] == [one.values for one in right[old].dimensions]
    # the wearer's left front lies at the right of what is seen, whoever knits it; its opening begins beside the middle
    for drawn in (right["Left-front"], left["Left-front"]):
        assert min(x for x, _ in drawn.outline) > 0
    assert left["Back"] == right["Back"]


@pytest.mark.parametrize(
    ("old", "new"),
    [
        ("of the right-front, then", "of the left-front, then"),
        (
            "1 edge st, m1R, work in chart to the last 1 st, 1 edge st",
            "1 edge st, m1L, work in chart to the last 1 st, 1 edge st",
        ),
        ("along the front edge of the right-front", "along the front edge of the left-front"),
    ],
)
def test_a_word_of_the_wrong_hand_is_found(old: str, new: str) -> None:
    _, left = both("weir-cardigan")
    known = taken(left)
    pieces = tuple(
        replace(one, steps=tuple(step.replace(old, new) for step in one.steps), refer=one.refer.replace(old, new))
        for one in known.pieces
    )
    assert pieces != known.pieces
    assert left.spec is not None and left.plan is not None
    assert prove(replace(known, pieces=pieces), facts(left.spec, left.plan, left.sizes))


def test_a_table_or_sheet_under_the_wrong_name_is_found() -> None:
    _, left = both("weir-cardigan")
    known = taken(left)
    assert left.spec is not None and left.plan is not None
    plan = facts(left.spec, left.plan, left.sizes)
    sheets = tuple(replace(one, piece=one.piece.replace("right-front", "left-front")) for one in known.sheets)
    assert sheets != known.sheets and prove(replace(known, sheets=sheets), plan)
    wholes = tuple(replace(one, piece=one.piece.replace("right-front", "left-front")) for one in known.wholes)
    assert wholes != known.wholes and prove(replace(known, wholes=wholes), plan)


@EVERY
def test_every_name_of_a_side_is_exchanged_but_in_addresses(name: str) -> None:
    """Take the section for the left hand away and exchange the names by hand: names stand where they stood."""
    right, left = (page(done) for done in both(name))
    one = [text for text in re.findall(r"(left|right)-front(?!\.\w)", render(replace(right, about="")), re.IGNORECASE)]
    body = replace(left, about="", sections=left.sections[1:])
    other = [text for text in re.findall(r"(left|right)-front(?!\.\w)", render(body), re.IGNORECASE)]
    swap = {"left": "right", "right": "left", "Left": "Right", "Right": "Left"}
    assert one and other == [swap[text] for text in one]


def test_a_name_that_is_a_side_alone_is_refused() -> None:
    text = BODY.replace("left-front", "left").replace("right-front", "right")
    for is_left in (False, True):
        done = compile_spec(world(text), SPEC, is_left_handed=is_left)
        assert errors(done) == (["E405"] if is_left else [])
    (one,) = [one for one in done.problems if one.code == "E405"]
    assert text[one.labels[0].span.start : one.labels[0].span.end].startswith("piece left,")


def test_other_names_of_halves_stay() -> None:
    text = BODY.replace("left-front", "buttons").replace("right-front", "holes")
    done = compile_spec(world(text), SPEC, is_left_handed=True)
    assert not errors(done)
    assert (
        told(done, "piece-buttons")[0] == "Buttons" and "It is the right half as worn" in told(done, "piece-buttons")[1]
    )


def test_mirrored_twice_is_the_schematic_itself() -> None:
    (section,) = [one for one in page(both("weir-cardigan")[0]).sections if one.id == "schematics"]
    drawn = [part for part in section.parts if isinstance(part, Schematic)]
    assert [mirrored(mirrored(part)) for part in drawn] == drawn
