"""Pockets that are inset: their place by hand, the proof, their ribs, and what is refused."""

from __future__ import annotations

import json
from pathlib import Path

import jsonschema
import pytest
from msgspec.structs import replace
from prove_corruptions import refute
from support import EXAMPLES, PLAIN, SPEC, codes, errors, planned, world, written
from support import checked as checks
from test_floats_proven import knitted as proven

import wale.outputs
from wale.driver import compile_spec, render_plan
from wale.explain import explained
from wale.knitting import knit_pattern
from wale.outputs.text import render as to_text
from wale.pockets import slots_of
from wale.prove.proof import prove
from wale.source import Source
from wale.spec import SewnOn
from wale.write.facts import facts, printed

INSET = "    inset lining in front, 16 cm up, 4 cm from the centre\n"
PULLOVER = f"""wale 1

pattern "Sluice"

{PLAIN}
sizes one

piece back, worked flat
    cast on   50 cm in plain
    rib       5 cm, 2x2
    work      to 36 cm
    mark      underarm
    work      to 58 cm
    neck      18 cm wide, 2 cm deep
    shoulders slope 3 cm, short rows

piece front, as back
    neck 18 cm wide, 8 cm deep

piece lining, worked flat, make 2
    cast on 25 sts in plain
    work    10 cm

join
    seam back shoulders with front shoulders, three-needle bind-off
    seam sides, mattress stitch
{INSET}
band pocket-edge, make 2
    pick up along front pocket in plain
    rib     2.5 cm, 1x1
"""
ONE = PULLOVER.replace(", 4 cm from the centre", "").replace(", make 2", "").replace("25 sts", "26 sts")
ONE = ONE.replace("1x1", "2x2")
HALVES = PULLOVER.replace(
    "piece front, as back\n    neck 18 cm wide, 8 cm deep\n",
    "piece left-front, as back, left half\n    front band 8 sts in garter\n    neck 18 cm wide, 8 cm deep\n\n"
    "piece right-front, as left-front, mirrored\n",
)
HALVES = HALVES[: HALVES.index("join\n")] + (
    "join\n    seam back shoulders with left-front shoulders, three-needle bind-off\n"
    "    seam back shoulders with right-front shoulders, three-needle bind-off\n    seam sides, mattress stitch\n"
    "    inset lining in left-front, 16 cm up, 6 cm from the centre\n"
    "    inset lining in right-front, 16 cm up, 6 cm from the centre\n"
)
MILLRACE = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
COLOURS = MILLRACE.replace(
    "join\n",
    "piece lining, worked flat, make 2\n    cast on 31 sts in plain\n    work    10 cm\n\njoin\n"
    "    inset lining in front, 18 cm up, 5 cm from the centre\n",
)
SHAPED = PULLOVER.replace("work      to 36 cm", "shape     to 46 cm over 24 cm\n    work      to 36 cm")
VARIANTS = {
    "two": PULLOVER,
    "one": ONE,
    "halves": HALVES,
    "in colours, within a shaping": COLOURS,
    "plain, within a shaping": SHAPED,
    "edged in garter": PULLOVER.replace("rib     2.5 cm, 1x1", "garter  2.5 cm"),
}


def slots(text: str, piece: str):
    """The openings of a piece in the first size."""
    done = checks(text)
    plan = planned(text)
    return slots_of(plan, done.spec.joins, plan.piece(piece), 0)


def test_the_place_by_hand() -> None:
    """2 sts and 2.8 rows a cm: 16 cm are 44.8 rows, so 44, and the opening is on row 45, a right-side row.

    100 sts, for a 2x2 rib that ends as it begins has 4n + 2 and there are two edge stitches. 4 cm are 8: beside the
    middle, between 50 and 51, the one pocket ends with st 42 and begins 25 before, the other begins with st 59.
    """
    (slot,) = slots(PULLOVER, "front")
    assert (slot.row, slot.before, slot.stitches) == (45, 100, 25)
    assert slot.places == (18, 59)


def test_a_single_one_lies_in_the_middle() -> None:
    """26 of 100 sts leave 37 at either side."""
    (slot,) = slots(ONE, "front")
    assert slot.places == (38,)


def test_in_halves_it_is_measured_from_the_front_edge() -> None:
    """With a band of 8 sts, 4 cm, a half is 49 / 2 + 2 = 26.5 cm wide: 53 and an edge stitch, 54.

    12 sts from the front edge: of the left half, whose rows start at the side, 54 - 12 - 25 = 17 lie before it.
    """
    (left,), (right,) = slots(HALVES, "left-front"), slots(HALVES, "right-front")
    assert left.before == right.before
    assert left.places == (left.before - 12 - 25 + 1,)
    assert right.places == (13,)


