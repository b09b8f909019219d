"""What a wished length is made of: body measures, ease, lines that are quoted, solved widths."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from wale.explain.book import Book, show
from wale.explain.reason import Input
from wale.measure import Measure
from wale.source import Span

_NAME = re.compile(r"[A-Za-z][\w-]*(?:\.[\w-]+)*")


def wish_input(measure: Measure, wish: Fraction) -> Input:
    """Give the wished length itself, as it stands in the spec."""
    words = " ".join(measure.words.split())
    said = f"{show(wish)} cm"
    if words != said:
        said = f"({words} = {said})"
    return Input(words, wish, said, measure.span)


def measure_inputs(book: Book, measure: Measure, size: int) -> tuple[Input, ...]:
    """Give the lines, body measures with their ease, and solved widths behind a wish.

    Names inside a `let` or an ease line are read from its text, so without the sources only those in the wish itself
    are found.
    """
    return tuple(dict.fromkeys(_inputs(book, measure, size)))


def _inputs(book: Book, measure: Measure, size: int) -> Iterator[Input]:
    body = book.spec.sizes[size]
    texts = {span: _text(book, span) for span in measure.inputs}
    names = dict.fromkeys(measure.names)
    for span, text in texts.items():
        if span != body.span:
            names |= dict.fromkeys(_NAME.findall(text))
    bare = [name.removeprefix("body.") for name in names if name.startswith("body.")]
    names |= dict.fromkeys(bare)
    for span, text in texts.items():
        if text.startswith("let "):
            yield Input(text, None, "", span)
    for name in names:
        if name in body.measures:
            one = body.measures[name]
            is_told = one.confidence in ("given", "confirmed") or one.confidence in one.source
            sure = "" if is_told else f", {one.confidence}"
            value = f"{show(one.value)} cm"
            yield Input(f"{name}, body", one.value, value, one.span or body.span, f"{one.source}{sure}")
        if name in body.ease and name not in bare:
            where = next((span for span, text in texts.items() if span != measure.span and _is_ease(text, name)), None)
            yield Input(f"{name}, ease", body.ease[name], f"{show(body.ease[name])} cm", where)
    for name in measure.names:
        taken = next((one for one in book.spec.assumptions if one.text.startswith(f"`{name}` ")), None)
        if taken is not None:
            said = f"{taken.said([size], book.spec.units)} ({taken.origin([size])})"
            yield Input(f"{name}, taken", None, "", taken.span, said)
    for address in measure.waits_for():
        width = dict(book.plan.solved)[address][size]
        yield Input(f"{address}.width", width, f"{show(width)} cm")


def _is_ease(text: str, name: str) -> bool:
    """Whether a line gives a measure its ease: `ease bust 14 cm`, or a part of it, `hip 8 cm`."""
    return not text.startswith("let ") and bool(re.search(rf"(^|\s){re.escape(name)}\s+-?\d", text))


def _text(book: Book, span: Span) -> str:
    source = book.sources.get(span.file)
    return " ".join(source.cut(span).split()) if source is not None else ""
