"""Wrong calls, failures of the compiler, and a world that goes away: a few words and an exit code, no traceback."""

import os
import signal
import subprocess
import sys
import textwrap

import pytest


@pytest.mark.parametrize(
    "arguments, hint",
    [
        (("weave",), "weave"),
        (("compile",), "SPEC"),
        (("compile", "good.wale", "--to", "docx"), "docx"),
        (("compile", "good.wale", "--out", "page.docx"), ".html"),
        (("compile", "good.wale", "--out", "page"), "--to"),
        (("compile", "good.wale", "--out", "page.pdf", "--to", "html"), "agree"),
        (("compile", "good.wale", "--sizes", "M"), "--size"),
        (("check",), "SPEC"),
        (("new", "frock"), "pullover"),
        (("problem", "E000"), "E000"),
    ],
)
def test_a_wrong_call_is_told_and_returns_2(run, world, asked, arguments, hint):
    before = dict(world.files)
    code, out, err = run(*arguments)
    assert (code, out) == (2, "") and hint in err
    assert asked == [] and world.files == before


def test_a_failure_of_the_compiler_is_owned_up_to(run, world):
    before = dict(world.files)
    code, out, err = run("compile", "broken.wale")
    assert (code, out, world.files) == (2, "", before)
    assert "ZeroDivisionError" in err and "conftest.py:" in err and "report" in err and "Traceback" not in err


def test_wale_trace_lets_it_through(run, world):
    world.variables = {"WALE_TRACE": "1"}
    with pytest.raises(ZeroDivisionError):
        run("compile", "broken.wale")


def test_ctrl_c(run, world, monkeypatch):
    def interrupt(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr(type(world), "write", interrupt)
    code, out, err = run("compile", "good.wale")
    assert (code, out) == (130, "") and "interrupted" in err


HEAVY = ("PIL", "coloraide", "jinja2", "pint", "rich", "weasyprint")


def python(code, **options):
    """Run Python code in a process of its own."""
    program = textwrap.dedent(code)
    return subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, timeout=60, **options)


@pytest.mark.parametrize("arguments", [["--version"], ["--help"], ["new"]])
def test_a_cold_start_imports_nothing_heavy(arguments):
    done = python(f"""
        import sys
        from wale.cli import main
        code = main({arguments!r})
        print(code, [name for name in {(*HEAVY, "lark")!r} if name in sys.modules])
    """)
    assert done.stdout.splitlines()[-1] == "0 []", done.stderr


def test_a_reader_that_goes_away():
    # `head -0` closes the pipe at once; 64 kB do not fit in the pipe's buffer.
    done = python("""
        import subprocess, sys
        code = "import sys; from wale.commands import report; from wale import cli; from wale.commands.new import new; "
        code += "new.callback = lambda *_, **__: report.emit(b'x' * 1_000_000); sys.exit(cli.main(['new']))"
        writer = subprocess.Popen([sys.executable, "-c", code], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        writer.stdout.close()
        print(writer.wait(), writer.stderr.read())
    """)
    assert done.stdout == "141 b''\n", done.stderr


@pytest.mark.skipif(not os.path.exists("/dev/full"), reason="a device that is always full is Linux's")
def test_a_full_disk_behind_stdout():
    with open("/dev/full", "wb") as full:
        done = subprocess.run(
            [sys.executable, "-m", "wale", "problem"], stdout=full, stderr=subprocess.PIPE, text=True, timeout=60
        )
    assert done.returncode == 2 and "E910" in done.stderr and "disk is full" in done.stderr
    assert "Traceback" not in done.stderr and "Exception" not in done.stderr


def test_ctrl_c_in_a_process(tmp_path):
    code = "import sys, time; from wale import cli; from wale.commands.new import new; new.callback = "
    code += "lambda *_, **__: (print('ready', file=sys.stderr, flush=True), time.sleep(60)); "
    code += "sys.exit(cli.main(['new']))"
    work = subprocess.Popen([sys.executable, "-c", code], cwd=tmp_path, stderr=subprocess.PIPE, text=True)
    assert work.stderr.readline() == "ready\n"
    work.send_signal(signal.SIGINT)
    assert work.wait(60) == 130 and "Traceback" not in work.stderr.read()


def test_a_character_that_the_terminal_lacks():
    done = python(
        "from wale.cli import main; from wale.commands.report import notice; main(['--version']); notice('a \u2013 b')",
        env={**os.environ, "PYTHONIOENCODING": "latin-1"},
    )
    assert done.returncode == 0 and done.stderr == "a ? b\n"


def test_streams_that_are_closed_from_the_start():
    for closed in ("1", "2"):
        command = f'"$0" -m wale problem E904 {closed}>&-; echo "$?"'
        done = subprocess.run(
            ["sh", "-c", command, sys.executable], capture_output=True, text=True, timeout=60, check=True
        )
        assert done.stdout.splitlines()[-1] == "0" and "Traceback" not in done.stderr
