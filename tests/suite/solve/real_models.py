"""The models of the examples, as they are and with sizes, ease, placing and gauge varied."""

from __future__ import annotations

import random

from support import EXAMPLES, checked

from wale.draft.jointly import solved_widths
from wale.draft.lay_out import lay_out
from wale.draft.lengths import length_model
from wale.draft.widths import width_model
from wale.solve.exact import solve
from wale.solve.model import Model, Solution

NAMES = ("millrace-pullover", "sluice-hat", "first-cowl")
SIZES = ("XS", "S", "M", "L", "XL", "2XL", "3XL", "4XL", "5XL")


def real_models(name: str, seed: int | None = None) -> dict[str, Model]:
    """Give the width model of an example, and its length model where the widths can be solved.

    Args:
        name: the example's file.
        seed: which variation; None for the example as it is.
    """
    text = (EXAMPLES / f"{name}.wale").read_text("utf-8")
    spec = checked(text if seed is None else varied(text, random.Random(f"{name} {seed}"))).spec
    assert spec is not None
    layouts = [layout for layout, _ in (lay_out(spec, piece) for piece in spec.pieces) if layout is not None]
    widths = width_model(spec, layouts)
    models = {f"{name} {seed} widths": widths}
    answer = solve(widths)
    if isinstance(answer, Solution):
        solved = solved_widths(spec, layouts, answer.values)
        models[f"{name} {seed} lengths"] = length_model(spec, layouts, answer.values, solved)
    return models


def varied(text: str, chance: random.Random) -> str:
    """Vary sizes, ease, lengths and the placing of the motif."""

    def swap(old: str, new: str) -> None:
        nonlocal text
        text = text.replace(old, new)

    def about(length: int, by: int) -> str:
        tenths = chance.randint(10 * (length - by), 10 * (length + by))
        return f"{tenths // 10}.{tenths % 10} cm"

    first = chance.randint(0, 6)
    swap(" ".join(SIZES[:7]), " ".join(SIZES[first : first + chance.randint(1, 6)]))
    swap("bust 14 cm", f"bust {about(14, 3)}")
    swap("waist 24 cm", f"waist {about(24, 3)}")
    swap("hip 8 cm", f"hip {about(8, 2)}")
    swap("upper-arm 8 cm", f"upper-arm {about(8, 3)}")
    swap("slope         = 3 cm", f"slope = {about(3, 1)}")
    swap("work      6 cm", f"work {about(6, 2)}")
    swap("52 (56, 60) cm", f"{about(52, 1)[:-3]} ({about(56, 1)[:-3]}, {about(60, 1)[:-3]}) cm")
    swap("over 9 cm", f"over {about(9, 1)}")
    swap("work    to 13 cm", f"work to {about(13, 1)}")
    swap("cast on 62 cm", f"cast on {about(62, 3)}")
    swap("work    to 20 cm", f"work to {about(20, 3)}")
    fit = chance.choice(("centred on the stitch", "half repeats at bust", "whole repeats at bust, tolerance 2 cm"))
    swap("in grist on easy, centred on the stitch\n", f"in grist on easy, {fit}\n")
    text = text.replace(", tolerance 2.1 cm", "")
    swap("easy-round, whole repeats", f"easy-round, whole repeats, tolerance {chance.choice((1, 2, 3))} cm")
    return text
