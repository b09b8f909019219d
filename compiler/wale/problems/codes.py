"""The closed table of problem codes. Each has a page `docs/problems/<code>.md` and a test that triggers it.

Ranges: 1 text and syntax, 2 names, units and values, 3 counts that fit nothing, 4 shaping, 5 joins and bands,
6 fabric (warnings), 7 safety (cautions), 9 files and surroundings.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

Severity = Literal["error", "warning", "caution", "note"]


@dataclass(frozen=True, slots=True)
class Code:
    """One kind of problem: how bad it is and its title in the docs."""

    severity: Severity
    title: str


CODES: dict[str, Code] = {}
