"""Refusals: what the surroundings will not give, as problems. All by the words of a path or the bytes of a file.

The worlds in `files.py` ask here, so that the real one and its twin refuse alike; nothing here touches the disk.
"""

from __future__ import annotations

import errno
import posixpath
import unicodedata

from msgspec.structs import replace

from wale.problems.problem import Label, Problem
from wale.source import Source, Span

LIMIT_BYTES = 1_000_000
"""Largest spec that is read; a long one has about 10,000 bytes."""

LIMIT_PICTURE = 50_000_000
"""Largest file of a picture that is read, in bytes."""

DEFAULT_EPOCH = 1_767_225_600
"""2026-01-01 00:00 UTC: the date in outputs unless SOURCE_DATE_EPOCH gives another."""

LAST_EPOCH = 253_402_300_799
"""The last second of the year 9999, beyond which a PDF has no date."""


class Refused(Exception):
    """Something outside the compiler could not be had; `problem` says what and why."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(problem.message)
        self.problem = problem

    def at(self, span: Span) -> Problem:
        """Give the problem with the place of the line that asked."""
        return replace(self.problem, labels=(Label(span),))


def refuse(code: str, message: str, help: str = "") -> Refused:
    """Build a refusal; there is no place in a source to point at."""
    return Refused(Problem(code, message, help=help))


def decode(path: str, data: bytes) -> Source:
    """Turn a file's bytes into a source.

    Raises:
        Refused: E904 not UTF-8, E905 over `LIMIT_BYTES`.
    """
    try:
        text = within_limit(path, data).decode("utf-8")
    except UnicodeDecodeError as error:
        line = data.count(b"\n", 0, error.start) + 1
        raise refuse(
            "E904",
            f"`{path}` is not UTF-8 text: byte {error.start + 1} of the file, on line {line}, "
            f"is 0x{data[error.start]:02x}",
            "Save the file as UTF-8 in your editor.",
        ) from None
    return Source(path, unicodedata.normalize("NFC", text.removeprefix("\ufeff")))


def within_limit(path: str, data: bytes, most: int = LIMIT_BYTES) -> bytes:
    """Give a file's bytes back.

    Raises:
        Refused: E905 more than `most` bytes.
    """
    if len(data) > most:
        raise refuse(
            "E905",
            f"`{path}` is larger than {most // 1_000_000} MB, too large for a pattern",
            "Check that it is the file you meant; move yarns and motifs into files of their own and `use` them.",
        )
    return data


def picture_within_limit(path: str, data: bytes) -> bytes:
    """Give the bytes of a picture's file back.

    Raises:
        Refused: E922 over `LIMIT_PICTURE`.
    """
    if len(data) > LIMIT_PICTURE:
        raise large_picture(path, f"its file has more than {LIMIT_PICTURE // 1_000_000} MB")
    return data


def large_picture(path: str, reason: str) -> Refused:
    """Build the refusal of a picture that is too large."""
    return refuse(
        "E922", f"the picture `{path}` is too large: {reason}", "Save it smaller, or cut the motif out of it."
    )


def beside(spec_path: str, name: str) -> str:
    """Give the path of a used file from the spec's own path, by the words alone (links are the world's business).

    Raises:
        Refused: E906 not a relative `.wale` or `.csv` name, E907 it climbs out of the folder.
    """
    parts = name.split("/")
    plain = name.isprintable() and "\\" not in name and ":" not in parts[0] and parts[0]
    if not plain or not name.endswith((".wale", ".csv")):
        raise refuse(
            "E906",
            f"`{name}` cannot be used: only a `.wale` or `.csv` file named from the spec's own folder can",
            'Write a plain name, such as `use "yarns.wale"` or `use "shared/yarns.wale"`.',
        )
    if ".." in parts:
        raise outside(name)
    return posixpath.join(posixpath.dirname(spec_path), name)


def outside(name: str) -> Refused:
    """Build the refusal of a used file that lies outside the spec's folder."""
    return refuse(
        "E907",
        f"`{name}` lies outside the spec's folder, and a spec reads nothing from there",
        "Copy the file into the spec's folder, or into a folder inside it.",
    )


