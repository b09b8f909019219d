"""`wale git-listing` and `wale git-merge`: what git itself calls once `wale git-setup` has told it to."""

from __future__ import annotations

import posixpath
import re

import click

from wale.commands.report import emit, notice, report
from wale.files import Refused, World
from wale.problems.problem import Problem
from wale.source import Source

CONFLICT = 1


@click.command("git-listing", hidden=True, short_help="Called by git: show a version of a spec.")
@click.argument("path", metavar="PATH")
@click.pass_obj
def git_listing(world: World, path: str) -> int:
    """Print the spec at PATH with its numbers, for git to compare line by line.

    Git calls this for `git diff`, `git log -p` and `git show`. It never fails: what cannot be compiled is printed with
    its errors, what cannot be read as it is.

    \b
    Example:
      wale git-listing hat.wale
    """
    data = world.read_bytes(path)
    try:
        text = _listed(world, path, data)
    except Exception as error:  # git would show nothing at all; a defect of ours is told and must not hide a version
        notice(f"{path} is shown without its numbers: {type(error).__name__}: {error}")
        text = None
    emit(data if text is None else text.encode())
    return 0


def _listed(world: World, path: str, data: bytes) -> str | None:
    """Give a version with its numbers; None where it has none."""
    from wale.versions.listing import is_garment

    text = data.decode("utf-8").removeprefix("\ufeff").replace("\r\n", "\n")
    source = Source(_place(world, path, text), text)
    if not is_garment(source) or world.git("ls-files", "-u", "--", _anywhere(posixpath.basename(source.name))).out:
        return None  # no numbers, or a merge is open: both sides' numbers would stand between the marks' lines
    from wale.driver import check_source
    from wale.versions.listing import listing

    return listing(source, check_source(world, source))


def _place(world: World, path: str, text: str) -> str:
    """Give the path that a version has in the work tree: git hands it over in a file elsewhere, with its own name.

    Where several files have that name, it is the first beside which all used files lie.
    """
    if not posixpath.isabs(path):
        return path
    name = posixpath.basename(path)
    older = re.sub(r"^[A-Za-z0-9]{6}_(?=.)", "", name)  # what older gits put before it
    for wanted in dict.fromkeys((name, older)):
        found = world.git("ls-files", "-z", "--", _anywhere(wanted)).out.decode(errors="replace")
        places = [place for place in found.split("\0") if place]
        if places:
            return next((place for place in places if _has_used(world, place, text)), places[0])
    return path


def _anywhere(name: str) -> str:
    """Give the pathspec of all files of a name."""
    return ":(top,glob)**/" + re.sub(r"([*?\[\]\\])", r"\\\1", name)


def _has_used(world: World, place: str, text: str) -> bool:
    """Say whether the files that a version uses lie beside a place."""
    try:
        for used in re.findall(r'(?m)^(?:\s+use|sizes\s+from)\s+"([^"\n]+)"', text):
            world.read_beside(place, used)
    except Refused:
        return False
    return True


@click.command("git-merge", hidden=True, short_help="Called by git: merge two versions of a spec.")
@click.argument("base", metavar="BASE")
@click.argument("ours", metavar="OURS")
@click.argument("theirs", metavar="THEIRS")
@click.argument("size", metavar="SIZE", type=click.IntRange(1, 1000))
@click.argument("path", metavar="PATH")
@click.argument("names", metavar="[NAME]...", nargs=-1)
@click.pass_obj
def git_merge(world: World, base: str, ours: str, theirs: str, size: int, path: str, names: tuple[str, ...]) -> int:
    """Merge THEIRS into OURS, both begun from BASE, block by block; SIZE signs make a conflict's mark.

    Git calls this for every merge of a `.wale` file; PATH is the file's place in the repository, each NAME what the
    base, ours and theirs are called. The exit code is 1 where there is a conflict, or where what was merged has an
    error that neither side had.

    \b
    Example:
      wale git-merge base.wale ours.wale theirs.wale 7 hat.wale
    """
    from wale.versions.merge import Marks, merge

    called = [name if name and not name.startswith("%") else "" for name in (*names, "", "", "")[:3]]
    style = world.git("config", "merge.conflictStyle").out.strip()
    marks = Marks(size, called[1] or "ours", called[0] or "base", called[2] or "theirs", style in (b"diff3", b"zdiff3"))
    try:
        texts = [world.read_bytes(one).decode("utf-8") for one in (base, ours, theirs)]
        merged = merge(texts[0], texts[1], texts[2], marks)
    except Exception as error:  # no version may get lost, whatever is wrong with it or with us
        why = "not UTF-8 text" if isinstance(error, UnicodeDecodeError) else f"not merged by block ({error})"
        notice(f"{path}: {why}, so git's own way of merging is taken")
        labels = [word for name in (marks.ours, marks.base, marks.theirs) for word in ("-L", name)]
        done = world.git("merge-file", f"--marker-size={size}", *labels, ours, base, theirs)
        return min(done.code, CONFLICT)
    world.rewrite(ours, merged.text.encode())
    if merged.conflicts:
        notice(f"{path}: both sides changed {', '.join(merged.conflicts)}")
        return CONFLICT
    return _compiled(world, path, merged.text, texts[1:])


def _compiled(world: World, path: str, text: str, sides: list[str]) -> int:
    """Check what was merged: an error that neither side has is a conflict."""
    if text in sides:
        return 0
    from wale.versions.listing import is_garment

    if not is_garment(Source(path, text)):
        return 0
    errors, source = _errors(world, path, text)
    if not errors:
        return 0
    known = {(one.code, one.message) for side in sides for one in _errors(world, path, side)[0]}
    new = [one for one in errors if (one.code, one.message) not in known]
    if not new:
        notice(f"{path}: merged; an error that was there before is there still ({errors[0].code})")
        return 0
    report(world, new, {source.name: source})
    words = "what was merged has no conflicting lines, but together they do not compile"
    report(world, [Problem("E936", f"{path}: {words}", help=f"Mend it, then `git add {path}`.")], {})
    return CONFLICT


def _errors(world: World, path: str, text: str) -> tuple[list[Problem], Source]:
    """Give the errors of a version, with what it uses in the work tree."""
    from wale.driver import check_source

    source = Source(path, text.removeprefix("\ufeff"))
    return [one for one in check_source(world, source).problems if one.is_error], source
