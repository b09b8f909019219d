"""`wale git-setup`: git speaks knitting in one repository, and unlearns it again."""

from __future__ import annotations

import sys

import click

from wale import refusals
from wale.commands.report import exit_code, notice, report
from wale.files import Refused, World
from wale.problems.problem import Problem
from wale.refusals import refuse

LINE = "*.wale diff=wale merge=wale"
_NO_END = "added-after-a-line-without-end"


@click.command(
    "git-setup",
    short_help="Make git show and merge specs as knitting.",
    epilog="""\b
Examples:
  wale git-setup                   in a repository: set it up
  wale git-setup --remove          put everything back as it was
""",
)
@click.option("--remove", "to_remove", is_flag=True, help="Put everything back as it was, e.g. wale git-setup --remove")
@click.pass_obj
def git_setup(world: World, to_remove: bool) -> int:
    """Tell git how to show and merge `*.wale` files in the repository that you are in.

    Writes one line of .gitattributes and settings of this repository alone; nothing of yours or of the machine's is
    touched. `git diff`, `git log -p` and `git show` then show stitches, rows and lengths below the lines that make
    them, and `git merge` goes block by block. Running it again changes nothing.
    """
    done = world.git("rev-parse", "--show-toplevel")
    top = done.out.decode(errors="replace").removesuffix("\n")
    if done.code or not top:
        raise refusals.no_repository(done.err)
    if to_remove:
        return _remove(world, top)
    return _set_up(world, top)


def _settings() -> dict[str, str]:
    """Give git's settings: how this very program is called, whatever is on the user's path."""
    from wale.versions.listing import HEADING

    # -P: nothing that lies in the repository is taken for a module
    program = f"{_quoted(sys.executable)} -P -m wale"
    return {
        "diff.wale.textconv": f"{program} git-listing --",
        "diff.wale.xfuncname": HEADING,
        "merge.wale.name": "knitting specs, block by block",
        "merge.wale.driver": f"{program} git-merge -- %O %A %B %L %P %S %X %Y",
        "merge.wale.recursive": "text",
    }


def _quoted(path: str) -> str:
    """Quote a path for the shell that git calls."""
    return "'" + path.replace("\\", "/").replace("'", "'\\''") + "'"


def _is_ours(name: str, value: str) -> bool:
    """Say whether a setting is one that some `wale git-setup` made."""
    if name in ("diff.wale.textconv", "merge.wale.driver"):
        return "-m wale git-" in value
    return value == _settings()[name]


def _set_up(world: World, top: str) -> int:
    """Write the settings, then the line."""
    path = f"{top}/.gitattributes"
    old = _attributes(world, path)
    has_line = _spoken_for(old or b"", path)
    before = {name: _get(world, name) for name in _settings()}
    for name, value in before.items():
        if value is not None and not _is_ours(name, value):
            raise refuse(
                "E934",
                f"this repository's setting {name} is `{value[:60]}` already",
                f"Take it away if you do not need it: `git config --unset {name}`.",
            )
    new = {name: value for name, value in _settings().items() if before[name] != value}
    record = f"wale.{top}.attributes"
    mark = "found" if has_line else "created" if old is None else _NO_END if _lacks_end(old) else "added"
    if not has_line or _get(world, record) is None:
        new[record] = mark
        before[record] = _get(world, record)
    made: list[str] = []
    try:
        for name, value in new.items():
            _config(world, "set git's settings", name, value)
            made.append(name)
        if not has_line:
            world.rewrite(path, (old or b"") + (b"\n" if mark == _NO_END else b"") + LINE.encode() + b"\n")
    except Refused:
        for name in reversed(made):
            was = before[name]
            world.git("config", "--local", *(("--unset", name) if was is None else (name, was)))
        _drop_empty(world, record, made)
        raise
    notice(f"{'set up' if new else 'set up already'}: {top}")
    if not has_line:
        notice(".gitattributes has a new line; commit it for whoever shares the repository")
    return _overruled(world, top)


def _attributes(world: World, path: str) -> bytes | None:
    """Give what `.gitattributes` holds, None where there is none."""
    try:
        return world.read_bytes(path)
    except Refused as refused:
        if refused.problem.code == "E901":
            return None
        raise


