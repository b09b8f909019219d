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
    "E101": Code("error", "The first line names no edition"),
    "E102": Code("error", "This edition is not known"),
    "E103": Code("error", "The edition stands in a second place"),
    "E104": Code("error", "A line at the left edge starts no block"),
    "E105": Code("error", "An indented line belongs to no block"),
    "E106": Code("error", "A line stands in a column of its own"),
    "E107": Code("error", "The margin holds other signs than spaces"),
    "E110": Code("error", "A hidden control character"),
    "E111": Code("error", "A sign of the typesetter's instead of the plain one"),
    "E112": Code("error", "A sign that means nothing here"),
    "E113": Code("error", "A text in quotes is not closed"),
    "E114": Code("error", "A row of cells is not closed"),
    "E115": Code("error", "A colour is not six digits"),
    "E116": Code("error", "A line does not start with its keyword"),
    "E117": Code("error", "A word or number stands where it does not fit"),
    "E118": Code("error", "A line ends too early"),
    "E119": Code("error", "A bracket has no partner"),
    "E120": Code("error", "A number and its unit run together"),
    "E121": Code("error", "A decimal comma, or a comma without its space"),
    "E122": Code("error", "`in` does not mean inches"),
    "E123": Code("error", "Plus or minus without its spaces"),
    "E124": Code("error", "A fraction that is none"),
    "E125": Code("error", "A list of sizes is written another way"),
    "E130": Code("error", "The file is too long"),
    "E131": Code("error", "A line is too long or too deep"),
    "E132": Code("error", "A number has too many digits"),
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
    "E911": Code("error", "SOURCE_DATE_EPOCH is no date"),
    "E912": Code("error", "The new file exists already"),
}
