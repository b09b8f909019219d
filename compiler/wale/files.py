"""The one door to the world: files, environment, terminal, and the date that outputs carry.

No other module opens a file, reads the environment or asks the time (`tests/suite/files/test_door.py` sees to it).
`DiskWorld` is the real one, `MemoryWorld` its twin for tests. Whatever cannot be had is raised as `Refused`, which
carries a problem.
"""

from __future__ import annotations

import atexit
import os
import pickle
import stat
import sys
from collections.abc import Callable, Mapping
from contextlib import suppress
from io import TextIOWrapper
from typing import Literal, NoReturn, Protocol, TypeVar, cast

from msgspec import Struct, field

from wale import refusals
from wale.refusals import LIMIT_BYTES, LIMIT_PICTURE, Refused
from wale.source import Source

__all__ = [
    "DiskWorld",
    "MemoryWorld",
    "Ran",
    "Refused",
    "Stream",
    "Terminal",
    "World",
    "calm_streams",
    "leave",
    "mute_stdout",
]

Stream = Literal["stdout", "stderr"]
Result = TypeVar("Result")


class Terminal(Struct, frozen=True):
    """What is known of an output stream.

    Attributes:
        is_terminal: somebody reads along.
        width: columns, 40 to 120.
        colour: colours may be used: a terminal that isn't dumb, and NO_COLOR (no-color.org) empty or unset.
        encoding: name of the character encoding, lower case.
    """

    is_terminal: bool = False
    width: int = 80
    colour: bool = False
    encoding: str = "utf-8"


class Ran(Struct, frozen=True):
    """What a run of git left: exit code, output, complaints."""

    code: int
    out: bytes = b""
    err: str = ""


class World(Protocol):
    """What the compiler may ask of its surroundings."""

    def read(self, path: str) -> Source:
        """Give a file's text, NFC-normalised and without a byte order mark, under the name `path`.

        Raises:
            Refused: E901 missing, E902 a folder, E903 unreadable, E904 not UTF-8, E905 over `LIMIT_BYTES`.
        """
        ...

    def read_bytes(self, path: str, most: int = LIMIT_BYTES) -> bytes:
        """Give a file's bytes as they lie there; `-` is standard input.

        Raises:
            Refused: E901 missing, E902 a folder, E903 unreadable, E905 more than `most` bytes.
        """
        ...

    def read_picture(self, path: str) -> bytes:
        """Give the bytes of a picture's file.

        Raises:
            Refused: E901 missing, E902 a folder, E903 unreadable, E922 over `LIMIT_PICTURE`.
        """
        ...

    def read_beside(self, spec_path: str, name: str) -> Source:
        """Give the text of a file that a spec uses: a relative `.wale` or `.csv` name inside the spec's folder.

        Raises:
            Refused: as `read`, or E906 not a relative `.wale` or `.csv` name, E907 outside the folder, links followed.
        """
        ...

    def write(self, path: str, data: bytes) -> None:
        """Write a file whole or not at all; an older file keeps its permissions, and its content on failure.

        Raises:
            Refused: E908 it would replace a spec, E909 a folder, E910 the system says no.
        """
        ...

    def rewrite(self, path: str, data: bytes) -> None:
        """Write a spec anew in another layout, whole or not at all; it keeps its permissions.

        Raises:
            Refused: E909 a folder, E910 the system says no.
        """
        ...

    def create(self, path: str, data: bytes, inside: str | None = None) -> None:
        """Write a file that does not exist yet; with `inside`, a folder, in it and nowhere else, made where need be.

        Raises:
            Refused: E909 a folder, E910 the system says no, or it lies outside, E912 it exists.
        """
        ...

    def delete(self, path: str) -> None:
        """Delete a file; raises `Refused`, E910, where the system says no."""
        ...

    def git(self, *arguments: str) -> Ran:
        """Run git where the user is, without input; raises `Refused`, E931, only where there is no git."""
        ...

    def beside(self, work: Callable[[], Result]) -> Callable[[], Result]:
        """Begin some work in a process of its own, where there is a core for it; call what comes back for its result.

        Work that is cut short or raises anything is done again by that call, so it must change nothing.
        """
        ...

    def epoch(self) -> int:
        """Give the date of outputs in seconds since 1970, never the clock's.

        Raises:
            Refused: E911 SOURCE_DATE_EPOCH is not such a number.
        """
        ...

    def environment(self, name: str) -> str:
        """Give a variable of the environment, "" when it is unset."""
        ...

    def terminal(self, stream: Stream) -> Terminal:
        """Give what is known of an output stream."""
        ...


