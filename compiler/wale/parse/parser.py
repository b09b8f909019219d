"""From text to the lossless tree; never fails.

Input: the source of one file. Output: its tree and the problems met. A line that cannot be read is left out of the tree
and has its place in `Tree.dropped`; every other code point belongs to a statement, a comment or white space.
"""

from __future__ import annotations

from bisect import bisect_left

from wale.parse.lines import HEADS, Layout, Line, lay_out
from wale.parse.reader import read_line
from wale.parse.signs import refused
from wale.parse.tree import Block, Number, Statement, Tree, Trivia
from wale.problems.nearest import nearest
from wale.problems.problem import Edit, Fix, Label, Problem, problem
from wale.source import Source, Span

EDITION = "wale"
EDITIONS = (1,)
MAX_CHARACTERS = 200_000
MAX_LINES = 5_000


def parse(source: Source) -> tuple[Tree, list[Problem]]:
    """Give the tree of a file and what is wrong with its syntax.

    Args:
        source: any text; line ends may be LF or CRLF, a byte order mark may stand first.

    Returns:
        The tree, and problems E101 to E132 in the order of their places. Never raises.
    """
    lines = source.text.count("\n") + 1
    if len(source.text) > MAX_CHARACTERS or lines > MAX_LINES:
        return Tree(source, None, (), dropped=(Span(source.name, 0, len(source.text)),)), [_too_long(source, lines)]
    layout = lay_out(source)
    file = _File(source, layout)
    file.read()
    if "<<<<<<<" in source.text:
        from wale.parse.unmerged import as_conflicts

        file.problems = as_conflicts(source, file.problems)
    file.problems.sort(key=lambda found: found.labels[0].span.start)
    return Tree(source, file.edition, tuple(file.parts), file.tail, tuple(file.dropped)), file.problems


def parse_used(source: Source) -> tuple[Tree, list[Problem]]:
    """Give the tree of a file that a spec names; that of a table of sizes is its text, for it has no lines."""
    return parse(source) if source.name.endswith(".wale") else (Tree(source, None, ()), [])


def _too_long(source: Source, lines: int) -> Problem:
    if lines > MAX_LINES:
        size, limit, end = f"{lines} lines", f"{MAX_LINES} lines", source.line_starts[MAX_LINES]
    else:
        size, limit, end = f"{len(source.text)} characters", f"{MAX_CHARACTERS} characters", MAX_CHARACTERS
    return problem(
        "E130",
        f"the file has {size}; a spec has {limit} at most",
        Span(source.name, end, len(source.text)),
        "beyond the limit",
        help="Part it into several files and name them with `use`.",
    )


