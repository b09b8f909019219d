"""What one run of `resolve` gathers: problems, assumptions, declared names, and which of them are broken.

A name that was declared but could not be resolved is poison: whoever uses it stays silent, so that one slip gives one
problem. The same holds for words of lines that the parser had to leave out.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from fractions import Fraction

from msgspec import Struct, field
from msgspec.structs import replace

from wale.parse.lines import comment_start
from wale.parse.tree import Block, Item, Name, Statement, Tree
from wale.problems.nearest import nearest
from wale.problems.problem import Edit, Fix, Label, Problem
from wale.resolve.shapes import Line, Match, Mismatch, Shape, in_brackets, match, show, span_of
from wale.source import Source, Span
from wale.spec import Assumption

_WORD = re.compile(r"[^\s,()|\"=#*/+]+")

UNKNOWN = {
    "yarn": "E211",
    "swatch": "E212",
    "motif": "E213",
    "piece": "E214",
    "construction": "E280",
}
"""Codes of names that are not found."""


def near_word(word: str, known: Iterable[str]) -> str | None:
    """Give the known word that is nearest to an unknown one, or None; letters that changed places come first."""
    return min(nearest(word, known), key=lambda other: sorted(other) != sorted(word), default=None)


class Context(Struct):
    """The state of one run; nothing outside `resolve` sees it."""

    sources: dict[str, Source] = field(default_factory=dict)
    problems: list[Problem] = field(default_factory=list)
    assumptions: list[Assumption] = field(default_factory=list)
    blocks: dict[str, dict[str, Block]] = field(default_factory=dict)
    places: dict[tuple[str, str], Span] = field(default_factory=dict)
    dropped: list[Span] = field(default_factory=list)
    lost_words: set[str] = field(default_factory=set)
    any_lost: bool = False
    told: set[tuple[str, str]] = field(default_factory=set)
    units: str = "cm"

    def add_source(self, tree: Tree) -> None:
        """Take in a tree's text and the words of its unread lines."""
        self.sources[tree.source.name] = tree.source
        for span in tree.dropped:
            self.dropped.append(span)
            self.lost_words.update(_WORD.findall(tree.source.cut(span)))

    def cut(self, span: Span) -> str:
        """Give the words under a span on one line, with single spaces and without the comments in it."""
        lines = self.sources[span.file].cut(span).split("\n")
        return " ".join(" ".join(line[: comment_start(line)] for line in lines).split())

    def report(
        self,
        code: str,
        message: str,
        span: Span,
        label: str = "",
        help: str = "",
        fixes: Sequence[Fix] = (),
        also: Iterable[tuple[Span, str]] = (),
        size: str = "",
    ) -> None:
        """Add a problem with its primary place and further places."""
        labels = (Label(span, label), *(Label(place, text) for place, text in also))
        self.problems.append(Problem(code, message, labels, help, tuple(fixes), size))

    def assume(
        self,
        text: str,
        source: str = "common practice, no source",
        span: Span | None = None,
        values: tuple[Fraction, ...] = (),
        sources: tuple[str, ...] = (),
    ) -> None:
        """Note a default that was used, once; `{}` in the text stands for the values in cm, one a size or one.

        `sources` are one a size, "" where it does not hold.
        """
        if all(text != known.text for known in self.assumptions):
            self.assumptions.append(Assumption(text, source, span, values, sources))

    def is_news(self, code: str, word: str) -> bool:
        """Say whether a word is complained about for the first time; the same slip in ten lines is one problem."""
        news = (code, word) not in self.told
        self.told.add((code, word))
        return news

    def is_lost(self, word: str) -> bool:
        """Say whether a word stands in a line, or may stand in a file, that could not be read."""
        return self.any_lost or word in self.lost_words

    def is_damaged(self, block: Block) -> bool:
        """Say whether lines of a block could not be read, so that nothing can be said to be missing in it."""
        first = block.head.span
        lines = [part.start for part in self.dropped if part.file == first.file and part.start >= first.start]
        if not lines:
            return False
        following = [
            other.head.span.start
            for group in self.blocks.values()
            for other in group.values()
            if other.head.span.file == first.file and other.head.span.start > first.start
        ]
        return min(lines) < min(following, default=min(lines) + 1)

    def declare(self, kind: str, name: Name, block: Block) -> bool:
        """Note a block's name; a second one of the same kind is a problem."""
        group = self.blocks.setdefault(kind, {})
        if name.text in group:
            first = self.places[kind, name.text]
            self.report(
                "E207",
                f"there are two {kind} blocks named `{name.text}`",
                name.span,
                "the second one",
                "Give one of them another name.",
                also=[(first, "the first one")],
            )
            return False
        group[name.text] = block
        self.places[kind, name.text] = name.span
        return True

    def knows(self, kind: str, name: Name) -> bool:
        """Say whether a block of that name is declared; report it with near names where not (unless it was lost)."""
        group = self.blocks.get(kind, {})
        if name.text in group:
            return True
        if not self.is_lost(name.text) and self.is_news(UNKNOWN[kind], name.text):
            near = near_word(name.text, group)
            there = ", ".join(f"`{other}`" for other in list(group)[:8]) or f"no {kind} block at all"
            others = [
                other for other in ("yarn", "swatch", "motif", "piece") if name.text in self.blocks.get(other, {})
            ]
            hint = f"`{name.text}` is a {others[0]}. " if others else ""
            self.report(
                UNKNOWN[kind],
                f"there is no {kind} named `{name.text}`",
                name.span,
                f"did you mean `{near}`?" if near else f"no such {kind}",
                f"{hint}Looked for it among the {kind} blocks of this file and of the files that it uses: {there}.",
                fixes=[Fix(f"write `{near}`", (Edit(name.span, near),))] if near else [],
            )
        return False

    def read(self, statement: Statement, shapes: dict[str, Shape], where: str) -> Line | None:
        """Lay a statement against the shape of its keyword; report what doesn't fit."""
        keyword = statement.keyword
        shape = shapes.get(keyword.text)
        if shape is None:
            self._unknown_keyword(statement, shapes, where)
            return None
        if self._parted(statement, shapes):
            return None
        head = self._head(statement, shape)
        if head is None:
            return None
        options: dict[str, Match] = {}
        listed: list[Match] = []
        sound = True
        for part in statement.options:
            found = self._option(part, statement, head, shape)
            if found is None:
                sound = False
            elif found.form == shape.listed:
                listed.append(found)
            elif found.form in options:
                self.report("E205", f"`{show(found.form)}` stands twice in one line", found.span, "the second one")
                sound = False
            else:
                options[found.form] = found
        return Line(keyword.text, head, statement.span, options, tuple(listed)) if sound else None

    def read_body(self, block: Block, shapes: dict[str, Shape], where: str) -> tuple[dict[str, list[Line]], bool]:
        """Read the lines of a block by keyword; the flag says whether all could be read."""
        found: dict[str, list[Line]] = {}
        sound = not self.is_damaged(block)
        for statement in block.body:
            line = self.read(statement, shapes, where)
            if line is None:
                sound = False
                continue
            before = found.setdefault(line.keyword, [])
            if before and shapes[line.keyword].once:
                self.twice(line, before[0])
                sound = False
            before.append(line)
        return found, sound

    def twice(self, line: Line, first: Line) -> None:
        """Report a line that may stand only once."""
        self.report(
            "E205",
            f"`{line.keyword}` stands twice in one block",
            line.span,
            "the second one",
            "Leave one of the two out.",
            also=[(first.span, "the first one")],
        )

    def missing(self, block: Block, what: str, example: str) -> None:
        """Report a line that a block needs."""
        head = block.head
        self.report(
            "E206",
            f"`{self.cut(head.span)}` needs {what}",
            head.span,
            f"{what} is missing",
            f"Add a line such as `{example}`.",
        )

    def _unknown_keyword(self, statement: Statement, shapes: dict[str, Shape], where: str) -> None:
        keyword = statement.keyword
        near = near_word(keyword.text, shapes)
        if near is None and not self.is_news("E202", f"{where} {self._block_of(statement)}"):
            return
        self.report(
            "E202",
            f"no line in {where} starts with `{keyword.text}`"
            if keyword.text
            else f"a bar row has no place in {where}",
            keyword.span if keyword.text else statement.span,
            f"did you mean `{near}`?" if near else "does not belong here",
            f"Lines here start with {', '.join(f'`{word}`' for word in shapes)}.",
            fixes=[Fix(f"write `{near}`", (Edit(keyword.span, near),))] if near else [],
        )

    def _parted(self, statement: Statement, shapes: dict[str, Shape]) -> bool:
        """Say whether a keyword with a hyphen is written as two words, such as `thumb gusset`; report it."""
        keyword, second = statement.keyword, next(iter(statement.items), None)
        whole = f"{keyword.text}-{second.text}" if isinstance(second, Name) else ""
        if whole not in shapes:
            return False
        assert second is not None
        span, told = keyword.span.to(second.span), whole.replace("-", " ")
        fix = Fix(f"write `{whole}`", (Edit(span, whole),))
        self.report("E202", f"`{told}` is written with a hyphen", span, f"did you mean `{whole}`?", fixes=[fix])
        return True

    def _block_of(self, statement: Statement) -> int:
        """Give the offset of the block that holds a statement: a lost head strews lines of another kind into one."""
        file = statement.span.file
        heads = [
            block.head.span.start
            for group in self.blocks.values()
            for block in group.values()
            if block.head.span.file == file
        ]
        return max((start for start in heads if start <= statement.span.start), default=-1)

    def _head(self, statement: Statement, shape: Shape) -> Match | None:
        items: tuple[Item, ...] = (statement.keyword, *statement.items) if statement.keyword.text else statement.items
        return self._best(shape.forms, items, statement.span, statement.keyword.text)

    def _best(self, forms: Iterable[str], items: Sequence[Item], place: Span, keyword: str) -> Match | None:
        reached, expected = -1, dict[str, str]()
        for form in forms:
            found = match(form, items, place)
            if isinstance(found, Match):
                return found
            if found.reached > reached:
                reached, expected = found.reached, {}
            if found.reached == reached:
                expected[found.expected] = form
        self._misfit(keyword, Mismatch(reached, " or ".join(expected)), items, place, list(forms))
        return None

    def _misfit(self, keyword: str, found: Mismatch, items: Sequence[Item], place: Span, forms: list[str]) -> None:
        if found.reached < len(items):
            span = items[found.reached].span
            text, label = f"expected {found.expected}, not `{self.cut(span)}`", f"expected {found.expected}"
        else:
            last = items[-1].span if items else place
            span = replace(last, start=last.end)
            text = label = f"expected {found.expected} here"
        way, fixes = self.form_help(forms, items, found.reached, place)
        self.report("E203", f"this `{keyword}` line does not read as one: {text}", span, label, way, fixes=fixes)

    def form_help(self, forms: list[str], items: Sequence[Item], at: int, place: Span) -> tuple[str, list[Fix]]:
        """Give help on a line that has none of the forms, and fixes: numbers side by side may be a list of sizes."""
        listed = in_brackets(items, at, self.cut)
        if listed is not None and any(isinstance(match(form, listed.items, place), Match) for form in forms):
            fix = Fix(f"write `{listed.text}`", (Edit(listed.span, listed.text),))
            return f"The value of each size after the first stands in brackets: `{listed.text}`.", [fix]
        return "Write " + ", or ".join(f"`{show(form)}`" for form in forms) + ".", []

    def _option(self, part: tuple[Item, ...], statement: Statement, head: Match, shape: Shape) -> Match | None:
        place = span_of(part, statement.span)
        forms = [*shape.forms[head.form], *([shape.listed] if shape.listed else [])]
        for form in forms:
            found = match(form, part, place)
            if isinstance(found, Match):
                return found
        keyword = statement.keyword.text
        first = part[0] if part else None
        alike = [form for form in forms if first is not None and getattr(first, "text", None) == form.split()[0]]
        if alike:
            self._best(alike, part, place, keyword)
            return None
        if len(forms) == 1:
            self._best(forms, part, place, keyword)
            return None
        text = self.cut(place)
        near = near_word(text, [form for form in forms if form.islower()])
        self.report(
            "E204",
            f"`{text}` is no option of this `{keyword}` line",
            place,
            f"did you mean `{near}`?" if near else "not known here",
            "After the comma may stand: " + ", ".join(f"`{show(form)}`" for form in forms) + "."
            if forms
            else f"A `{show(head.form)}` line takes no options.",
            fixes=[Fix(f"write `{near}`", (Edit(place, near),))] if near else [],
        )
        return None
