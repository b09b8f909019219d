"""The plan as JSON: true to the plan, strict to its schema, explained field by field."""

from __future__ import annotations

import json
import re
import sys
from collections.abc import Iterator
from fractions import Fraction
from pathlib import Path
from typing import Any

import jsonschema
import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "write"))
from garments import AT, SOURCE, cowl, hat, pullover
from support import EXAMPLES, world

import wale.outputs
from wale.driver import compile_spec
from wale.driver import render as set_pattern
from wale.outputs.plan_json import plan_dict, render
from wale.plan import Plan
from wale.problems.codes import CODES
from wale.problems.problem import problem
from wale.sized import of_sizes
from wale.source import Span
from wale.spec import Spec
from wale.write.context import Context
from wale.write.rows import piece_rows

ROOT = Path(__file__).parents[3]
SCHEMA = json.loads((Path(wale.outputs.__file__).parent / "plan.schema.json").read_text(encoding="utf-8"))
SOURCES = {SOURCE.name: SOURCE}
GARMENTS = pytest.mark.parametrize("garment", [pullover, hat, cowl])
Garment = tuple[Spec, Plan]


def data(garment: Garment) -> dict[str, Any]:
    spec, plan = garment
    found = [
        problem(next(iter(CODES)), "one thing", AT),
        problem(next(iter(CODES)), "another", Span("lost.wale", 0, 1)),
    ]
    return json.loads(json.dumps(plan_dict(spec, plan, found, SOURCES)))


@GARMENTS
def test_it_keeps_to_its_schema(garment: Any) -> None:
    jsonschema.Draft202012Validator.check_schema(SCHEMA)
    assert list(jsonschema.Draft202012Validator(SCHEMA).iter_errors(data(garment()))) == []


def objects(node: Any) -> Iterator[dict[str, Any]]:
    if isinstance(node, dict):
        if node.get("type") == "object":
            yield node
        for value in node.values():
            yield from objects(value)
    elif isinstance(node, list):
        for value in node:
            yield from objects(value)


def test_the_schema_is_strict_everywhere() -> None:
    found = list(objects(SCHEMA))
    assert len(found) > 20
    for node in found:
        assert node["additionalProperties"] is False
        assert sorted(node["required"]) == sorted(node["properties"])
    broken = {**data(cowl()), "mood": "cheerful"}
    assert [one.validator for one in jsonschema.Draft202012Validator(SCHEMA).iter_errors(broken)] == [
        "additionalProperties"
    ]


def test_each_field_of_the_schema_is_explained() -> None:
    page = (ROOT / "docs" / "plan-json.md").read_text(encoding="utf-8")
    names = {name for node in objects(SCHEMA) for name in node["properties"]}
    explained = {name for cell in re.findall(r"^\| `([^`]+)` \|", page, re.M) for name in cell.split(".")}
    assert names == explained


@GARMENTS
def test_every_address_appears(garment: Any) -> None:
    spec, plan = garment()
    text = render(spec, plan, [], SOURCES)
    addresses = {one.address for piece in plan.pieces for one in (*piece.levels, *piece.sections, *piece.steps)}
    assert addresses
    assert {address for address in addresses if f'"address": "{address}"' not in text} == set()


def unrolled(runs: dict[str, list[Any]], *, counting: bool) -> list[Any]:
    result = []
    for value, times in zip(runs["first" if counting else "value"], runs["times"], strict=True):
        result += [value + step if counting and value is not None else value for step in range(times)]
    return result


@GARMENTS
def test_packed_rows_unroll_to_the_rows_that_are_knitted(garment: Any) -> None:
    spec, plan = garment()
    for piece, planned in zip(data((spec, plan))["pieces"], plan.pieces, strict=True):
        for size, table in enumerate(piece["rows"]):
            rows = piece_rows(Context(spec, plan, planned, size))
            assert table["total"] == len(rows) > 0
            assert unrolled(table["number"], counting=True) == [row.number for row in rows]
            assert unrolled(table["section"], counting=False) == [row.section for row in rows]
            assert list(table["sides"]) == [{"RS": "R", "WS": "W", "round": "O"}[row.side] for row in rows]
            assert unrolled(table["stitches"], counting=False) == [row.stitches for row in rows]
            assert unrolled(table["chart_row"], counting=True) == [row.chart_row for row in rows]
            assert table["column"] == [row.column for row in rows]


def test_a_level_has_counts_gauge_wish_width_and_line() -> None:
    bust = next(one for one in data(pullover())["pieces"][0]["levels"] if one["address"] == "back.bust")
    assert bust["stitches"] == [102, 112, 122]
    # (112 - 2) / 2 = 55 cm; the wish of the hand-made plan is 0.25 cm less.
    assert bust["width"]["got"][1] == {"decimal": "55.00", "exact": "55/1"}
    assert bust["width"]["wished"][1] == {"decimal": "54.75", "exact": "219/4"}
    assert bust["width"]["deviation"][1] == {"decimal": "0.25", "exact": "1/4"}
    assert bust["stitches_per_cm"]["exact"] == "2/1"
    assert bust["line"] == {"file": "hand.wale", "line": 3}


