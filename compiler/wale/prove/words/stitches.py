"""What is worked: stitches, repeats of them, and the fabric that rows are in."""

from __future__ import annotations

from typing import Literal

from msgspec import Struct

Side = Literal["RS", "WS", ""]
"""The side that faces the knitter as printed; "" where the line names none."""


class Repeat(Struct, frozen=True):
    """Stitches in brackets and how often they are worked."""

    stitches: Stitches
    times: int


class Stitch(Struct, frozen=True):
    """`k`, `p` with how many stitches, or one of `k2tog`, `p2tog`, `m1`, `m1p` once; of a
    `yarn` where the line names one."""

    work: str
    count: int
    yarn: str = ""


Stitches = tuple[Stitch | Repeat, ...]


class Fabric(Struct, frozen=True):
    """What rows are worked in: a chart, or a stitch in one yarn.

    `spans` are its chart rows where the line tells them: (from, to, 0), or (0, 0, times) for all its rows.
    """

    chart: str = ""
    spans: tuple[tuple[int, int, int], ...] = ()
    stitch: str = ""
    yarn: str = ""
