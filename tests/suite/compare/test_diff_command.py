"""`wale diff` on the command line: what it names, what it leaves out, and its exit codes."""

import json
import re
import subprocess
import sys

import jsonpatch
import pytest
from support import EXAMPLES, MILL_YARNS, PLAIN

from wale.cli import main
from wale.files import DiskWorld, MemoryWorld, Terminal

PULLOVER = (EXAMPLES / "millrace-pullover.wale").read_text("utf-8")
TUBE = f"""wale 1

pattern "Tube"
    units cm

{PLAIN}
sizes small large
    measure bust 80 (100) cm
    ease    bust 0 cm

piece back, worked flat
    cast on bust/2 in plain
    work    10 cm
    bind off
"""
"""At 20 sts and 28 rows in 10 cm: 40 (50) cm are 80 (100) sts, 10 cm are 28 rows."""


@pytest.fixture
def diff(capfd):
    """Run `wale diff` on two texts or files; give exit code, standard output and standard error."""

    def run(old, new, *options, world=None, **others):
        files = {"old.wale": old, "new.wale": new, "mill-yarns.wale": MILL_YARNS, **others}
        code = main(["diff", "old.wale", "new.wale", *options], world or MemoryWorld(files))
        return code, *capfd.readouterr()

    return run


def test_a_version_and_itself_are_the_same(diff, capfd):
    assert diff(PULLOVER, PULLOVER) == (0, "The knitting is unchanged.\n", "")
    assert main(["diff", "a.wale", "a.wale", "--to", "json"], MemoryWorld({"a.wale": TUBE})) == 0
    found = json.loads(capfd.readouterr().out)
    assert found["is_same"] and found["is_knit_alike"]
    assert found["numbers"] == found["patch"] == found["wordings"] == found["motifs"] == []


def test_comments_layout_and_other_words_for_the_same_change_nothing(diff):
    other = "-- for the mill\n" + PULLOVER.replace(
        "    shape     to bust/2 over 12 cm", "    shape to bust / 2   over 12 cm -- wide"
    )
    other = other.replace("-- for the mill\nwale 1\n", "wale 1\n-- for the mill\n")
    other = other.replace("let slope         = 3 cm", "let slope = 1 cm + 2 cm")
    assert other != PULLOVER
    assert diff(PULLOVER, other) == (0, "The knitting is unchanged.\n", "")


def test_the_order_of_swatches_plays_no_part(diff):
    _, first, second = MILL_YARNS.partition("swatch facing, worked flat")[0].rpartition("swatch plain, worked flat")
    turned = MILL_YARNS.replace(first + second, "") + "\n" + first + second
    assert turned != MILL_YARNS
    old = PULLOVER.replace("mill-yarns", "older")
    assert diff(old, PULLOVER, **{"older.wale": MILL_YARNS, "mill-yarns.wale": turned})[0] == 0


def counts(text):
    """Give each count of a plan's JSON text by address, kind and size, read without Wale."""
    plan = json.loads(text)
    sizes = [size["name"] for size in plan["sizes"]]
    found = {}

    def add(address, kind, values):
        found.update({(address, kind, size): value for size, value in zip(sizes, values, strict=True)})

    for piece in plan["pieces"]:
        for level in piece["levels"]:
            add(level["address"], "sts", level["stitches"])
        for section in piece["sections"]:
            add(section["address"], "rows", section["rows"])
        if piece["top"]:
            add(f"{piece['name']}.neck", "sts", piece["top"]["neck_stitches"])
            add(f"{piece['name']}.neck", "rows", piece["top"]["neck_rows"])
            add(f"{piece['name']}.neck", "centre", piece["top"]["neck_centre"])
            add(f"{piece['name']}.shoulder", "sts", piece["top"]["shoulder_stitches"])
            add(f"{piece['name']}.shoulder", "rows", piece["top"]["slope_rows"])
        for mark in piece["marks"]:
            add(f"{piece['name']}.{mark['name']}", "rows below", mark["rows"])
    for band in plan["bands"]:
        add(band["name"], "sts", band["stitches"])
        add(band["name"], "rows", band["rows"])
        for picked in band["picked"]:
            add(f"{band['name']} from {picked['edge']}", "picked", picked["stitches"])
    return found


