"""Seeded damage to a spec: words and lines deleted, doubled, swapped; odd signs, cuts, mad numbers, other units."""

from __future__ import annotations

import random
import re
from collections.abc import Callable, Iterator

WORD = re.compile(r"[A-Za-z0-9][\w/.-]*|\S")
NUMBER = re.compile(r"\d+(?:\.\d+)?")
UNIT = re.compile(r"(?<=\d )(?:cm|mm|inch|sts?|rows|g|m|EUR|Nm)\b")
NUMBERS = ("0", "-3", "1", "2", "0.001", "7", "13", "1000", "99999", "1000000000000", "1e9", "3,5", "1/0", "9" * 400)
UNITS = ("cm", "mm", "inch", "sts", "rows", "g", "m", "EUR", "Nm", "yd", "furlong", "")
SIGNS = "\x00\x07\t\u00a0\u200b\u202e\ufeff\u2212×½“”|#\"'()-,+*/ßЖ漢👩\U0001f9f6e\u0301\ud7ff"


def _spots(chance: random.Random, text: str, pattern: re.Pattern[str]) -> re.Match[str] | None:
    found = list(pattern.finditer(text))
    return chance.choice(found) if found else None


def _put(text: str, spot: re.Match[str] | None, new: str) -> str:
    return text if spot is None else text[: spot.start()] + new + text[spot.end() :]


def _word_deleted(chance: random.Random, text: str) -> str:
    return _put(text, _spots(chance, text, WORD), "")


def _word_doubled(chance: random.Random, text: str) -> str:
    spot = _spots(chance, text, WORD)
    return text if spot is None else _put(text, spot, f"{spot[0]} {spot[0]}")


def _words_swapped(chance: random.Random, text: str) -> str:
    words = list(WORD.finditer(text))
    if len(words) < 2:
        return text
    one, other = sorted(chance.sample(words, 2), key=lambda spot: spot.start())
    return text[: one.start()] + other[0] + text[one.end() : other.start()] + one[0] + text[other.end() :]


def _lines(change: Callable[[random.Random, list[str]], None]) -> Callable[[random.Random, str], str]:
    def made(chance: random.Random, text: str) -> str:
        lines = text.splitlines(keepends=True)
        if len(lines) > 1:
            change(chance, lines)
        return "".join(lines)

    return made


def _delete_line(chance: random.Random, lines: list[str]) -> None:
    del lines[chance.randrange(len(lines))]


def _double_line(chance: random.Random, lines: list[str]) -> None:
    lines.insert(chance.randrange(len(lines)), chance.choice(lines))


def _swap_lines(chance: random.Random, lines: list[str]) -> None:
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]


def _indent_line(chance: random.Random, lines: list[str]) -> None:
    at = chance.randrange(len(lines))
    lines[at] = " " * chance.randrange(9) + lines[at].lstrip(" ")


def _sign_put_in(chance: random.Random, text: str) -> str:
    at = chance.randrange(len(text) + 1)
    return text[:at] + chance.choice(SIGNS) + text[at:]


def _cut_short(chance: random.Random, text: str) -> str:
    return text[: chance.randrange(len(text) + 1)]


def _number_changed(chance: random.Random, text: str) -> str:
    return _put(text, _spots(chance, text, NUMBER), chance.choice(NUMBERS))


def _number_scaled(chance: random.Random, text: str) -> str:
    spot = _spots(chance, text, NUMBER)
    return (
        text if spot is None else _put(text, spot, f"{float(spot[0]) * chance.choice((0.1, 0.5, 0.8, 1.3, 2, 10)):g}")
    )


def _unit_changed(chance: random.Random, text: str) -> str:
    return _put(text, _spots(chance, text, UNIT), chance.choice(UNITS))


CHANGES: tuple[Callable[[random.Random, str], str], ...] = (
    _word_deleted,
    _word_doubled,
    _words_swapped,
    _lines(_delete_line),
    _lines(_double_line),
    _lines(_swap_lines),
    _lines(_indent_line),
    _sign_put_in,
    _cut_short,
    _number_changed,
    _number_scaled,
    _unit_changed,
)


def mutations(text: str, count: int, seed: int) -> Iterator[str]:
    """Give `count` damaged copies of a text, each by one to three changes; the same seed gives the same ones."""
    chance = random.Random(seed)
    for _ in range(count):
        damaged = text
        for _ in range(chance.choice((1, 1, 1, 2, 3))):
            damaged = chance.choice(CHANGES)(chance, damaged)
        yield damaged
