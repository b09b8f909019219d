"""Files of a version in the git repository at hand: `REV:path`, as git writes it (`HEAD~1:jumper.wale`)."""

from __future__ import annotations

import posixpath
import re

from wale import refusals
from wale.files import MemoryWorld, World
from wale.refusals import LIMIT_BYTES
from wale.source import Source

_DRIVE = re.compile(r"[A-Za-z]:[\\/]")


def names_revision(name: str) -> bool:
    """Say whether a name has the form `REV:path` (`:path`: the index); with a drive, `C:\\hat.wale`, it has not."""
    return ":" in name and not _DRIVE.match(name)


def read_revision(world: World, name: str, most: int = LIMIT_BYTES) -> bytes:
    """Give the bytes of a file in a version; its path is counted from the repository's folder, as by git.

    Raises:
        Refused: E905 too large, E931 no git, E932 no repository, E937 no such version, or no such file in it.
    """
    revision, _, path = name.partition(":")
    if not revision.startswith("-") and path:
        done = world.git("cat-file", "blob", name)
        if done.code == 0:
            return refusals.within_limit(name, done.out, most)
    inside = world.git("rev-parse", "--show-prefix")
    if inside.code:
        raise refusals.no_repository(inside.err)
    known = revision and not revision.startswith("-") and world.git("rev-parse", "--verify", "-q", f"{revision}^{{}}")
    if revision and not (known and known.code == 0):
        help = "`git log --oneline` lists the versions; HEAD is the last one, HEAD~1 the one before."
        raise refusals.refuse("E937", f"the repository has no version `{revision}`", help)
    place = f"the version `{revision}`" if revision else "the index"
    full = posixpath.normpath(posixpath.join(inside.out.decode(errors="replace").strip(), path or "?"))
    help = "The path is counted from the repository's folder; `git ls-tree -r --name-only HEAD` lists the files."
    if path and full != path and world.git("cat-file", "-e", f"{revision}:{full}").code == 0:
        help = f"The path is counted from the repository's folder: write `{revision}:{full}`."
    raise refusals.refuse("E937", f"{place} has no file `{path}`", help)


class Revision(MemoryWorld, kw_only=True):
    """Surroundings whose files are those of versions, all called `REV:path`; what a spec uses is of its own version."""

    world: World

    def read(self, path: str) -> Source:
        """See `World.read`."""
        return refusals.decode(path, read_revision(self.world, path))

    def read_beside(self, spec_path: str, name: str) -> Source:
        """See `World.read_beside`."""
        revision, _, path = spec_path.partition(":")
        return self.read(f"{revision}:{refusals.beside(path, name)}")