class DiskWorld:
    """The real surroundings."""

    def read(self, path: str) -> Source:
        """See `World.read`."""
        return refusals.decode(path, self._bytes(path))

    def read_bytes(self, path: str, most: int = LIMIT_BYTES) -> bytes:
        """See `World.read_bytes`."""
        data = sys.stdin.buffer.read(most + 1) if path == "-" and sys.stdin is not None else self._bytes(path, most)
        return refusals.within_limit(path, data, most)

    def read_picture(self, path: str) -> bytes:
        """See `World.read_picture`."""
        return refusals.picture_within_limit(path, self._bytes(path, LIMIT_PICTURE))

    @staticmethod
    def _bytes(path: str, most: int = LIMIT_BYTES) -> bytes:
        """Give a file's bytes, one more than the limit at most."""
        try:
            # Without waiting for a pipe's other end; what is opened is looked at, so that nothing can take its place.
            handle = os.open(path, os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0))
            with open(handle, "rb") as file:
                mode = os.fstat(handle).st_mode
                if not stat.S_ISREG(mode) and not stat.S_ISDIR(mode):
                    raise refusals.unreadable(path, "it is no ordinary file")
                return file.read(most + 1)
        except (FileNotFoundError, NotADirectoryError):
            raise refusals.missing(path) from None
        except IsADirectoryError:
            raise refusals.read_folder(path) from None
        except OSError as error:
            raise refusals.unreadable(path, refusals.reason(error)) from None

    def read_beside(self, spec_path: str, name: str) -> Source:
        """See `World.read_beside`."""
        path = refusals.beside(spec_path, name)
        folder = os.path.realpath(os.path.dirname(spec_path))
        real = os.path.realpath(path)
        if os.path.commonpath((folder, real)) != folder:
            raise refusals.outside(name)
        if os.path.exists(real) and not os.path.isfile(real) and not os.path.isdir(real):
            raise refusals.unreadable(path, "it is no ordinary file")
        return self.read(path)

    def write(self, path: str, data: bytes) -> None:
        """See `World.write`."""
        if refusals.is_spec(target := os.path.realpath(path)) and os.path.isfile(target):
            raise refusals.over_spec(path)
        self.rewrite(path, data)

    def rewrite(self, path: str, data: bytes) -> None:
        """See `World.rewrite`."""
        target = os.path.realpath(path)
        mode: int | None = None
        try:
            with suppress(FileNotFoundError):
                mode = os.stat(target).st_mode
            if mode is None:
                self._write_part(target, data, None)
            elif stat.S_ISDIR(mode):
                raise refusals.write_folder(path)
            elif not stat.S_ISREG(mode):  # a pipe or device has no older content to keep
                with open(target, "wb") as file:
                    file.write(data)
            elif not os.access(target, os.W_OK):
                raise refusals.unwritable(path, "the file is write-protected")
            else:
                self._write_part(target, data, stat.S_IMODE(mode))
        except BrokenPipeError:
            raise
        except OSError as error:
            raise refusals.unwritable(path, refusals.reason(error)) from None

    def create(self, path: str, data: bytes, inside: str | None = None) -> None:
        """See `World.create`."""
        if os.path.isdir(path):
            raise refusals.write_folder(path)
        try:
            if inside is not None:  # links followed: whatever stands there may lead elsewhere
                folder, parent = os.path.realpath(inside), os.path.realpath(os.path.dirname(path))
                if os.path.commonpath((folder, parent)) != folder:
                    raise refusals.unwritable(path, "a link leads out of the folder")
                os.makedirs(parent, exist_ok=True)
            _fill(path, data)
        except FileExistsError:
            if not os.path.lexists(path):  # a file stands where its folder would
                raise refusals.unwritable(path, "a part of the path is not a folder") from None
            raise refusals.exists(path) from None
        except OSError as error:
            raise refusals.unwritable(path, refusals.reason(error)) from None

    def delete(self, path: str) -> None:
        """See `World.delete`."""
        try:
            os.unlink(path)
        except OSError as error:
            raise refusals.unwritable(path, refusals.reason(error)) from None

    def git(self, *arguments: str) -> Ran:
        """See `World.git`."""
        import subprocess

        try:
            done = subprocess.run(("git", *arguments), stdin=subprocess.DEVNULL, capture_output=True, check=False)
        except (OSError, ValueError):  # a name with a NUL in it is no file's
            raise refusals.no_git() from None
        return Ran(done.returncode, done.stdout, done.stderr.decode(errors="replace"))

    def beside(self, work: Callable[[], Result]) -> Callable[[], Result]:
        """See `World.beside`."""
        if not hasattr(os, "fork") or (os.cpu_count() or 1) < 2:
            return work
        reading, writing = os.pipe()
        try:
            child = os.fork()
        except OSError:  # no more processes to be had
            os.close(reading)
            os.close(writing)
            return work
        if not child:
            _do(work, writing)
        os.close(writing)

        def result() -> Result:
            with open(reading, "rb") as file:
                data = file.read()
            _, status = os.waitpid(child, 0)
            return work() if status else cast(Result, pickle.loads(data))

        return result

    def epoch(self) -> int:
        """See `World.epoch`."""
        return refusals.parse_epoch(self.environment("SOURCE_DATE_EPOCH"))

    def environment(self, name: str) -> str:
        """See `World.environment`."""
        return os.environ.get(name, "")

    def terminal(self, stream: Stream) -> Terminal:
        """See `World.terminal`."""
        file = sys.stdout if stream == "stdout" else sys.stderr
        is_terminal = file.isatty()
        return Terminal(
            is_terminal=is_terminal,
            width=min(max(os.get_terminal_size(file.fileno()).columns or 80, 40), 120) if is_terminal else 80,
            colour=is_terminal and not self.environment("NO_COLOR") and self.environment("TERM") != "dumb",
            encoding=(file.encoding or "utf-8").lower(),
        )

    @staticmethod
    def _write_part(target: str, data: bytes, mode: int | None) -> None:
        """Fill a file of another name in the target's folder, then put it in the target's place in one step."""
        part = os.path.join(os.path.dirname(target), f".wale-{os.urandom(8).hex()}.part")
        _fill(part, data)
        try:
            if mode is not None:
                os.chmod(part, mode)
            os.replace(part, target)
        except BaseException:
            os.unlink(part)
            raise