def test_less_ease_names_each_count_that_changes_in_each_size_and_no_other(diff, capfd):
    closer = PULLOVER.replace("ease bust 14 cm", "ease bust 12 cm")
    texts = []
    for name, text in (("old.wale", PULLOVER), ("new.wale", closer)):
        place = MemoryWorld({name: text, "mill-yarns.wale": MILL_YARNS})
        assert main(["compile", name, "--to", "json", "--out", "-"], place) == 0
        texts.append(capfd.readouterr().out)
    old, new = (counts(text) for text in texts)
    expected = {(*key, str(old[key]), str(new[key])) for key in old if old[key] != new[key]}
    # by hand: a bust of 92 - 2 + 14 = 104 cm, halved, at 50 sts in 17 cm, is 2.9 sts narrower with 2 cm less
    assert {key[2] for key in expected if key[0] == "back.bust"} == {"XS", "S", "M", "L", "XL", "2XL", "3XL"}

    code, out, _ = diff(PULLOVER, closer, "--to", "json")
    data = json.loads(out)
    told = {
        (one["address"], one["kind"], size, before, after)
        for one in data["numbers"]
        if one["kind"] in ("sts", "rows", "rows below", "centre", "picked")
        for size, before, after in zip(data["sizes"], one["before"], one["after"], strict=True)
        if before != after
    }
    assert code == 1 and told == expected
    assert jsonpatch.apply_patch(json.loads(texts[0]), data["patch"]) == json.loads(texts[1])

    code, text, _ = diff(PULLOVER, closer)
    back = text.partition("back and front\n")[2].partition("\n\n")[0]
    before, after = ([old_or_new["back.bust", "sts", size] for size in data["sizes"]] for old_or_new in (old, new))
    listed = [f"{first} ({', '.join(map(str, more))})" for first, *more in (before, after)]
    assert f"  bust: {listed[0]} → {listed[1]} stitches\n" in back
    places = {re.match(r"  ([\w ,-]+): .*(?:stitches|rows)$", line) for line in back.splitlines()} - {None}
    assert {found[1] for found in places} == {
        key[0].removeprefix("back.") for key in expected if key[0].startswith("back.")
    }


def test_what_changes_alike_in_each_size_is_folded(diff):
    # 10 cm are 28 rows, 20 cm 56; 4 cm more round are 2 cm, so 4 sts more in both sizes
    code, out, _ = diff(TUBE, TUBE.replace("work    10 cm", "work    20 cm").replace("bust 0 cm", "bust 4 cm"))
    assert code == 1
    assert "  bust: 4 stitches more in each size: 80 (100) → 84 (104) stitches\n" in out
    assert "  work 1: 28 rows more in each size: 28 → 56 rows\n" in out
    assert "The knitting is unchanged" not in out


def test_what_changes_in_some_sizes_names_those(diff):
    code, out, _ = diff(TUBE, TUBE.replace("80 (100) cm", "80 (102) cm"))
    # 51 cm are 102 sts
    assert code == 1 and "  bust: large 100 → 102 stitches\n" in out


def test_one_size_alone(diff):
    wider = TUBE.replace("80 (100) cm", "80 (102) cm")
    assert diff(TUBE, wider, "--size", "small")[0] == 0
    assert diff(TUBE, wider, "--size", "large")[0] == 1
    code, out, err = diff(TUBE, wider, "--size", "huge")
    assert (code, out) == (2, "") and "E305" in err and "small, large" in err


def test_sizes_and_pieces_come_and_go(diff):
    other = TUBE.replace("small large", "small").replace("80 (100) cm", "80 cm")
    other += "\npiece strap, worked flat\n    cast on 5 cm in plain\n    work    3 cm\n    bind off\n"
    code, out, _ = diff(TUBE, other)
    assert code == 1
    assert "Sizes gone: large.\n" in out and "New pieces: strap.\n" in out
    assert "strap" not in out.partition("New pieces")[2].partition("\n")[2].partition("yarn")[0]


