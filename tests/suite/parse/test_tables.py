"""The shipped tables belong to the shipped grammar, and read lines as a parser built from it does."""

from test_lossless import SAMPLE, statements
from wale.grammar import tables

from wale.parse.parser import parse
from wale.parse.syntax import built_parser, digest, grammar_text, line_parser
from wale.source import Source


def test_tables_are_those_of_the_grammar() -> None:
    assert digest(grammar_text()) == tables.DIGEST


def test_tables_read_as_the_grammar_does() -> None:
    built = built_parser()
    tree, _ = parse(Source("t.wale", SAMPLE))
    lines = [tree.source.cut(statement.span) for statement in statements(tree) if not statement.trivia.inner]
    assert len(lines) > 15
    for line in lines:
        assert line_parser().parse(line) == built.parse(line)