def _do(work: Callable[[], object], writing: int) -> NoReturn:
    """Send what some work gives through a pipe and end the process, without what a program does at its end."""
    status = 1
    try:
        data = pickle.dumps(work(), pickle.HIGHEST_PROTOCOL)
        with open(writing, "wb") as file:
            file.write(data)
        status = 0
    finally:
        os._exit(status)


def _fill(path: str, data: bytes) -> None:
    """Make a new file and force its bytes to the disk; on any failure, an interrupt too, leave none behind."""
    handle = os.open(path, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o666)
    try:
        with open(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
    except BaseException:
        os.unlink(path)
        raise


def calm_streams() -> None:
    """Make output streams safe to write to.

    A character that the terminal's encoding lacks prints as `?`; a stream that is closed from the start goes nowhere.
    """
    for name in ("stdout", "stderr"):
        if getattr(sys, name) is None:
            setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: SIM115 - open as long as the process
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="replace")


def mute_stdout() -> None:
    """Send what is still to be flushed to stdout nowhere: its reader is gone, or it takes no more."""
    with suppress(OSError, ValueError):
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, sys.stdout.fileno())
        os.close(nowhere)


def leave(code: int) -> NoReturn:
    """End the process without taking its memory apart piece by piece; the system takes it back at once.

    Not after the typesetter has run: its temporary folders go when its objects do.
    """
    if "weasyprint" in sys.modules:
        sys.exit(code)
    atexit._run_exitfuncs()
    for stream in (sys.stdout, sys.stderr):
        with suppress(OSError, ValueError):
            stream.flush()
    os._exit(code)