def test_a_piece_under_another_name_is_compared_under_it(diff):
    other = TUBE.replace("piece back", "piece panel").replace("work    10 cm", "work    20 cm")
    code, out, _ = diff(TUBE, other)
    assert code == 1
    assert "Renamed: back, now panel.\n" in out
    assert "\npanel\n  work 1: 28 rows more in each size: 28 → 56 rows\n" in out


def test_cells_of_a_motif_are_told_by_row_and_column(diff):
    row = "    | x - - - - - x - - - - - |\n"
    other = MILL_YARNS.replace(row, "    | x - - - - - - - - - - - |\n", 1)
    assert other != MILL_YARNS
    old = PULLOVER.replace("mill-yarns", "older")
    code, out, _ = diff(old, PULLOVER, **{"older.wale": MILL_YARNS, "mill-yarns.wale": other})
    # the first row that is typed is the top one, and five cells stand to the right of the changed one
    height = MILL_YARNS.partition("motif grist")[2].partition("\n\n")[0].count("    | ")
    assert code == 1
    told = "1 cell differs; rows count from the bottom, columns from the right"
    assert f"motif grist\n  {told}\n  row {height}: column 6 flour → rye\n" in out


def test_rounds_of_a_crown_are_told_in_runs(diff):
    hat = (EXAMPLES / "sluice-hat.wale").read_text("utf-8")
    code, out, _ = diff(hat, hat.replace("over 9 cm", "over 8 cm"), "--size", "small")
    # 144 sts in 6 wedges lose 6 a round; 138 after the first and 6 at the end are 22 rounds more
    (line,) = (line for line in out.splitlines() if line.startswith("    small: round 1 to 138 sts"))
    assert code == 1
    for side in line.removeprefix("    small: ").split(" → "):
        runs = re.findall(r"every (?:(\d+) rounds|round) (once|twice|(\d+) times) to (\d+) sts", side)
        times = [{"once": 1, "twice": 2}.get(often, int(number or 0)) for _, often, number, _ in runs]
        assert sum(times) == 22 and runs[-1][-1] == "6"
        assert [138 - 6 * sum(times[: at + 1]) for at in range(len(times))] == [int(run[-1]) for run in runs]


def test_words_alone_leave_the_knitting_unchanged_but_differ(diff):
    code, out, _ = diff(TUBE, TUBE.replace('"Tube"', '"Pipe"'))
    assert (code, out) == (1, "The knitting is unchanged.\n\nthe pattern says\n  title Tube → Pipe\n")


def test_cautions_gained_and_lost(diff):
    short = PULLOVER.replace("units cm", "units cm\n    floats 1 cm")  # shorter than the motif has them
    code, out, _ = diff(PULLOVER, short)
    assert code == 1 and "cautions and notes gained\n" in out and "cautions and notes lost" not in out
    code, out, _ = diff(short, PULLOVER)
    assert code == 1 and "cautions and notes lost\n" in out and "cautions and notes gained" not in out


def test_trouble_is_two_with_nothing_on_standard_output(diff):
    code, out, err = diff(TUBE, TUBE.replace("in plain", "in plainer"))
    assert (code, out) == (2, "") and "E212" in err and "nothing was compared" in err
    code = main(["diff", "gone.wale", "new.wale"], MemoryWorld({"new.wale": TUBE}))
    assert code == 2


@pytest.mark.parametrize(
    "plan",
    ["{", "{}", "[]", '{"sizes": 3}', "[" * 100_000],
)
def test_what_is_no_plan_is_refused(diff, capfd, plan):
    code = main(["diff", "a.json", "new.wale"], MemoryWorld({"a.json": plan, "new.wale": TUBE}))
    out, err = capfd.readouterr()
    assert (code, out) == (2, "") and "E947" in err


