"""Constructions of a designer's own: making one says the same as its blocks written out, and slips are told."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from support import PLAIN, checked, codes, errors, mended, written

from wale.driver import Compiled, render
from wale.files import MemoryWorld

TOP = f"""wale 1

pattern "Hopper"

{PLAIN}
swatch soft, worked flat
    fabric stockinette in rye
    needle 4 mm
    washed 18 sts and 24 rows in 10 cm

sizes S M L
    measure bust 80 (90, 100) cm
    ease    bust 8 cm

"""
BLOCKS = """
construction bag
    takes width
    takes depth
    takes flap = 6 cm
    takes swatch fabric

let half = depth/2

piece front, worked flat
    cast on width in fabric
    work    to half, named width
    work    to depth
    bind off

piece back, as front

piece strap, worked flat, make 2
    cast on flap in fabric
    shape   to max(2 * flap, width/4) over half
    work    to front.width
    bind off

join
    seam sides, mattress stitch
"""
MAKE = """make {name}bag
    give width  = {width}
    give depth  = {depth}
    give fabric = {fabric}
"""


def by_hand(text: str, width: str, depth: str, fabric: str, prefix: str = "") -> str:
    """Write a construction's blocks out with plain replacements of words."""
    body = text.partition("fabric\n\n")[2]
    body = re.sub(r"\bfabric\b", fabric, body)
    body = re.sub(r"\b(front|back|strap)\b", rf"{prefix}\1", body)
    return f"let width = {width}\nlet depth = {depth}\nlet flap  = 6 cm\n{body}"


def printed(done: Compiled) -> str:
    return render(done, "text", MemoryWorld({}))[0].decode()


def counts(done: Compiled) -> list[tuple[str, tuple[int, ...]]]:
    assert done.plan is not None
    levels = [(level.address, level.counts) for piece in done.plan.pieces for level in piece.levels]
    return levels + [(section.address, section.rows) for piece in done.plan.pieces for section in piece.sections]


@settings(max_examples=12, deadline=None)
@given(
    st.sampled_from(["bust/2", "44 cm", "40 (44, 50) cm", "body.bust/2 + 2 cm", "81 sts"]),
    st.sampled_from(["30 cm", "30 (32, 34) cm", "bust/3"]),
    st.sampled_from(["plain", "soft"]),
)
def test_making_one_is_as_writing_its_blocks_out(width: str, depth: str, fabric: str) -> None:
    blocks = BLOCKS.replace("front.width", "half + 2 cm").replace("width/4", "depth/4")
    one = written(TOP + MAKE.format(name="", width=width, depth=depth, fabric=fabric) + blocks)
    other = written(TOP + by_hand(blocks, width, depth, fabric))
    assert codes(one) == codes(other)
    assert one.pattern is not None
    assert printed(one) == printed(other)
    assert counts(one) == counts(other)


def test_two_are_made_of_one_and_each_has_its_own_values() -> None:
    made = MAKE.format(name="big as ", width="44 cm", depth="30 cm", fabric="plain")
    made += "\n" + MAKE.format(name="small as ", width="22 cm", depth="16 cm", fabric="soft")
    one = written(TOP + made + BLOCKS.replace("to front.width", "to width"))
    assert one.spec is not None and one.plan is not None
    names = ["big-front", "big-back", "big-strap", "small-front", "small-back", "small-strap"]
    assert [piece.name for piece in one.spec.pieces] == names
    # 2 sts in a cm on `plain`: 44 cm and a seam stitch each side; 1.8 on `soft`: 22 cm are 39.6 and the same two
    levels = {level.address: level.counts for piece in one.plan.pieces for level in piece.levels}
    assert levels["big-front.width"] == (90, 90, 90)
    assert levels["small-front.width"] == (42, 42, 42)
    # each join sews the sides of its own pieces
    seams = [[name for name, _ in join.edges] for join in one.spec.joins]
    assert seams == [names[:3], names[3:]]


