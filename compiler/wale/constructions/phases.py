"""Shapings on every so-manieth round, as lines: the rule that raglans, sleeves and their like share."""

from __future__ import annotations

from wale.course import Number, Passage, rounds


def spread(total: str, times: str) -> tuple[Number, ...]:
    """Give the numbers of `times` shapings over `total` rounds: `often` rounds apart first, then one round more.

    Rule: http://designyourownsweater.blogspot.com/2007/01/sleeve.html; shorter intervals first: our choice.
    """
    return (
        Number("often", f"floor({total} / {times})", "rounds"),
        Number("late", f"mod({total}, {times})", "times"),
        Number("early", f"{times} - {{late}}", "times"),
        Number("seldom", "{often} + 1", "rounds"),
        Number("early_again", "{early} - 1", "times"),
        Number("late_again", "{late} - 1", "times"),
    )


def phase(name: str, shaping: str, start: str, change: int, *, is_late: bool) -> tuple[Passage, ...]:
    """Give the lines of one of the two phases of `spread`.

    Args:
        shaping: the words of the shaping round.
        start: stitches before the phase, a formula.
        change: stitches gained in each shaping round, less than 0 where lost.
    """
    every, times = ("{seldom}", "{late}") if is_late else ("{often}", "{early}")
    again = "{late_again}" if is_late else "{early_again}"
    after = f"{start} + {change}"
    some = f"min(1, {times})"
    is_two = f"{some} * (1 - max({every} - 2, 2 - {every}))"
    is_three = f"{some} * (1 - max({every} - 3, 3 - {every}))"
    return (
        Passage(f"{name}.shape", shaping, "Round 1", rounds(after, "1"), when=times),
        Passage(f"{name}.plain", "knit.", "Round 2", rounds(after, "1"), when=is_two),
        Passage(f"{name}.pair", "knit.", "Rounds 2 and 3", rounds(after, "2"), when=is_three),
        Passage(
            f"{name}.even",
            "knit.",
            f"Rounds 2 to {every}",
            rounds(after, f"{every} - 1"),
            when=f"{some} * ({every} - 3)",
        ),
        Passage(
            f"{name}.both",
            f"Repeat rounds 1 and 2 {again[:-1]}!times}} more.",
            made=rounds(f"{after} + {change} * ceil({{i}} / 2)", f"2 * {again}"),
            when=f"min({again}, {is_two})",
        ),
        Passage(
            f"{name}.again",
            f"Repeat rounds 1 to {every} {again[:-1]}!times}} more.",
            made=rounds(f"{after} + {change} * ceil({{i}} / {every})", f"{every} * {again}"),
            when=f"{some} * {again} * ({every} - 2)",
        ),
        Passage(
            f"{name}.every",
            f"Repeat round 1 {again[:-1]}!times}} more.",
            made=rounds(f"{after} + {change} * {{i}}", again),
            when=f"{some} * {again} * (2 - {every})",
        ),
    )
