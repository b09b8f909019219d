"""A pattern that makes constructions regraded: what it gives is changed, a construction's own lines never are."""

from __future__ import annotations

import pytest
from regrading import counts, done, regraded
from support import EXAMPLES

from wale.problems.problem import Problem

HATS = (EXAMPLES / "hatch-hats.wale").read_text("utf-8")
GAUGE = "25 sts, 34 rows in 10 cm"
OWN = """wale 1

pattern "Cloths"

yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

yarn bran
    count  2/8 Nm wool
    colour #c9a36b

swatch plain, worked flat
    fabric stockinette in rye
    needle 4 mm
    washed 20 sts and 30 rows in 10 cm

swatch other, worked flat
    fabric stockinette in bran
    needle 4 mm
    washed 18 sts and 27 rows in 10 cm

sizes S M L
    measure bust 80 (90, 100) cm

make square as cloth
    give width = 20 (22, 24) cm
    give plain = plain

make strip as cloth
    give width  = 10 cm
    give length = 40 cm

construction cloth
    takes width
    takes length = 20 cm
    takes swatch plain = plain

piece cloth, worked flat
    edge     1 st each side in rye
    cast on  width in plain
    work     to length
    bind off
    knitted  20 g in M
"""


def changed(old: str, new: str) -> list[str]:
    """Give the lines of the new text that the old one has not."""
    return [" ".join(line.split()) for line in new.splitlines() if line not in old.splitlines()]


def test_a_swatch_of_a_used_file_is_given_under_its_new_name() -> None:
    found = done(HATS, kind="gauge", words=GAUGE)
    assert "    give fabric = plain-round-2\n" in found.text and "    give fabric = plain-round\n" not in found.text
    assert found.after.plan is not None
    girth = found.after.plan.pieces[0].levels[1]
    # 49.5 cm at 2.5 sts in a cm are 123.75 sts
    assert (girth.address, girth.counts[0]) == ("day-hat.girth", 124)


def test_another_swatch_is_given_and_the_name_that_a_construction_takes_stays() -> None:
    found = done(OWN, kind="swatch", words="other")
    assert changed(OWN, found.text) == [
        "give plain = other",
        "takes swatch plain = other",
        "-- of the swatch before: knitted 20 g in M",
    ]
    assert found.after.plan is not None, found.after.problems


def test_another_yarn_reaches_into_a_construction() -> None:
    found = done(OWN, kind="yarn", words="bran")
    assert "edge     1 st each side in bran" in found.text and "give plain = other" in found.text
    assert found.after.plan is not None, found.after.problems


def test_sizes_are_cut_in_what_is_given() -> None:
    found = done(OWN, kind="sizes", words="S L")
    assert changed(OWN, found.text) == [
        "sizes S L",
        "measure bust 80 (100) cm",
        "give width = 20 (24) cm",
        "-- not among the sizes: knitted 20 g in M",
    ]
    assert found.after.plan is not None, found.after.problems


def test_counts_are_not_written_into_a_construction() -> None:
    for text in (HATS, OWN):
        found = regraded(text, kind="gauge", words=GAUGE, keep="counts")
        assert isinstance(found, Problem) and found.code == "E314"
        assert found.labels[-1].text == "made here"


@pytest.mark.parametrize("name", ["forebay-pullover", "hopper-vest", "sluice-cardigan"])
def test_the_counts_of_armholes_caps_plackets_and_halves_are_kept(name: str) -> None:
    """At a looser gauge all pieces have the counts that they had; a cast-on in another swatch and bands are fitted."""
    text = (EXAMPLES / f"{name}.wale").read_text("utf-8")
    found = done(text, kind="gauge", words="25 sts, 36 rows in 10 cm", keep="counts")
    old, new = counts(found.before.plan), counts(found.after.plan)
    bands = {f"{band.name} sts" for band in found.before.plan.bands} if found.before.plan is not None else set()
    others = {one for one in old if new[one] != old[one] and not one.endswith(".cast-on sts")}
    assert others <= bands and len(old) > 20 and old.keys() == new.keys()
