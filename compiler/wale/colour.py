"""How far two yarn colours stand apart: contrast, lightness, colour difference, and what colour-blind eyes see.

Floats: nothing that is counted depends on them. Contrast and lightness are closed formulas of our own, since a check
needs them and the colour library takes longer to load than a check may take. All else is the library's (coloraide),
loaded where it is asked for. docs/colour.md tells the method, the sources and the limits.
"""

from __future__ import annotations

from msgspec import Struct

ALIKE_BELOW, CLOSE_BELOW = 20, 30
"""Differences of L* below which two colours run together, and are told apart but faintly; our choice, no source."""

SAME_BELOW = 10
"""Differences of CIEDE2000 below which two colours are hardly told apart; our choice, no source.

Colours `CLOSE_BELOW` apart in lightness never come so near, for no eye (docs/colour.md#why-lightness-comes-first)."""

SIGHTS = {"protan": "red-blind", "deutan": "green-blind", "tritan": "blue-blind"}
"""The simulated kinds of colour vision, by the library's names: no red, no green, no blue cones."""


class Apart(Struct, frozen=True):
    """How two colours stand apart.

    Attributes:
        lights: L* of both.
        difference: CIEDE2000 between them.
        seen: the same as simulated, in the order of `SIGHTS`.
    """

    lights: tuple[float, float]
    difference: float
    seen: tuple[float, ...]

    @property
    def grey(self) -> float:
        """Their difference of L*: what is left of them in grey."""
        return abs(self.lights[0] - self.lights[1])

    @property
    def blind(self) -> tuple[str, ...]:
        """The kinds of eyes that hardly tell them apart."""
        return tuple(name for name, seen in zip(SIGHTS.values(), self.seen, strict=True) if seen < SAME_BELOW)


def apart(first: str, second: str) -> Apart:
    """Compare two colours written `#rrggbb`; loads the colour library."""
    simulated = tuple(difference(as_seen(first, sight), as_seen(second, sight)) for sight in SIGHTS)
    return Apart((lightness(first), lightness(second)), difference(first, second), simulated)


def difference(first: str, second: str) -> float:
    """Give CIEDE2000 between two colours written `#rrggbb`; loads the colour library.

    Source: CIE 142-2001, as in Sharma, Wu and Dalal, Color Research and Application 30 (2005), 21-30.
    """
    from coloraide import Color

    return float(Color(first).delta_e(Color(second), method="2000"))


def as_seen(colour: str, sight: str) -> str:
    """Give a colour as an eye without one kind of cones sees it, written `#rrggbb`; loads the colour library.

    Source: Viénot, Brettel and Mollon, Color Research and Application 24 (1999), 243-252 (protan, deutan); Brettel,
    Viénot and Mollon, Journal of the Optical Society of America A 14 (1997), 2647-2655 (tritan).

    Args:
        colour: written `#rrggbb`.
        sight: a key of `SIGHTS`.
    """
    from coloraide import Color

    return Color(colour).filter(sight).convert("srgb").clip().to_string(hex=True)


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
