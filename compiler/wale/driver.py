"""The pipeline: the one place that knows the order of the phases.

read → parse → resolve → draft and solve → check → write → prove → render
"""

from __future__ import annotations

import posixpath
from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, Literal

from msgspec import Struct
from msgspec.structs import replace

from wale.checks import check
from wale.draft.planner import plan
from wale.files import Refused, World
from wale.parse.parser import parse, parse_used
from wale.parse.tree import Text, Tree
from wale.problems.nearest import there_are
from wale.problems.problem import Problem, problem, with_makes
from wale.resolve import resolve
from wale.source import Source

if TYPE_CHECKING:
    from wale.pattern import Chart, Pattern
    from wale.plan import Plan
    from wale.proven import Proof
    from wale.resolve.imports import Load
    from wale.resolve.stock import Stock
    from wale.spec import Spec
    from wale.write.document import Extra

Format = Literal["pdf", "html", "json", "text"]


class Compiled(Struct, frozen=True):
    """What became of a spec. `spec`, `plan` and `pattern` are None from the phase on in which an error stood."""

    problems: tuple[Problem, ...]
    sources: Mapping[str, Source]
    spec: Spec | None = None
    plan: Plan | None = None
    pattern: Pattern | None = None
    sizes: tuple[int, ...] = ()
    proof: Proof | None = None
    extras: tuple[Extra, ...] = ()

    @property
    def own_names(self) -> Mapping[str, str]:
        """The name of each file from the spec's folder, by the name under which it was read."""
        spec = next(iter(self.sources))
        start = len(spec) - len(posixpath.basename(spec))
        return {name: name[start:] for name in self.sources}


def check_spec(world: World, path: str, sizes: tuple[str, ...] = ()) -> Compiled:
    """Run all phases up to the checks, without writing the pattern.

    Args:
        path: the spec, as the user wrote it.
        sizes: names of the sizes to print, none for all.

    Raises:
        Refused: the spec itself cannot be read.
    """
    return check_source(world, world.read(path), sizes)


def check_source(world: World, source: Source, sizes: tuple[str, ...] = ()) -> Compiled:
    """Do what `check_spec` does for a text that need not be what lies at its path; what it uses is read beside that."""
    tree, load, sources, problems = _parsed(world, source)
    spec, found = resolve(tree, load)
    problems += found
    if spec is None or any(one.is_error for one in problems):
        return Compiled(with_makes(problems), sources)
    chosen, found = _chosen(spec, sizes)
    problems += found
    solved, found = plan(spec)
    problems += found
    if solved is None or any(one.is_error for one in problems):
        return Compiled(with_makes(problems), sources, spec)
    problems += check(spec, solved)
    return Compiled(with_makes(problems), sources, spec, solved, None, chosen)


def read_stock(world: World, path: str) -> tuple[Stock, tuple[Problem, ...], Mapping[str, Source]]:
    """Read the yarns and swatches of a spec, and go no further.

    Returns:
        What could be read, the problems met, and the texts they point into.

    Raises:
        Refused: the spec itself cannot be read.
    """
    from wale.resolve.stock import stock

    tree, load, sources, problems = _parsed(world, world.read(path))
    found, more = stock(tree, load)
    return found, tuple(problems + more), sources


def _parsed(world: World, source: Source) -> tuple[Tree, Load, dict[str, Source], list[Problem]]:
    """Give a spec's tree, a way to load the files that it uses, and what both fill: sources and problems."""
    sources = {source.name: source}

    def load(name: Text) -> tuple[Tree, list[Problem]] | None:
        try:
            used = world.read_beside(source.name, name.text)
        except Refused as refused:
            problems.append(refused.at(name.span))
            return None
        sources[used.name] = used
        return parse_used(used)

    tree, problems = parse(source)
    return tree, load, sources, problems


def compile_spec(
    world: World,
    path: str,
    sizes: tuple[str, ...] = (),
    extras: tuple[Extra, ...] = (),
    *,
    is_left_handed: bool = False,
) -> Compiled:
    """Compile a spec to the pattern document, and prove it; `extras` are printed too.

    Args:
        path: the spec, as the user wrote it.
        sizes: names of the sizes to print, none for all.
        extras: what else to print.
        is_left_handed: the pattern is for a left-handed knitter, who makes its mirror image.

    Raises:
        Refused: the spec itself cannot be read.
        Unproven: the words do not make what was planned; a defect of the compiler.
    """
    done = _written(world, path, sizes, extras, is_left_handed)
    return done if done.pattern is None else replace(done, proof=_proof(done))


class Made(Struct, frozen=True):
    """A compiled spec, proven, with its file; the file is empty where an error stands.

    Attributes:
        complaints: what the typesetter had to complain of.
        record: the full record of the proof, where it was asked for.
    """

    compiled: Compiled
    data: bytes = b""
    complaints: tuple[Problem, ...] = ()
    record: dict[str, Any] | None = None


