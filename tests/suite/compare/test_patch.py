"""The JSON patch of two plans is complete: applied to the first plan it gives the second."""

import json

import jsonpatch
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st
from strategies import lines, plain
from support import checked

from wale.compare import export, text
from wale.compare.comparison import Version, compare
from wale.compare.patch import patch
from wale.outputs.plan_json import plan_dict


def plan_of(text):
    """Give a spec's plan as it is read from a file; None where it has none."""
    done = checked(text)
    if done.spec is None or done.plan is None or any(one.is_error for one in done.problems):
        return None
    return json.loads(json.dumps(plan_dict(done.spec, done.plan, done.problems, done.sources)))


PLANS = lines().map(plain).map(plan_of).filter(lambda plan: plan is not None)


@st.composite
def pairs(draw):
    """Give two plans: of two specs, or of one spec and the same with some of its lines left out or told twice."""
    if draw(st.integers(0, 3)) == 0:
        return draw(PLANS), draw(PLANS)
    spec = draw(lines())
    number = draw(st.integers(0, len(spec) - 1))
    drawn = draw(st.sampled_from(["out", "digit"]))
    if drawn == "out":
        other = [line for at, line in enumerate(spec) if at != number]
        texts = plain(spec), plain(other)
    else:
        figure, instead = draw(
            st.sampled_from([("10 cm", "12 cm"), ("| rye", "| flour"), ("8 rows", "10 rows"), ("2", "3")])
        )
        texts = plain(spec), plain(spec).replace(figure, instead)
    before, after = (plan_of(text) for text in texts)
    assume(before is not None and after is not None)
    return before, after


def bare(node):
    """Give a plan without places in files, the compiler's version and the words of measures."""
    if isinstance(node, dict):
        places = ("line", "neck_line", "shoulder_line", "words", "compiler", "labels", "fixes", "help")
        found = {key: bare(value) for key, value in node.items() if key not in places}
        if "swatches" in found:  # the order of such blocks means nothing
            for key in ("yarns", "swatches", "motifs"):
                found[key] = sorted(found[key], key=lambda one: one["name"])
        return found
    return [bare(value) for value in node] if isinstance(node, list) else node


@settings(max_examples=20, deadline=None, suppress_health_check=list(HealthCheck))
@given(pairs())
def test_the_patch_makes_the_second_plan_of_the_first(pair):
    before, after = pair
    found = compare(Version("old", before), Version("new", after))
    told = json.loads(export.render(found))["patch"]
    assert jsonpatch.apply_patch(before, told) == after
    assert (told == []) == (before == after)
    assert text.render(found).endswith("\n")


@settings(max_examples=20, deadline=None, suppress_health_check=list(HealthCheck))
@given(pairs())
def test_what_is_told_is_nothing_only_where_the_plans_are_the_same(pair):
    before, after = pair
    found = compare(Version("old", before), Version("new", after))
    assert found.is_same == (bare(before) == bare(after))
    assert compare(Version("old", before), Version("new", before)).is_same


@settings(max_examples=8, deadline=None, suppress_health_check=list(HealthCheck))
@given(PLANS)
def test_a_plan_and_itself_are_the_same(plan):
    assert patch(plan, plan) == []
    found = compare(Version("old", plan), Version("new", plan))
    assert found.is_same and found.is_knit_alike
    assert found.changes == ()


JSON = st.recursive(
    st.one_of(st.none(), st.integers(0, 3), st.sampled_from(["a", "b/c", "~", "~1", ""])),
    lambda parts: st.one_of(st.lists(parts, max_size=4), st.dictionaries(st.sampled_from("a~/b"), parts, max_size=3)),
    max_leaves=12,
)


@settings(max_examples=60, deadline=None)
@given(st.dictionaries(st.sampled_from("a~/b"), JSON), st.dictionaries(st.sampled_from("a~/b"), JSON))
def test_any_two_objects_are_patched(before, after):
    assert jsonpatch.apply_patch(before, json.loads(json.dumps(patch(before, after)))) == after


def test_a_piece_put_in_between_is_one_operation():
    before = {"pieces": [{"name": "back", "rows": [1, 2]}, {"name": "sleeve", "rows": [3, 4]}]}
    after = {"pieces": [before["pieces"][0], {"name": "front", "rows": [1, 2]}, before["pieces"][1]]}
    assert patch(before, after) == [{"op": "add", "path": "/pieces/1", "value": {"name": "front", "rows": [1, 2]}}]
    assert patch(after, before) == [{"op": "remove", "path": "/pieces/1"}]
    longer = {"pieces": [before["pieces"][0], {"name": "sleeve", "rows": [3, 6]}]}
    assert patch(before, longer) == [{"op": "replace", "path": "/pieces/1/rows", "value": [3, 6]}]