class MemoryWorld(Struct):
    """The twin for tests: files are a dict, folders are what their names imply.

    Attributes:
        files: content by path, as text or bytes; `write` and `create` put bytes here.
        variables: the environment.
        terminals: what is known of the output streams.
        runs: what git leaves, by its arguments; None: there is no git.
    """

    files: dict[str, bytes | str] = field(default_factory=dict)
    variables: Mapping[str, str] = field(default_factory=dict)
    terminals: Mapping[Stream, Terminal] = field(default_factory=dict)
    runs: Mapping[tuple[str, ...], Ran] | None = None

    def read(self, path: str) -> Source:
        """See `World.read`."""
        return refusals.decode(path, self._bytes(path))

    def read_bytes(self, path: str, most: int = LIMIT_BYTES) -> bytes:
        """See `World.read_bytes`."""
        return refusals.within_limit(path, self._bytes(path), most)

    def read_picture(self, path: str) -> bytes:
        """See `World.read_picture`."""
        return refusals.picture_within_limit(path, self._bytes(path))

    def _bytes(self, path: str) -> bytes:
        if self._is_folder(path):
            raise refusals.read_folder(path)
        if path not in self.files:
            raise refusals.missing(path)
        data = self.files[path]
        return data.encode() if isinstance(data, str) else data

    def read_beside(self, spec_path: str, name: str) -> Source:
        """See `World.read_beside`."""
        return self.read(refusals.beside(spec_path, name))

    def write(self, path: str, data: bytes) -> None:
        """See `World.write`."""
        if self._is_folder(path):
            raise refusals.write_folder(path)
        if path in self.files and refusals.is_spec(path):
            raise refusals.over_spec(path)
        self.files[path] = data

    def rewrite(self, path: str, data: bytes) -> None:
        """See `World.rewrite`."""
        if self._is_folder(path):
            raise refusals.write_folder(path)
        self.files[path] = data

    def create(self, path: str, data: bytes, inside: str | None = None) -> None:
        """See `World.create`."""
        if self._is_folder(path):
            raise refusals.write_folder(path)
        if path in self.files:
            raise refusals.exists(path)
        self.files[path] = data

    def delete(self, path: str) -> None:
        """See `World.delete`."""
        if path not in self.files:
            raise refusals.unwritable(path, "there is no such file")
        del self.files[path]

    def git(self, *arguments: str) -> Ran:
        """See `World.git`."""
        if self.runs is None:
            raise refusals.no_git()
        return self.runs.get(arguments, Ran(128, b"", "fatal: not a git repository"))

    def beside(self, work: Callable[[], Result]) -> Callable[[], Result]:
        """See `World.beside`: there is no other core."""
        return work

    def epoch(self) -> int:
        """See `World.epoch`."""
        return refusals.parse_epoch(self.environment("SOURCE_DATE_EPOCH"))

    def environment(self, name: str) -> str:
        """See `World.environment`."""
        return self.variables.get(name, "")

    def terminal(self, stream: Stream) -> Terminal:
        """See `World.terminal`."""
        return self.terminals.get(stream, Terminal())

    def _is_folder(self, path: str) -> bool:
        prefix = path.rstrip("/") + "/"
        return any(name.startswith(prefix) for name in self.files)
