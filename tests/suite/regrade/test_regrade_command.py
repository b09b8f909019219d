"""`wale regrade`: what it writes, what it tells, and what it refuses."""

from __future__ import annotations

import json

import pytest
from support import EXAMPLES, MILL, MILL_YARNS, SPEC, world
from test_keeping import TUBE

from wale.cli import main
from wale.files import MemoryWorld

PULLOVER = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
HAT = (EXAMPLES / "sluice-hat.wale").read_text("utf-8")
GAUGE = ("--gauge", "25 sts, 30 rows in 10 cm")
BODY = """body mine
    measure bust 88 cm  -- hers
    ease    bust 2 cm
"""


def run(capsys, *arguments: str, text: str = TUBE, **others: str) -> tuple[int, str, str, MemoryWorld]:
    door = world(text, **others)
    code = main(("regrade", SPEC, *arguments), door)
    out, err = capsys.readouterr()
    assert door.files[SPEC] == text and door.files["mill-yarns.wale"] == MILL_YARNS
    return code, out, err, door


def changed(old: str, new: str) -> list[str]:
    """Give the lines of the new text that the old one has not, in order."""
    return [line.strip() for line in new.splitlines() if line not in old.splitlines()]


def test_the_new_spec_has_the_fewest_lines_changed(capsys):
    code, out, err, door = run(capsys, *GAUGE, "--out", "new.wale")
    assert (code, err) == (0, "wrote new.wale\n")
    new = door.files["new.wale"].decode()
    assert changed(TUBE, new) == [
        "washed 25 sts and 30 rows in 10 cm  -- my first one",
        "-- of the swatch before: weight 10 g of 30 sts, 30 rows",
        "-- of the swatch before: knitted 68 g in large",
    ]
    assert len(new.splitlines()) == len(TUBE.splitlines())
    assert "dotted: before 20.0 sts and 24.0 rows in 10 cm, after 25.0 sts and 30.0 rows" in " ".join(out.split())


def test_both_sides_are_told(capsys):
    """80 and 96 cm are 160 and 192 sts at 2 sts in a cm, 200 and 240 at 2.5."""
    _, out, _, _ = run(capsys, *GAUGE)
    lines = [line.split() for line in out.splitlines()]
    assert ["tube.bust,", "before", "160", "192"] in lines and ["tube.bust,", "after", "200", "240"] in lines
    assert "Finished widths in cm, washed: all as before." in out


def test_a_swatch_of_a_used_file_is_copied_and_the_file_left_alone(capsys):
    code, _, _, door = run(capsys, "--gauge", "28 sts, 32 rows in 10 cm", "--out", "new.wale", text=PULLOVER)
    assert code == 0
    new = door.files["new.wale"].decode()
    assert changed(PULLOVER, new) == [
        "-- easy of mill-yarns.wale at another gauge",
        "swatch easy-2, worked flat",
        "motif  grist in rye, flour",
        "needle 3.5 mm",
        "washed 28 sts and 32 rows in 10 cm",
        "work      in grist on easy-2, centred on the stitch",
        "work    in grist on easy-2, centred on the stitch, meets back at underarm",
    ]
    assert main(("check", "new.wale"), door) == 0
    assert main(("format", "new.wale", "--check"), door) == 0
    capsys.readouterr()


def test_a_gauge_is_told_over_four_inches_in_a_pattern_in_inches(capsys):
    code, out, _, _ = run(
        capsys, "--gauge", "28 sts, 32 rows in 10 cm", text=PULLOVER.replace("units cm", "units inch")
    )
    # 28 * 1.016 = 28.4 and 32 * 1.016 = 32.5; before, 40 * 10.16 / 13.6 = 29.9 and 40 * 10.16 / 12.2 = 33.3.
    told = "before 29.9 sts and 33.3 rows in 4 inches, after 28.4 sts and 32.5 rows in 4 inches"
    assert code == 0 and told in " ".join(out.split())


