"""How far two yarn colours stand apart: contrast and lightness, for warnings and advice.

Floats: nothing that is counted depends on them.
"""

from __future__ import annotations


def contrast(first: str, second: str) -> float:
    """Give the contrast ratio of two colours written `#rrggbb`, from 1 (alike) to 21 (black on white).

    Source: WCAG 2.1, (L1 + 0.05) / (L2 + 0.05) of the relative luminances; docs/maths.md#contrast.
    """
    from coloraide import Color

    return Color(first).contrast(second, method="wcag21")


def lightness(colour: str) -> float:
    """Give the lightness L* of a colour written `#rrggbb`, from 0 (black) to 100 (white).

    Source: CIE 15, L* under daylight D65; docs/maths.md#lightness.
    """
    from coloraide import Color

    return Color(colour).convert("lab-d65")["lightness"]
