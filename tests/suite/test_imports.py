"""Which part of the compiler may import which: the contracts in pyproject.toml."""

import os
import subprocess
import sys
import tomllib
from pathlib import Path

ROOT = Path(__file__).parents[2]
RUN = "import sys; from importlinter.cli import lint_imports_command; sys.exit(lint_imports_command())"


def test_every_import_contract_is_kept():
    surroundings = {**os.environ, "PYTHONPATH": str(ROOT / "compiler")}
    done = subprocess.run(
        [sys.executable, "-c", RUN, "pyproject.toml", "--no-cache"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        timeout=120,
        env=surroundings,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    assert "4 kept, 0 broken" in done.stdout


def test_the_solver_is_kept_from_every_module():
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["importlinter"]["contracts"]
    (solver,) = [one for one in contracts if one["source_modules"] == ["wale.solve"]]
    parts = [
        one for one in (ROOT / "compiler" / "wale").iterdir() if one.suffix == ".py" or (one / "__init__.py").exists()
    ]
    modules = {f"wale.{one.stem}" for one in parts if not one.stem.startswith("__")}
    # `grammar` holds no code but the path to the grammars
    assert set(solver["forbidden_modules"]) == modules - {"wale.solve", "wale.source"}


def test_every_package_is_installed():
    listed = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))["tool"]["setuptools"]["packages"]
    source = ROOT / "compiler"
    packages = {".".join(one.parent.relative_to(source).parts) for one in source.rglob("__init__.py")}
    assert packages <= set(listed)
