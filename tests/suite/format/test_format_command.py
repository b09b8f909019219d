"""`wale format` as it is called: files, standard input, exit codes, and what is never written."""

import subprocess
import sys

import pytest
from msgspec.structs import replace
from support import world

from wale.cli import main
from wale.files import MemoryWorld, Terminal
from wale.format import printer
from wale.parse.parser import EDITIONS
from wale.parse.upgrade import UPGRADES
from wale.resolve import resolve

TYPED = "wale 1\njoin\n  seam   sides\n"
LAID = "wale 1\n\njoin\n    seam sides\n"


def run(files, *arguments):
    """Give the exit code of a call and the files after it, as text."""
    files = MemoryWorld(dict(files)) if isinstance(files, dict) else files
    code = main(["format", *arguments], files)
    return code, {
        path: data.decode(errors="replace") if isinstance(data, bytes) else data for path, data in files.files.items()
    }


def test_files_are_laid_out_in_their_place(capsys):
    code, files = run({"a.wale": TYPED, "b.wale": LAID}, "a.wale", "b.wale")
    assert (code, files) == (0, {"a.wale": LAID, "b.wale": LAID})
    assert capsys.readouterr() == ("", "formatted a.wale\n")


def test_standard_input_goes_to_standard_output(capsysbinary):
    code, _ = run({"-": TYPED.replace("\n", "\r\n")}, "-")
    assert code == 0
    assert capsysbinary.readouterr() == (LAID.encode(), b"")


def test_check_names_what_would_change_and_writes_nothing(capsys):
    code, files = run({"a.wale": TYPED, "b.wale": LAID}, "a.wale", "b.wale", "--check")
    assert (code, files["a.wale"]) == (1, TYPED)
    assert capsys.readouterr() == ("a.wale\n", "")
    assert run({"b.wale": LAID}, "b.wale", "--check")[0] == 0


@pytest.mark.parametrize(
    "typed", [b"\xef\xbb\xbf" + LAID.encode(), LAID.replace("\n", "\r\n").encode(), LAID[:-1].encode()]
)
def test_check_sees_marks_and_line_ends(typed):
    assert run({"a.wale": typed}, "a.wale", "--check")[0] == 1
    assert run({"a.wale": typed}, "a.wale") == (0, {"a.wale": LAID})


def test_diff_shows_what_would_change_and_writes_nothing(capsys):
    code, files = run({"a.wale": TYPED.rstrip("\n")}, "a.wale", "--diff")
    assert (code, files["a.wale"]) == (1, TYPED.rstrip("\n"))
    assert capsys.readouterr().out == (
        "--- a.wale\tas it is\n+++ a.wale\tformatted\n@@ -1,3 +1,4 @@\n wale 1\n+\n join\n-  seam   sides\n"
        "\\ No newline at end of file\n+    seam sides\n"
    )
    assert run({"b.wale": LAID}, "b.wale", "--diff", "--check")[0] == 0
    assert capsys.readouterr().out == ""


def test_a_file_that_is_named_twice_is_laid_out_once(capsys):
    assert run({"a.wale": TYPED}, "a.wale", "a.wale") == (0, {"a.wale": LAID})
    assert capsys.readouterr().err == "formatted a.wale\n"


@pytest.mark.parametrize("option", ["--diff", "--check"])
def test_a_name_that_is_no_text_is_printed_with_a_question_mark(option, capsys):
    assert run({"a\udcff.wale": TYPED}, "a\udcff.wale", option)[0] == 1
    assert "a?.wale" in capsys.readouterr().out


def test_diff_has_colours_on_a_terminal(capsys):
    seen = MemoryWorld({"a.wale": TYPED}, terminals={"stdout": Terminal(is_terminal=True, colour=True)})
    assert main(["format", "a.wale", "--diff"], seen) == 1
    assert "\x1b[32m+    seam sides\n\x1b[0m" in capsys.readouterr().out


def test_patch_takes_the_diff(tmp_path):
    old, new = tmp_path / "a.wale", tmp_path / "new"
    old.write_text(TYPED, "utf-8")
    wale = [sys.executable, "-m", "wale", "format", "a.wale", "--diff"]
    shown = subprocess.run(wale, cwd=tmp_path, capture_output=True, check=False)
    done = subprocess.run(["patch", "-o", str(new)], cwd=tmp_path, input=shown.stdout, capture_output=True, check=False)
    assert done.returncode == 0, done.stderr
    assert new.read_text("utf-8") == LAID


def test_broken_blocks_are_named(capsys):
    broken = "piece a, worked flat\n  work   2 (\n\n"
    code, files = run({"a.wale": f"wale 1\n\n{broken}{TYPED.partition(chr(10))[2]}"}, "a.wale")
    assert (code, files["a.wale"]) == (0, f"wale 1\n\n{broken}{LAID.partition(chr(10))[2][1:]}")
    assert capsys.readouterr().err == (
        "a.wale: lines 3 to 4 are left as typed; wale check says why\nformatted a.wale\n"
    )


