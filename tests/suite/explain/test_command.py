"""`wale explain`: what it finds, prints and returns."""

import json

import pytest
from arithmetic import reckon
from support import EXAMPLES, MILL, MILL_YARNS, SPEC

from wale.cli import main
from wale.files import MemoryWorld

PULLOVER = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
BUST = next(number for number, line in enumerate(PULLOVER.split("\n"), 1) if "to bust/2" in line)


@pytest.fixture
def run(capsys):
    def run(*arguments, text=PULLOVER):
        code = main(("explain", *arguments), MemoryWorld({SPEC: text, "mill-yarns.wale": MILL_YARNS}))
        out, err = capsys.readouterr()
        return code, out, err

    return run


def test_one_number(run):
    code, out, err = run(SPEC, "back.bust", "--size", "M")
    assert (code, err) == (0, "")
    assert out.startswith(
        "back.bust, size M: 161 sts\n  why   (bust/2 = 53.99 cm) × 2.941 sts/cm + 2 edge sts = 160.79\n"
    )
    assert f"({SPEC}:{BUST})" in out and "> 161  +0.07 cm   chosen" in out
    assert max(map(len, out.replace("https://", "\n").split("\n"))) < 120


def test_all_numbers_are_listed(run):
    code, out, _ = run(SPEC)
    rows = {line.split()[0]: line.split()[1:] for line in out.splitlines() if line.strip()}
    assert code == 0 and rows["XS"][:2] == ["S", "M"]
    assert len(rows["back.bust"]) == 8 and rows["back.bust"][-1] == "sts"
    assert rows["neckband.stitches"][-1] == "sts" and "sleeve.shape[1].shaping[1]" in rows


def test_a_beginning_gives_all_below_it(run):
    code, out, _ = run(SPEC, "back.shape[1]", "--size", "M")
    heads = [line.split(",")[0] for line in out.splitlines() if line and line[0] != " "]
    assert code == 0 and "back.shape[1].rows" in heads and "back.shape[1].first" in heads
    assert all(head.startswith("back.shape[1].") for head in heads)


def test_a_bare_number_is_a_line(run):
    code, out, _ = run(SPEC, str(BUST), "--size", "M", "--json")
    addresses = [one["address"] for one in json.loads(out)["reasons"]]
    assert code == 0 and {"back.bust", "back.shape[2].rows", "front.bust"} <= set(addresses)
    assert "back.cast-on" not in addresses


def test_a_line_of_a_used_file(run):
    """Line 40 of the yarns is the washed gauge of `easy`; the cast-on's is another swatch's."""
    line = MILL_YARNS.split("\n").index("    washed  40 sts = 13.6 cm, 40 rows = 12.2 cm") + 1
    _, out, _ = run(SPEC, f"mill-yarns.wale:{line}", "--size", "M", "--json")
    addresses = [one["address"] for one in json.loads(out)["reasons"]]
    assert "back.bust" in addresses and "back.cast-on" not in addresses


@pytest.mark.parametrize("what, unit", [("=161", "sts"), ("161sts", "sts"), ("=34.8", "cm"), ("34.8cm", "cm")])
def test_a_printed_number(run, what, unit):
    code, out, _ = run(SPEC, what, "--size", "M")
    heads = [line for line in out.splitlines() if line and line[0] != " "]
    assert code == 0 and heads and all(head.endswith(f": {what.strip('=stcm')} {unit}") for head in heads)


@pytest.mark.parametrize(
    "what, hint",
    [
        ("back.bsut", "Perhaps back.bust"),
        ("9999", "one decimal"),
        ("2", "`=2`"),
        ("=9999", "one decimal"),
        ("wheel", "back, front, sleeve, neckband"),
        ("back.zzzzzzzz", "Numbers of back: back.cast-on"),
    ],
)
def test_what_is_not_there(run, what, hint):
    code, out, err = run(SPEC, what)
    assert (code, out) == (1, "") and "error[E306]" in err and hint in " ".join(err.split())


def test_a_bare_number_beyond_the_last_line_is_a_printed_one(run):
    code, out, _ = run(SPEC, "161", "--size", "M")
    heads = [line for line in out.splitlines() if line and line[0] != " "]
    assert code == 0 and "back.bust, size M: 161 sts" in heads
    assert all(": 161 sts" in head for head in heads)


def test_all_rows_of_a_piece(run):
    """By hand, size M: 20 of rib, 122 of shaping and 16 to the end."""
    code, out, _ = run(SPEC, "sleeve.rows", "--size", "M")
    assert code == 0 and out.startswith("sleeve.rows, size M: 158 rows\n  why   20 rows + 122 rows + 16 rows = 158\n")


