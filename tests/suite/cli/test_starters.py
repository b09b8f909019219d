"""The specs to start from, through the real pipeline."""

import subprocess
import sys
from pathlib import Path

import pytest

from wale.cli import main
from wale.files import MemoryWorld
from wale.starters import KINDS, starter

EXAMPLES = Path(__file__).parents[3] / "examples"


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_compiles_without_a_complaint(kind, capsys):
    world = MemoryWorld()
    assert main(["new", kind], world) == 0
    assert main(["check", f"{kind}.wale"], world) == 0
    out, err = capsys.readouterr()
    assert out == f"{kind}.wale: no problems\n", err
    assert main(["compile", f"{kind}.wale", "--to", "text"], world) == 0
    assert b"cast on" in world.files[f"{kind}.txt"].lower()


@pytest.mark.parametrize("kind", KINDS)
def test_a_starter_explains_itself(kind):
    lines = starter(kind).splitlines()
    assert lines[0] == "wale 1" and f"wale compile {kind}.wale" in starter(kind)
    assert sum("--" in line for line in lines) >= 8 and max(map(len, lines)) <= 120


def test_check_imports_nothing_heavy():
    code = "import sys; from wale.cli import main; code = main(['check', 'sluice-hat.wale']); "
    code += "print(code, [m for m in ('PIL', 'jinja2', 'pint', 'rich', 'weasyprint') if m in sys.modules])"
    done = subprocess.run([sys.executable, "-c", code], cwd=EXAMPLES, capture_output=True, text=True, timeout=60)
    assert done.stdout.splitlines()[-1] == "0 []", done.stderr
