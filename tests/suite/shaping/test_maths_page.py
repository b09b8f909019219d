"""Each rule that the code cites has its heading on the maths page, and each heading is cited."""

from __future__ import annotations

import re
from pathlib import Path

ROOT = Path(__file__).parents[3]
PAGE = (ROOT / "docs" / "maths.md").read_text("utf-8")


def test_citations_and_headings_agree() -> None:
    headings = {title.lower().replace(" ", "-") for title in re.findall(r"^## (.+)$", PAGE, re.M)}
    folders = [ROOT / "compiler" / "wale" / name for name in ("shaping", "constructions")]
    files = [*(path for folder in folders for path in folder.glob("*.py")), ROOT / "compiler" / "wale" / "colour.py"]
    cited = {anchor for path in files for anchor in re.findall(r"docs/maths\.md#([a-z-]+)", path.read_text("utf-8"))}
    assert cited == headings


def test_examples_named_on_the_page_exist() -> None:
    data = (ROOT / "tests" / "data" / "worked_examples.csv").read_text("utf-8")
    named = set(re.findall(r"\bW\d{3}\b", PAGE))
    assert named and all(f"\n{row_id}," in data for row_id in named)
