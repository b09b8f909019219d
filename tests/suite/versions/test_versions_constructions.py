"""What git shows and merges of a pattern that makes constructions."""

from support import EXAMPLES, MILL, SPEC, world

from wale.driver import check_source
from wale.source import Source
from wale.versions.listing import is_garment, listing
from wale.versions.merge import merge

HATS = (EXAMPLES / "hatch-hats.wale").read_text("utf-8")
BASE = """wale 1

piece cloth, worked flat
    cast on 20 cm in plain
    work    to 30 cm

construction strip
    takes width
    takes length = 40 cm

piece cloth, worked flat
    cast on width in plain
    work    to length
"""


def changed(*pairs: tuple[str, str], text: str = BASE) -> str:
    for old, new in pairs:
        assert old in text
        text = text.replace(old, new, 1)
    return text


def test_numbers_stand_below_the_make_line() -> None:
    source = Source(SPEC, HATS)
    lines = listing(source, check_source(world(HATS), source)).splitlines()
    at = lines.index("make night as wedge-hat")
    # 49.5 (53.5, 57.5) cm at 2.7 sts in a cm: 133.7 (144.5, 155.3); a rib of 9 cm at 3.7 rounds in a cm: 33.3
    assert lines[at + 2].strip().startswith("= night-hat.girth: 134 (144, 155) sts")
    assert lines[at + 3].strip().startswith("= night-hat.rib[1]: 33 rounds")
    assert [line for line in lines if not line.startswith("        = ")] == HATS.splitlines()


def test_a_file_of_constructions_is_no_garment_and_one_that_makes_some_is() -> None:
    assert not is_garment(Source("a.wale", MILL["mill-blocks.wale"]))
    assert is_garment(Source("a.wale", HATS))


def test_blocks_of_one_name_in_the_pattern_and_in_a_construction_are_two() -> None:
    ours = changed(("work    to 30 cm", "work    to 32 cm"))
    theirs = changed(("work    to length", "work    to length/2"))
    both = changed(("work    to 30 cm", "work    to 32 cm"), ("work    to length", "work    to length/2"))
    for done in (merge(BASE, ours, theirs), merge(BASE, theirs, ours)):
        assert (done.text, done.conflicts) == (both, ())


def test_a_new_piece_and_a_new_construction_do_not_mix() -> None:
    base = BASE.partition("\nconstruction")[0]
    piece = "\npiece cord, worked flat\n    cast on 3 sts in plain\n    work    to 30 cm\n"
    with_piece = base + piece
    for done in (merge(base, BASE, with_piece), merge(base, with_piece, BASE)):
        assert not done.conflicts
        assert done.text.replace("\n", "") == (with_piece + BASE[len(base) :]).replace("\n", "")


def test_lines_of_what_is_taken_and_given_are_known_by_name() -> None:
    base = changed(("piece cloth", "make strip\n    give width  = 3 cm\n    give length = 9 cm\n\npiece cloth"))
    ours = changed(
        ("    takes length = 40 cm", "    takes length = 42 cm"),
        ("give width  = 3 cm", "give width  = 4 cm"),
        text=base,
    )
    theirs = changed(("    takes width\n", ""), ("give length = 9 cm", "give length = 8 cm"), text=base)
    done = merge(base, ours, theirs)
    assert done.conflicts == ()
    for line in ("takes length = 42 cm", "give width  = 4 cm", "give length = 8 cm"):
        assert line in done.text
    assert "takes width" not in done.text
