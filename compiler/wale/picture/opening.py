"""A picture's bytes opened: upright, in plain red, green and blue, with limits; whatever is wrong is refused."""

from __future__ import annotations

import warnings
from io import BytesIO
from typing import TYPE_CHECKING

from wale import refusals
from wale.refusals import Refused, refuse

if TYPE_CHECKING:
    from PIL.Image import Image

MOST_PIXELS = 40_000_000
FORMATS = ("PNG", "JPEG", "GIF", "BMP", "TIFF", "WEBP", "PPM")
"""What is read: formats that hold pixels and run no program."""
_MOST_SIDE = 2400
"""Pixels of the longer side that are looked at; a larger picture is made smaller first."""
_SEE_THROUGH = ("RGBA", "LA", "PA", "RGBa", "La")
_SAVE = "Open it in a program for pictures and save it as PNG."


def open_picture(path: str, data: bytes, ground: str) -> Image:
    """Give a picture in red, green and blue.

    Args:
        path: its name, for refusals.
        data: the file's bytes.
        ground: the colour, `#rrggbb`, that shows where the picture is see-through.

    Returns:
        The picture as a camera's note (EXIF) turns it upright, its longer side at most 2400 pixels.

    Raises:
        Refused: E921 no picture, damaged or cut short, E922 too many pixels, E923 it moves or has several pages.
    """
    from PIL import Image, ImageFile

    # the typesetter, where it was used before, has every decoder fill up what is cut short
    ImageFile.LOAD_TRUNCATED_IMAGES = False
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # of metadata that is never looked at, and of sizes that are refused here
        try:
            image = Image.open(BytesIO(data), formats=FORMATS)
            _check(path, image)
            return _plain(path, image, ground)
        except Refused:
            raise
        except Image.DecompressionBombError:
            raise refusals.large_picture(path, f"it has more than {MOST_PIXELS // 1_000_000} million pixels") from None
        except Exception as error:  # decoders meet damaged files with errors of all kinds
            raise _unreadable(path, error) from None


def _check(path: str, image: Image) -> None:
    width, height = image.size
    if width * height > MOST_PIXELS:
        size = f"{width} × {height} pixels are more than {MOST_PIXELS // 1_000_000} million"
        raise refusals.large_picture(path, size)
    # A photograph may carry a second, smaller one (MPO); its first is the picture.
    if image.format != "MPO" and getattr(image, "n_frames", 1) > 1:
        raise refuse(
            "E923",
            f"`{path}` holds several pictures: it moves, or has pages",
            "Save the one that shows the motif as a picture of its own.",
        )
    if image.mode == "F":
        raise refuse("E921", f"`{path}` holds measurements, not colours", _SAVE)


def _plain(path: str, image: Image, ground: str) -> Image:
    from PIL import Image as images
    from PIL import ImageOps

    image.load()
    upright = ImageOps.exif_transpose(image)
    if upright.mode.startswith("I"):  # 16 bits of grey a pixel
        upright = upright.convert("I").point(lambda value: value * (1 / 257)).convert("L")
    if upright.mode in _SEE_THROUGH or "transparency" in upright.info:
        over = upright.convert("RGBA")
        upright = images.alpha_composite(images.new("RGBA", over.size, ground), over)
    plain = upright.convert("RGB")
    longer = max(plain.size)
    if longer > _MOST_SIDE:
        size = tuple(max(1, round(side * _MOST_SIDE / longer)) for side in plain.size)
        plain = plain.resize((size[0], size[1]), images.Resampling.BOX)
    return plain


def _unreadable(path: str, error: Exception) -> Refused:
    from PIL import UnidentifiedImageError

    if isinstance(error, UnidentifiedImageError):
        kinds = ", ".join(kind for kind in FORMATS if kind != "PPM")
        return refuse("E921", f"`{path}` is no picture that can be read", f"Pictures are {kinds} files. {_SAVE}")
    return refuse("E921", f"`{path}` cannot be read: the picture is damaged or cut short", _SAVE)
