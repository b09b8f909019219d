"""Sizes from a CSV file beside the spec: what is read, and slips with their places in that file."""

from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from support import MILL_YARNS, checked, codes, errors

from wale.driver import check_spec
from wale.files import MemoryWorld
from wale.parse.cells import rows_of
from wale.source import Source

CREW = "size,bust cm,head inch,wrist mm\nS,86.5,20 1/2,150\nM,94,22,160\nL,104,22 1/2,\n"
SPEC = """wale 1

pattern "Cowl"
    use "mill-yarns.wale"

sizes from "crew.csv"
    ease head 4 cm

piece cowl, in the round
    cast on head in plain-round
    work    to 20 cm
    bind off
"""


def read(table: str | bytes, spec: str = SPEC):
    """Check a spec beside a table."""
    files: dict[str, str | bytes] = {"a.wale": spec, "mill-yarns.wale": MILL_YARNS, "crew.csv": table}
    return check_spec(MemoryWorld(files), "a.wale")


def test_each_figure_is_read_in_the_unit_of_its_column() -> None:
    done = read(CREW)
    assert done.spec is not None, done.problems
    assert [size.name for size in done.spec.sizes] == ["S", "M", "L"]
    small, _, large = (size.measures for size in done.spec.sizes)
    # 20 1/2 in x 2.54 = 52.07 cm
    assert {name: one.value for name, one in small.items()} == {
        "bust": Fraction("86.5"),
        "head": Fraction("52.07"),
        "wrist": Fraction(15),
    }
    assert set(large) == {"bust", "head"}
    assert small["head"].source == 'given in "crew.csv"' and small["head"].span is not None
    assert done.sources["crew.csv"].cut(small["head"].span) == "20 1/2"


@pytest.mark.parametrize(
    "table",
    [
        CREW.encode(),
        b"\xef\xbb\xbf" + CREW.encode(),
        CREW.replace("\n", "\r\n").encode(),
        CREW.replace("\n", "\r\n").rstrip().encode(),
        b"\n\n,,,\n" + CREW.encode() + b"\n,,,\n\n",
        CREW.replace("bust cm", '"bust cm"').replace("20 1/2", '"20  1/2"').replace("S,86.5", ' S , "86.5" ').encode(),
    ],
    ids=["plain", "byte order mark", "CRLF", "no last line end", "blank rows", "quotes and spaces"],
)
def test_all_ways_in_which_a_spreadsheet_writes_it_are_the_same(table: bytes) -> None:
    found, wanted = read(table), read(CREW)
    assert found.plan is not None and wanted.plan is not None, found.problems
    assert found.plan.pieces[0].levels[0].counts == wanted.plan.pieces[0].levels[0].counts
    values = [
        [{name: one.value for name, one in size.measures.items()} for size in done.spec.sizes]
        for done in (found, wanted)
        if done.spec is not None
    ]
    assert values[0] == values[1]


def test_sizes_are_chosen_and_lines_of_the_block_go_before_the_table() -> None:
    spec = SPEC.replace('"crew.csv"\n', '"crew.csv" S L\n    measure wrist 15 (17) cm\n')
    done = read(CREW, spec)
    assert done.spec is not None, done.problems
    assert [(size.name, size.measures["wrist"].value) for size in done.spec.sizes] == [("S", 15), ("L", 17)]


def test_the_pattern_says_where_the_bodies_come_from() -> None:
    done = read(CREW)
    assert done.spec is not None
    assert [one.source for one in done.spec.assumptions if "sizes from" in one.text] == ['"crew.csv"']


@pytest.mark.parametrize(
    ("table", "code", "place"),
    [
        ("", "E290", ""),
        ("size,bust cm\n", "E290", "size"),
        ("size;bust cm\nS;86\n", "E290", "size;bust cm"),
        ('size,bust cm\nS,"86\nM,94\n', "E290", '"86'),
        ('size,bust cm\nS,"86" 3\n', "E290", '"86"'),
        ("size" + ",a cm" * 60 + "\n", "E290", "size" + ",a cm" * 60),
        ("name,bust cm\nS,86\n", "E291", "name"),
        ("size,bust\nS,86\n", "E291", "bust"),
        ("size,bust kg\nS,86\n", "E291", "bust kg"),
        ("size,upper arm cm\nS,86\n", "E291", "upper arm cm"),
        ("size,bust cm,chest cm\nS,86,87\n", "E291", "chest cm"),
        ("size,bust cm\nS,86 cm\n", "E292", "86 cm"),
        ('size,bust cm\nS,"86,5"\n', "E292", '"86,5"'),
        ("size,bust cm\nS,0\n", "E292", "0"),
        ("size,bust cm\nS,1/0\n", "E292", "1/0"),
        ("size,bust cm\nS,9999999\n", "E292", "9999999"),
        ("size,bust cm,head cm\nS,86\n", "E293", "S,86"),
        ("size,bust cm\n,86\n", "E293", ""),
        ("size,bust cm\nextra small,86\n", "E293", "extra small"),
        ("size,bust cm\nS,86\nS,87\n", "E207", "S"),
        ("size,bust cm,head cm\nS,86,55\nM,80,56\n", "E225", "80"),
    ],
)
def test_slips_point_into_the_table(table: str, code: str, place: str) -> None:
    done = read(table)
    assert errors(done) == [code]
    span = done.problems[0].labels[0].span
    assert span.file == "crew.csv" and done.sources["crew.csv"].cut(span) == place


@pytest.mark.parametrize(
    ("old", "new", "code"),
    [
        ('"crew.csv"', '"crew.csv" S XL', "E216"),
        ('"crew.csv"', '"crew.csv" M S', "E226"),
        ('"crew.csv"', '"none.csv"', "E901"),
        ('"crew.csv"', '"../crew.csv"', "E907"),
        ('"crew.csv"', '"crew.txt"', "E906"),
        ('"crew.csv"', '"mill-yarns.wale"', "E290"),
        ('use "mill-yarns.wale"', 'use "mill-yarns.wale"\n    use "crew.csv"', "E231"),
    ],
)
def test_slips_of_the_line(old: str, new: str, code: str) -> None:
    done = read(CREW, SPEC.replace(old, new))
    assert errors(done) == [code]
    assert done.problems[0].labels[0].span.file == "a.wale"


def test_a_body_stands_beside_sizes_of_a_table() -> None:
    done = read(CREW, SPEC.replace("piece cowl", "body mine\n    measure head 55 cm\n\npiece cowl"))
    assert codes(done) == [] and done.spec is not None
    assert [size.name for size in done.spec.sizes] == ["S", "M", "L", "mine"]


def test_the_yarns_of_the_mill_are_no_table() -> None:
    assert errors(checked(SPEC.replace('from "crew.csv"', 'from "mill-yarns.wale"'))) == ["E290"]


@given(st.text(alphabet='ab1,;"\n\r\t .', max_size=40))
def test_any_text_is_taken_apart_and_nothing_is_lost(text: str) -> None:
    source = Source("a.csv", text)
    rows, problem = rows_of(source)
    cells = [cell for row in rows for cell in row]
    for cell in cells:
        assert 0 <= cell.span.start <= cell.span.end <= len(text)
        if '"' not in source.cut(cell.span):
            assert cell.text == " ".join(source.cut(cell.span).split())
    if problem is None:
        signs = sum(map(len, text.split()))
        assert sum(len("".join(cell.text.split())) for cell in cells) <= signs
        assert (
            "".join(cell.text for cell in cells).replace(" ", "")
            == "".join(sign for sign in text if sign not in ', \n\r\t"')
            or '"' in text
        )
