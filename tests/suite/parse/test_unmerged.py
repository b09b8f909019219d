"""Marks of an unfinished merge are one problem a conflict."""

from wale.parse.parser import parse
from wale.source import Source

CONFLICT = """wale 1
piece back, worked flat
    cast on 80 sts in plain
<<<<<<< ours
    work    12 cm
||||||| base
    work    10 cm
=======
    work    14 cm
>>>>>>> theirs
    bind off
"""


def found(text):
    return [
        (one.code, Source("a.wale", text).place(one.labels[0].span.start)[0])
        for one in parse(Source("a.wale", text))[1]
    ]


def test_each_conflict_is_one_problem():
    assert found(CONFLICT) == [("E108", 4)]
    assert found(CONFLICT + CONFLICT.removeprefix("wale 1\n")) == [("E108", 4), ("E108", 14)]
    last = parse(Source("a.wale", CONFLICT))[1][0].labels[-1].span
    assert CONFLICT[last.start : last.end] == ">>>>>>> theirs"


def test_other_signs_are_no_marks():
    text = 'wale 1\npattern "A"\n    about "<<<<<<< here"\n    -- <<<<<<< there\n'
    assert found(text) == []
    assert found(text + "<<<< ours\n") == [("E112", 5)]