def test_sections_tell_rows_and_where_they_are_measured_from() -> None:
    sections = {one["address"]: one for one in data(pullover())["pieces"][0]["sections"]}
    last = sections["back.work[2]"]
    assert last["rows"] == [72, 72, 72]
    assert last["measured_from"] == "start of the piece"
    assert last["length"]["got"][0]["exact"] == "54/1"
    assert sections["back.hem.turning"]["length"]["wished"] is None
    # 5 shapings in 60 rows: every 12th row, the first on row 11.
    assert sections["back.shape[1]"]["schedules"][0] == {"first": 11, "intervals": [12], "times": [4]}
    assert last["chart_start"] == [3, 3, 3]


def test_neck_slope_crown_bands_and_joins_are_there() -> None:
    worn, flat = data(pullover()), data(hat())
    top = worn["pieces"][1]["top"]
    assert (top["neck_centre"][0], top["neck_steps"][0], top["slope_rows"][0]) == (12, [4, 3, 2, 2, 1], 6)
    assert top["slope"]["deviation"][0]["exact"] == "-1/1"
    crown = flat["pieces"][0]["crown"]
    assert crown["decreases"][0]["rounds"][:3] == [1, 3, 5]
    assert crown["decreases"][0]["stitches"][-1] == crown["final"][0] == 8
    assert worn["bands"][0]["picked"] == [{"edge": "back neck, centre", "stitches": [28, 28, 28]}]
    assert [one["kind"] for one in worn["joins"]] == ["seam", "set-in"]


@GARMENTS
def test_exact_numbers_round_to_their_decimals(garment: Any) -> None:
    def numbers(node: Any) -> Iterator[dict[str, str]]:
        if isinstance(node, dict):
            if set(node) == {"decimal", "exact"}:
                yield node
            for value in node.values():
                yield from numbers(value)
        elif isinstance(node, list):
            for value in node:
                yield from numbers(value)

    found = list(numbers(data(garment())))
    assert found
    for one in found:
        assert abs(Fraction(one["exact"]) - Fraction(one["decimal"])) <= Fraction(1, 200)


def test_text_is_the_same_each_time_and_ends_with_a_line_end() -> None:
    first, second = (render(*pullover(), [], SOURCES) for _ in range(2))
    assert first == second
    assert first.endswith("\n}\n")
    assert json.loads(first)["format"] == "wale plan 1"


def test_chosen_sizes_alone_are_those_of_the_whole_plan() -> None:
    """Every list over sizes of M, and of XS with L, against the plan of all sizes, field by field."""
    spec, plan = pullover()
    whole = plan_dict(spec, plan, (), SOURCES)
    for sizes in ((1,), (0, 2)):
        cut = plan_dict(*of_sizes(spec, plan, sizes), (), SOURCES)
        assert list(jsonschema.Draft202012Validator(SCHEMA).iter_errors(json.loads(json.dumps(cut)))) == []
        assert cut == picked(whole, sizes, len(plan.sizes))
    assert of_sizes(spec, plan, (0, 1, 2)) == (spec, plan)


def picked(node: Any, sizes: tuple[int, ...], count: int, key: str = "", parent: str = "") -> Any:
    """Keep of each list over sizes the chosen ones; names tell which lists are over sizes."""
    if isinstance(node, dict):
        return {name: picked(value, sizes, count, name, key.strip("[]")) for name, value in node.items()}
    if isinstance(node, list) and key in OVER_SIZES and parent not in ("motifs", "decreases", "rows"):
        assert len(node) in (0, count), key
        node = [node[size] for size in sizes] if node else node
    return [picked(one, sizes, count, f"{key}[]") for one in node] if isinstance(node, list) else node


OVER_SIZES = {
    *("sizes", "wished", "got", "deviation", "position", "schedules", "even_change", "even_start", "chart_start"),
    *("centre_column", "neck_stitches", "neck_rows", "neck_centre", "neck_steps", "shoulder_stitches", "slope_rows"),
    *("slope_groups", "start", "decreases", "final", "stitches", "rows", "rounds", "needed"),
}


def test_a_compiled_size_alone_is_in_its_json() -> None:
    place = world((EXAMPLES / "sluice-hat.wale").read_text("utf-8"))
    compiled = compile_spec(place, "a.wale", ("medium",))
    plan = json.loads(set_pattern(compiled, "json", place)[0])
    assert [size["name"] for size in plan["sizes"]] == ["medium"]
    # 53.5 cm are 155.1 sts at 40 sts in 13.8 cm: 156, whole repeats of 12.
    assert plan["pieces"][0]["levels"][-1]["stitches"] == [156]


def test_a_yarn_tells_what_it_takes_to_knit_the_garment() -> None:
    place = world((EXAMPLES / "millrace-pullover.wale").read_text("utf-8"))
    compiled = compile_spec(place, "a.wale")
    plan = json.loads(set_pattern(compiled, "json", place)[0])
    assert list(jsonschema.Draft202012Validator(SCHEMA).iter_errors(plan)) == []
    printed = set_pattern(compiled, "text", place)[0].decode()
    rye = next(one for one in plan["yarns"] if one["name"] == "rye")
    assert len(rye["needed"]) == 7
    for need in rye["needed"]:
        assert re.search(rf"\b{need['grams']}\b", printed)
        # 4 m in 1 g, up to 10 m; whole cones of the one put-up that is offered
        assert need["metres"] == -(-need["grams"] * 4 // 10) * 10
        # 3 cones of 100 g lie there; a cone is 11.50 EUR
        assert need["to_buy"] == max(0, need["grams"] - 300)
        cones = -(-need["to_buy"] // 100)
        (cost,) = need["costs"]
        assert (Fraction(cost["amount"]["exact"]), cost["currency"]) == (cones * Fraction("11.5"), "EUR")
