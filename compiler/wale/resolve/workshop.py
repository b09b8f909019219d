"""What the lines of pieces may refer to: yarns, swatches, motifs and names, and steps before they have an address."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct, field

from wale.actions import Action
from wale.materials import Motif, Swatch, Yarn
from wale.measure import Measure
from wale.parse.tree import Name
from wale.resolve.context import Context
from wale.resolve.names import Names
from wale.resolve.shapes import Line
from wale.resolve.swatches import find_swatch


class Workshop(Struct):
    """What the lines of pieces may refer to, and the references that are checked once all pieces are known.

    `is_cut`: the piece in work has a steek, so motifs are placed in it as in a flat one.
    """

    context: Context
    names: Names
    yarns: Mapping[str, Yarn]
    swatches: Mapping[str, Swatch]
    motifs: Mapping[str, Motif]
    meets: list[tuple[Name, Name]] = field(default_factory=list)
    is_cut: bool = False

    def yarn(self, name: Name) -> str | None:
        """Give a yarn's name if there is such a yarn; poison stays silent."""
        return name.text if self.context.knows("yarn", name) and name.text in self.yarns else None

    def swatch(self, name: Name, in_round: bool, what: str) -> Swatch | None:
        """Give a swatch, warning where it was knitted at another tension than the piece."""
        found = find_swatch(self.context, name, self.swatches)
        if found is not None and found.in_round != in_round:
            has, needs = ("in the round", "flat") if found.in_round else ("flat", "in the round")
            self.context.report(
                "W261",
                f"this {what} is worked {needs}, and the swatch `{found.name}` {has}",
                name.span,
                "another tension",
                "Knit a swatch the way the piece is worked: stitches and rows differ.",
                also=[(found.span, "the swatch")],
            )
        return found

    def width(self, line: Line, slot: str = "WIDTH") -> Measure | None:
        """Give a width: a length or stitches."""
        return self.names.scope.measure(line.head.value(slot), "length", "stitches")

    def length(self, line: Line, slot: str = "LENGTH") -> Measure | None:
        """Give a length: cm or rows."""
        return self.names.scope.measure(line.head.value(slot), "length", "rows")

    def known(self, measure: Measure | None) -> Measure | None:
        """Give a measure that may not wait for a solved width, or None after reporting that it does."""
        if measure is not None and measure.waits_for():
            self.context.report(
                "E253",
                f"`{measure.words}` is known only once the stitches are found, and this line needs it before",
                measure.span,
                f"waits for {', '.join(measure.waits_for())}",
                "Solved widths serve in `work`, `shape … over`, `hem` and `rib`; write the wish itself here, "
                "such as `bust/2`.",
            )
            return None
        return measure


class Placed(Struct, frozen=True):
    """A step before it has its address: keyword of the address, its own label ("" for none), and the action."""

    keyword: str
    label: str
    action: Action