@pytest.mark.parametrize(
    ("files", "arguments", "code", "words"),
    [
        ({}, ["a.wale"], 1, "E901"),
        ({"a.wale": b"\xff"}, ["a.wale"], 1, "E904"),
        ({"a.wale": "wale 2\n"}, ["a.wale"], 1, "E102"),
        ({"a.wale": "wale 2\n"}, ["a.wale", "--upgrade"], 1, "of edition 2, and this compiler reads edition 1"),
        ({"a.txt": TYPED}, ["a.txt"], 2, "does not end in .wale"),
        ({"a.wale": TYPED, "-": TYPED}, ["a.wale", "-"], 2, "stands alone"),
        ({}, [], 2, "Missing argument"),
    ],
)
def test_what_is_refused(files, arguments, code, words, capsys):
    seen, after = run(files, *arguments)
    assert seen == code
    assert after == {path: "\ufffd" if data == b"\xff" else data for path, data in files.items()}
    assert words in capsys.readouterr().err


def test_one_refused_file_keeps_no_other_from_being_laid_out():
    code, files = run({"a.wale": "wale 2\n", "b.wale": TYPED}, "a.wale", "b.wale")
    assert (code, files) == (1, {"a.wale": "wale 2\n", "b.wale": LAID})


LOSSES = {
    "a comment": lambda text: text.replace("-- why\n", "\n"),
    "a line": lambda text: text.replace("    work 8 rows\n", ""),
    "a word": lambda text: text.replace("cloth", "cloths"),
    "a text": lambda text: text.replace("A  cloth", "A cloth"),
    "a fraction": lambda text: text.replace("2 / 8", "2/8"),
    "a second layout": lambda text: text.replace("    work 8 rows", "     work 8 rows"),
    "an order": lambda text: text.replace("-- one", "-- two", 1).replace("-- two", "-- one", 2),
}


@pytest.mark.parametrize("loss", LOSSES.values(), ids=LOSSES)
def test_a_broken_promise_is_a_failure_and_nothing_is_written(loss, monkeypatch, capsys):
    text = (
        'wale 1\n-- one\npattern "A  cloth"\nlet a = 2 / 8\n-- two\npiece cloth, worked flat\n'
        "  cast on hip in plain -- why\n  work 8 rows\n"
    )
    printed = printer.printed

    def losing(*arguments):
        found, kept = printed(*arguments)
        assert loss(found) != found
        return loss(found), kept

    monkeypatch.setattr("wale.format.laid.printed", losing)
    code, files = run({"a.wale": text, "b.wale": TYPED}, "b.wale", "a.wale")
    assert (code, files) == (2, {"a.wale": text, "b.wale": TYPED})
    assert "the compiler failed" in capsys.readouterr().err


USING = (
    'wale 1\npattern "A"\n  use "mill-yarns.wale"\nsizes S\n  measure hip 90 cm\n'
    "piece a, worked flat\n  cast on 40 cm in plain\n  work   8 rows\n  bind off\n"
)


@pytest.mark.parametrize(("title", "code"), [("A", 0), ("B", 2)])
def test_the_specs_are_held_against_each_other(title, code, monkeypatch):
    specs = []

    def resolving(tree, load):
        spec, problems = resolve(tree, load)
        assert spec is not None
        specs.append(replace(spec, title=title) if specs else spec)
        return specs[-1], problems

    monkeypatch.setattr("wale.format.promise.resolve", resolving)
    files = world(USING)
    assert main(["format", "a.wale"], files) == code
    assert len(specs) == 2
    assert (files.files["a.wale"] == USING) == (code == 2)


UPGRADED = {0: ("-- mine\njoin\n  seam  sides\n", "wale 1\n\n-- mine\njoin\n    seam sides\n")}
"""By edition: a file before and after."""


def test_every_older_edition_has_an_upgrade_and_a_case():
    assert list(UPGRADES) == list(UPGRADED) == list(range(EDITIONS[-1]))


@pytest.mark.parametrize("edition", UPGRADED)
def test_an_older_file_is_upgraded(edition):
    before, after = UPGRADED[edition]
    assert run({"a.wale": before}, "a.wale", "--upgrade") == (0, {"a.wale": after})
    assert run({"a.wale": after}, "a.wale", "--upgrade") == (0, {"a.wale": after})


def test_without_the_word_no_file_is_upgraded():
    before, after = UPGRADED[0]
    assert run({"a.wale": before}, "a.wale") == (0, {"a.wale": after.removeprefix("wale 1\n\n")})


def test_the_real_standard_input(tmp_path):
    wale = [sys.executable, "-m", "wale", "format", "-"]
    done = subprocess.run(wale, cwd=tmp_path, input=TYPED.encode(), capture_output=True, check=False)
    assert (done.returncode, done.stdout, done.stderr) == (0, LAID.encode(), b"")


def test_a_file_keeps_its_permissions_and_leaves_no_part_behind(tmp_path):
    spec = tmp_path / "a.wale"
    spec.write_text(TYPED, "utf-8")
    spec.chmod(0o640)
    assert main(["format", str(spec)]) == 0
    assert (spec.read_text("utf-8"), spec.stat().st_mode & 0o777) == (LAID, 0o640)
    assert [one.name for one in tmp_path.iterdir()] == ["a.wale"]