def test_within_a_shaping_the_stitches_of_that_row_count() -> None:
    """In the pieces of a garment the count below the opening is that of the row before it, as the machine has it."""
    done = written(SHAPED)
    (slot,) = slots(SHAPED, "front")
    rows = {
        row.number: row for one in facts(done.spec, done.plan, (0,)).pieces if one.piece == "front" for row in one.rows
    }
    assert rows[slot.row - 1].stitches == slot.before < 100


@pytest.mark.parametrize("text", VARIANTS.values(), ids=VARIANTS)
def test_pockets_are_proven(text: str, monkeypatch: pytest.MonkeyPatch) -> None:
    """The rows of the piece are those of one without a pocket, stitch by stitch and colour by colour."""
    done = written(text)
    assert [code for code in codes(done) if code[0] in "EW"] == []
    found = {(one.piece, one.size): one for one in proven(done, monkeypatch)}
    lines = [line for line in text.splitlines(keepends=True) if not line.startswith("    inset")]
    without = "".join(lines).replace("    work    10 cm\n", "    work    10 cm\n    bind off\n")
    if "band pocket-edge" in without:
        without = without[: without.index("band pocket-edge")]
    bare = {(one.piece, one.size): one for one in proven(written(without), monkeypatch)}
    opened = 0
    for key, fabric in found.items():
        assert [(row.ops, row.colours) for row in fabric.rows] == [(row.ops, row.colours) for row in bare[key].rows]
        for row, places, lining in fabric.insets:
            assert lining == "lining" and row % 2 == 1
            assert {last - first + 1 for first, last in places} == {found["lining", key[1]].live}
            opened += len(places)
    assert opened == len(done.sizes) * done.plan.piece("lining").make


@pytest.mark.parametrize(
    ("piece", "old", "new"),
    [
        ("front", "on row 31 from here (RS)", "on row 33 from here (RS)"),
        ("front", "on row 31 from here (RS)", "on row 32 from here (RS)"),
        ("front", "sts 18 to 42", "sts 17 to 41"),
        ("front", "sts 18 to 42", "sts 18 to 41"),
        ("front", "work the 25 live sts", "work the 24 live sts"),
        ("front", "live sts of a lining", "live sts of a back"),
        ("lining", "Cast on 25 sts", "Cast on 24 sts"),
        ("pocket-edge", "25 sts along the held sts", "27 sts along the held sts"),
    ],
)
def test_a_wrong_word_is_found(piece: str, old: str, new: str) -> None:
    refute(PULLOVER, piece, old, new)


@pytest.mark.parametrize(
    ("code", "old", "new"),
    [
        ("E511", "    work    10 cm\n", "    work    10 cm\n    bind off\n"),
        ("E511", "16 cm up", "8 cm up"),
        ("E511", "16 cm up", "56 cm up"),
        ("E511", "    rib       5 cm, 2x2\n", "    rib       20 cm, 2x2\n"),
        ("E511", "4 cm from the centre", "13 cm from the centre"),
        ("E511", "lining, worked flat, make 2", "lining, worked flat"),
        ("E511", "    work    10 cm\n", "    work    8 cm\n    work    30 cm\n"),
        ("E206", ", 16 cm up", ""),
        ("E503", "rib     2.5 cm, 1x1", "rib     2.5 cm, 2x2"),
        ("E503", "along front pocket", "along back pocket"),
        ("E405", "rib     2.5 cm, 1x1", "rib     2.5 cm, 1x1, twisted"),
        ("E223", "band pocket-edge, make 2", "band pocket-edge"),
        ("E223", "band pocket-edge, make 2", "band pocket-edge, make 3"),
    ],
)
def test_what_is_refused(code: str, old: str, new: str) -> None:
    assert old in PULLOVER
    assert code in errors(checks(PULLOVER.replace(old, new)))


def test_an_edge_is_made_for_each_opening() -> None:
    """One opening has one edge, and `make 1` says no more than no `make`."""
    for made, found in (("", []), (", make 1", []), (", make 2", ["E223"])):
        assert errors(checks(ONE.replace("band pocket-edge", f"band pocket-edge{made}"))) == found


SCARF = f"""wale 1

pattern "Sluice"

{PLAIN}
sizes one

piece scarf, worked flat
    cast on 40 cm in plain
    work    80 cm
    bind off

piece lining, worked flat
    cast on 26 sts in plain
    work    10 cm

join
    inset lining in scarf, 16 cm up

band pocket-edge
    pick up along scarf pocket in plain
    garter  2 cm
"""


def test_a_holder_is_asked_for_and_the_edge_is_called_an_edge() -> None:
    """Nothing but the pocket waits here, and its edge is no rib."""
    text = " ".join(to_text(written(SCARF).pattern).split())
    assert "stitch holders or waste yarn" in text
    assert "the ends of the pocket's edge to its right side" in text


