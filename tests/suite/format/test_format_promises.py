"""The promises of the layout, on any spec that anybody might type."""

import re

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from mutations import mutations
from strategies import specs

from wale.format import format_source
from wale.parse.parser import parse
from wale.resolve import resolve
from wale.source import Source

CALM = settings(
    max_examples=25,
    deadline=None,
    suppress_health_check=[HealthCheck.too_slow, HealthCheck.data_too_large],
)


def nothing(_name):
    return None


def laid(text):
    found, problems = format_source(Source("a.wale", text), nothing)
    assert problems == [] and found is not None
    return found.text


def model(text):
    """Give the spec of a text as words without places, by the way of `repr`, and without white space."""
    tree, problems = parse(Source("a.wale", text))
    spec, found = resolve(tree, nothing)
    assert spec is not None, [one.message for one in (*problems, *found)]
    words = re.sub(r"Span\(file='a.wale', start=\d+, end=\d+\)", "", repr(spec))
    return re.sub(r"\s|\\[tn]", "", words)


def comments(text):
    """Find the comments of a text by cutting texts and cells out first."""
    found = []
    for line in re.split(r"\r?\n", text):
        bare = re.sub(r'"[^"]*"|\|[^|]*\|', lambda match: "." * len(match[0]), line)
        match = re.search(r"(?:^|(?<=\s))--", bare)
        if match:
            found.append(line[match.start() :].strip())
    return found


@CALM
@given(specs())
def test_any_spec_keeps_its_model_its_comments_and_stays(text):
    once = laid(text)
    assert model(once) == model(text)
    assert comments(once) == comments(text)
    assert laid(once) == once


PIECES = st.one_of(
    st.sampled_from(list('ab1 (),|-+*/="#.½“”_\t\r\0\x0c\u2028é𝒳')),
    st.sampled_from(["\n", "\r\n", "\n    ", "\n  ", "  -- c", "\nlet a = ", "| x - |", '"x"', "\njoin", "\nwale 1"]),
    st.sampled_from(["5 cm", "18 (19, 20) cm", " + ", "bind off", "/2", "2/3", " -3", "max(", "#8A5a2b", "\npiece b"]),
)


@settings(max_examples=300, deadline=None)
@given(st.lists(PIECES, max_size=40).map("".join), st.booleans())
def test_any_text_is_laid_out_or_left(text, to_newest):
    found, problems = format_source(Source("a.wale", text), nothing, to_newest)
    if found is None:
        assert {one.code for one in problems} <= {"E102", "E130"}
        return
    at = 0
    for span in found.kept:
        kept = found.before.cut(span)
        at = found.text.index(kept, at) + len(kept)
    again, _ = format_source(Source("a.wale", found.text), nothing)
    assert again is not None and again.text == found.text


@settings(CALM, max_examples=10)
@given(specs(), st.integers(0, 10_000))
def test_a_damaged_spec_keeps_its_lines_of_comments(text, seed):
    for damaged in mutations(text, 6, seed):
        found, _ = format_source(Source("a.wale", damaged), nothing)
        assert found is None or comment_lines(found.text) == comment_lines(damaged)


def comment_lines(text):
    return [line.strip() for line in re.split(r"\r*\n", text) if line.strip().startswith("--")]