@pytest.mark.parametrize(
    "what, told",
    [
        ("yarn.rye.put-up[1].cost", "yarn.rye.put-up[1].cost, size M: 46.00 EUR"),
        ("gauge.easy.stitches", "gauge.easy.stitches: 29.4 sts"),
        ("ring.body.neck-opening", "ring.body.neck-opening.passes, size M: 55.9 cm"),
        ("chart.grist.width", "chart.grist.width: 12 sts"),
        ("assumption[4].value", "assumption[4].value, size M: 36.9 cm"),
    ],
)
def test_numbers_beside_the_instructions(run, what, told):
    code, out, _ = run(SPEC, what, "--size", "M")
    assert code == 0 and told in out


def test_a_line_of_a_yarn_leads_to_its_numbers(run):
    """The line of the price has no number of its own in the reasons; those of its block are given."""
    line = next(number for number, line in enumerate(MILL_YARNS.split("\n"), 1) if "put-up  100 g cone" in line)
    code, out, _ = run(SPEC, f"mill-yarns.wale:{line}", "--size", "M")
    assert code == 0 and "yarn.rye.put-up[1].price: 11.50 EUR" in out


def test_lengths_in_inches_are_found_as_printed(run):
    """59.17 cm, the back's length in size M, are 23.3 inches."""
    text = PULLOVER.replace("units cm", "units inch")
    for what in ("=23.3", "23.3inches"):
        code, out, _ = run(SPEC, what, "--size", "M", text=text)
        assert code == 0 and "back.length, size M: 59.2 cm, printed as 23.3 inches\n" in out


def test_an_unknown_size(run):
    code, out, err = run(SPEC, "back.bust", "--size", "XXL")
    assert (code, out) == (1, "") and "error[E305]" in err


def test_a_spec_with_an_error(run):
    code, out, err = run(SPEC, "back.bust", text="wale 1\npiece back, worked flat\n")
    assert (code, out) == (1, "") and "error[" in err


def test_many_numbers_are_not_weighed(run):
    code, out, _ = run(SPEC, "back.", "--size", "M", "--size", "L")
    assert code == 0 and "ask for fewer numbers" in out and "chosen" not in out


def test_json_says_everything_exactly(run):
    code, out, err = run(SPEC, "back.bust", "--size", "M", "--json")
    told = json.loads(out)
    assert (code, err, told["spec"], told["what"], told["problems"]) == (0, "", SPEC, "back.bust", [])
    (reason,) = told["reasons"]
    assert (reason["value"], reason["unit"], reason["size"]) == (161, "sts", "M")
    assert str(reckon(reason["expression"])) == reason["wish"]["exact"]
    assert reckon(reason["whole"]) == 161 and reason["printed"] == "161"
    assert [one["chosen"] for one in reason["candidates"]] == [False, True, False]
    assert {"file": SPEC, "line": BUST} in reason["places"]
    assert reason["inputs"][0]["place"] == {"file": SPEC, "line": BUST}


def test_json_tells_problems(run):
    code, out, err = run(SPEC, "back.bsut", "--json")
    assert (code, err) == (1, "") and [one["code"] for one in json.loads(out)["problems"]] == ["E306"]
    code, out, _ = run("missing.wale", "--json")
    assert code == 1 and json.loads(out)["reasons"] == []


def test_lines_of_a_construction_tell_of_each_that_is_made(capsys):
    hats = (EXAMPLES / "hatch-hats.wale").read_text("utf-8")
    line = next(at for at, text in enumerate(MILL["mill-blocks.wale"].split("\n"), 1) if "rib     brim" in text)
    code = main(("explain", SPEC, f"mill-blocks.wale:{line}", "--size", "small"), MemoryWorld({SPEC: hats, **MILL}))
    out = capsys.readouterr().out
    # 6 cm and 9 cm at 3.7 rounds in a cm: 22.2 and 33.3
    assert code == 0
    assert "day-hat.rib[1].rows, size small: 22 rounds\n  why   (brim = 6 cm)" in out
    assert "night-hat.rib[1].rows, size small: 33 rounds\n  why   (brim = 9 cm)" in out
    made = [at for at, text in enumerate(hats.split("\n"), 1) if text.startswith("make ")]
    code = main(("explain", SPEC, str(made[1]), "--size", "small"), MemoryWorld({SPEC: hats, **MILL}))
    out = capsys.readouterr().out
    assert code == 0 and f"  line  {SPEC}:" in out
    assert "\nnight-hat.rib[1].rows, size small" in out and "day-hat." not in out
