"""Whatever is asked is answered or refused with a reason."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wale.problems.codes import CODES
from wale.reckon.answer import as_data, in_words
from wale.reckon.questions import QUESTIONS, ask
from wale.refusals import Refused

LITTLE = (
    *("sts", "rows", "cm", "inch", "g", "m", "mm", "Nm", "tex", "Ne", "R", "x", "of", "with", "from", "in", "to", "="),
    *("at", "over", "along", "multiple of", "plus", "two at once", "in the round", "square", "wide", "deep", "scarf"),
    *("sweater", "tail", "by", "pieces", "colours", "class", "DK", "wpi", "US", "UK", "JP", "make", "per", "decreases"),
    *("increases", "steps", "wedges", "on any row", "at one edge", "and", ",", "-", "/", "#8a5a2b", "c9a36b"),
)
NUMBERS = (
    "0",
    "1",
    "2",
    "3",
    "4",
    "7",
    "12",
    "40",
    "53",
    "119",
    "0.5",
    "13.6",
    "1/2",
    "2/8",
    "0/0",
    "5/0",
    "1,5",
    "-4",
)
TOKENS = st.one_of(st.sampled_from(LITTLE), st.sampled_from(NUMBERS), st.integers(0, 10**14).map(str))


def answered(question, text):
    try:
        answer = ask(question, text)
    except Refused as refused:
        assert refused.problem.code in ("E801", "E802", "E803", "E804") and refused.problem.code in CODES
        assert refused.problem.message and refused.problem.help
        return None
    assert in_words(answer).endswith("\n") and as_data(answer)["sources"]
    return answer


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda one: one.name)
@settings(max_examples=30, deadline=None)
@given(text=st.text(max_size=60))
def test_any_text(question, text):
    answered(question, text)


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda one: one.name)
@settings(max_examples=60, deadline=None)
@given(words=st.lists(TOKENS, max_size=14))
def test_any_words_of_the_trade(question, words):
    answered(question, " ".join(words))


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda one: one.name)
@settings(max_examples=40, deadline=None)
@given(data=st.data())
def test_any_numbers_in_a_good_question(question, data):
    example = data.draw(st.sampled_from(question.examples))
    words = [
        data.draw(st.sampled_from([word, word, str(data.draw(st.integers(0, 400))), *NUMBERS]))
        if word.replace(".", "").isdigit()
        else word
        for word in example.split()
    ]
    answered(question, " ".join(words))


@pytest.mark.parametrize("question", QUESTIONS, ids=lambda one: one.name)
def test_its_examples_are_answered(question):
    assert len(question.examples) >= 2
    for example in question.examples:
        assert answered(question, example.replace("'", "")) is not None