def test_a_seed_edge_over_an_even_number_is_refused_as_such() -> None:
    """24 sts cannot be alike at both ends in seed: 25 can, and the message speaks of no rib."""
    seed = PULLOVER.replace("rib     2.5 cm, 1x1", "seed    2.5 cm").replace("cast on 25 sts", "cast on 24 sts")
    (found,) = [one for one in checks(seed).problems if one.is_error]
    assert found.code == "E503" and "rib" not in found.message + found.help
    assert "24 sts" in found.message and "seed" in found.message and "garter" in found.help
    assert errors(checks(seed.replace("cast on 24 sts", "cast on 25 sts"))) == []


def test_the_plan_and_the_schematic_show_it() -> None:
    """4 cm from the middle 25 sts are 12.5 cm, at 44 rows."""
    done = compile_spec(world(PULLOVER), SPEC)
    plan = json.loads(render_plan(done))
    jsonschema.validate(plan, json.loads((Path(wale.outputs.__file__).parent / "plan.schema.json").read_text("utf-8")))
    kinds = [join["kind"] for join in plan["joins"]]
    assert kinds.count("inset") == 1
    (pocket,) = next(piece for piece in plan["pieces"] if piece["name"] == "front")["pockets"]
    assert pocket == {"name": "lining", "opened_on": [45], "first": [[18, 59]], "held": [25]}
    drawn = next(
        part
        for section in done.pattern.sections
        for part in section.parts
        if getattr(part, "outline", None) and part.name == "Front"
    )
    height = 44 / 2.8
    ends = sorted((start[0], end[0]) for start, end in drawn.lines if abs(start[1] - height) < 0.001)
    assert ends == [(-4, -16.5), (4, 16.5)]


def test_every_number_of_its_lines_has_a_reason() -> None:
    done = checks(PULLOVER)
    reasons, _ = explained(done.spec, done.plan, done.sources)
    told = {one.address: one.value for one in reasons if one.address.startswith("front.inset.lining")}
    ends = {name.removeprefix("front.inset.lining."): value for name, value in told.items()}
    assert (ends["row"], ends["aside"], ends["stitches"]) == (31, 8, 25)
    assert (ends["slot[1].first"], ends["slot[1].last"], ends["slot[2].first"]) == (18, 42, 59)
    assert any(isinstance(join, SewnOn) and join.is_inset for join in done.spec.joins)


def test_sheets_row_by_row_tell_of_openings() -> None:
    """The opening is on row 45, and the first buttonhole of the right front where its band says it is."""
    text = HALVES.replace("as left-front, mirrored\n", "as left-front, mirrored\n    buttonholes 5 of 2 sts\n")
    done = compile_spec(world(text), SPEC, extras=("rows",))
    page = printed(done.spec, done.plan, done.pattern, done.sizes)
    wanted = facts(done.spec, done.plan, done.sizes)
    assert prove(page, wanted) == []
    sheet = next(one for one in page.sheets if one.piece == "right-front")
    due = {words: [line.split(" ")[0] for line in sheet.lines if words in line] for words in ("pocket", "buttonhole")}
    rows = done.plan.piece("right-front").hole_rows[0]
    assert due == {"pocket": ["45"], "buttonhole": [str(row) for row in rows]}
    for words in ("work a buttonhole; ", "open a pocket; "):
        lines = tuple(line.replace(words, "") for line in sheet.lines)
        assert lines != sheet.lines
        wrong = tuple(replace(one, lines=lines) if one is sheet else one for one in page.sheets)
        assert prove(replace(page, sheets=wrong), wanted)


def test_a_row_that_evens_the_stitches_out_is_passed_over() -> None:
    """Facing and fold are 12 rows, 6 cm of the motif 20 more; row 33 loses stitches evenly, so row 35 opens it."""
    text = COLOURS.replace(
        "    work      6 cm\n", "    work      6 cm\n    work      in plain\n    work      2 cm\n"
    ).replace("18 cm up", "6.2 cm up")
    done = written(text.replace("work    10 cm\n", "work    5 cm\n"))
    (slot,) = slots_of(done.plan, done.spec.joins, done.plan.piece("front"), 0)
    (front,) = [one for one in facts(done.spec, done.plan, (0,)).pieces if one.piece == "front"]
    counts = {row.number: row.stitches for row in front.rows}
    assert counts[32] > counts[33] == counts[34] == slot.before
    assert slot.row == 35


def test_the_printed_text_is_knitted_without_a_plan() -> None:
    """`wale knit` passes over the remarks, and has the stitches of both holders at the end of the front."""
    done = written(PULLOVER)
    knitted = knit_pattern(Source("a.txt", to_text(done.pattern)))
    assert knitted.problems == ()
    (front,) = [one for one in knitted.trials if one.piece.lower() == "front"]
    assert list(front.held).count(25) == 2
