"""The proof of whole patterns: every piece, in every size, comes off the machine as planned."""

from __future__ import annotations

import ast

import pytest
from prove_patterns import NAMES, compiled
from support import ROOT

from wale.prove.proof import prove
from wale.write.facts import facts, printed


@pytest.mark.parametrize("name", NAMES)
def test_the_words_make_the_fabric_that_was_planned(name: str) -> None:
    done = compiled(name)
    assert done.spec is not None and done.plan is not None and done.pattern is not None
    page = printed(done.spec, done.plan, done.pattern, done.sizes)
    assert prove(page, facts(done.spec, done.plan, done.sizes)) == []


def test_the_proof_shares_nothing_with_what_it_proves() -> None:
    files = sorted((ROOT / "compiler" / "wale" / "prove").glob("*.py"))
    assert len(files) > 8
    imported = {name for file in files for name in _imports(ast.parse(file.read_text("utf-8")))}
    own = {name for name in imported if name.split(".")[0] == "wale"}
    assert own and all(name.startswith(("wale.prove", "wale.grammar")) for name in own)


def _imports(tree: ast.AST) -> list[str]:
    found = []
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            found += [alias.name for alias in node.names]
        elif isinstance(node, ast.ImportFrom):
            found.append(node.module or "")
        elif isinstance(node, ast.Call) and getattr(node.func, "id", "") == "import_module":
            found += [one.value for one in node.args if isinstance(one, ast.Constant)]
    return found
