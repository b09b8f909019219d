"""How far two yarn colours stand apart: contrast and lightness, for warnings and advice.

Floats: nothing that is counted depends on them. Two closed formulas; a colour library would take a third of a second
to load, more than the whole check may take.
"""

from __future__ import annotations

ALIKE_BELOW, CLOSE_BELOW = 20, 30
"""Differences of L* below which two colours run together, and are told apart but faintly; our choice, no source."""


def contrast(first: str, second: str) -> float:
    """Give the contrast ratio of two colours written `#rrggbb`, from 1 (alike) to 21 (black on white).

    Source: WCAG 2.1, (L1 + 0.05) / (L2 + 0.05) of the relative luminances; docs/maths.md#contrast.
    """
    low, high = sorted((luminance(first), luminance(second)))
    return (high + 0.05) / (low + 0.05)


def lightness(colour: str) -> float:
    """Give the lightness L* of a colour written `#rrggbb`, from 0 (black) to 100 (white).

    Source: CIE 15, L* under daylight D65; docs/maths.md#lightness.
    """
    light = luminance(colour)
    return float(116 * light ** (1 / 3) - 16) if light > 216 / 24389 else light * 24389 / 27


def luminance(colour: str) -> float:
    """Give the relative luminance of a colour written `#rrggbb`, from 0 to 1.

    Source: WCAG 2.1, https://w3c.github.io/wcag/guidelines/relative-luminance.html.
    """
    red, green, blue = (int(colour[place : place + 2], 16) / 255 for place in (1, 3, 5))
    return 0.2126 * _linear(red) + 0.7152 * _linear(green) + 0.0722 * _linear(blue)


def _linear(share: float) -> float:
    return float(share / 12.92 if share <= 0.04045 else ((share + 0.055) / 1.055) ** 2.4)
