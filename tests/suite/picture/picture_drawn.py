"""Pictures of motifs, drawn for the tests: tiled, with noise, in any proportions."""

import random
from io import BytesIO

from PIL import Image

COLOURS = {"-": (0x8A, 0x5A, 0x2B), "x": (0xEF, 0xE6, 0xD2), "o": (0x2B, 0x4A, 0x6A)}
HEX = {mark: "#{:02x}{:02x}{:02x}".format(*colour) for mark, colour in COLOURS.items()}

# Invented for the tests: grain on a stalk, without any symmetry.
GRIST = """\
- - - x - - - -
- - x x - - - -
- x x - - x - -
- x - - - x x -
- - - x - - x -
x - - x - - - -
x x - - - - - x
- x - - x - - x
- - - x x - - -
- - - - x - x -
"""


def rows(text):
    """Give a motif's rows from the top down."""
    return tuple(tuple(line.split()) for line in text.splitlines())


def drawn(motif, across, up, width=9.0, height=8.0, shift=0, noise=0.0, specks=0.0, seed=6):
    """Draw a motif.

    Args:
        motif: rows of marks from the top down.
        across: repeats from the left, whole or not; `up` from below.
        width: of a stitch in pixels, `height` of a row.
        shift: stitches that each repeat above starts along to the left.
        noise: standard deviation of each part of a colour, of 255.
        specks: share of pixels in the colour of another yarn.
    """
    dice = random.Random(seed)
    stitches, lines = len(motif[0]), len(motif)
    marks = sorted({mark for row in motif for mark in row})
    size = round(stitches * width * across), round(lines * height * up)
    pixels = bytearray()
    for y in range(size[1]):
        times, row = divmod(int((size[1] - y - 0.5) / height), lines)
        for x in range(size[0]):
            mark = motif[lines - 1 - row][(int((x + 0.5) / width) + shift * times) % stitches]
            if specks and dice.random() < specks:
                mark = dice.choice(marks)
            pixels += bytes(
                max(0, min(255, round(dice.gauss(part, noise) if noise else part))) for part in COLOURS[mark]
            )
    return Image.frombytes("RGB", size, bytes(pixels))


def saved(image, kind="PNG", **options):
    """Give the bytes of a picture's file."""
    out = BytesIO()
    image.save(out, kind, **options)
    return out.getvalue()
