"""The specs to start from, through the real pipeline."""

import subprocess
import sys
from pathlib import Path

import pytest

from wale.cli import main
from wale.files import MemoryWorld
from wale.starters import KINDS, starter

EXAMPLES = Path(__file__).parents[3] / "examples"

FOUND = {"baby-set": "1 caution"}
"""Rules hold for clothing for babies: that is always said, and is no fault of the spec."""


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_compiles_without_a_complaint(kind, capsys):
    world = MemoryWorld()
    assert main(["new", kind], world) == 0
    assert main(["check", f"{kind}.wale"], world) == 0
    out, err = capsys.readouterr()
    assert out == f"{kind}.wale: {FOUND.get(kind, 'no problems')}\n", err
    assert main(["compile", f"{kind}.wale", "--to", "text"], world) == 0
    assert b"cast on" in world.files[f"{kind}.txt"].lower()


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_explains_itself(kind):
    lines = starter(kind).splitlines()
    assert lines[0] == "wale 1" and f"wale compile {kind}.wale" in starter(kind)
    assert sum("--" in line for line in lines) >= 8 and max(map(len, lines)) <= 120


def test_every_starter_is_listed_and_told():
    files = {path.stem for path in (EXAMPLES.parent / "compiler" / "wale" / "starters").glob("*.wale")}
    pages = [(EXAMPLES.parent / "docs" / name).read_text("utf-8") for name in ("commands.md", "constructions.md")]
    assert set(KINDS) == files
    assert [kind for kind in KINDS for page in pages if f"`{kind}`" not in page and kind != "construction"] == []


def test_check_imports_nothing_heavy():
    code = "import sys; from wale.cli import main; code = main(['check', 'sluice-hat.wale']); "
    code += "print(code, [m for m in ('PIL', 'jinja2', 'pint', 'rich', 'weasyprint') if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], cwd=EXAMPLES, capture_output=True, text=True, timeout=60)
    assert done.stdout.splitlines()[-1] == "0 []", done.stderr
