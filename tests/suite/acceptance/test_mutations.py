"""Damaged specs end in problems or in a plan, never in an exception; tests/bench/all_mutations.py runs 2,000."""

from __future__ import annotations

import pytest
from mutations import mutations
from support import EXAMPLES, MILL, MILL_YARNS, SPEC, checked, world

from wale.driver import compile_spec, render
from wale.files import Refused
from wale.problems.export import as_json
from wale.problems.show import show

SEED = 7
NAMES = ("millrace-pullover", "sluice-hat", "first-cowl")
TEXTS = {name: (EXAMPLES / f"{name}.wale").read_text("utf-8") for name in NAMES}
HATS, COWL = ((EXAMPLES / f"{name}.wale").read_text("utf-8") for name in ("hatch-hats", "crew-cowl"))


def seen(text: str | bytes, **others: str) -> None:
    """Compile; the outcome is a plan without an error, or problems that can be shown and exported."""
    try:
        done = checked(text, **others)
    except Refused as refused:
        assert refused.problem.is_error
        return
    assert (done.plan is None) == any(found.is_error for found in done.problems)
    words = show(done.problems, done.sources, colour=False, width=80)
    assert bool(words) == bool(done.problems)
    assert len(as_json(done.problems, done.sources)) == len(done.problems)
    for found in done.problems:
        assert found.message.strip()
        for label in found.labels:
            source = done.sources[label.span.file]
            assert 0 <= label.span.start <= label.span.end <= len(source.text)


@pytest.mark.parametrize("part", range(10))
@pytest.mark.parametrize("name", NAMES)
def test_damaged_examples(name: str, part: int) -> None:
    for text in mutations(TEXTS[name], 10, SEED + part):
        seen(text)


@pytest.mark.parametrize("part", range(5))
def test_damaged_yarns_beneath_a_hat(part: int) -> None:
    for text in mutations(MILL_YARNS, 10, SEED + part):
        seen(TEXTS["sluice-hat"], **{"mill-yarns": text})


@pytest.mark.parametrize("part", range(5))
def test_damaged_constructions_and_tables_beneath_what_is_made_of_them(part: int) -> None:
    for text in mutations(MILL["mill-blocks.wale"], 10, SEED + part):
        seen(HATS, **{"mill-blocks": text})
    for text in mutations(MILL["crew.csv"], 10, SEED + part):
        seen(COWL, **{"crew.csv": text})
    for text in mutations(HATS, 10, SEED + part):
        seen(text)


def test_damaged_examples_through_to_text() -> None:
    written = 0
    for text in mutations(TEXTS["sluice-hat"], 30, SEED):
        here = world(text)
        try:
            done = compile_spec(here, SPEC)
        except Refused:
            continue
        if done.pattern is not None:
            data, complaints = render(done, "text", here)
            assert data.strip() and not complaints
            written += 1
    assert written


def test_the_same_seed_gives_the_same_damage() -> None:
    one, other = (list(mutations(MILL_YARNS, 50, SEED)) for _ in range(2))
    assert one == other
    assert sum(text != MILL_YARNS for text in one) > 40


@pytest.mark.parametrize(
    "text", ["", "\n", "wale 1", "wale 1\n", " " * 1000, "\x00", "wale 1\npattern", b"\xff\xfe", b"\xef\xbb\xbfwale 1"]
)
def test_next_to_nothing(text: str | bytes) -> None:
    seen(text)
