"""What a writer of lines has at hand: the spec, the plan, one piece and one size."""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from wale.draft.motifs import column
from wale.materials import Gauge, Motif, Swatch
from wale.needles import show_needle
from wale.plan import PiecePlan, Plan, Section
from wale.quantity import CM_PER_INCH, in_unit, show_decimal, show_length, show_signed, unit_word
from wale.spec import Spec
from wale.write.lines import Length, Line, Part, Rows


class Context(Struct, frozen=True):
    """One piece in one size."""

    spec: Spec
    plan: Plan
    piece: PiecePlan
    size: int

    @property
    def rows_word(self) -> str:
        """Rows when flat, rounds in the round."""
        return "rounds" if self.piece.in_round else "rows"

    def rows(self, number: int) -> Rows:
        """Say rows when flat, rounds in the round."""
        return Rows(number, "round" if self.piece.in_round else "row")

    @property
    def edge(self) -> int:
        """Edge stitches of one side."""
        return 0 if self.piece.in_round else self.piece.edge.stitches

    @property
    def border(self) -> int:
        """Edge stitches of one side that are a border of garter."""
        return self.edge if self.piece.edge.garter else 0

    @property
    def ends(self) -> tuple[int, int]:
        """Stitches outside the chart where a right-side row or round begins and where it ends: edge, band or steek."""
        steek, half = self.piece.steek, self.piece.half
        if half is not None:
            return half.ends(self.edge)
        return steek.ends if steek is not None else (self.edge, self.edge)

    def swatch(self, section: Section) -> Swatch:
        """The swatch a section is worked in."""
        return self.spec.swatches[section.swatch]

    def motif(self, section: Section) -> Motif | None:
        """The motif of a section, or None where it is plain."""
        return self.spec.motifs[section.fabric.motif] if section.fabric and section.fabric.motif else None

    def first_count(self, section: Section) -> int:
        """Stitches at a section's first row."""
        return self.piece.levels[section.first].counts[self.size]

    def last_count(self, section: Section) -> int:
        """Stitches after a section's last row."""
        return self.piece.levels[section.last].counts[self.size]

    def each_shaping(self, section: Section) -> int:
        """Stitches that each shaping row of a section gains, or loses (negative)."""
        each = self.piece.ends_shaped
        return each if self.last_count(section) > self.first_count(section) else -each

    def start_columns(self, section: Section, count: int) -> tuple[int, int]:
        """Give the chart columns (from 1) at which right-side and wrong-side rows begin, edge stitches passed over."""
        motif = self.motif(section)
        assert motif is not None
        first = column(section, motif.width, count, self.ends[0], self.size)
        last = column(section, motif.width, count, count - 1 - self.ends[1], self.size)
        return first + 1, last + 1

    def bound_off(self, section: Section) -> int:
        """Stitches that a section binds off at each side."""
        return (self.first_count(section) - self.last_count(section)) // self.piece.ends_shaped

    def bound_at(self, section: Section, row: int) -> int:
        """Stitches that a row (from 1) of a section binds off at its start; a half piece does at its side alone."""
        half, start = self.piece.half, "right" if row == 1 else "left"
        return self.bound_off(section) if half is None or half.side == start else 0

    def column_after_binding(self, section: Section) -> int:
        """Give the chart column (from 1) at which the first row of two begins that bind off at the sides."""
        motif = self.motif(section)
        assert motif is not None
        past = self.bound_at(section, 1) + self.ends[0]
        return column(section, motif.width, self.first_count(section), past, self.size) + 1

    def chart_row(self, section: Section, row: int) -> int:
        """Give the chart row (from 1) of a section's row (from 1)."""
        motif = self.motif(section)
        assert motif is not None and section.chart_start is not None
        return (section.chart_start[self.size] + row - 1) % motif.charted(self.piece.in_round) + 1

    def line(self, slot: str, lead: str, *parts: Part) -> Line:
        """Make an instruction."""
        return Line(slot, (lead,) if lead else (), parts)

    def remark(self, slot: str, *parts: Part) -> Line:
        """Make a line that is no instruction."""
        return Line(slot, (), parts, is_instruction=False)


def length_text(spec: Spec, value: Fraction) -> Length:
    """Write a length in cm in the pattern's unit, without the unit."""
    return Length(show_length(value, spec.units))


def signed_text(spec: Spec, value: Fraction, places: int = 1) -> str:
    """Write a difference of lengths in cm in the pattern's unit, with its sign."""
    return show_signed(in_unit(value, spec.units), places)


def unit(spec: Spec) -> str:
    """Write the pattern's unit of length."""
    return unit_word(spec.units)


def about_text(spec: Spec, value: Fraction) -> str:
    """Write a rough length in cm as a whole number of the pattern's unit, with the unit: "15 cm", "6 inches"."""
    return f"{show_length(value, spec.units, 0)} {unit(spec)}"


def gauge_span(spec: Spec) -> tuple[Fraction, str]:
    """Give the length that a gauge is told over in the pattern's unit, in cm, and its words."""
    return (4 * CM_PER_INCH, "4 inches") if spec.units == "inch" else (Fraction(10), "10 cm")


def gauge_text(spec: Spec, gauge: Gauge) -> str:
    """Write a gauge over the length that patterns in the unit use: 10 cm, or 4 inches."""
    over, words = gauge_span(spec)
    stitches, rows = (show_decimal(one * over, 1).removesuffix(".0") for one in (gauge.stitches, gauge.rows))
    return f"{stitches} sts and {rows} rows in {words}"


def needle_text(mm: Fraction) -> str:
    """Write a needle size."""
    return show_needle(mm)
