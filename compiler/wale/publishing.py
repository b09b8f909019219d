"""A published PDF and the source that it carries: what goes into it, and whether it is what its source gives."""

from __future__ import annotations

import json
import re
from typing import TYPE_CHECKING, cast, get_args

from msgspec import Struct

from wale import __version__
from wale.files import MemoryWorld, World
from wale.outputs.attached import (
    FORMAT,
    LIMIT_PDF,
    Published,
    Record,
    printed_words,
    read,
    too_large,
    untrusted,
    versions,
)
from wale.refusals import Refused

if TYPE_CHECKING:
    from wale.driver import Compiled

COMPILER = f"wale {__version__}"


class Verdict(Struct, frozen=True):
    """What came of making a published PDF again.

    Attributes:
        compiler: the compiler that made it.
        other_versions: (library, then, now) of each typesetter library that differs.
        same_plan, same_words, same_bytes: whether the plan, the printed words, all bytes are the same.
    """

    compiler: str
    other_versions: tuple[tuple[str, str, str], ...]
    same_plan: bool
    same_words: bool
    same_bytes: bool

    @property
    def is_good(self) -> bool:
        """Whether it is what its source gives, as far as these versions can tell."""
        is_other = bool(self.other_versions) or self.compiler != COMPILER
        return self.same_plan and self.same_words and (self.same_bytes or is_other)


def publish(compiled: Compiled, epoch: int, *, is_large: bool = False) -> Published:
    """Give what the PDF of a compiled pattern carries; files are named from the spec's folder.

    Raises:
        ValueError: there is no pattern, since an error stands.
    """
    from wale.driver import render_plan

    if compiled.pattern is None:
        raise ValueError("nothing to publish")
    names = compiled.own_names
    record = Record(
        FORMAT,
        COMPILER,
        versions(),
        next(iter(names.values())),
        tuple(names.values()),
        compiled.pattern.sizes,
        compiled.extras,
        compiled.pattern.hand,
        is_large,
        epoch,
    )
    sources = {names[name]: source.text.encode() for name, source in compiled.sources.items()}
    return Published(record, sources, render_plan(compiled))


def read_published(world: World, path: str) -> Published:
    """Give what a published PDF carries: plan, sources and record.

    Raises:
        Refused: E901 to E903 it cannot be had, E941 no PDF, E942 no spec in it, E943 too large, E944 not to be trusted.
    """
    return read(read_pdf(world, path), path)


def read_pdf(world: World, path: str) -> bytes:
    """Give the bytes of a PDF.

    Raises:
        Refused: E901 to E903 it cannot be had, E943 it is too large.
    """
    try:
        return world.read_bytes(path, LIMIT_PDF)
    except Refused as refused:
        if refused.problem.code == "E905":
            raise too_large(path, f"it has more than {LIMIT_PDF // 1_000_000} MB") from None
        raise


def compile_published(published: Published, path: str) -> Compiled:
    """Compile the source that a PDF carries, as it was compiled for it; `path` is the PDF's name, for problems.

    Raises:
        Refused: E944 the record asks for what there is not.
        Unproven: the words do not make what was planned; a defect of the compiler.
    """
    from wale.driver import compile_spec
    from wale.write.document import Extra

    record = published.record
    if record.hand not in ("right", "left") or not set(record.extras) <= set(get_args(Extra)):
        raise untrusted(path, "its record asks for what this Wale cannot print")
    extras = cast("tuple[Extra, ...]", record.extras)
    is_left = record.hand == "left"
    return compile_spec(world_of(published), record.spec, record.sizes, extras, is_left_handed=is_left)


def world_of(published: Published) -> World:
    """Give surroundings that hold the sources and the date of a PDF, and nothing else."""
    variables = {"SOURCE_DATE_EPOCH": str(published.record.epoch)}
    return MemoryWorld(dict(published.sources), variables)


def verify(data: bytes, path: str) -> tuple[Verdict | None, Compiled]:
    """Make a published PDF again from the source that it carries, and compare: plan, printed words, bytes.

    Returns:
        What came of it, None where the source no longer compiles; and the compiled source with its problems.

    Raises:
        Refused: E941 to E944, see `read_published`.
    """
    from wale.driver import render, render_plan

    published = read(data, path)
    record = published.record
    compiled = compile_published(published, path)
    if compiled.pattern is None:
        return None, compiled
    new, _ = render(compiled, "pdf", world_of(published), is_large=record.large_print)
    now = versions()
    every = sorted(now.keys() | record.typesetter.keys())
    then = {name: record.typesetter.get(name, "none") for name in every}
    others = tuple((name, then[name], now.get(name, "none")) for name in every if then[name] != now.get(name))
    same_bytes = new == data
    return Verdict(
        record.compiler,
        others,
        _decided(published.plan) == _decided(render_plan(compiled)),
        same_bytes or _same_words(data, new, path),
        same_bytes,
    ), compiled


def _decided(plan: bytes) -> object:
    """Give a plan as data, without the version that made it."""
    try:
        data = json.loads(plan)
    except (ValueError, RecursionError):
        return plan
    return {key: value for key, value in data.items() if key != "compiler"} if isinstance(data, dict) else plan


def _same_words(old: bytes, new: bytes, path: str) -> bool:
    """Compare what is printed, but for the ends of lines and pages, which are the typesetter's."""
    return _flowing(printed_words(old, path)) == _flowing(printed_words(new, path))


def _flowing(pages: tuple[str, ...]) -> str:
    """Join pages without footers, page numbers of the contents, spaces, hyphens, and the version at the end."""
    leader = re.compile(r"(?:\s*\.){4,}\s*\d+")
    footer = re.compile(r"\n[^\n]*\d+ / \d+\s*\Z")
    joined = "".join(leader.sub("", footer.sub("", page)) for page in pages)
    return re.sub(r"Madewithwale[\w.]+\Z", "", re.sub(r"[\s\u00ad-]+", "", joined))
