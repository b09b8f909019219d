"""`wale yarn` from the command line to text, HTML and JSON."""

import json
from pathlib import Path

import pytest

from wale.cli import main
from wale.files import MemoryWorld

EXAMPLES = Path(__file__).parents[3] / "examples"
FILES = {path.name: path.read_text("utf-8") for path in EXAMPLES.glob("*.wale")}
PULLOVER = "millrace-pullover.wale"


def run(*arguments, files=FILES):
    world = MemoryWorld(dict(files))
    return main(["yarn", *arguments], world), world


def test_text_tells_all(capfd):
    code, _ = run(PULLOVER, "--size", "M")
    text = capfd.readouterr().out
    assert code == 0
    for title in ("What to buy", "What runs out first", "Yarn of each piece", "What a change would save", "reckoned"):
        assert title in text
    assert "rye: buy" in text and "1 cone of 100 g" in text
    assert "Sheet for a test knit" not in text


def test_a_change_that_no_size_told_can_make_has_no_line(capfd):
    for sizes, told in ((("XS",), False), (("XS", "S"), True)):
        assert run(PULLOVER, *(word for size in sizes for word in ("--size", size)))[0] == 0
        assert ("one size smaller" in capfd.readouterr().out) == told


def test_a_sheet_on_request(capfd):
    assert run(PULLOVER, "--size", "M", "--sheet")[0] == 0
    text = capfd.readouterr().out
    assert "Sheet for a test knit" in text and "sleeve 2" in text and "Remarks by row" in text


def test_a_sheet_in_inches_tells_gauge_over_four_inches(capfd):
    files = {**FILES, PULLOVER: FILES[PULLOVER].replace("units cm", "units inch")}
    assert run(PULLOVER, "--size", "M", "--sheet", files=files)[0] == 0
    text = capfd.readouterr().out
    # plain: 27 sts and 38 rows in 10 cm, times 10.16 / 10: 27.43 and 38.61.
    assert "Gauge in 4 inches, washed" in text and "27.4 sts, 38.6 rows" in text and "in 10 cm, washed" not in text


def test_json_says_the_same(capfd):
    assert run(PULLOVER, "--size", "M", "--size", "L", "--to", "json")[0] == 0
    told = json.loads(capfd.readouterr().out)
    assert told["format"] == "wale yarn 1"
    assert [one["size"] for one in told["sizes"]] == ["M", "L"]
    for one in told["sizes"]:
        assert [yarn["yarn"] for yarn in one["yarns"]] == ["rye", "flour"]
        for yarn in one["yarns"]:
            takes = yarn["takes"]
            assert takes["low"] < takes["middle"] < takes["high"] < yarn["have_ready"]
            assert yarn["have_ready"] <= yarn["on_hand"] + yarn["missing"] + 5
            (bought,) = yarn["buy"]
            assert bought["weight"] >= yarn["missing"] and bought["currency"] == "EUR"
        assert [place["place"] for place in one["places"]] == ["back", "front", "sleeve", "neckband"]


def test_html_is_written_whole():
    code, world = run("sluice-hat.wale", "--out", "hat.html")
    page = world.files["hat.html"].decode()
    assert code == 0 and "<table" in page and "What to buy" in page and "Sluice: yarn" in page


def test_the_same_input_gives_the_same_bytes(capfd):
    texts = []
    for _ in range(2):
        run(PULLOVER, "--to", "json")
        texts.append(capfd.readouterr().out)
    assert texts[0] == texts[1] != ""


def test_what_is_left(capfd):
    assert run(PULLOVER, "--size", "M", "--left", "rye 200 g at front row 60")[0] == 0
    text = capfd.readouterr().out
    assert "200 g are left at row 60" in text and "of the estimate" in text


@pytest.mark.parametrize(
    ("arguments", "code", "said"),
    [
        ((PULLOVER, "--left", "rye 200 g at front row 60"), 2, "name it with --size"),
        ((PULLOVER, "--size", "M", "--left", "rye"), 1, "E308"),
        ((PULLOVER, "--size", "XXXS"), 1, "E305"),
        ((PULLOVER, "--out", "yarn.pdf"), 2, "names no format"),
        ((PULLOVER, "--out", "yarn.html", "--to", "json"), 2, "let them agree"),
        (("missing.wale",), 1, "E901"),
    ],
)
def test_what_is_refused(arguments, code, said, capfd):
    assert run(*arguments)[0] == code
    captured = capfd.readouterr()
    assert said in captured.err and captured.out == ""


def test_a_yarn_of_unknown_length_is_not_known(capfd):
    text = FILES["mill-yarns.wale"].replace("2/8 Nm wool", "class 1 wool").replace("    weight", "    -- weight")
    assert run(PULLOVER, "--size", "M", files={**FILES, "mill-yarns.wale": text})[0] == 0
    out = capfd.readouterr().out
    assert "not known" in out and "usually 350 to 600 m per 100 g" in " ".join(out.split())


HELD = """
yarn dusk
    strands rye + mist
    colour  #9b7a5c

yarn mist
    count   R 40 tex/2
    fibre   70 percent mohair, 30 percent silk
    colour  #d9d4cc
    put-up  25 g ball, 7 EUR
"""


def test_a_yarn_made_of_others_is_told_by_its_parts(capfd):
    text = FILES["first-cowl.wale"].replace("in plain-round", "in soft-round")
    swatch = "\nswatch soft-round, in the round\n    fabric stockinette in dusk\n    needle 4 mm\n"
    text += HELD + swatch + "    washed 27 sts and 37 rows in 10 cm\n"
    assert run("cowl.wale", files={**FILES, "cowl.wale": text})[0] == 0
    out = " ".join(capfd.readouterr().out.split())
    assert "dusk: a strand each of rye and mist, held together" in out
    assert "mist: buy" in out and "mist: R 40 tex/2 70 % mohair, 30 % silk; 2500 m per 100 g" in out
    assert "dusk: buy" not in out


def test_a_doubtful_count_is_told(capfd):
    files = {**FILES, "mill-yarns.wale": FILES["mill-yarns.wale"].replace("2/8 Nm", "8/36 Nm", 1)}
    assert run("sluice-hat.wale", "--to", "json", files=files)[0] == 0
    captured = capfd.readouterr()
    assert [one["code"] for one in json.loads(captured.out)["problems"]] == ["W260"]
    assert "36 strands of 8" in " ".join(captured.err.split())
