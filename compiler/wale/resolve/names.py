"""Names in expressions: lets, measures with their ease, bare measures, defaults, and solved widths."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct, field

from wale.measure import Constant, Solved
from wale.parse.tree import Equals, Expr, Name, Statement
from wale.problems.problem import Edit, Fix
from wale.resolve.context import Context, near_word
from wale.resolve.shapes import EXPRESSIONS
from wale.resolve.size_values import Sizing, report_absent
from wale.resolve.values import Scope, Value
from wale.sizes import DEFAULTS, Body, Measured, measure_name
from wale.source import Span
from wale.spec import Size


class Let(Struct, frozen=True):
    """A `let` line taken apart."""

    name: Name
    value: Expr
    span: Span


Key = tuple[tuple[Span, ...], str]
"""A `let` line: the `make` line whose construction has it, where one has, and its name."""


class Names(Struct):
    """Looks up names for one spec. Lines of a construction know its own `let` lines before those of the file.

    Attributes:
        pieces: names of all pieces, broken ones too: `back.bust` is a solved width.
        solved: every solved width that is used, with its place; checked once the pieces are known.
        used: body measures, and garment measures that follow from them, in the order of their first use.
    """

    context: Context
    sizing: Sizing
    pieces: frozenset[str]
    lets: dict[Key, Let] = field(default_factory=dict)
    solved: dict[str, Span] = field(default_factory=dict)
    used: dict[str, None] = field(default_factory=dict)
    _known: dict[Key, Value | None] = field(default_factory=dict)
    _open: list[Key] = field(default_factory=list)

    @property
    def scope(self) -> Scope:
        """The scope of lets, pieces and bands."""
        sizes = self.sizing.all
        return Scope(
            self.context,
            max(len(sizes), 1),
            tuple(size.name for size in sizes) or ("",),
            self.lookup,
            self.sizing.sound and bool(sizes),
        )

    def add_let(self, statement: Statement) -> None:
        """Take in a `let` line."""
        items = statement.items
        if (
            len(items) != 3
            or not isinstance(items[0], Name)
            or not isinstance(items[1], Equals)
            or not isinstance(items[2], EXPRESSIONS)
            or statement.options
        ):
            way, fixes = self.context.form_help(["NAME = VALUE"], items, len(items), statement.span)
            self.context.report(
                "E203",
                "this `let` line does not read as one",
                statement.span,
                "expected a name, `=` and a value",
                way if fixes else "Write `let NAME = VALUE`, such as `let sleeve-length = 46 cm`.",
                fixes=fixes,
            )
            if items and isinstance(items[0], Name):
                self._known.setdefault(_own(items[0]), None)
            return
        name = items[0]
        key = _own(name)
        if key in self.lets:
            self.context.report(
                "E207",
                f"there are two `let` lines for `{name.text}`",
                name.span,
                "the second one",
                "Give one of them another name.",
                also=[(self.lets[key].name.span, "the first one")],
            )
            return
        if "." in name.text or (self.sizing.knows(name.text) and name.text not in DEFAULTS):
            why = "a name of a `let` has no dot" if "." in name.text else f"`{name.text}` is a body measure already"
            self.context.report(
                "E207",
                why,
                name.span,
                "not free",
                "Choose another name; a body measure is changed in the `sizes` or `body` block.",
            )
            self._known[key] = None
            return
        self.lets[key] = Let(name, items[2], statement.span)

    def check_lets(self) -> None:
        """Look every `let` up once, in file order, so that each is checked even where nothing uses it."""
        for key in list(self.lets):
            self._let(key)

    def lookup(self, name: Name) -> Value | None:
        """Give the value of a name; report it where it is not found."""
        text = name.text
        key = next((one for one in (_own(name), ((), text)) if one in self.lets or one in self._known), None)
        if key is not None:
            found = self._let(key)
            if found is None:
                return None
            return Value(found.term, found.kind, (text,), found.inputs, found.nodes)
        if "." in text:
            return self._dotted(name)
        measure = measure_name(text) or text
        if measure in DEFAULTS and not self._has_ease(measure):
            return self._default(name, measure)
        if self.sizing.knows(measure):
            return self._measure(name, measure)
        self._unknown(name)
        return None

    def _let(self, key: Key) -> Value | None:
        if key in self._known:
            return self._known[key]
        let, text = self.lets[key], key[1]
        if key in self._open:
            ring = [*self._open[self._open.index(key) :], key]
            self.context.report(
                "E217",
                f"`let {text}` needs itself: {' → '.join(other for _, other in ring)}",
                let.value.span,
                "comes back to itself",
                "Give one of these lines a value of its own.",
                also=[(self.lets[other].value.span, f"`{other[1]}`") for other in ring[1:-1]],
            )
            for other in ring:
                self._known[other] = None
            return None
        if len(self._open) > 40:
            if self.context.is_news("E223", "let"):
                self._too_deep(let)
            self._known[key] = None
            return None
        self._open.append(key)
        found = self.scope.value(let.value)
        self._open.pop()
        if key not in self._known:
            if found is not None:
                inputs = tuple(dict.fromkeys((let.span, *found.inputs)))
                found = Value(found.term, found.kind, (text,), inputs, found.nodes)
            self._known[key] = found
        return self._known[key]

    def _too_deep(self, let: Let) -> None:
        self.context.report(
            "E223",
            "these `let` lines build on one another more than 40 deep",
            let.span,
            "too deep",
            "Write out some of the values on the way.",
        )

    def _has_ease(self, measure: str) -> bool:
        sizes = self.sizing.all
        return bool(sizes) and all(measure in size.measures and measure in size.ease for size in sizes)

    def _measure(self, name: Name, measure: str) -> Value | None:
        """Give body + ease for every size."""
        if not self.sizing.sound or not self._every_size(name, measure):
            return None
        without = [size for size in self.sizing.all if measure not in size.ease]
        if without:
            if self.context.is_news("E215", measure):
                self._no_ease(name, measure, without)
            return None
        values = tuple(size.measures[measure].value + size.ease[measure] for size in self.sizing.all)
        return self._value(measure, values, self.sizing.ease_places.get(measure, []))

    def _value(self, measure: str, values: tuple[Fraction, ...], more: list[Span]) -> Value:
        self.used[measure] = None
        places = [size.measures[measure].span or self.sizing.head for size in self.sizing.all]
        return Value(Constant(values), "length", (measure,), tuple(dict.fromkeys((*more, *places))))

    def _every_size(self, name: Name, measure: str) -> bool:
        lacking = [size.name for size in self.sizing.all if measure not in size.measures]
        if lacking and self.context.is_news("E218", measure):
            self.context.report(
                "E218",
                f"`{measure}` is not known for {', '.join(lacking)}",
                name.span,
                "not known for every size",
                f"Add a line such as `measure {measure} 40 cm` to the block of {lacking[0]}.",
            )
        return not lacking

    def _no_ease(self, name: Name, measure: str, without: list[Size]) -> None:
        fixes = [Fix(f"write the bare measure, `body.{measure}`", (Edit(name.span, f"body.{measure}"),))]
        line = self.sizing.ease_line
        if line is not None and not self.sizing.bodies:
            end = Span(line.file, line.end, line.end)
            fixes.insert(0, Fix(f"add `{measure} 0 cm` to the `ease` line", (Edit(end, f", {measure} 0 cm"),)))
        who = "" if len(without) == len(self.sizing.all) else f" for {', '.join(size.name for size in without)}"
        uneven = (
            " A body does not inherit it, for it differs from size to size." if measure in self.sizing.uneven else ""
        )
        self.context.report(
            "E215",
            f"`{measure}` is used without an ease{who}",
            name.span,
            "body + how much ease?",
            f"Add `{measure} 0 cm` (or what it should be) to the `ease` line, or write `body.{measure}` for the bare "
            f"measure.{uneven}",
            fixes=fixes,
        )

    def _dotted(self, name: Name) -> Value | None:
        owner, _, rest = name.text.partition(".")
        if owner == "body" and "body" not in self.pieces:
            return self._bare(name, measure_name(rest) or rest)
        if owner in self.pieces:
            self.solved.setdefault(name.text, name.span)
            return Value(Solved(name.text, name.span), "length", (), (name.span,))
        if not self.context.is_lost(owner) and self.context.is_news("E214", owner):
            near = near_word(owner, (*self.pieces, "body"))
            self.context.report(
                "E214",
                f"there is no piece named `{owner}`, so there is no `{name.text}`",
                name.span,
                f"did you mean `{near}.{rest}`?" if near else "no such piece",
                f"Pieces: {', '.join(sorted(self.pieces)) or 'none'}; `body.…` is a bare measure.",
            )
        return None

    def _bare(self, name: Name, measure: str) -> Value | None:
        if not self.sizing.sound:
            return None
        if not self.sizing.knows(measure):
            self._unknown(Name(measure, name.span), measures_only=True)
            return None
        if not self._every_size(name, measure):
            return None
        return self._value(measure, tuple(size.measures[measure].value for size in self.sizing.all), [])

    def _default(self, name: Name, measure: str) -> Value | None:
        """Give a garment measure that follows from the body by rule, and note it as an assumption."""
        if not self.sizing.sound:
            return None
        found: list[Measured] = []
        for size in self.sizing.all:
            derived = DEFAULTS[measure](self._body(size))
            if derived is None:
                if not self.context.is_news("E218", measure):
                    return None
                self.context.report(
                    "E218",
                    f"`{measure}` does not follow from what is known of {size.name}",
                    name.span,
                    "no rule gives it",
                    f"State it: `let {measure} = 18 cm`.",
                    size=size.name,
                )
                return None
            found.append(derived)
        values = tuple(each.value_cm for each in found)
        self.used[measure] = None
        own = [measure in size.measures for size in self.sizing.all]
        if not all(own):
            self.context.assume(
                f"`{measure}` is not given, so it is taken as {{}}; a line `let {measure} = …` changes it.",
                span=name.span,
                values=values,
                sources=tuple("" if is_own else each.source for is_own, each in zip(own, found, strict=True)),
            )
        return Value(Constant(values), "length", (measure,), (self.sizing.head,))

    def _body(self, size: Size) -> Body:
        measures = {key: Measured(each.value, each.source, each.confidence) for key, each in size.measures.items()}
        return Body(size.name, measures, self.sizing.users)

    def _unknown(self, name: Name, measures_only: bool = False) -> None:
        if not self.sizing.sound or self.context.is_lost(name.text) or not self.context.is_news("E210", name.text):
            return
        measures = dict.fromkeys(key for size in self.sizing.all for key in size.measures)
        if measure_name(name.text) is not None:
            report_absent(self.context, self.sizing.group, self.sizing.all, name.text, name.span)
            return
        lets = [] if measures_only else [*self._texts(name), *DEFAULTS]
        near = near_word(name.text, (*lets, *measures))
        told = ", ".join(dict.fromkeys((*lets, *measures))) or "nothing"
        prefix = "body." if measures_only else ""
        self.context.report(
            "E210",
            f"`{prefix}{name.text}` is not known here",
            name.span,
            f"did you mean `{prefix}{near}`?" if near else "unknown name",
            f"Looked among the `let` lines and the body measures: {told}.",
            fixes=[Fix(f"write `{prefix}{near}`", (Edit(name.span, f"{prefix}{near}"),))] if near else [],
        )

    def _texts(self, name: Name) -> list[str]:
        """Give the `let` lines that a line may speak of."""
        return [text for scope, text in self.lets if scope in ((), name.span.made_at)]


def _own(name: Name) -> Key:
    return name.span.made_at, name.text
