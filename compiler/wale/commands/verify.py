"""`wale compile --verify`: whether a published PDF is what the source that it carries gives."""

from __future__ import annotations

from typing import TYPE_CHECKING

from wale.commands.report import count, emit, exit_code, notice, progress, report
from wale.files import World
from wale.problems.problem import Problem

if TYPE_CHECKING:
    from wale.publishing import Verdict


def verify_pdf(world: World, path: str) -> int:
    """Make a published PDF again and say what is the same, on standard output; gives the exit code.

    Raises:
        Refused: the PDF cannot be had, or carries nothing that can be trusted.
    """
    from wale.publishing import read_pdf, verify

    data = read_pdf(world, path)
    with progress(world, f"making {path} again"):
        verdict, compiled = verify(data, path)
    if verdict is None:
        report(world, compiled.problems, compiled.sources)
        notice(f"{path}: the source that it carries no longer compiles: {count(compiled.problems)}")
        return exit_code(compiled.problems)
    emit(_told(path, verdict).encode(errors="replace"))
    if verdict.is_good:
        return 0
    problem = Problem("E945", f"`{path}` is not what its source gives: {_what(verdict)}", help=_help(verdict))
    report(world, (problem,), {})
    return exit_code((problem,))


def _told(path: str, verdict: Verdict) -> str:
    """Give the verdict in lines, what matters most to a knitter first."""
    from wale.publishing import COMPILER

    here = "" if verdict.compiler == COMPILER else f"; this is {COMPILER}"
    lines = [
        f"{path}: made by {verdict.compiler}{here}",
        f"plan: {_same(verdict.same_plan)}",
        f"instructions: {_same(verdict.same_words)}",
        f"bytes: {_same(verdict.same_bytes)}",
    ]
    if verdict.other_versions and not verdict.same_bytes:
        others = ", ".join(f"{name} {then} then, {now} now" for name, then, now in verdict.other_versions)
        lines.append(f"another typesetter may set other bytes: {others}")
    elif verdict.compiler != COMPILER and not verdict.same_bytes:
        lines.append("another compiler may set other bytes")
    return "".join(f"{line}\n" for line in lines)


def _same(is_same: bool) -> str:
    return "the same" if is_same else "differ"


def _what(verdict: Verdict) -> str:
    if not verdict.same_plan:
        return "the plan differs"
    if not verdict.same_words:
        return "the plan is the same, but other words are printed"
    return "plan and words are the same, but the bytes differ with the same versions of all libraries"


def _help(verdict: Verdict) -> str:
    from wale.publishing import COMPILER

    if verdict.compiler != COMPILER:
        return f"Verify it with {verdict.compiler}, which made it; another version may decide otherwise."
    return "Take the file as it was published, or `wale unpack` it and compile its spec yourself."