def test_plans_are_sides_like_specs(capfd, tmp_path):
    (tmp_path / "mill-yarns.wale").write_text(MILL_YARNS, "utf-8")
    paths = []
    for name, text in (("old", TUBE), ("new", TUBE.replace("work    10 cm", "work    20 cm"))):
        (tmp_path / f"{name}.wale").write_text(text, "utf-8")
        paths.append(str(tmp_path / f"{name}.json"))
        assert main(["compile", str(tmp_path / f"{name}.wale"), "--to", "json", "--out", paths[-1]], DiskWorld()) == 0
    capfd.readouterr()
    outs = []
    for old in (paths[0], str(tmp_path / "old.wale")):
        assert main(["diff", old, paths[1]], DiskWorld()) == 1
        outs.append(capfd.readouterr().out)
    assert outs[0] == outs[1]
    out = tmp_path / "diff.json"
    assert main(["diff", *paths, "--out", str(out)], DiskWorld()) == 1
    plans = [json.loads((tmp_path / f"{name}.json").read_text("utf-8")) for name in ("old", "new")]
    assert jsonpatch.apply_patch(plans[0], json.loads(out.read_text("utf-8"))["patch"]) == plans[1]
    broken = dict(plans[0], sizes=plans[0]["sizes"][:1])
    (tmp_path / "broken.json").write_text(json.dumps(broken), "utf-8")
    assert main(["diff", str(tmp_path / "broken.json"), paths[1]], DiskWorld()) == 2
    assert "do not fit its sizes" in " ".join(capfd.readouterr().err.split())


def test_a_published_pdf_is_a_side(capfd, tmp_path):
    (tmp_path / "a.wale").write_text(TUBE, "utf-8")
    pdf = str(tmp_path / "a.pdf")
    assert main(["compile", str(tmp_path / "a.wale"), "--out", pdf, "--size", "large"], DiskWorld()) == 0
    (tmp_path / "b.wale").write_text(TUBE.replace("work    10 cm", "work    20 cm"), "utf-8")
    capfd.readouterr()
    assert main(["diff", pdf, str(tmp_path / "a.wale"), "--size", "large"], DiskWorld()) == 0
    assert main(["diff", pdf, str(tmp_path / "b.wale")], DiskWorld()) == 1
    out = capfd.readouterr().out
    assert "New sizes: small.\n" in out and "work 1: 28 → 56 rows\n" in out


@pytest.mark.parametrize(("data", "code"), [(b"%PDF-1.7 grist", "E941"), (b"\xff\xfe", "E904"), (b"{\xff", "E947")])
def test_what_cannot_be_read_is_refused(diff, capfd, data, code):
    assert main(["diff", "a", "new.wale"], MemoryWorld({"a": data, "new.wale": TUBE})) == 2
    out, err = capfd.readouterr()
    assert out == "" and code in err


def test_a_plan_cannot_steer_the_terminal(diff, capfd, tmp_path):
    (tmp_path / "a.wale").write_text(TUBE, "utf-8")
    assert main(["compile", str(tmp_path / "a.wale"), "--to", "json"], DiskWorld()) == 0
    plan = json.loads((tmp_path / "a.json").read_text("utf-8"))
    plan["title"] = plan["pieces"][0]["name"] = "\x1b[2Jback"
    capfd.readouterr()
    assert main(["diff", "a.json", "new.wale"], MemoryWorld({"a.json": json.dumps(plan), "new.wale": TUBE})) == 1
    assert "\x1b" not in capfd.readouterr().out


def test_colour_is_for_terminals(diff):
    changed = TUBE.replace("work    10 cm", "work    20 cm")
    place = MemoryWorld({"old.wale": TUBE, "new.wale": changed}, terminals={"stdout": Terminal(colour=True)})
    _, coloured, _ = diff("", "", world=place)
    _, plain, _ = diff(TUBE, changed)
    assert "\x1b[" in coloured and "\x1b[" not in plain
    assert re.sub(r"\x1b\[[0-9;]*m", "", coloured) == plain


def test_two_pullovers_need_no_typesetter():
    code = (
        "import sys; from wale.cli import main; from wale.files import MemoryWorld\n"
        f"from pathlib import Path; here = Path({str(EXAMPLES)!r})\n"
        "files = {one.name: one.read_text('utf-8') for one in here.glob('*.wale')}\n"
        "name = 'millrace-pullover.wale'; main(['diff', name, name], MemoryWorld(files))\n"
        "print(sorted({'weasyprint', 'jinja2', 'PIL', 'pypdf', 'jsonpatch', 'jsonschema'} & set(sys.modules)))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True)
    assert done.stdout.splitlines()[-1] == "[]", done.stderr
