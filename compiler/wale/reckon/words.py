"""The words of a question, read from left to right: numbers with units, gauges, small words.

Inside, lengths are cm and weights g, exact. Whatever does not fit ends in `Refused` with a problem: E801 not
understood, E802 a number beyond bounds, E803 a swatch too small, E804 no whole-number answer.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from wale.quantity import UNITS, UnitKind, meant_unit, to_base
from wale.refusals import Refused, refuse

TOKEN = re.compile(r"\d+,\d+|\d+/\d+|\d+(?:\.\d+)?|\.\d+|[^\W\d_]+(?:-[^\W\d_]+)*|\S")
MOST_DIGITS = 12

MOST: dict[UnitKind, tuple[int, str]] = {
    "length": (100_000, "1000 m"),
    "weight": (100_000, "100 kg"),
    "stitches": (1_000_000, "1000000 sts"),
    "rows": (1_000_000, "1000000 rows"),
}
"""The most of each kind that a question takes."""
KINDS: dict[UnitKind, str] = {
    "length": "a length such as `40 cm`",
    "weight": "a weight such as `50 g`",
    "stitches": "a count of stitches such as `40 sts`",
    "rows": "a count of rows such as `30 rows`",
}
LEAST_IN_SWATCH = 4
"""Fewest stitches or rows counted in a swatch; our choice: half of one in three is a sixth of the garment."""
FEW_IN_SWATCH = 16
"""Below this a swatch is doubtful: half a stitch is over 3 %. Our choice."""
GAUGE_BOUNDS = (Fraction(1, 10), Fraction(30))
"""Stitches or rows per cm that knitting can have."""


class Gauge(Struct, frozen=True):
    """Counted stitches or rows and what they measure in cm, as written in `text`."""

    kind: UnitKind
    counted: Fraction
    length_cm: Fraction
    text: str

    @property
    def per_cm(self) -> Fraction:
        """Stitches or rows in 1 cm."""
        from wale.shaping.gauge import per_length

        return per_length(self.counted, self.length_cm)


class Words:
    """A cursor over the words of one question."""

    def __init__(self, text: str, forms: Sequence[str]) -> None:
        """Split `text`; `forms` are the ways to ask, named when it is not understood."""
        self._words: list[str] = TOKEN.findall(text[:2000].replace("−", "-").replace("×", " x "))
        self._at = 0
        self._forms = forms

    def misread(self, message: str) -> Refused:
        """Build the refusal of words that make no question."""
        forms = "; ".join(f"`{form}`" for form in self._forms)
        return refuse("E801", message, f"Ask as in {forms}.")

    def peek(self, ahead: int = 0) -> str:
        """Give a coming word, or "" at the end."""
        place = self._at + ahead
        return self._words[place] if place < len(self._words) else ""

    def take(self, *phrases: str) -> str:
        """Step over the first of the phrases that comes now and give it; "" if none does."""
        for phrase in phrases:
            parts = phrase.split()
            if [self.peek(i).lower() for i in range(len(parts))] == [part.lower() for part in parts]:
                self._at += len(parts)
                return phrase
        return ""

    def need(self, *phrases: str) -> str:
        """Step over one of the phrases, which must come now."""
        found = self.take(*phrases)
        if not found:
            raise self.misread(f"{self._here()}, where `{phrases[0]}` belongs")
        return found

    def name(self) -> str:
        """Step over any one word and give it."""
        if not self.peek():
            raise self.misread("the question ends too early")
        self._at += 1
        return self._words[self._at - 1]

    def end(self) -> None:
        """Check that nothing is left."""
        self.take(".", "?")
        if self.peek():
            raise self.misread(f"{self._here()}, and the question should end there")

    def number(self, what: str, *, least: int | None = None, most: int = 10**9) -> Fraction:
        """Read a number above 0 (or at least `least`): `4`, `13.6`, `3/4`, `5 1/2`."""
        minus = bool(self.take("-"))
        word = self.peek()
        if re.fullmatch(r"\d+,\d+", word):
            dotted, joined = word.replace(",", "."), word.replace(",", "")
            raise self.misread(f"`{word}` has a comma; write `{dotted}` or `{joined}`")
        if not re.fullmatch(r"\d+/\d+|\d*\.?\d+", word):
            raise self.misread(f"{self._here()}, where {what} belongs")
        self._at += 1
        if len(word) > MOST_DIGITS:
            raise refuse("E802", f"{what} is beyond all bounds", "Check the number.")
        value = self._fraction(word)
        if "/" not in word and re.fullmatch(r"\d+/\d+", self.peek()) and len(self.peek()) < 8:
            part = self._fraction(self.peek())
            if part < 1:
                self._at += 1
                value += part
        return self._bounded(-value if minus else value, what, least, most)

    def whole(self, what: str, *, least: int = 1, most: int = 1_000_000) -> int:
        """Read a whole number."""
        value = self.number(what, least=least, most=most)
        if value.denominator != 1:
            raise refuse("E802", f"{what} must be a whole number", "Write it without a fraction.")
        return int(value)

    def _fraction(self, word: str) -> Fraction:
        if re.fullmatch(r"\d+/0+", word):
            raise refuse("E802", f"`{word}` divides by nothing", "Check the number.")
        return Fraction(word)

    def _bounded(self, value: Fraction, what: str, least: int | None, most: int) -> Fraction:
        if least is None and value <= 0:
            raise refuse("E802", f"{what} must be more than 0", "Check the number.")
        if least is not None and value < least:
            raise refuse("E802", f"{what} must be at least {least}", "Check the number.")
        if value > most:
            raise refuse("E802", f"{what} is beyond all bounds: more than {most}", "Check the number.")
        return value

    def amount(self, *kinds: UnitKind, bare: UnitKind | None = None) -> tuple[Fraction, UnitKind]:
        """Read a number with a unit of one of the kinds, in cm, g or a count; without a unit it is of kind `bare`."""
        wanted = " or ".join(KINDS[kind] for kind in kinds)
        value = self.number(wanted, most=10**9)
        word = self.peek()
        unit = meant_unit(word) if word else None
        if bare is not None and word.lower() == "in" and self.peek(1)[:1].isdigit():
            unit = None  # `32 in 14 rows` is no length
        kind = UNITS[unit][0] if unit else None
        if unit is None or kind not in kinds:
            if bare is None or (unit is not None and word.lower() not in ("in", "to")):
                raise self.misread(f"{self._here()}, where {wanted} belongs")
            unit, kind = {"stitches": "sts", "rows": "rows", "length": "cm", "weight": "g"}[bare], bare
        else:
            self._at += 1
        assert kind is not None
        base = to_base(value, unit)
        most, limit = MOST[kind]
        if base > most:
            what = KINDS[kind].split(" such")[0]
            raise refuse("E802", f"{what} is beyond all bounds: more than {limit}", "Check number and unit.")
        return base, kind

    def length(self) -> Fraction:
        """Read a length, in cm."""
        return self.amount("length")[0]

    def weight(self) -> Fraction:
        """Read a weight, in g."""
        return self.amount("weight")[0]

    def count(self, kind: UnitKind) -> int:
        """Read a whole count of stitches or rows; the unit may be left out."""
        value, _ = self.amount(kind, bare=kind)
        if value.denominator != 1:
            raise refuse("E802", f"a count of {kind} must be whole", "Write it without a fraction.")
        return int(value)

    def gauge(self, *kinds: UnitKind) -> Gauge:
        """Read a gauge: `22 sts = 10 cm`, `30 rows to 4 inch`."""
        start = self._at
        counted, kind = self.amount(*(kinds or ("stitches", "rows")))
        self.need("=", "to", "in", "over", "per")
        return self._checked(kind, counted, self.length(), start)

    def gauges(self) -> tuple[Gauge, Gauge]:
        """Read stitch and row gauge: `22 sts and 30 rows = 10 cm`, or `22 sts = 10 cm, 30 rows = 9 cm`."""
        start = self._at
        first, _ = self.amount("stitches")
        if self.take("and", ","):
            second, _ = self.amount("rows")
            self.need("=", "to", "in", "over", "per")
            over = self.length()
            return self._checked("stitches", first, over, start), self._checked("rows", second, over, start)
        self.need("=", "to", "in", "over", "per")
        stitches = self._checked("stitches", first, self.length(), start)
        self.take(",", "and")
        return stitches, self.gauge("rows")

    def _checked(self, kind: UnitKind, counted: Fraction, length: Fraction, start: int) -> Gauge:
        noun = "stitches" if kind == "stitches" else "rows"
        if counted < LEAST_IN_SWATCH:
            raise refuse(
                "E803",
                f"a swatch of fewer than {LEAST_IN_SWATCH} {noun} tells no gauge",
                f"Measure over at least {FEW_IN_SWATCH} {noun}, best over 10 cm in the middle of the swatch.",
            )
        if not GAUGE_BOUNDS[0] <= counted / length <= GAUGE_BOUNDS[1]:
            raise refuse("E802", f"no knitting has so many or so few {noun} to the cm", "Check counts and units.")
        return Gauge(kind, counted, length, " ".join(self._words[start : self._at]).replace(" ,", ","))

    def _here(self) -> str:
        return f"there stands `{self.peek()}`" if self.peek() else "the question ends"