def is_spec(path: str) -> bool:
    """Say whether a path ends like a spec."""
    return path.lower().endswith(".wale")


def parse_epoch(text: str) -> int:
    """Give the date that SOURCE_DATE_EPOCH (reproducible-builds.org) asks for, `DEFAULT_EPOCH` when it is empty.

    Raises:
        Refused: E911 not a whole number of seconds from 1970 to 9999.
    """
    if not text:
        return DEFAULT_EPOCH
    if not (text.isascii() and text.isdigit() and len(text) <= 12 and int(text) <= LAST_EPOCH):
        raise refuse(
            "E911",
            f"SOURCE_DATE_EPOCH is `{text[:40]}`, not a whole number of seconds from 1970 to 9999",
            f"Unset it, or set a number such as {DEFAULT_EPOCH}.",
        )
    return int(text)


def missing(path: str) -> Refused:
    """Build the refusal of a file that isn't there."""
    return refuse("E901", f"there is no file `{path}`", "Check the name and the folder you are in.")


def read_folder(path: str) -> Refused:
    """Build the refusal of a folder where a file to read is named."""
    return refuse("E902", f"`{path}` is a folder, not a file", "Add the file's name to it.")


def unreadable(path: str, reason: str) -> Refused:
    """Build the refusal of a file that the system won't open."""
    return refuse("E903", f"`{path}` cannot be read: {reason}", "Check the file's permissions, or copy its text.")


def unwritable(path: str, reason: str) -> Refused:
    """Build the refusal of an output that the system won't take."""
    return refuse(
        "E910",
        f"`{path}` cannot be written: {reason}",
        "Nothing was changed there. Choose another place, or mend the cause.",
    )


def over_spec(path: str) -> Refused:
    """Build the refusal of an output that would replace a spec."""
    return refuse("E908", f"`{path}` is a spec, and an output never replaces one", "Choose another name with `--out`.")


def write_folder(path: str) -> Refused:
    """Build the refusal of an output whose path is a folder's."""
    return refuse("E909", f"`{path}` is a folder, not a file to write", "Add a file name to it.")


def exists(path: str) -> Refused:
    """Build the refusal of a new file where one stands."""
    return refuse("E912", f"`{path}` exists already and was left as it is", "Choose another name, or move it away.")


def no_git() -> Refused:
    """Build the refusal of what needs git where there is none."""
    return refuse("E931", "there is no `git` on this machine", "Install git (git-scm.com), then run the command again.")


def no_repository(words: str) -> Refused:
    """Build the refusal of what needs a repository with a work tree; `words` are git's own."""
    return refuse(
        "E932",
        f"this folder is in no git repository with files of its own{_git_says(words)}",
        "Go to the folder of your patterns, or make it a repository there: `git init`.",
    )


def git_refuses(what: str, words: str) -> Refused:
    """Build the refusal of something that git would not do; `words` are git's own."""
    return refuse("E933", f"git would not {what}{_git_says(words)}", "Mend what git says, then run the command again.")


def _git_says(words: str) -> str:
    """Give the first line that git said, to stand at a message's end."""
    lines = words.strip().splitlines()
    return f": {lines[0].removeprefix('fatal: ').removeprefix('error: ')[:200]}" if lines else ""


def reason(error: OSError) -> str:
    """Give a system error in words, without its number and path."""
    words = {
        errno.ENOSPC: "the disk is full",
        errno.EDQUOT: "your share of the disk is full",
        errno.EROFS: "the disk is read-only",
        errno.EACCES: "you have no permission",
        errno.EPERM: "you have no permission",
        errno.ENOENT: "there is no such folder",
        errno.ENOTDIR: "a part of the path is not a folder",
        errno.ENAMETOOLONG: "the name is too long",
    }
    return words.get(error.errno or 0, (error.strerror or "the system gives no reason").lower())
