"""Small specs for the checks, read by the whole road from text to plan."""

from functools import cache
from pathlib import Path

from wale.checks import check
from wale.draft.planner import plan
from wale.parse.parser import parse
from wale.resolve import resolve
from wale.source import Source

ROOT = Path(__file__).parents[3]

YARNS = """
yarn rye
    count  100 m per 100 g
    colour #8a5a2b

yarn flour
    count  100 m per 100 g
    colour #efe6d2
"""


def compiled(text: str, beside: Path = ROOT / "examples"):
    """Give spec and plan of a text without errors."""
    tree, problems = parse(Source("test.wale", text))

    def load(name):
        return parse(Source(name.text, (beside / name.text).read_text("utf-8")))

    spec, found = resolve(tree, load)
    problems += found
    assert spec is not None and not [one.message for one in problems if one.is_error], problems
    solved, found = plan(spec)
    assert solved is not None, [one.message for one in found]
    return spec, solved


@cache
def example(name: str):
    """Give spec and plan of a file in `examples/`."""
    return compiled((ROOT / "examples" / name).read_text("utf-8"))


def codes(text: str) -> list[str]:
    """Give the codes that the checks find in a text."""
    return [one.code for one in check(*compiled(text))]
