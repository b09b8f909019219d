"""Lines where stitches come and go: cast on, picked up, kept, gathered, bound off."""

from __future__ import annotations

from msgspec import Struct

from wale.prove.words.stitches import Stitches


class CastOn(Struct, frozen=True):
    """Cast on; `joined` to a round."""

    count: int
    yarn: str
    needle: str
    manner: str
    joined: bool


class Needles(Struct, frozen=True):
    """Change to other needles."""

    needle: str


class BindOff(Struct, frozen=True):
    """Bind off all stitches; `words` say how and in what."""

    count: int
    words: str

    @property
    def yarn(self) -> str:
        """Give the yarn that the words begin with, or "" where they say only how."""
        return self.words[3:].partition(",")[0] if self.words.startswith("in ") else ""


class Cord(Struct, frozen=True):
    """Bind off with a cord of `cord` stitches, `slipped` back after each repeat; `last` are bound off at its end."""

    yarn: str
    cord: int
    count: int
    stitches: Stitches
    slipped: int
    times: int
    last: int


class PickUp(Struct, frozen=True):
    """Stitches picked up along (count, edge), and `joined` to a round."""

    needle: str
    yarn: str
    picked: tuple[tuple[int, str], ...]
    total: int
    joined: bool = True


class Keep(Struct, frozen=True):
    """Stitches of a round put on holders, (count, whether it is an underarm) each, from the start of the round."""

    kept: tuple[tuple[int, bool], ...]


class Gather(Struct, frozen=True):
    """Begin with the held stitches of other pieces, (count, piece) from the start of the round."""

    needle: str
    yarn: str
    taken: tuple[tuple[int, str], ...]
    total: int


class Refer(Struct, frozen=True):
    """Begin with the first `last` steps of another piece; the piece's own steps are numbered from `following`."""

    last: int
    piece: str
    following: int