def test_a_piece_and_its_level_are_named_within_the_construction() -> None:
    done = checked(TOP + MAKE.format(name="old as ", width="44 cm", depth="30 cm", fabric="plain") + BLOCKS)
    assert done.plan is not None, done.problems
    strap = done.plan.pieces[2]
    # its straps are as long as the front is wide: 44 cm at 2.8 rows in a cm are 123.2 rows
    assert sum(section.rows[0] for section in strap.sections) in (122, 124)


def test_names_of_the_file_do_not_leak_into_a_value_of_the_same_name() -> None:
    file = "let depth = 40 cm\nlet half  = 3 cm\n\n" + MAKE.format(
        name="", width="44 cm", depth="depth/2", fabric="plain"
    )
    done = checked(TOP + file + BLOCKS.replace("to front.width", "to width"))
    assert done.spec is not None, done.problems
    lengths = {step.address: step.action for step in done.spec.pieces[0].steps}
    # depth is 40 cm / 2 = 20 cm in the construction, half of it 10 cm, whatever `half` is outside
    assert lengths["front.work[1]"].length.at(0) == Fraction(10)
    assert lengths["front.work[2]"].length.at(0) == Fraction(20)


def test_counts_numbers_motifs_and_yarns_are_given_too() -> None:
    text = (
        TOP.replace('"Hopper"\n', '"Hopper"\n    use "mill-yarns.wale"\n')
        .replace(PLAIN, "")
        .replace("fabric stockinette in rye", "fabric stockinette in flour")
    )
    text += "make cowl\n    give around = 96 sts\n    give share = 1/4\n    give figure = grist\n"
    text += "    give fabric = easy-round\n    give tassel = flour\n"
    text += "\nconstruction cowl\n    takes around\n    takes share\n    takes motif figure\n    takes swatch fabric\n"
    text += "    takes yarn tassel\n\npiece cowl, in the round\n    cast on around in fabric\n"
    text += "    work    in figure on fabric, whole repeats\n    work    to bust * share\n    pom-pom 4 cm in tassel\n"
    text += "    bind off\n"
    done = checked(text)
    assert done.plan is not None, done.problems
    (cowl,) = done.plan.pieces
    assert cowl.levels[0].counts == (96, 96, 96) and cowl.levels[0].swatch == "easy-round"
    # a finished bust of 88 cm and a quarter of it, 22 cm, at 40 rows in 12.3 cm: 71.5 rounds
    assert sum(section.rows[0] for section in cowl.sections) in (71, 72)


def test_a_piece_of_the_file_may_be_as_one_that_is_made() -> None:
    text = TOP + MAKE.format(name="old as ", width="44 cm", depth="30 cm", fabric="plain")
    text += "\npiece pocket, as old-front\n    cast on 20 cm in plain\n"
    text += "\njoin\n    seam old-front sides with pocket sides\n" + BLOCKS
    done = checked(text)
    assert done.plan is not None, done.problems
    pocket = done.plan.pieces[-1] if done.plan.pieces[-1].name == "pocket" else done.plan.pieces[0]
    # 20 cm at 2 sts in a cm, and a seam stitch at each side
    assert (pocket.name, pocket.levels[0].counts[0]) == ("pocket", 42)


def test_words_of_the_language_stay_what_they_are() -> None:
    text = TOP + "make cap\n    give wide = 10 cm\n    give neck = 30 cm\n    give round = plain\n"
    text += "\nconstruction cap\n    takes wide\n    takes neck\n    takes swatch round\n"
    text += "\npiece back, worked flat\n    cast on   44 cm in round\n    work      to neck\n"
    text += "    neck      wide wide, 2 cm deep, round\n    shoulders slope 3 cm, short rows\n"
    done = checked(text)
    assert done.spec is not None, done.problems
    assert done.spec.pieces[0].steps[2].action.width.at(0) == Fraction(10)


def test_a_problem_in_a_made_line_points_at_it_and_at_the_make_line() -> None:
    made = MAKE.format(name="", width="44 cm", depth="3 g", fabric="plain")
    done = checked(TOP + made + BLOCKS)
    found = done.problems[0]
    assert found.code == "E221"
    texts = [done.sources[label.span.file].cut(label.span) for label in found.labels]
    assert texts[-1] == "make bag" and found.labels[-1].text == "made here"
    assert found.labels[0].span.start > done.sources["a.wale"].text.index("construction bag")
    assert found.fixes == ()


