"""`wale knit` as a person calls it: what is printed, where, and the exit code."""

from __future__ import annotations

import json

import pytest
from support import ROOT

from wale.cli import main
from wale.files import MemoryWorld

CAP = """Sizes S (M)

Cap

Note: soft.
Cast on 54 (60) sts. Join to a round.
Knit 36 rounds. 54 (60) sts.
Bind off.
"""
SLIP = CAP.replace("54 (60) sts.\nBind", "54 (61) sts.\nBind")
UNREAD = CAP.replace("Knit 36 rounds", "Knit some rounds")
FILES = {"cap.txt": CAP, "slip.txt": SLIP, "unread.txt": UNREAD}


def knit(*arguments: str) -> int:
    return main(["knit", *arguments], MemoryWorld(dict(FILES)))


@pytest.mark.parametrize(
    ("arguments", "code"),
    [
        (("cap.txt",), 0),
        (("cap.txt", "--size", "M"), 0),
        (("slip.txt",), 1),
        (("slip.txt", "--size", "S"), 0),
        (("unread.txt",), 1),
        (("missing.txt",), 1),
        (("cap.txt", "--size", "L"), 2),
        (("cap.txt", "--gauge", "tight"), 2),
        ((), 2),
    ],
)
def test_the_exit_code_says_how_it_went(arguments: tuple[str, ...], code: int) -> None:
    assert knit(*arguments) == code


def test_the_report_tells_stitches_and_measurements(capsys: pytest.CaptureFixture[str]) -> None:
    knit("cap.txt", "--gauge", "27 sts, 36 rows in 10 cm", "--size", "S")
    out, err = capsys.readouterr()
    # 54 sts at 2.7 a cm are 20 cm; 36 rounds at 3.6 a cm are 10 cm; 36 x 54 = 1944 stitches.
    assert out == (
        "Cap, size S: 36 rows, 10.0 cm by rows, 1944 stitches worked\n"
        "  begins with 54 sts (20.0 cm)\n"
        "  stitches: rows 1 to 36: 54 (20.0 cm)\n"
        "  line 7, after row 36: 54, as stated\n"
        "  at the end: 54 bound off\n"
        "\n"
        "1 line tells only and was not knitted.\n"
    )
    assert err == "cap.txt: no problems\n"


def test_a_gauge_in_inches_gives_inches(capsys: pytest.CaptureFixture[str]) -> None:
    knit("cap.txt", "--gauge", "8 sts and 8 rows = 1 inch", "--size", "S")
    # 54 / 8 = 6 3/4, 36 / 8 = 4 1/2.
    assert "begins with 54 sts (6 3/4 inch)" in (out := capsys.readouterr().out)
    assert "36 rows, 4 1/2 inch by rows" in out


def test_problems_name_line_and_words(capsys: pytest.CaptureFixture[str]) -> None:
    knit("unread.txt")
    err = capsys.readouterr().err
    assert "error[E851]: Cap: a line does not read from `some rounds" in err
    assert "unread.txt:7:6" in err
    assert "expected here:" in err


def test_json_holds_everything(capsys: pytest.CaptureFixture[str]) -> None:
    code = knit("slip.txt", "--json", "--gauge", "27 sts, 36 rows in 10 cm")
    out, err = capsys.readouterr()
    told = json.loads(out)
    assert (code, err) == (1, "")
    assert [one["code"] for one in told["problems"]] == ["E853"]
    assert told["sizes"] == ["S", "M"]
    assert told["remarks"] == [{"line": 5, "text": "Note: soft."}]
    assert told["pieces"][1] == {
        "name": "Cap",
        "size": "M",
        "cast-on": 60,
        "rows": 36,
        "stitches": 2160,
        "length": 10.0,
        "runs": [{"from": 1, "to": 36, "part": "", "sts": 60, "width": 22.22}],
        "stated": [{"line": 7, "row": 36, "told": [61], "found": [60]}],
        "live": 0,
        "held": [],
        "bound-off": 60,
        "drawn": 0,
        "stop": None,
    }


def test_json_of_a_file_that_is_not_there(capsys: pytest.CaptureFixture[str]) -> None:
    assert knit("missing.txt", "--json") == 1
    assert [one["code"] for one in json.loads(capsys.readouterr().out)["problems"]] == ["E901"]


@pytest.mark.parametrize("code", [f"E85{number}" for number in range(1, 7)])
def test_the_example_of_each_page_has_its_problem(code: str) -> None:
    from wale.knitting import knit_pattern
    from wale.source import Source

    text = (ROOT / "docs" / "problems" / f"{code}.md").read_text("utf-8")
    shown = [part.partition("```")[0] for part in text.split("```text\n")[1:]]
    wrong, right = (knit_pattern(Source("shown.txt", part)).problems for part in shown)
    cap = "\n\nCap\n\nCast on 8 sts.\n" if code == "E856" else ""
    if cap:
        wrong, right = (knit_pattern(Source("shown.txt", part + cap)).problems for part in shown)
    assert [one.code for one in wrong] == [code]
    assert right == ()
