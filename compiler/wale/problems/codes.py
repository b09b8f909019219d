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


CODES: dict[str, Code] = {
    "E901": Code("error", "The file does not exist"),
    "E902": Code("error", "A folder stands where a file is named"),
    "E903": Code("error", "The file cannot be read"),
    "E904": Code("error", "The file is not UTF-8 text"),
    "E905": Code("error", "The file is too large"),
    "E906": Code("error", "The used file is not named from the spec's folder"),
    "E907": Code("error", "The used file lies outside the spec's folder"),
    "E908": Code("error", "The output would replace a spec"),
    "E909": Code("error", "The output is named like a folder that exists"),
    "E910": Code("error", "The output cannot be written"),
    "E911": Code("error", "The date for outputs is not a date"),
    "E912": Code("error", "The new file exists already"),
}
