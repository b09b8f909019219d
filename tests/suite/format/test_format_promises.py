"""The promises of the layout, on any spec that anybody might type."""

import re

from hypothesis import HealthCheck, given, settings
from strategies import specs

from wale.format import format_source
from wale.parse.parser import parse
from wale.resolve import resolve
from wale.source import Source

CALM = settings(
    max_examples=40,
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