def make(
    world: World,
    path: str,
    setting: Callable[[Compiled], tuple[bytes, tuple[Problem, ...]]],
    sizes: tuple[str, ...] = (),
    extras: tuple[Extra, ...] = (),
    *,
    is_left_handed: bool = False,
    is_recorded: bool = False,
) -> Made:
    """Compile a spec as `compile_spec` does and set it; it is proven meanwhile, beside the setting.

    Args:
        setting: makes the file of a pattern, as `render` does: its bytes, and what the typesetter had to complain of.
        is_recorded: the full record of the proof is wanted.

    Raises:
        Refused: the spec itself cannot be read.
        Unproven: the words do not make what was planned; a defect of the compiler.
    """
    done = _written(world, path, sizes, extras, is_left_handed)
    if done.pattern is None:
        return Made(done)

    def prove() -> dict[str, Any] | None:
        proof = _proof(done)
        return proof.record() if is_recorded else None

    proven = world.beside(prove)
    data, complaints = setting(done)
    return Made(done, data, complaints, proven())


def _written(
    world: World, path: str, sizes: tuple[str, ...], extras: tuple[Extra, ...], is_left_handed: bool
) -> Compiled:
    """Run all phases up to the written pattern, which is not proven yet."""
    done = check_spec(world, path, sizes)
    if done.spec is None or done.plan is None or any(one.is_error for one in done.problems):
        return done
    if is_left_handed and (wrong := _one_handed(done.spec)):
        return replace(done, problems=(*done.problems, *wrong))
    from wale.write.document import document

    pattern = document(done.spec, done.plan, done.sizes, done.problems, extras)
    if is_left_handed:
        from wale.write.left_handed import left_handed

        pattern = left_handed(pattern, done.spec)
    return replace(done, pattern=pattern, extras=extras)


def _one_handed(spec: Spec) -> list[Problem]:
    """Say which names could not be told from the words of the instructions where left and right are exchanged."""
    named = {one.name: one.span for one in spec.pieces} | {one.name: one.span for one in spec.bands}
    help = "Give it a name of two words, such as `left-front`."
    return [
        problem("E405", f"`{name}` alone names a side, which a pattern for the left hand exchanges", span, help=help)
        for name, span in named.items()
        if name in ("left", "right")
    ][:1]


def _proof(done: Compiled) -> Proof:
    from wale.proven import prove_pattern

    assert done.spec is not None and done.plan is not None and done.pattern is not None
    return prove_pattern(done.spec, done.plan, done.pattern, done.sizes)


def render_chart(compiled: Compiled, name: str, to: Literal["svg", "png"]) -> bytes | None:
    """Draw one chart of a compiled pattern; None where it has no chart of that name."""
    from wale.outputs import chart_file

    chart = next((one for one in charts_of(compiled) if one.name == name), None)
    if chart is None:
        return None
    return chart_file.svg(chart) if to == "svg" else chart_file.png(chart)


def charts_of(compiled: Compiled) -> tuple[Chart, ...]:
    """Give the charts of a compiled pattern in order."""
    from wale.pattern import Chart

    sections = () if compiled.pattern is None else compiled.pattern.sections
    return tuple(part for section in sections for part in section.parts if isinstance(part, Chart))


def render(
    compiled: Compiled, to: Format, world: World, *, is_large: bool = False
) -> tuple[bytes, tuple[Problem, ...]]:
    """Set a compiled pattern; `is_large` sets a page or a PDF in large print.

    Returns:
        The file's bytes, and what the typesetter had to complain of.

    Raises:
        ValueError: there is no pattern, since an error stands.
    """
    if compiled.pattern is None or compiled.spec is None or compiled.plan is None:
        raise ValueError("nothing to render")
    if to == "json":
        return render_plan(compiled), ()
    if to == "html":
        from wale.explain.section import with_reasons
        from wale.outputs import html

        reasoned = with_reasons(compiled.pattern, compiled.spec, compiled.plan, compiled.sizes)
        if reasoned.hand == "left":
            from wale.write.left_handed import with_left_reasons

            reasoned = with_left_reasons(reasoned)
        return html.render(reasoned, is_large=is_large).encode(), ()
    if to == "text":
        from wale.outputs import text

        return text.render(compiled.pattern).encode(), ()
    from wale.outputs import pdf
    from wale.publishing import publish

    complaints: list[str] = []
    epoch = world.epoch()
    attached = publish(compiled, epoch, is_large=is_large)
    data = pdf.render(compiled.pattern, epoch=epoch, complaints=complaints, is_large=is_large, attached=attached)
    help = "Write it with other characters; HTML and text take it as it is."
    return data, tuple(Problem("W913", f"in the PDF: {one}", help=help) for one in complaints)


def render_plan(compiled: Compiled) -> bytes:
    """Give the plan of a compiled pattern as JSON; files are named from the spec's folder.

    Raises:
        ValueError: there is no pattern, since an error stands.
    """
    if compiled.pattern is None or compiled.spec is None or compiled.plan is None:
        raise ValueError("nothing to render")
    from wale.outputs import plan_json
    from wale.sized import of_sizes

    spec, plan = of_sizes(compiled.spec, compiled.plan, compiled.sizes)
    hand, names = compiled.pattern.hand, compiled.own_names
    return plan_json.render(spec, plan, compiled.problems, compiled.sources, hand, names).encode()


def _chosen(spec: Spec, names: tuple[str, ...]) -> tuple[tuple[int, ...], list[Problem]]:
    known = spec.size_names
    missing = [name for name in names if name not in known]
    problems = [Problem("E305", f"this pattern has no size {name}", help=there_are(name, known)) for name in missing]
    return tuple(i for i, name in enumerate(known) if not names or name in names), problems
