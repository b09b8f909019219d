"""A small whole spec around a snippet: the snippet's blocks take the place of the frame's blocks of the same name."""

from wale.parse.parser import parse, parse_used
from wale.problems.problem import Fix, Problem
from wale.resolve import resolve
from wale.source import Source

FRAME = """\
wale 1

pattern "Frame"

yarn rye
    count  2/8 Nm wool
    colour #8a5a2b

yarn flour
    count  2/8 Nm wool
    colour #efe6d2

motif seed
    repeat 4 sts, 2 rows
    key    |-| rye, |x| flour
    | - - x - |
    | x - - - |

swatch plain, worked flat
    fabric stockinette in rye
    needle 3.25 mm
    washed 20 sts and 30 rows in 10 cm

swatch plain-round, in the round
    fabric stockinette in rye
    needle 3.25 mm
    washed 20 sts and 30 rows in 10 cm

swatch easy, worked flat
    motif  seed in rye, flour
    needle 3.5 mm
    washed 25 sts and 25 rows in 10 cm

swatch easy-round, in the round
    motif  seed in rye, flour
    needle 3.5 mm
    washed 25 sts and 25 rows in 10 cm

sizes women S M L
    ease bust 10 cm, hip 6 cm, waist 20 cm, wrist 5 cm, head -2 cm

piece back, worked flat
    edge      1 st each side in rye
    cast on   hip/2 in plain
    work      in seed on easy, centred
    shape     to bust/2 over 20 cm
    mark      underarm
    work      to 50 cm
    neck      18 cm wide, 2 cm deep
    shoulders slope 3 cm, short rows
"""
TABLES = {
    "parted.csv": "size;bust cm;hip cm\nS;84;90\n",
    "head.csv": "size,bust,hip cm\nS,84,90\n",
    "cell.csv": "size,bust cm,hip cm\nS,84 cm,90\n",
    "row.csv": "size,bust cm,hip cm\nS,84\n",
    "crew.csv": "size,bust cm,hip cm,waist cm,wrist cm,head cm,neck-base cm\n"
    "S,84,90,66,15,55,35\nM,94,99,74,15.5,56,37\n",
}
"""Tables that pages of problems show, each as its page does."""
ALONE = ("sizes", "pattern", "join", "wale")


def _key(head: str) -> str:
    words = head.replace(",", " ").split()
    return words[0] if words[0] in ALONE else " ".join(words[:2])


def _blocks(text: str) -> dict[str, str]:
    found: dict[str, str] = {}
    key = ""
    for line in text.splitlines():
        if line and not line[0].isspace() and not line.startswith("--"):
            key, number = _key(line), 2
            while key in found:
                key, number = f"{_key(line)} ({number})", number + 1
            found[key] = line + "\n"
        elif key:
            found[key] += line + "\n"
    return found


def framed(snippet: str) -> str:
    """Give a whole spec with the snippet's blocks in it; a snippet that starts with `wale 1` stands alone."""
    if snippet.startswith("wale 1"):
        return snippet
    own = _blocks(snippet)
    blocks = _blocks(FRAME)
    blocks.update(own)
    return "".join(blocks.values())


def resolved(text: str, files: dict[str, str] | None = None, name: str = "main.wale"):
    """Resolve a text; used files come from a dict. Parsing it must find nothing."""
    tree, problems = parse(Source(name, text))
    assert [found.code for found in problems] == [], problems

    def load(used):
        text = {name: text_of_main, **(files or {})}.get(used.text)
        return None if text is None else parse_used(Source(used.text, text))

    text_of_main = text
    return resolve(tree, load)


def codes(problems: list[Problem]) -> list[str]:
    return [problem.code for problem in problems]


def spec_of(snippet: str, files: dict[str, str] | None = None):
    """Give the spec of a snippet in the frame; no problem may stand, warnings neither."""
    spec, problems = resolved(framed(snippet), files)
    assert problems == [], problems
    assert spec is not None
    return spec


def mended(text: str, fix: Fix) -> str:
    """Give the text after the edits of a fix."""
    for edit in sorted(fix.edits, key=lambda edit: edit.span.start, reverse=True):
        text = text[: edit.span.start] + edit.text + text[edit.span.end :]
    return text
