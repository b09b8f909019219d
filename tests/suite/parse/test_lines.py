"""How text becomes statements: the generic syntax, numbers, continuation, comments."""

from fractions import Fraction

import pytest

from wale.parse import tree
from wale.parse.parser import parse
from wale.source import Source


def read(text: str) -> tree.Tree:
    found, problems = parse(Source("t.wale", text))
    assert problems == []
    return found


def line(text: str) -> tree.Statement:
    """Give the statement of one line inside a block."""
    (block,) = read(f"wale 1\npiece back\n    {text}\n").parts
    assert isinstance(block, tree.Block)
    (statement,) = block.body
    return statement


def plain(node: object) -> object:
    """Say an item in short, without places."""
    match node:
        case tree.Name(text) | tree.Small(text):
            return text
        case tree.Number(value, unit):
            return (value, unit)
        case tree.Ratio(over, under, unit):
            return ("ratio", over, under, unit)
        case tree.PerSize(values, unit):
            return (list(values), unit)
        case tree.Negative(operand):
            return ("-", plain(operand))
        case tree.Binary(op, left, right):
            return (op, plain(left), plain(right))
        case tree.Call(name, arguments):
            return (name.text + "()", *map(plain, arguments))
        case tree.Text(text):
            return f'"{text}"'
        case tree.Colour(text):
            return text
        case tree.Bars(text):
            return f"|{text}|"
    return "="


HALF = Fraction(1, 2)
SMALL_WORDS = ("in", "on", "to", "over", "at", "with", "and", "of", "per", "into", "along", "from", "as")


@pytest.mark.parametrize(
    ("text", "items"),
    [
        ("cast on hip/2 in facing", ["on", ("/", "hip", (2, None)), "in", "facing"]),
        ("work 6 cm", [(6, "cm")]),
        ("hem 3.25 mm", [(Fraction(13, 4), "mm")]),
        ("hem 5 1/2 inch", [(5 + HALF, "inch")]),
        ("needle US 10 1/2", ["US", (10 + HALF, None)]),
        ("count 2/8 Nm wool", [("ratio", 2, 8, "Nm"), "wool"]),
        ("work 18 (19, 20 1/2, 21) cm", [([18, 19, 20 + HALF, 21], "cm")]),
        ("work -2 (-3, 0) cm deep", [([-2, -3, 0], "cm"), "deep"]),
        ("ease head -2.5 cm", ["head", ("-", (Fraction(5, 2), "cm"))]),
        ("a 1 + 2 * 3 - 4 / 5", [("-", ("+", (1, None), ("*", (2, None), (3, None))), ("/", (4, None), (5, None)))]),
        ("a (2 (3, 4) cm) in rye", [([2, 3, 4], "cm"), "in", "rye"]),
        ("a hip/2/3", [("/", ("/", "hip", (2, None)), (3, None))]),
        ("a (hip + bust)*2", [("*", ("+", "hip", "bust"), (2, None))]),
        ("a max(armhole-depth, upper-arm/2)", [("max()", "armhole-depth", ("/", "upper-arm", (2, None)))]),
        ("a back.bust - 10 cm", [("-", "back.bust", (10, "cm"))]),
        ("sizes women XS 2XL 4-ply 2x2", ["women", "XS", "2XL", "4-ply", "2x2"]),
        ("key |-| rye", ["|-|", "rye"]),
        ('about "two -- three"', ['"two -- three"']),
        ("colour #8A5a2B", ["#8a5a2b"]),
        ("counted 40 sts = 13.9 cm", [(40, "sts"), "=", (Fraction(139, 10), "cm")]),
        ("shape in-the-round over incline", ["in-the-round", "over", "incline"]),
        ("naïve grün", ["grün"]),
    ],
)
def test_items_of_a_line(text: str, items: list[object]) -> None:
    assert [plain(item) for item in line(text).items] == items


@pytest.mark.parametrize("word", SMALL_WORDS)
def test_small_words_are_reserved(word: str) -> None:
    (item,) = line(f"x {word}").items
    assert isinstance(item, tree.Small)


def test_options_follow_commas() -> None:
    statement = line("rib 5 cm, 2x2, on 3 mm")
    assert statement.keyword.text == "rib"
    assert [[plain(item) for item in option] for option in statement.options] == [["2x2"], ["on", (3, "mm")]]


def test_motif_row_has_an_empty_keyword_and_keeps_any_cell() -> None:
    statement = line("| - -- × x |   -- last row")
    assert statement.keyword.text == ""
    assert [plain(item) for item in statement.items] == ["| - -- × x |"]
    assert statement.trivia.trailing == "-- last row"


def test_brackets_count_to_the_span_of_what_they_hold() -> None:
    text = "wale 1\nlet a = (hip + 2 cm) / 2\n"
    found = read(text)
    (let,) = found.parts
    assert isinstance(let, tree.Statement)
    quotient = let.items[2]
    assert isinstance(quotient, tree.Binary)
    assert found.source.cut(quotient.left.span) == "(hip + 2 cm)"
    assert found.source.cut(quotient.span) == "(hip + 2 cm) / 2"


def test_parts_of_a_file() -> None:
    found = read("wale 1\nlet a = 1\npiece back, worked flat\n  work 2 cm\n  bind off\njoin\n")
    assert found.edition is not None
    assert [type(part).__name__ for part in found.parts] == ["Statement", "Block", "Block"]
    back = found.parts[1]
    assert isinstance(back, tree.Block)
    assert found.source.cut(back.span) == "piece back, worked flat\n  work 2 cm\n  bind off"
    assert [statement.keyword.text for statement in back.body] == ["work", "bind"]


def test_deeper_lines_continue_and_keep_their_comments() -> None:
    found = read(
        "wale 1\nlet a = max(1,   -- one\n   2)  -- two\nbody mine\n  bust 97 cm,\n"
        "      -- between\n     hip 103 cm\n  waist 80 cm\n"
    )
    let, body = found.parts
    assert isinstance(let, tree.Statement) and isinstance(body, tree.Block)
    assert plain(let.items[2]) == ("max()", (1, None), (2, None))
    assert (let.trivia.inner, let.trivia.trailing) == (("-- one",), "-- two")
    assert [statement.keyword.text for statement in body.body] == ["bust", "waist"]
    assert body.body[0].trivia.inner == ("-- between",)


def test_comments_belong_to_the_statement_below() -> None:
    found = read("-- file\n\nwale 1\n\n-- the back\npiece back -- flat\n    -- first\n    work 2 cm\n-- end\n")
    assert found.edition is not None
    assert found.edition.trivia.above == ("-- file", "")
    (back,) = found.parts
    assert isinstance(back, tree.Block)
    assert back.head.trivia == tree.Trivia(("", "-- the back"), "-- flat")
    assert back.body[0].trivia.above == ("    -- first",)
    assert found.tail == ("-- end",)


@pytest.mark.parametrize(
    "text", ["\ufeffwale 1\njoin\n", "wale 1\r\njoin\r\n", "wale 1\njoin", "wale 1\n\n\njoin  \n  "]
)
def test_byte_order_mark_line_ends_and_loose_spaces(text: str) -> None:
    assert len(read(text).parts) == 1