def test_a_gauge_that_was_only_counted_off_the_needle(capsys):
    text = TUBE.replace("washed 20 sts", "counted 20 sts")
    code, _, _, door = run(capsys, "--gauge", "26 sts, 30 rows in 10 cm", "--out", "new.wale", text=text)
    assert code == 0
    assert changed(text, door.files["new.wale"].decode())[:2] == [
        "washed 26 sts and 30 rows in 10 cm",
        "-- of the swatch before: counted 20 sts and 24 rows in 10 cm  -- my first one",
    ]


def test_bytes_of_lines_that_stay_are_kept(capsys):
    """A byte order mark, and an accent that is typed as a sign of its own."""
    text = "\ufeff" + TUBE.replace("my first one", "cafe\u0301").replace("wale 1\n", "wale 1\n-- e\u0301te\u0301\n")
    _, _, _, door = run(capsys, *GAUGE, "--out", "new.wale", text=text)
    new = door.files["new.wale"].decode()
    assert new.startswith("\ufeffwale 1\n-- e\u0301te\u0301\n") and "washed 25 sts and 30 rows in 10 cm  -- caf" in new


def test_line_ends_stay(capsys):
    text = PULLOVER.replace("\n", "\r\n")
    _, _, _, door = run(capsys, "--gauge", "28 sts, 32 rows in 10 cm", "--out", "new.wale", text=text)
    new = door.files["new.wale"].decode()
    assert new.count("\n") == new.count("\r\n") and "easy-2" in new


def test_another_swatch_with_its_motif(capsys):
    code, _, _, door = run(capsys, "--swatch", "spotted", "--out", "new.wale")
    assert code == 0
    assert changed(TUBE, door.files["new.wale"].decode()) == [
        "cast on bust in spotted",
        "work    in spot on spotted, whole repeats",
        "-- of the swatch before: knitted 68 g in large",
    ]


def test_another_yarn_takes_the_swatches_that_were_knitted_in_it(capsys):
    more = """yarn bran
    count  2/8 Nm wool
    colour #c9a36b

swatch bran-plain, in the round
    fabric stockinette in bran
    needle 4 mm
    washed 24 sts and 30 rows in 10 cm

swatch rye-plain, in the round
    fabric stockinette in rye
    needle 4 mm
    washed 22 sts and 28 rows in 10 cm

"""
    text = TUBE.replace("sizes small", f"{more}sizes small").replace("in dotted\n", "in rye-plain\n")
    text = text.replace("in dot on dotted, whole repeats", "in rye-plain")
    code, _, _, door = run(capsys, "--yarn", "bran", "--out", "new.wale", text=text)
    assert code == 0
    assert changed(text, door.files["new.wale"].decode())[:2] == ["cast on bust in bran-plain", "work    in bran-plain"]


def test_a_yarn_changes_its_motif_its_hems_and_its_edges_but_not_what_has_no_swatch_in_it(capsys):
    grist = MILL_YARNS[MILL_YARNS.index("motif grist") : MILL_YARNS.index("swatch easy,")]
    more = f"""yarn oat
    count  2/6 Nm wool
    colour #c9a36b

{grist.replace("grist", "oats").replace("rye", "oat")}
swatch oaten, worked flat
    motif  oats in oat, flour
    needle 4 mm
    washed 26 sts and 29 rows in 10 cm

swatch oat-plain, worked flat
    fabric stockinette in oat
    needle 4 mm
    washed 23 sts and 32 rows in 10 cm

"""
    text = PULLOVER.replace("sizes women", f"{more}sizes women")
    code, out, _, door = run(capsys, "--yarn", "oat", "--out", "new.wale", text=text)
    assert code == 0
    assert changed(text, door.files["new.wale"].decode()) == [
        "edge      1 st each side in oat",
        "cast on   hip/2 in oat-plain",
        "work      in oats on oaten, centred on the stitch",
        "edge    1 st each side in oat",
        "cast on wrist in oat-plain",
        "work    in oats on oaten, centred on the stitch, meets back at underarm",
    ]
    assert "What is worked on plain-round stays in rye, for no swatch like it is in oat." in " ".join(out.split())