def test_the_same_slip_in_all_that_are_made_is_told_once() -> None:
    makes = "".join(
        MAKE.format(name=f"m{at} as ", width="44 cm", depth="30 cm", fabric="plain") + "\n" for at in (1, 2)
    )
    done = checked(TOP + makes + BLOCKS.replace("work    to depth", "work    to 3 g"))
    assert codes(done) == ["E221"]
    cut = done.sources["a.wale"].cut
    assert [cut(label.span) for label in done.problems[0].labels] == ["3 g", "make m1 as bag", "make m2 as bag"]


def test_a_construction_of_a_used_file_points_into_it() -> None:
    text = TOP.replace('"Hopper"\n', '"Hopper"\n    use "bags.wale"\n')
    text += MAKE.format(name="", width="44 cm", depth="30 cm", fabric="plain")
    done = checked(text, bags="wale 1\n" + BLOCKS.replace("cast on width in fabric", "cast on wdith in fabric"))
    assert codes(done) == ["E210"]
    places = [(label.span.file, label.text) for label in done.problems[0].labels]
    assert places == [("bags.wale", "did you mean `width`?"), ("a.wale", "made here")]
    assert "width" in done.problems[0].help


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("make bag", "make bga", ["E280"]),
        ("give width ", "give widht ", ["E281"]),
        ("    give depth  = 30 cm\n", "", ["E282"]),
        ("    give depth  = 30 cm\n", "    give depth  = 30 cm\n    give depth  = 31 cm\n", ["E205"]),
        ("fabric = plain", "fabric = 3 cm", ["E203"]),
        ("fabric = plain", "fabric = plian", ["E212"]),
        ("fabric = plain\n", "fabric = plain\n\nmake bag\n    give width = 3 cm\n", ["E207"]),
        ("    takes flap = 6 cm\n", "    takes flap = 6 cm\n    takes flap = 7 cm\n", ["E207"]),
        ("    takes flap = 6 cm\n", "    takes flap = 6 cm\n    takes waist\n", ["E207"]),
        ("    takes flap = 6 cm\n", "    takes flap = 6 cm\n    takes edging = 2 cm\n", ["E283"]),
        ("in fabric", "in fabrik", ["E212"]),
        ("to depth\n", "to deph\n", ["E210"]),
        ("to half, named width", "to haf, named width", ["E210"]),
        ("piece strap", "make strap\n\npiece strap", ["E285"]),
        ("piece strap", "sizes S M\n\npiece strap", ["E285"]),
        ("let half = depth/2\n", "let half = depth/2\nlet half = depth/3\n", ["E207"]),
        ("let half = depth/2\n", "let half = depth/2\nlet flap = depth/3\n", ["E207"]),
        ("piece strap,", "piece back,", ["E207"]),
        ("join\n", "join\n    seam sides, mattress stitch\n\njoin\n", ["E205"]),
    ],
)
def test_slips(old: str, new: str, expected: list[str]) -> None:
    text = TOP + MAKE.format(name="", width="44 cm", depth="30 cm", fabric="plain") + BLOCKS
    assert old in text
    done = checked(text.replace(old, new, 1))
    assert codes(done) == expected
    assert done.problems[0].labels


def test_a_name_that_is_near_to_what_is_taken_is_proposed() -> None:
    made = MAKE.format(name="", width="44 cm", depth="30 cm", fabric="plain")
    done = checked(TOP + made + BLOCKS.replace("in fabric", "in fabrik"))
    assert codes(done) == ["E212"]
    assert [label.text for label in done.problems[0].labels] == ["did you mean `fabric`?", "made here"]


def test_an_unmade_construction_is_a_slip_in_the_file_itself_and_none_in_a_used_one() -> None:
    cloth = "piece cloth, worked flat\n    cast on 20 cm in plain\n    work to 20 cm\n    bind off\n"
    assert codes(checked(TOP + cloth + BLOCKS)) == ["E284"]
    assert codes(checked("wale 1\n" + BLOCKS)) == ["E206"]
    used = TOP.replace('"Hopper"\n', '"Hopper"\n    use "bags.wale"\n')
    assert errors(checked(used + cloth, bags="wale 1\n" + BLOCKS)) == []


