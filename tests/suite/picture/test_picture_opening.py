"""Pictures of every kind are read alike or refused with a reason; none raises anything else."""

import struct
import zlib

import pytest
from hypothesis import given
from hypothesis import strategies as st
from picture_drawn import COLOURS, GRIST, HEX, drawn, rows, saved
from PIL import Image

from wale.picture.make import Wish, make
from wale.picture.opening import MOST_PIXELS, open_picture
from wale.refusals import Refused

MOTIF = rows(GRIST)
PICTURE = drawn(MOTIF, 2, 2, 6, 6)
GROUND = HEX["-"]


def opened(data):
    return open_picture("ear.png", data, GROUND)


def refused(data):
    with pytest.raises(Refused) as caught:
        opened(data)
    problem = caught.value.problem
    assert "ear.png" in problem.message and problem.help
    return problem.code


def motif_of(image, yarns=(HEX["-"], HEX["x"])):
    made = make("ear.png", image, Wish(8), yarns)
    return tuple(tuple("-x"[yarn] for yarn in row) for row in reversed(made.motif))


@pytest.mark.parametrize(
    ("kind", "mode", "options"),
    [
        ("PNG", "RGB", {}),
        ("PNG", "P", {}),
        ("PNG", "RGBA", {}),
        ("GIF", "P", {}),
        ("BMP", "RGB", {}),
        ("TIFF", "RGB", {}),
        ("TIFF", "CMYK", {}),
        ("WEBP", "RGB", {"lossless": True}),
        ("JPEG", "RGB", {"quality": 90}),
        ("JPEG", "CMYK", {"quality": 90}),
        ("PPM", "RGB", {}),
    ],
)
def test_kinds_of_files_and_of_colours(kind, mode, options):
    image = opened(saved(PICTURE.convert(mode), kind, **options))
    assert (image.mode, image.size) == ("RGB", PICTURE.size)
    assert motif_of(image) == MOTIF


@pytest.mark.parametrize("mode", ["1", "L", "LA", "I;16"])
def test_greys_of_1_8_and_16_bits(mode):
    # Black and white stand for the yarns, so that every kind of grey can hold them.
    grey = PICTURE.convert("L").point(lambda value: 255 if value > 150 else 0)
    if mode == "I;16":
        grey = Image.frombytes("I;16", grey.size, bytes(each for value in grey.tobytes() for each in (value, value)))
    else:
        grey = grey.convert(mode)
    image = opened(saved(grey))
    assert set(image.tobytes()) == {0, 255}
    assert motif_of(image, ("#000000", "#ffffff")) == MOTIF


def test_where_it_is_see_through_the_first_yarn_shows():
    ground = PICTURE.convert("L").point(lambda value: 0 if value < 150 else 255)
    clear = Image.merge("RGBA", [*PICTURE.point(lambda value: 255 if value > 190 else 7).split(), ground])
    assert clear.getpixel((0, 0))[3] == 0 and COLOURS["-"] == PICTURE.getpixel((0, 0))
    assert motif_of(opened(saved(clear))) == MOTIF
    named = PICTURE.quantize(4)
    named.info["transparency"] = named.getpixel((0, 0))
    assert motif_of(opened(saved(named))) == MOTIF


@pytest.mark.parametrize("orientation", range(1, 9))
def test_a_photograph_is_turned_as_the_camera_noted(orientation):
    # EXIF 2.32, tag 274: what was done to the upright picture, undone by the reader.
    undo = {
        2: Image.Transpose.FLIP_LEFT_RIGHT,
        3: Image.Transpose.ROTATE_180,
        4: Image.Transpose.FLIP_TOP_BOTTOM,
        5: Image.Transpose.TRANSPOSE,
        6: Image.Transpose.ROTATE_90,  # stored turned left, shown turned right
        7: Image.Transpose.TRANSVERSE,
        8: Image.Transpose.ROTATE_270,
    }
    stored = PICTURE.transpose(undo[orientation]) if orientation in undo else PICTURE
    exif = Image.Exif()
    exif[274] = orientation
    image = opened(saved(stored, "JPEG", exif=exif, quality=95))
    assert image.size == PICTURE.size
    assert motif_of(image) == MOTIF


def test_a_large_picture_is_made_smaller():
    image = opened(saved(Image.new("RGB", (6000, 300), GROUND)))
    assert image.size == (2400, 120)


def test_what_moves_or_has_pages_is_refused():
    pages = [PICTURE, PICTURE.transpose(Image.Transpose.FLIP_LEFT_RIGHT)]
    for kind in ("GIF", "TIFF", "PNG", "WEBP"):
        assert refused(saved(pages[0], kind, save_all=True, append_images=pages[1:])) == "E923"


def bomb(width, height):
    """A small PNG that says it is large."""

    def chunk(name, data):
        return struct.pack(">I", len(data)) + name + data + struct.pack(">I", zlib.crc32(name + data))

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 1, 0, 0, 0, 0))
    return b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(b"\0" * 1000)) + chunk(b"IEND", b"")


@pytest.mark.parametrize("size", [(10_000, 4_001), (20_000, 20_000), (2**31 - 1, 2**31 - 1)])
def test_too_many_pixels_are_refused_before_they_are_unpacked(size):
    assert size[0] * size[1] > MOST_PIXELS
    assert refused(bomb(*size)) in ("E921", "E922")
    if size[0] < 2**30:
        assert refused(bomb(*size)) == "E922"


def test_what_is_no_picture_or_measures_is_refused():
    for data in (b"", b"wale 1\n", b"%!PS-Adobe-3.0 EPSF-3.0\n", b"<svg xmlns='http://www.w3.org/2000/svg'/>"):
        assert refused(data) == "E921"
    assert refused(saved(Image.new("F", (9, 9)), "TIFF")) == "E921"


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "GIF", "TIFF", "WEBP"])
def test_a_picture_that_is_cut_short_is_refused(kind):
    data = saved(PICTURE, kind)
    assert refused(data[: len(data) // 2]) == "E921"


FILES = [saved(PICTURE, kind) for kind in ("PNG", "JPEG", "GIF", "BMP", "TIFF", "WEBP", "PPM")]


@given(st.sampled_from(FILES), st.lists(st.tuples(st.integers(0, 10**6), st.integers(0, 255)), max_size=8))
def test_damaged_files_are_read_or_refused(data, damage):
    changed = bytearray(data)
    for place, value in damage:
        changed[place % len(changed)] = value
    try:
        assert opened(bytes(changed)).mode == "RGB"
    except Refused as caught:
        assert caught.problem.code in ("E921", "E922", "E923")


def test_a_repeat_of_fewer_pixels_than_stitches_is_refused():
    with pytest.raises(Refused) as caught:
        make("ear.png", Image.new("RGB", (16, 16)), Wish(40), ["#000000", "#ffffff"])
    assert caught.value.problem.code == "E924"
    with pytest.raises(Refused) as caught:
        make("ear.png", Image.new("RGB", (20, 900)), Wish(20, is_whole=True), ["#000000", "#ffffff"])
    assert caught.value.problem.code == "E223"
