"""How well a picture lies on itself when it is moved: the distances at which it comes again.

Autocorrelation by differences: the mean difference between the picture and itself moved by so many pixels is low
where the motif comes again, noise or not.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from PIL.Image import Image

_SIDE = 480
"""Pixels of the longer side at which distances are measured first."""
_LONGEST = 0.7
"""Longest distance that is looked at, a share of the side: the rest overlaps."""
_MOST = 10
"""Most distances that are told."""


def small(image: Image) -> Image:
    """Give the picture as small as is needed to look for distances."""
    from PIL import Image as images

    scale = _SIDE / max(image.size)
    if scale >= 1:
        return image
    size = (max(1, round(image.width * scale)), max(1, round(image.height * scale)))
    return image.resize(size, images.Resampling.BOX)


def moved(image: Image, along: int, up: int) -> float:
    """Give the mean difference, 0 to 255, between a picture and itself moved to the left and up."""
    from PIL import ImageChops

    width, height = image.size
    fixed = image.crop((along, up, width, height))
    moving = image.crop((0, 0, width - along, height - up))
    counts = ImageChops.difference(fixed, moving).convert("L").histogram()
    return sum(value * count for value, count in enumerate(counts)) / sum(counts)


def distances(measure: Callable[[int], float], side: int, least: int) -> tuple[float, ...]:
    """Give the distances at which a picture may come again, shortest first, as exact as the multiples allow.

    Where one nearly divides the side, the one that does stands beside it.

    Args:
        measure: the mean difference at a distance in pixels.
        side: pixels of the picture in that direction.
        least: shortest distance that can be a repeat.
    """
    last = int(side * _LONGEST)
    if last <= least + 1:
        return ()
    curve = [measure(lag) for lag in range(least, last + 1)]
    floor, middle = min(curve), sorted(curve)[len(curve) // 2]
    limit = floor + (middle - floor) / 2
    found = [
        least + index
        for index in range(1, len(curve) - 1)
        if curve[index] <= limit and curve[index - 1] >= curve[index] <= curve[index + 1]
    ]
    exact = [_by_multiples(lag, curve, least) for lag in found[:_MOST]]
    whole = [side / max(1, round(side / lag)) for lag in exact]
    both = [pair for lag, even in zip(exact, whole, strict=True) for pair in _pair(lag, even)]
    return tuple(sorted(set(both)))


def _pair(lag: float, even: float) -> tuple[float, ...]:
    """Give a distance, and beside it the one near by that divides the side."""
    return (lag, even) if abs(lag - even) <= max(1.0, lag / 50) else (lag,)


def _by_multiples(lag: int, curve: Sequence[float], least: int) -> float:
    """Give a distance by its largest multiple that is measured, to a part of a pixel."""
    end = least + len(curve) - 1
    best, times = float(lag), 1
    while round(best * (times + 1)) < end:
        times += 1
        middle = round(best * times)
        near = [value for value in (middle - 1, middle, middle + 1) if least <= value <= end]
        best = min(near, key=lambda value: (curve[value - least], abs(value - middle))) / times
    return (best * times + _part(curve, round(best * times) - least)) / times


def _part(curve: Sequence[float], at: int) -> float:
    """Give how far beside a place the tip of a V through it and its neighbours lies, in pixels."""
    if not 0 < at < len(curve) - 1:
        return 0.0
    before, here, after = curve[at - 1 : at + 2]
    rise = max(before, after) - here
    return (before - after) / (2 * rise) if rise > 0 else 0.0