def test_what_is_made_has_a_bound() -> None:
    steps = "".join(f"    work 2 rows, named n{at}\n" for at in range(100))
    block = (
        f"\nconstruction cloth\n    takes swatch fabric\n\npiece one, worked flat\n    cast on 20 cm in fabric\n{steps}"
    )
    makes = "".join(f"make m{at} as cloth\n    give fabric = plain\n\n" for at in range(50))
    found = checked(TOP + makes + block)
    # a construction of 102 lines: the 50th make goes beyond 5000
    assert "E130" in codes(found)
    (problem,) = [one for one in found.problems if one.code == "E130"]
    assert found.sources["a.wale"].cut(problem.labels[0].span) == "make m49 as cloth"


WRITTEN = """
construction cap
    takes girth
    takes count wedges = 8
    takes count edges = 2
    takes rib edging = 2x2
    takes swatch fabric

piece crown, in the round
    cast on girth in fabric
    rib     4 cm, edging, on 3 mm
    work    to 15 cm
    crown   wedges wedges over 8 cm, plain in rye

piece tab, worked flat, make edges
    edge    edges sts each side
    cast on 10 cm in plain
    work    6 rows
    bind off
"""


def capped(*lines: str) -> str:
    give = "".join(f"    give {line}\n" for line in ("girth = 48 cm", "fabric = tube", *lines))
    return f"{TOP.replace('swatch soft, worked flat', 'swatch tube, in the round')}make cap\n{give}{WRITTEN}"


def test_a_rib_and_counts_stand_where_they_are_written_in_a_line() -> None:
    """The same as the lines with 6, 3 and 1x1 in them, and with the usual 8, 2 and 2x2."""
    for lines, parts, edges, rib in (((), 8, 2, "2x2"), (("wedges = 6", "edges = 3", "edging = 1x1"), 6, 3, "1x1")):
        done = checked(capped(*lines))
        assert done.plan is not None, done.problems
        blocks = WRITTEN[WRITTEN.index("piece") :].replace("wedges wedges", f"{parts} wedges")
        blocks = blocks.replace("make edges", f"make {edges}").replace("edges sts", f"{edges} sts")
        blocks = blocks.replace("edging", rib).replace("girth", "48 cm").replace("in fabric", "in tube")
        plain = checked(capped().partition("make cap")[0] + blocks)
        assert plain.plan is not None, plain.problems
        assert [piece.make for piece in done.plan.pieces] == [1, edges]
        for one, other in zip(done.plan.pieces, plain.plan.pieces, strict=True):
            assert [level.counts for level in one.levels] == [level.counts for level in other.levels]
            assert one.edge.stitches == other.edge.stitches
            assert (one.crown and one.crown.wedges) == (other.crown and other.crown.wedges)


@pytest.mark.parametrize(
    ("old", "new", "expected"),
    [
        ("wedges = 6", "wedges = 6 sts", "E203"),
        ("wedges = 6", "wedges = 6.5", "E203"),
        ("wedges = 6", "wedges = plain", "E203"),
        ("wedges = 6", "wedges = 0", "E222"),
        ("edging = 1x1", "edging = 3 cm", "E203"),
        ("edging = 1x1", "edging = plain", "E203"),
        ("rib edging = 2x2", "rib edging = 2 cm", "E203"),
        ("wedges wedges", "6 wedges", "E283"),
        ("cm, edging", "cm, 1x1", "E283"),
    ],
)
def test_slips_of_ribs_and_counts(old: str, new: str, expected: str) -> None:
    text = capped("wedges = 6", "edging = 1x1")
    assert old in text
    assert expected in codes(checked(text.replace(old, new, 1)))


def test_two_names_the_wrong_way_round_are_turned() -> None:
    text = capped().replace("make cap", "make cap as day")
    (found,) = checked(text).problems
    assert found.code == "E280" and found.fixes[0].title == "write `make day as cap`"
    assert errors(checked(mended(text, found.fixes[0]))) == []