def test_fewer_sizes_cut_each_list(capsys):
    code, out, _, door = run(capsys, "--sizes", "large", "--out", "new.wale")
    assert code == 0 and "Size large" in out
    assert changed(TUBE, door.files["new.wale"].decode()) == ["sizes large", "measure bust 96 cm"]


def test_a_body_alone(capsys):
    """The bust of 88 cm and 2 cm ease are 90 cm: 180 sts, 45 repeats."""
    text = TUBE.replace("piece tube", f"{BODY}\npiece tube").replace("work    to 20 cm", "work    to 20 (22, 24) cm")
    code, _, _, door = run(capsys, "--body", "mine", "--out", "new.wale", text=text)
    assert code == 0
    new = door.files["new.wale"].decode()
    assert changed(text, new) == [
        "-- not among the sizes: sizes small large",
        "-- measure bust 80 (96) cm",
        "-- ease    bust 0 cm",
        "work    to 24 cm",
        "-- not among the sizes: knitted 68 g in large",
    ]
    again = run(capsys, "--gauge", "20 sts, 24 rows in 10 cm", "--to", "json", text=new)[1]
    (bust,) = [one for one in json.loads(again)["numbers"] if (one["address"], one["kind"]) == ("tube.bust", "sts")]
    assert bust["after"] == [180]


def test_a_body_has_the_ease_that_the_sizes_gave_it(capsys):
    text = TUBE.replace("piece tube", f"{BODY.replace('    ease    bust 2 cm', '')}\npiece tube")
    code, _, _, door = run(capsys, "--body", "mine", "--out", "new.wale", text=text.replace("bust 0 cm", "bust 4 cm"))
    assert code == 0 and "    measure bust 88 cm  -- hers\n    ease bust 4 cm\n" in door.files["new.wale"].decode()


def test_json(capsys):
    """160 sts at 2.5 sts in a cm are 64 cm."""
    code, out, err, _ = run(capsys, *GAUGE, "--keep", "counts", "--to", "json")
    assert (code, err) == (0, "")
    data = json.loads(out)
    assert data["format"] == "wale regrade 1"
    assert data["asked"] == {"way": "gauge", "words": GAUGE[1], "of": "", "keep": "counts"}
    assert data["swatches"][0]["gauge_after"] == {"sts_per_cm": 2.5, "rows_per_cm": 3}
    numbers = {(one["address"], one["kind"]): (one["before"], one["after"]) for one in data["numbers"]}
    assert numbers["tube.bust", "sts"] == ([160, 192], [160, 192])
    assert numbers["tube.bust", "width"] == ([80, 96], [64, 76.8])
    assert data["fits"][0]["nearest"] == "small" and data["refusals"] == []


def test_the_new_spec_on_standard_output(capsys):
    code, out, err, _ = run(capsys, *GAUGE, "--out", "-")
    assert (code, err) == (0, "") and out.startswith("wale 1\n") and "washed 25 sts and 30 rows" in out


def test_counts_that_no_spec_holds_are_told_but_not_written(capsys):
    asked = ("--gauge", "28 sts, 32 rows in 10 cm", "--keep", "counts")
    code, out, err, _ = run(capsys, *asked, text=PULLOVER)
    assert (code, err) == (0, "") and "No spec can be written so" in out and "Nearest is L, 104.1 cm" in out
    code, _, err, door = run(capsys, *asked, "--out", "new.wale", text=PULLOVER)
    assert code == 1 and "error[E501]" in err and "nothing was written" in err and "new.wale" not in door.files


