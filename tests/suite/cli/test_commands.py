"""What each command writes, says and returns."""

import json
from typing import get_args

import pytest

from wale.commands.compile import compile_spec
from wale.files import Terminal
from wale.problems.codes import CODES
from wale.starters import KINDS
from wale.write.document import Extra


def test_compile_writes_a_pdf_beside_the_spec(run, world, asked):
    code, out, err = run("compile", "good.wale")
    assert (code, out, err) == (0, "", "wrote good.pdf\n")
    assert world.files["good.pdf"] == b"pdf: grist\n" and asked == [("good.wale", ())]


@pytest.mark.parametrize(
    "arguments, path, form",
    [
        (("--to", "html"), "good.html", "html"),
        (("--to", "text"), "good.txt", "text"),
        (("--out", "page.htm"), "page.htm", "html"),
        (("--out", "mill/PAGE.PDF"), "mill/PAGE.PDF", "pdf"),
        (("--out", "plan.json"), "plan.json", "json"),
        (("--out", "notes", "--to", "text"), "notes", "text"),
        (("--out", "page.html", "--to", "html"), "page.html", "html"),
    ],
)
def test_compile_goes_by_format_and_ending(run, world, arguments, path, form):
    assert run("compile", "good.wale", *arguments)[0] == 0
    assert world.files[path] == f"{form}: grist\n".encode()


def test_all_that_is_printed_on_request_can_be_asked_for():
    (option,) = (one for one in compile_spec.params if one.name == "extras")
    assert tuple(option.type.choices) == get_args(Extra)


def test_compile_to_stdout_is_text_unless_asked(run, world):
    before = dict(world.files)
    assert run("compile", "good.wale", "--out", "-") == (0, "text: grist\n", "")
    assert run("compile", "good.wale", "--out", "-", "--to", "json") == (0, "json: grist\n", "")
    assert world.files == before


def test_a_pdf_is_not_poured_over_a_terminal(run, world):
    assert run("compile", "good.wale", "--out", "-", "--to", "pdf")[1] == "pdf: grist\n"
    world.terminals = {"stdout": Terminal(is_terminal=True)}
    code, out, err = run("compile", "good.wale", "--out", "-", "--to", "pdf")
    assert (code, out) == (2, "") and "--out" in err


def test_compile_passes_the_sizes_on_in_order(run, asked):
    assert run("compile", "good.wale", "--size", "M", "--size", "2XL")[0] == 0
    assert asked == [("good.wale", ("M", "2XL"))]


@pytest.mark.parametrize("name", ["good.txt", "good.json", "-"])
def test_large_print_is_for_a_page_or_a_pdf(run, world, name):
    code, out, err = run("compile", "good.wale", "--large-print", "--out", name)
    assert (code, out) == (2, "") and ".pdf or .html" in err
    assert run("compile", "good.wale", "--large-print", "--out", "good.html")[0] == 0


def test_errors_write_nothing(run, world):
    before = dict(world.files)
    code, out, err = run("compile", "bad.wale")
    assert (code, out, world.files) == (1, "", before)
    assert "E906" in err and "the miller is out" in err and "bad.wale:1:1" in err
    assert err.endswith("bad.wale: 1 error; nothing was written\n")


@pytest.mark.parametrize("colour", [True, False])
def test_colour_is_for_terminals_that_take_it(run, world, colour):
    world.terminals = {"stderr": Terminal(is_terminal=True, colour=colour)}
    err = run("check", "bad.wale")[2]
    assert ("\x1b[" in err) is colour


def test_warnings_are_shown_and_do_not_stop_it(run, world):
    code, out, err = run("compile", "careful.wale")
    assert (code, out, world.files["careful.pdf"]) == (0, "", b"pdf: grist\n")
    assert "W999" in err and err.endswith("wrote careful.pdf (1 warning)\n")


@pytest.mark.parametrize("command", ["compile", "check"])
def test_a_missing_spec(run, world, command):
    before = dict(world.files)
    code, _, err = run(command, "nothing.wale")
    assert code == 1 and "E901" in err and "nothing.wale" in err and world.files == before


def test_an_output_over_a_spec_is_the_calls_fault(run, world):
    code, _, err = run("compile", "good.wale", "--out", "bad.wale", "--to", "text")
    assert code == 2 and "E908" in err and world.files["bad.wale"] == "wale 1\n"


def test_check_says_how_each_spec_fares(run, world):
    before = dict(world.files)
    code, out, err = run("check", "good.wale", "careful.wale", "bad.wale")
    assert code == 1
    assert out == "good.wale: no problems\ncareful.wale: 1 warning\nbad.wale: 1 error\n"
    assert "W999" in err and "E906" in err and world.files == before


def test_check_of_warnings_alone_is_fine(run):
    assert run("check", "careful.wale")[0] == 0


def test_check_as_json(run):
    code, out, err = run("check", "good.wale", "bad.wale", "nothing.wale", "--json")
    specs = json.loads(out)["specs"]
    assert code == 1 and err == ""
    assert [(spec["spec"], [problem["code"] for problem in spec["problems"]]) for spec in specs] == [
        ("good.wale", []),
        ("bad.wale", ["E906"]),
        ("nothing.wale", ["E901"]),
    ]
    assert specs[1]["problems"][0]["message"] == "the miller is out"
    assert specs[1]["problems"][0]["labels"][0]["place"]["from"] == {"line": 1, "column": 1, "utf16": 0}


def test_new_lists_the_kinds(run):
    code, out, _ = run("new")
    assert code == 0 and [line.split()[0] for line in out.splitlines()] == list(KINDS)


@pytest.mark.parametrize("kind", KINDS)
def test_new_writes_a_commented_spec_once(run, world, kind):
    assert run("new", kind)[0] == 0
    text = world.files[f"{kind}.wale"]
    assert text.startswith(b"wale 1\n") and b"-- " in text
    world.files[f"{kind}.wale"] = b"mine"
    code, _, err = run("new", kind)
    assert code == 2 and "E912" in err and world.files[f"{kind}.wale"] == b"mine"


def test_new_takes_a_path_that_ends_like_a_spec(run, world):
    assert run("new", "hat", "gifts/warm.wale")[0] == 0
    assert world.files["gifts/warm.wale"].startswith(b"wale 1\n")
    assert run("new", "hat", "gifts/warm.txt")[0] == 2
    assert "gifts/warm.txt" not in world.files


def test_problem_lists_and_explains_codes(run):
    code, out, _ = run("problem")
    assert code == 0 and [line.split()[0] for line in out.splitlines()] == sorted(CODES)
    for spelling in ("E904", "e904"):
        code, out, _ = run("problem", spelling)
        assert code == 0 and out.startswith("# E904") and CODES["E904"].title in out


def test_version_is_the_packages(run):
    from importlib.metadata import version

    assert run("--version") == (0, f"wale {version('wale')}\n", "")


@pytest.mark.parametrize("command", [(), ("compile",), ("check",), ("new",), ("problem",)])
def test_help_has_examples(run, command):
    code, out, _ = run(*command, "--help")
    examples = out.partition("Examples:")[2].strip().splitlines()
    assert code == 0 and len(examples) >= 2
    assert all(line.strip().startswith(" ".join(("wale", *command))) for line in examples)