def _lacks_end(data: bytes) -> bool:
    return bool(data) and not data.endswith(b"\n")


def _spoken_for(data: bytes, path: str) -> bool:
    """Say whether the line stands there already.

    Raises:
        Refused: E934 another line says how to show or merge `*.wale`.
    """
    found = False
    for number, line in enumerate(data.decode(errors="replace").splitlines(), 1):
        pattern, *words = line.split() or [""]
        if pattern.startswith("#") or not pattern.strip('"').endswith("*.wale"):
            continue
        told = [word for word in words if word.lstrip("-!").partition("=")[0] in ("diff", "merge", "binary")]
        if " ".join(line.split()) == LINE:
            found = True
        elif any(word not in ("diff=wale", "merge=wale") for word in told):
            raise refuse(
                "E934",
                f"line {number} of `{path}` says `{line.strip()[:60]}`",
                "Take diff, merge or binary out of it, then run the command again.",
            )
    return found


def _get(world: World, name: str) -> str | None:
    """Give a setting of this repository, None where it has none."""
    done = world.git("config", "--local", "--get", name)
    return None if done.code else done.out.decode(errors="replace").removesuffix("\n")


def _config(world: World, what: str, *arguments: str) -> None:
    """Change this repository's settings.

    Raises:
        Refused: E933 git would not.
    """
    done = world.git("config", "--local", *arguments)
    if done.code:
        raise refusals.git_refuses(what, done.err)


def _overruled(world: World, top: str) -> int:
    """Warn of specs that other attributes speak for."""
    listed = world.git("-C", top, "ls-files", "-z", "--", "*.wale").out.decode(errors="replace")
    paths = [path for path in listed.split("\0") if path][:1000] or ["pattern.wale"]
    words = (
        world.git("-C", top, "check-attr", "-z", "diff", "merge", "--", *paths).out.decode(errors="replace").split("\0")
    )
    for path, attribute, value in zip(words[::3], words[1::3], words[2::3], strict=False):
        if value != "wale":
            message = f"git goes by other attributes for `{path}`: {attribute} is {value} there"
            found = Problem("W935", message, help=f"See `git check-attr -a {path}`.")
            report(world, [found], {})
            return exit_code([found])
    return 0


def _remove(world: World, top: str) -> int:
    """Take the line away, then the settings, as far as they are ours."""
    record = f"wale.{top}.attributes"
    mark = _get(world, record)
    if mark is None:
        notice(f"nothing was set up here: {top}")
        return 0
    path = f"{top}/.gitattributes"
    old = _attributes(world, path)
    if old is not None and mark != "found":
        new = _without(old, mark)
        if not new and mark == "created":
            world.delete(path)
        elif new != old:
            world.rewrite(path, new)
    _config(world, "take its settings away", "--remove-section", record.removesuffix(".attributes"))
    others = world.git("config", "--local", "--get-regexp", r"^wale\..*\.attributes$")
    if others.code == 0:
        notice(f"removed: {top}; its settings stay, for they serve another work tree too")
        return 0
    names = [name for name in _settings() if (value := _get(world, name)) is not None and _is_ours(name, value)]
    for name in names:
        _config(world, "take its settings away", "--unset", name)
    _drop_empty(world, record, names)
    notice(f"removed: {top}")
    return 0


def _without(data: bytes, mark: str) -> bytes:
    """Take the line out again, and the line end that stood before it for its sake."""
    lines = data.splitlines(keepends=True)
    at = next((at for at, line in enumerate(lines) if b" ".join(line.split()) == LINE.encode()), None)
    if at is None:
        return data
    kept = b"".join((*lines[:at], *lines[at + 1 :]))
    is_last = at == len(lines) - 1
    return kept.removesuffix(b"\n") if mark == _NO_END and is_last else kept


def _drop_empty(world: World, record: str, names: list[str]) -> None:
    """Take away the headings of sections that hold nothing any more."""
    for section in dict.fromkeys(name.rpartition(".")[0] for name in (record, *names)):
        pattern = "^" + "".join(sign if sign.isalnum() else "\\" + sign for sign in section) + "\\."
        if world.git("config", "--local", "--get-regexp", pattern).code:
            world.git("config", "--local", "--remove-section", section)
