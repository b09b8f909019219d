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
    "E202": Code("error", "A line starts with a word that is unknown there"),
    "E203": Code("error", "A line does not have the form of its keyword"),
    "E204": Code("error", "An option is unknown or contradicts another"),
    "E205": Code("error", "Something stands twice that stands once"),
    "E206": Code("error", "Something that is needed is missing"),
    "E207": Code("error", "A name is taken already"),
    "E210": Code("error", "A name in a value is not known"),
    "E211": Code("error", "A yarn is not known, or missing"),
    "E212": Code("error", "A swatch is not known"),
    "E213": Code("error", "A motif is not known"),
    "E214": Code("error", "A piece is not known"),
    "E215": Code("error", "A measure is used without an ease"),
    "E216": Code("error", "A size, level, mark or edge is not known"),
    "E217": Code("error", "A value or piece is made from itself"),
    "E218": Code("error", "A measure is not known for every size"),
    "E219": Code("error", "A calculation is not known"),
    "E220": Code("error", "A unit or yarn count system is not known"),
    "E221": Code("error", "Units of different kinds meet"),
    "E222": Code("error", "A number must be more than 0"),
    "E223": Code("error", "A number is beyond all bounds"),
    "E224": Code("error", "A list has not one value for each size"),
    "E225": Code("error", "A measure shrinks from size to size"),
    "E226": Code("error", "Sizes are not in the order of their table"),
    "E227": Code("error", "Nothing can be divided by this"),
    "E228": Code("error", "A count is not whole"),
    "E229": Code("error", "A needle is not known"),
    "W229": Code("warning", "A needle number is not sure"),
    "E230": Code("error", "A file uses itself"),
    "E231": Code("error", "A used file holds more than it may"),
    "E240": Code("error", "Rows of a motif differ in length"),
    "E241": Code("error", "A cell of a motif is not in its key"),
    "E242": Code("error", "The repeat and the rows of a motif disagree"),
    "W243": Code("warning", "A row of a motif has more than two colours"),
    "E244": Code("error", "A motif is shifted by a whole repeat or more"),
    "E245": Code("error", "A motif is not of the kind that is asked for"),
    "E250": Code("error", "A step does not fit the way a piece is worked"),
    "E251": Code("error", "A step stands in the wrong place"),
    "E252": Code("error", "It is not clear which line is replaced"),
    "W260": Code("warning", "A yarn count can be read in two ways"),
    "W261": Code("warning", "A swatch was worked another way than the piece"),
    "W262": Code("warning", "A swatch shows another fabric than the piece"),
    "E301": Code("error", "No count of the repeat comes within the tolerance"),
    "E302": Code("error", "The sizes cannot grow from one to the next"),
    "E303": Code("error", "No whole numbers fit all of these lines"),
    "E304": Code("error", "A solved width is not there"),
    "E305": Code("error", "The pattern has no such size"),
    "E401": Code("error", "The shaping does not fit its rows"),
    "E405": Code("error", "A line of a piece stands where it cannot"),
    "E406": Code("error", "The lines of a piece do not add up to the length asked for"),
    "E501": Code("error", "Joined edges cannot agree"),
    "E502": Code("error", "There is nothing to meet"),
    "E503": Code("error", "A band cannot be picked up there"),
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
