"""`wale swatches`: formats, files, exit codes, and the page as it is printed."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from support import EXAMPLES, ROOT, SPEC, world

from wale.cli import main
from wale.files import MemoryWorld

PULLOVER = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
PAGE = (Path(ROOT) / "docs" / "swatches.md").read_text("utf-8")


def run(capsys: pytest.CaptureFixture[str], *arguments: str, text: str = PULLOVER) -> tuple[int, str, str, MemoryWorld]:
    door = world(text)
    code = main(("swatches", SPEC, *arguments), door)
    out, err = capsys.readouterr()
    return code, out, err, door


def test_text_on_standard_output(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err, _ = run(capsys, "--size", "S", "--size", "M")
    assert (code, err) == (0, "")
    assert "Millrace: swatches compared" in out and "Sizes S (M)" in out
    head = next(line for line in out.splitlines() if "easy" in line and "firm" in line and "broad" in line)
    assert set(head.split()) == {"easy", "firm", "broad"}
    assert "3XL" not in out


@pytest.mark.parametrize(
    ("arguments", "path", "start"),
    [
        (("--out", "s.html"), "s.html", b"<!doctype html>"),
        (("--out", "s.json"), "s.json", b"{"),
        (("--out", "s.txt"), "s.txt", b"Millrace"),
        (("--out", "s", "--to", "json"), "s", b"{"),
    ],
)
def test_a_file_by_its_ending(
    capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...], path: str, start: bytes
) -> None:
    code, out, err, door = run(capsys, "--size", "M", *arguments)
    assert (code, out, err) == (0, "", f"wrote {path}\n")
    assert door.files[path].lower().startswith(start.lower())


@pytest.mark.parametrize("arguments", [("--out", "s.pdf"), ("--out", "s.html", "--to", "text"), ("--to", "pdf")])
def test_formats_that_do_not_agree(capsys: pytest.CaptureFixture[str], arguments: tuple[str, ...]) -> None:
    code, out, err, door = run(capsys, *arguments)
    assert (code, out) == (2, "") and "Error" in err
    assert not [name for name in door.files if not name.endswith((".wale", ".csv"))]


def test_an_unknown_size_and_a_broken_spec_are_refused(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, err, _ = run(capsys, "--size", "XM")
    assert (code, out) == (1, "") and "E305" in err and "nothing was compared" in err
    code, out, err, _ = run(capsys, text=PULLOVER.replace("on easy", "on eazy"))
    assert (code, out) == (1, "") and "E212" in err
    code, out, err, _ = run(capsys, text="wale 1\n")
    assert (code, out) == (1, "") and "E206" in err
    assert main(("swatches", "none.wale"), world(PULLOVER)) == 1


def test_a_garment_that_the_file_s_own_swatch_refuses_is_compared_all_the_same(
    capsys: pytest.CaptureFixture[str],
) -> None:
    text = PULLOVER.replace("on the stitch\n", "on the stitch, whole repeats at bust, tolerance 0.3 cm\n")
    code, out, _, _ = run(capsys, text=text)
    assert code == 0
    assert "easy (as in the file): cannot be planned (size" in out
    assert "CANNOT BE PLANNED: firm:" in out and "Ways out: centred, part" in out.replace("\n", " ")


def test_every_field_of_the_json_is_on_the_page(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _, _ = run(capsys, "--to", "json")
    told = json.loads(out)
    assert told["format"] == "wale swatches 1" and told["main"] == "easy"
    assert [one["swatch"] for one in told["garments"]] == ["easy", "firm", "broad"]
    assert all([size["size"] for size in one["sizes"]] == told["sizes"] for one in told["garments"])
    words = set(re.findall(r"[a-z_0-9]+", PAGE))
    for key in keys(told):
        assert key in words, key


def keys(value: object) -> set[str]:
    if isinstance(value, dict):
        return set(value) | {key for each in value.values() for key in keys(each)}
    if isinstance(value, list):
        return {key for each in value for key in keys(each)}
    return set()


def test_each_table_of_the_page_is_sound(capsys: pytest.CaptureFixture[str]) -> None:
    """Every row of every table has a heading and a cell for each swatch."""
    _, out, _, _ = run(capsys, "--to", "html")
    tables = re.findall(r"<table.*?</table>", out, re.S)
    assert len(tables) >= 10
    for table in tables:
        rows = re.findall(r"<tr.*?</tr>", table, re.S)
        wide = {len(re.findall(r"<t[hd][ >]", row)) for row in rows}
        assert len(wide) == 1 and wide.pop() >= 4


def test_the_page_shows_each_motif_swatch_at_one_scale(capsys: pytest.CaptureFixture[str]) -> None:
    """In colour and in grey; a patch has two repeats, so patches are as wide as their repeats, in stitches by gauge.

    By hand: 24 sts of 13.6 / 40, 12.8 / 40 and 13.8 / 40 cm are 8.16, 7.68 and 8.28 cm, 32 sts of 14.2 / 40 are 11.36.
    """
    _, out, _, _ = run(capsys, "--to", "html", "--size", "M")
    told = re.findall(r"<figcaption>(.+?): a repeat is", out)
    names = ["grist on easy", "grist on easy-round", "grist on firm", "sheaf on broad"]
    assert sorted(told) == sorted([*names, *(f"{name}, in grey" for name in names)])
    figures = re.findall(r"<svg.+?</svg>", out, re.S)
    wide = {}
    for figure in figures:
        (name,) = re.findall(r"Patch of (\w+ on [\w-]+) in", figure)[:1]
        (clip,) = re.findall(r'<(?:path|polygon) (?:d|points)="([^"]+)"', figure)[:1]
        xs = [float(x) for x in re.findall(r"(-?[0-9.]+)[ ,]-?[0-9.]+", clip)]
        wide.setdefault(name, max(xs) - min(xs))
    by_hand = {"grist on easy": 8.16, "grist on easy-round": 8.28, "grist on firm": 7.68, "sheaf on broad": 11.36}
    scale = wide["grist on easy"] / 8.16
    assert wide == {name: pytest.approx(cm * scale, rel=0.005) for name, cm in by_hand.items()}
    assert "Patch of" not in run(capsys, "--size", "M")[1]


def test_the_same_spec_gives_the_same_bytes(capsys: pytest.CaptureFixture[str]) -> None:
    for form in ("text", "html", "json"):
        assert run(capsys, "--to", form, "--size", "M")[1] == run(capsys, "--to", form, "--size", "M")[1]


def test_only_what_is_asked_for_is_tried(capsys: pytest.CaptureFixture[str]) -> None:
    code, out, _, _ = run(capsys, "--size", "M", "--to", "json", "--try", "plain", "--try", "firm")
    told = json.loads(out)
    assert code == 0 and [one["swatch"] for one in told["garments"]] == ["easy", "plain", "firm"]
    assert {"swatch": "broad", "why": "not asked for"} in told["left_out"]
    code, out, err, _ = run(capsys, "--try", "frim")
    assert (code, out) == (1, "") and "E212" in err and "Perhaps firm?" in err


def test_inches_where_the_pattern_is_in_inches(capsys: pytest.CaptureFixture[str]) -> None:
    _, out, _, _ = run(capsys, "--size", "M", text=PULLOVER.replace("units cm", "units inch"))
    # M in `easy`: 161 sts, 159 of them wide, so 2 * 159 * 13.6 / 40 = 108.12 cm = 42.57 inches round.
    assert "Round the bust in inches" in out and "42.6" in out
    # 40 sts in 13.6 cm and 40 rows in 12.2 cm are 40 * 10.16 / 13.6 = 29.88 sts and 33.31 rows in 4 inches.
    assert "sts and rows in 4 inches, washed: easy 29.9 × 33.3" in " ".join(out.split()) and "in 10 cm" not in out
