"""What a line of a pattern typed in by hand says, for one size: plain records, nothing worked out yet."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

from wale.prove.words import Side

Far = Literal["times", "end", "last", "marker", "double"]
"""How far something goes: so often, to the end, to the last so many, to so many before a marker, to a double stitch."""


ActKind = Literal["turn", "cast", "bound", "picked", "held", "set_aside", "waste", "place", "slip", "remove"]
"""What is no stitch of the row: also the names of the grammar's rules."""


class Extent(Struct, frozen=True):
    """How far; `number` counts times, or the stitches that stay in front of the end or the marker."""

    far: Far
    number: int = 0


class Do(Struct, frozen=True):
    """One kind of stitch, such as `k`, `sl` or `k2tog`, and how far it goes."""

    work: str
    extent: Extent


class Group(Struct, frozen=True):
    """Works in brackets or after a star, and how far they are repeated."""

    works: tuple[Work, ...]
    extent: Extent


class Act(Struct, frozen=True):
    """What is no stitch of the row: `kind` says what, `number` how many stitches it is about."""

    kind: ActKind
    number: int = 0
    work: str = "k"


Work = Do | Group | Act


class HandRow(Struct, frozen=True):
    """A row or round.

    Attributes:
        numbers: as labelled, empty for "Next row".
        side: as printed, "" where the label names none.
        after: stitches stated after it: in all, or between the markers; empty where nothing is stated.
    """

    numbers: tuple[int, ...]
    in_round: bool
    side: Side
    works: tuple[Work, ...]
    after: tuple[int, ...] = ()


class HandRows(Struct, frozen=True):
    """So many rows alike: `kind` is "even" (the fabric goes on), "knit", "purl", "stockinette", "garter" or "rib"."""

    rows: int
    in_round: bool
    kind: str
    rib: tuple[int, int] = (0, 0)
    after: tuple[int, ...] = ()


class Again(Struct, frozen=True):
    """Rows to be repeated.

    Attributes:
        numbers: their labels; empty where `last` rows are meant.
        times: how often, or 0 where `until` says when it ends.
        until: stitches that are left, or rows that are worked, then.
        until_rows: whether `until` counts rows.
    """

    numbers: tuple[int, ...]
    last: int
    times: int
    until: int = 0
    until_rows: bool = False
    after: tuple[int, ...] = ()


class HandCastOn(Struct, frozen=True):
    """Cast on one or several needles' stitches; `total` 0 where the line doesn't add them up."""

    counts: tuple[int, ...]
    yarn: str
    needle: str
    total: int
    joined: bool


class Between(Struct, frozen=True):
    """What happens between rows.

    Attributes:
        kind: "join" to a round, "flat" work over `number` stitches, "start" the round `number` stitches on,
            "waste" yarn over `other` stitches, `number` of the round before them or `back` after its start, "put" the
            "next", "last" or "all" stitches on a holder, "take" up held ones, "open" a row of waste yarn with `number`
            below it and `other` above, "pick" up, "bind" off all or the last, "draw" the yarn through, "graft"
            `number` to `other`.
        number: stitches, 0 where the line names none.
    """

    kind: Literal["join", "flat", "start", "waste", "put", "take", "open", "pick", "bind", "draw", "graft"]
    number: int = 0
    which: str = ""
    other: int = 0
    back: int = 0


class Told(Struct, frozen=True):
    """Stitches stated on a line of their own."""

    after: tuple[int, ...]


HandLine = HandRow | HandRows | Again | HandCastOn | Between | Told