class _File:
    """The parts of one file while they are gathered."""

    def __init__(self, source: Source, layout: Layout) -> None:
        self.source = source
        self.layout = layout
        self.problems = list(layout.problems)
        self.edition: Statement | None = None
        self.has_edition_line = False
        self.parts: list[Block | Statement] = []
        self.dropped: list[Span] = []
        self.tail = layout.tail
        self.above: tuple[str, ...] = ()  # notes above a dropped line pass to the next statement

    def read(self) -> None:
        """Read all logical lines into edition, blocks and statements."""
        lines = self.layout.lines
        refusals, hidden = refused(self.source)
        self.problems += refusals
        index, stray = 0, False
        while index < len(lines):
            head = lines[index]
            last = index + 1
            while last < len(lines) and lines[last].owner == index:
                last += 1
            body = lines[index + 1 : last]
            statements = [self._statement(line, hidden, line.owner == -1) for line in (head, *body)]
            stray = self._place(index, head, statements, body, stray)
            index = last
        self.tail = (*self.above, *self.tail)
        if not self.has_edition_line:
            self.problems.append(self._no_edition())
        self.dropped.sort()

    def _place(self, index: int, head: Line, statements: list[Statement | None], body: list[Line], stray: bool) -> bool:
        """Put what stands at one place of the left edge where it belongs; say whether it was a stray line."""
        first = statements[0]
        if head.owner == -2:
            self._orphan(head, first)
            return False
        if head.first == EDITION:
            self._take_edition(index, head, first)
        elif head.first == "let":
            if first is not None:
                self.parts.append(first)
        elif head.first in HEADS:
            kept = tuple(statement for statement in statements[1:] if statement is not None)
            if first is None:
                for statement in kept:
                    self._drop(statement)
            else:
                span = first.span.to(kept[-1].span) if kept else first.span
                self.parts.append(Block(first, kept, span))
            return False
        else:
            for each in statements:
                if each is not None:
                    self._drop(each)
            if first is not None and not (stray and not body):
                self.problems.append(self._stray(head, bool(body)))
            return not body
        if body:
            self._orphan(body[0], None)
            for each in statements[1:]:
                if each is not None:
                    self._drop(each)
        return False

    def _statement(self, line: Line, hidden: list[int], is_head: bool) -> Statement | None:
        """Read one logical line with its trivia, or note that it is dropped."""
        whole = Span(self.source.name, line.start, line.end)
        above = (*self.above, *line.above)
        if bisect_left(hidden, line.start) != bisect_left(hidden, line.end):
            read, rest = None, None
        else:
            read, rest, found = read_line(self.source, line, is_head)
            self.problems += found
        if read is None:
            self.above = above
            self._drop_line(whole)
            return None
        if rest is not None:
            self.dropped.append(rest)
        self.above = ()
        trivia = Trivia(above, line.trailing, tuple(line.inner))
        return Statement(read.keyword, read.items, read.options, read.span, trivia)

    def _drop_line(self, span: Span) -> None:
        """Leave a place out, to the end of its line."""
        end = self.source.text.find("\n", span.end)
        self.dropped.append(Span(span.file, span.start, len(self.source.text) if end < 0 else end))

    def _drop(self, statement: Statement) -> None:
        """Leave a statement out that can be read but stands where nothing can own it."""
        self._drop_line(statement.span)
        self.above = (*self.above, *statement.trivia.above)

    def _take_edition(self, index: int, head: Line, first: Statement | None) -> None:
        """Keep the edition line, or tell why it is none."""
        self.has_edition_line = True
        if first is None:
            return
        if index or self.edition is not None:
            line_end = self.source.text.find("\n", first.span.end)
            whole = Span(self.source.name, head.start, len(self.source.text) if line_end < 0 else line_end + 1)
            self._drop(first)
            self.problems.append(
                problem(
                    "E103",
                    "the edition is named once, on the first line",
                    first.span,
                    help="Take this line away; `wale 1` is the first line of the file.",
                    fixes=(Fix("take the line away", (Edit(whole, ""),), "safe"),),
                )
            )
            self.has_edition_line = self.edition is not None
            return
        number = first.items[0] if len(first.items) == 1 else None
        if isinstance(number, Number) and number.value in EDITIONS and number.unit is None and not first.options:
            self.edition = first
            return
        self._drop(first)
        if isinstance(number, Number) and number.value.denominator == 1 and number.value > EDITIONS[-1]:
            self.problems.append(
                problem(
                    "E102",
                    f"the file is of edition {number.value}, and this compiler reads edition {EDITIONS[-1]}",
                    first.span,
                    "a later edition",
                    help="A newer Wale reads it. An older one could take its lines for something else.",
                )
            )
            return
        self.problems.append(
            problem(
                "E102",
                f"`{self.source.cut(first.span)[:30]}` names no edition that is known here",
                first.span,
                "`wale 1` fits here",
                help="This compiler reads edition 1.",
                fixes=(Fix("write `wale 1`", (Edit(first.span, "wale 1"),), "unsafe"),),
            )
        )

    def _no_edition(self) -> Problem:
        start = 1 if self.source.text.startswith("\ufeff") else 0
        here = self.layout.lines[0] if self.layout.lines else None
        span = Span(self.source.name, here.start, here.end) if here else Span(self.source.name, start, start)
        line_end = "\r\n" if "\r\n" in self.source.text else "\n"
        edit = Edit(Span(self.source.name, start, start), f"wale 1{line_end}")
        return problem(
            "E101",
            "the file does not start with its edition",
            span,
            "`wale 1` fits before this",
            help="The first line names the edition of the language, so that old files keep their meaning.",
            fixes=(Fix("write `wale 1` first", (edit,), "safe"),),
        )

    def _orphan(self, line: Line, statement: Statement | None) -> None:
        """Tell that an indented line has no block above it."""
        if statement is not None:
            self._drop(statement)
        margin = Span(self.source.name, self.source.text.rfind("\n", 0, line.start) + 1, line.start)
        self.problems.append(
            problem(
                "E105",
                "an indented line stands under no block",
                Span(self.source.name, line.start, line.end),
                "which block is this part of?",
                help=f"Start a block above it ({', '.join(HEADS)}), or move the line to the left edge.",
                fixes=(Fix("move it to the left edge", (Edit(margin, ""),), "unsafe"),),
            )
        )

    def _stray(self, head: Line, has_body: bool) -> Problem:
        """Tell that a line at the left edge starts no block."""
        word = Span(self.source.name, head.start, head.start + len(head.first))
        fixes = [
            Fix(f"write `{near}`", (Edit(word, near),), "unsafe") for near in nearest(head.first, (*HEADS, "let"), 1)
        ]
        above = self.parts[-1] if self.parts else None
        labels = [Label(word if head.first else Span(word.file, head.start, head.end))]
        if not fixes and not has_body and isinstance(above, Block):
            labels.append(Label(above.head.span, "is it a line of this block?"))
            indent = "    "
            if above.body:
                line, column = self.source.place(above.body[0].span.start)
                indent = self.source.line(line)[: column - 1]
            edit = Edit(Span(word.file, head.start, head.start), indent)
            fixes.append(Fix("indent it", (edit,), "unsafe"))
        # asked for its words alone: what a line means is not known here
        from wale.resolve.belonging import blocks_of

        owners = " or ".join(f"`{block}`" for block in blocks_of(head.first))
        place = f"`{head.first}` begins a line of a {owners} block. " if owners else ""
        seen = f"`{head.first}` starts no block" if head.first else "a row of cells stands at the left edge"
        return Problem(
            "E104",
            seen,
            tuple(labels),
            help=f"{place}At the left edge fits one of {', '.join(HEADS)} or let; the lines of a block are indented.",
            fixes=tuple(fixes),
        )
