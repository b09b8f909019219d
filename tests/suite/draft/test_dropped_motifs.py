"""A motif is worked where its line stands, or the line is refused: none is dropped without a word."""

from __future__ import annotations

import pytest
from support import PLAIN, checked, errors, planned

HEAD = f"""wale 1
pattern "Cloth"
{PLAIN}
yarn flour
    count  2/8 Nm wool
    colour #efe6d2
motif seed
    repeat 4 sts, 2 rows
    key    |-| rye, |x| flour
    | - - x - |
    | x - - - |
swatch easy, worked flat
    motif  seed in rye, flour
    needle 4 mm
    washed 24 sts and 28 rows in 10 cm
swatch easy-round, in the round
    motif  seed in rye, flour
    needle 4 mm
    washed 24 sts and 28 rounds in 10 cm
sizes one
"""
SEED, ROUND = "work in seed on easy, from the edge", "work in seed on easy-round, whole repeats"


def cloth(*lines: str, way: str = "worked flat", swatch: str = "plain") -> str:
    return f"{HEAD}piece cloth, {way}\n    cast on 40 cm in {swatch}\n" + "".join(f"    {line}\n" for line in lines)


@pytest.mark.parametrize(
    ("below", "above"),
    [
        (("work 4 rows", SEED), ("rib 3 cm, 2x2", "bind off")),
        ((SEED,), ("garter 3 cm", "bind off")),
        ((SEED,), ("work in plain", "work 4 rows", "bind off")),
        (("work 4 rows", SEED), ("increase evenly to 50 cm", "work in plain", "work 4 rows", "bind off")),
        (("work 4 rows", SEED), (SEED, "work 4 rows", "bind off")),
        (("work 4 rows", SEED), ("neck 16 cm wide, 1 cm deep", "shoulders straight")),
    ],
)
def test_a_motif_without_rows_is_refused_with_a_way_out(below: tuple[str, ...], above: tuple[str, ...]) -> None:
    done = checked(cloth(*below, *above))
    (found,) = [one for one in done.problems if one.is_error]
    assert found.code == "E405"
    assert errors(checked(cloth(*below, "work 10 cm", *above))) == []


def test_the_refused_line_is_that_of_the_motif() -> None:
    text = cloth("work 4 rows", SEED, "work in plain", "work 4 rows", "bind off")
    (found,) = [one for one in checked(text).problems if one.is_error]
    assert text[found.labels[0].span.start :].startswith(SEED)
    assert found.message == "this line of cloth begins a motif in which no rows are worked"
    assert "`work 10 cm`" in found.help


@pytest.mark.parametrize("edging", ["rib 3 cm, 2x2", "garter 3 cm", "seed 3 cm"])
@pytest.mark.parametrize("line", ["work 10 cm", "shape to 50 cm over 20 cm", "bind off 4 cm each side"])
def test_rows_above_an_edging_that_ended_a_motif_are_said_or_refused(edging: str, line: str) -> None:
    rest = ("work 2 rows", "bind off")
    text = cloth(SEED, "work 4 rows", edging, line, *rest)
    (found,) = [one for one in checked(text).problems if one.is_error]
    assert found.code == "E405"
    assert text[found.labels[0].span.start :].startswith(line)
    again = planned(cloth(SEED, "work 4 rows", edging, SEED, "work 2 rows", line, *rest)).pieces[0].sections
    assert [one.fabric is not None and one.fabric.motif == "seed" for one in again] == [True, False, *[True] * 3]
    plain = planned(cloth(SEED, "work 4 rows", edging, "work in plain", "work 2 rows", line, *rest)).pieces[0].sections
    assert [one.swatch for one in plain] == ["easy", "easy", *["plain"] * 3]


def test_a_crown_above_an_edging_says_what_it_is_worked_in() -> None:
    """In pattern it has no pattern above a rib; plain it names its yarn."""
    below = (ROUND, "work 10 cm", "rib 3 cm, 2x2")
    way = {"way": "in the round", "swatch": "easy-round"}
    assert errors(checked(cloth(*below, "crown 6 wedges over 9 cm", **way))) == ["E405"]
    assert errors(checked(cloth(*below, "crown 6 wedges over 9 cm, plain in rye", **way))) == []


def test_an_edging_may_end_a_piece_in_a_motif() -> None:
    assert errors(checked(cloth(SEED, "work 10 cm", "rib 3 cm, 2x2", "garter 2 cm", "bind off"))) == []