@pytest.mark.parametrize(
    ("arguments", "code", "words"),
    [
        (("--gauge", "27 to the inch"), "E311", "no gauge"),
        (("--gauge", "27.5 sts, 36 rows in 10 cm"), "E311", "whole number"),
        (("--gauge", "0 sts, 0 rows in 10 cm"), "E311", "no gauge"),
        (("--gauge", ""), "E311", "no gauge"),
        (("--gauge", "25 sts, 30 rows in 10 cm\n    weight 10 g of 20 sts, 20 rows"), "E311", "no gauge"),
        ((*GAUGE, "--of", "dottet"), "E212", "Perhaps dotted?"),
        (("--swatch", "spoted"), "E212", "Perhaps spotted?"),
        (("--swatch", "easy"), "E212", "no swatch named"),
        (("--yarn", "ry"), "E211", "Perhaps rye?"),
        (("--yarn", "flour"), "E312", "no swatch in flour"),
        (("--gauge", "20 sts, 30 rows in 10"), "E311", "Write a length."),
        (("--sizes", "smal"), "E305", "Perhaps small?"),
        (("--sizes", ""), "E305", "no size is named"),
        (("--sizes", "women M L"), "E313", "no value for size M"),
        (("--body", "mine"), "E305", "no body `mine`"),
    ],
)
def test_what_cannot_be_is_told_and_nothing_written(capsys, arguments, code, words):
    status, out, err, door = run(capsys, *arguments, "--out", "new.wale")
    assert (status, out) == (1, "") and f"error[{code}]" in err and words in " ".join(err.split())
    assert "nothing was written" in err and "new.wale" not in door.files


def test_a_swatch_worked_otherwise_cannot_take_the_place(capsys):
    status, _, err, _ = run(capsys, "--swatch", "easy-round", text=PULLOVER)
    assert status == 1 and "error[E312]" in err and "worked in the round" in err


def test_repeats_of_a_plain_fabric_cannot_be_kept(capsys):
    status, _, err, _ = run(
        capsys, "--gauge", "25 sts, 30 rows in 10 cm", "--of", "plain", "--keep", "motif", text=PULLOVER
    )
    assert status == 1 and "error[E312]" in err and "no repeats to keep" in err


def test_repeats_that_do_not_come_out_are_told(capsys):
    """13 repeats of 12 sts and edges hold no 13 of 16 in rows that can take the shaping."""
    status, _, err, door = run(capsys, "--swatch", "broad", "--keep", "motif", "--out", "new.wale", text=PULLOVER)
    assert status == 1 and "error[E401]" in err and "new.wale" not in door.files


@pytest.mark.parametrize(
    "arguments",
    [
        (),
        (*GAUGE, "--swatch", "spotted"),
        ("--sizes", "large", "--body", "mine"),
        ("--swatch", "spotted", "--of", "dotted"),
        ("--sizes", "large", "--keep", "counts"),
        (*GAUGE, "--keep", "everything"),
        (*GAUGE, "--out", "new.txt"),
        (*GAUGE, "--to", "pdf"),
    ],
)
def test_calls_that_are_wrong(capsys, arguments):
    status, out, err, door = run(capsys, *arguments)
    assert (status, out) == (2, "") and "Error" in err and set(door.files) == {SPEC, *MILL}


@pytest.mark.parametrize("path", [SPEC, "there.wale"])
def test_a_file_is_never_replaced(capsys, path):
    status, _, err, door = run(capsys, *GAUGE, "--out", path, there="wale 1\n")
    assert status == 2 and "error[E912]" in err and door.files["there.wale"] == "wale 1\n"


def test_what_a_spec_uses_must_lie_beside_the_new_one(capsys):
    status, _, err, door = run(capsys, "--swatch", "firm", "--out", "other/new.wale", text=PULLOVER)
    assert status == 1 and "error[E901]" in err and "other/new.wale" not in door.files


def test_a_broken_spec_is_told_as_it_is(capsys):
    status, _, err, _ = run(capsys, *GAUGE, text=TUBE.replace("in dot on", "in dott on"))
    assert status == 1 and "error[E213]" in err and f"at {SPEC}" in err


def test_a_gauge_at_which_nothing_fits_is_told(capsys):
    """A repeat of 12 sts in the round: at 28 sts in 10 cm 49.5 cm lie between 132 and 144 sts, 1.93 cm off at best."""
    status, out, err, _ = run(capsys, "--gauge", "28 sts, 32 rows in 10 cm", text=HAT.replace(", tolerance 2.1 cm", ""))
    assert status == 1 and "error[E301]" in err and f"at {SPEC}, regraded" in " ".join(err.split())
    assert "No spec can be written so." in out
