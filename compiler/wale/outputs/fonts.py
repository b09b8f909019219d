"""The typefaces of the pages: which files a text needs, as CSS, and which characters none of them has.

The fonts are Source Serif 4 and Source Sans 3 (SIL Open Font License 1.1, `docs/licences/`), cut by script into small
files as their package ships them; `fonts/faces.json` lists the characters of each, later files without those of earlier
ones. The families carry names of our own in the CSS, so that no font of the reader's machine stands in for them.
"""

from __future__ import annotations

import json
import unicodedata
from base64 import b64encode
from functools import cache
from importlib import resources
from io import BytesIO

from msgspec import Struct

SANS = "Wale Sans"
SERIF = "Wale Serif"
_INVISIBLE = frozenset("\n\t\r\u00ad\u200b\u200d\u2060")
_UNKNOWN = "\ufffd"


class Face(Struct, frozen=True):
    """One font file: family in the CSS, weight, style, script, name without ending, characters (inclusive ranges)."""

    family: str
    weight: int
    style: str
    subset: str
    file: str
    ranges: tuple[tuple[int, int], ...]

    def has(self, character: str) -> bool:
        """Whether the file draws `character`."""
        code = ord(character)
        return any(first <= code <= last for first, last in self.ranges)

    @property
    def address(self) -> str:
        """The file's address within the package, `font:` and its name."""
        return f"font:{self.file}"

    @property
    def unicode_range(self) -> str:
        """The characters as a CSS `unicode-range`."""
        return ",".join(f"U+{a:X}" if a == b else f"U+{a:X}-{b:X}" for a, b in self.ranges)


def _read_ranges(text: str) -> tuple[tuple[int, int], ...]:
    pairs = (part.partition("-") for part in text.split(","))
    return tuple((int(first, 16), int(last or first, 16)) for first, _, last in pairs)


@cache
def faces() -> tuple[Face, ...]:
    """All font files of the package, in the order of `faces.json`."""
    listed = json.loads(resources.files(__package__).joinpath("fonts/faces.json").read_text("utf-8"))
    return tuple(Face(**{**entry, "ranges": _read_ranges(entry["ranges"])}) for entry in listed)


def needed(text: str) -> tuple[Face, ...]:
    """The files that `text` needs, in every weight and style: basic Latin always, other scripts where they occur."""
    characters = {character for character in set(text) if ord(character) > 0x7E}
    scripts = {"latin"} | {face.subset for face in faces() if any(map(face.has, characters))}
    return tuple(face for face in faces() if face.subset in scripts)


def _read(file: str) -> bytes:
    return resources.files(__package__).joinpath("fonts", file).read_bytes()


@cache
def _data_uri(face: Face) -> str:
    return "data:font/woff2;base64," + b64encode(_read(f"{face.file}.woff2")).decode("ascii")


@cache
def truetype(address: str) -> bytes:
    """The plain TrueType file for an address that `css` gave, dated as its makers dated it.

    The typesetter would unpack a file itself, but stamp it with the time of day. Basic Latin, which every page needs,
    comes from a file that unpacks at once; one of the smaller ones takes 70 ms.
    """
    from fontTools.ttLib import TTFont  # type: ignore[import-untyped]

    face = next(face for face in faces() if face.address == address)
    form = "woff" if face.subset == "latin" else "woff2"
    font = TTFont(BytesIO(_read(f"{face.file}.{form}")), recalcTimestamp=False)
    font.flavor = None
    out = BytesIO()
    font.save(out)
    return out.getvalue()


def css(text: str, *, is_inline: bool = True) -> str:
    """The `@font-face` rules for a page that holds `text`.

    With the files inside as data (WOFF2); or not `is_inline`, with addresses whose files `truetype` gives.
    """
    return "\n".join(
        f'@font-face{{font-family:"{face.family}";font-weight:{face.weight};font-style:{face.style};'
        f"font-display:swap;src:url({_data_uri(face) if is_inline else face.address});"
        f"unicode-range:{face.unicode_range}}}"
        for face in needed(text)
    )


def drawable(character: str) -> bool:
    """Whether every style of both families has `character` (or it has no shape to draw)."""
    if " " <= character <= "~" or character in _INVISIBLE:
        return True
    styles = {(face.family, face.weight, face.style) for face in faces()}
    return {(face.family, face.weight, face.style) for face in faces() if face.has(character)} == styles


def settable(text: str) -> tuple[str, tuple[str, ...]]:
    """`text` in characters that the fonts have, and those that had to be replaced.

    A character without a glyph is split into its compatibility parts where these exist (a ligature, a rare fraction),
    which loses nothing; else it becomes U+FFFD and is returned, in code order.
    """
    odd = {character for character in set(text) if not drawable(character)}
    replaced: dict[str, str] = {}
    lost = []
    for character in sorted(odd):
        parts = unicodedata.normalize("NFKC", character)
        if parts == character or not all(map(drawable, parts)):
            parts = _UNKNOWN
            lost.append(character)
        replaced[character] = parts
    return "".join(replaced.get(character, character) for character in text) if odd else text, tuple(lost)
