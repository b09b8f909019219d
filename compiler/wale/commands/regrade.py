"""`wale regrade`: a garment at another gauge, in another swatch or yarn, or for other sizes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

import click

from wale.commands.report import count, emit, exit_code, notice, progress, report
from wale.files import World
from wale.parse.tree import Tree
from wale.problems.problem import Problem
from wale.source import Source

if TYPE_CHECKING:
    from wale.driver import Compiled
    from wale.regrade.change import Asked, Change
    from wale.regrade.outcome import Outcome

To = Literal["text", "json"]


@click.command(
    "regrade",
    short_help="Write a garment anew for another gauge, yarn or size.",
    epilog="""\b
Examples:
  wale regrade hat.wale --gauge "27 sts, 36 rows in 10 cm"   show both sides
  wale regrade hat.wale --swatch firm --out hat-firm.wale    write the new spec
  wale regrade jumper.wale --gauge "28 sts, 32 rows in 10 cm" --keep counts
  wale regrade jumper.wale --sizes "women M L 4XL"
  wale regrade jumper.wale --body mine --out mine.wale
""",
)
@click.argument("spec")
@click.option("--gauge", metavar="GAUGE", help='A new gauge, such as "27 sts, 36 rows in 10 cm".')
@click.option("--of", "of", metavar="SWATCH", help="The swatch that GAUGE is of; by default the main fabric's.")
@click.option("--swatch", metavar="SWATCH", help="Another swatch of the spec for the main fabric.")
@click.option("--yarn", metavar="YARN", help="Another yarn of the spec, in which swatches were knitted.")
@click.option("--sizes", metavar="SIZES", help='Other sizes, such as "S M L" or "women M L".')
@click.option("--body", metavar="NAME", help="One made-to-measure body of the spec, alone.")
@click.option(
    "--keep",
    type=click.Choice(("lengths", "counts", "motif")),
    default="lengths",
    show_default=True,
    help="Keep the finished lengths, the counts, or the repeats of the motif.",
)
@click.option("--out", metavar="PATH", help="The new spec to write; `-` is standard output. A file is never replaced.")
@click.option("--to", type=click.Choice(("text", "json")), default="text", help="How both sides are told.")
@click.pass_obj
def regrade(
    world: World,
    spec: str,
    gauge: str | None,
    of: str | None,
    swatch: str | None,
    yarn: str | None,
    sizes: str | None,
    body: str | None,
    keep: Literal["lengths", "counts", "motif"],
    out: str | None,
    to: To,
) -> int:
    """Show SPEC's garment before and after; with --out, write the new spec: the old one with the fewest lines changed.

    One way is asked for: --gauge, --swatch, --yarn, --sizes or --body. Comments stay; a line that no longer holds
    becomes a comment; a file that SPEC uses is never changed. Where the new spec does not compile, the problems are
    told and nothing is written.
    """
    from wale.regrade.change import Asked

    ways = {"gauge": gauge, "swatch": swatch, "yarn": yarn, "sizes": sizes, "body": body}
    given = [way for way, words in ways.items() if words is not None]
    if len(given) != 1:
        told = " and ".join(f"--{way}" for way in given) or "nothing"
        raise click.UsageError(f"{told} is asked for; name one of {', '.join(f'--{way}' for way in ways)}")
    if of is not None and gauge is None:
        raise click.UsageError("--of says which swatch a --gauge is of")
    if keep != "lengths" and given[0] in ("sizes", "body"):
        raise click.UsageError(f"--keep {keep} goes with a new gauge, swatch or yarn; other sizes keep the lengths")
    if out not in (None, "-") and not str(out).endswith(".wale"):
        raise click.UsageError(f"`{out}` does not end in .wale; --out is the new spec")
    way = given[0]
    asked = Asked(way, ways[way] or "", of or "", keep)  # type: ignore[arg-type]
    with progress(world, f"regrading {spec}"):
        source = world.read(spec)
        found, text, problems, sources = _regraded(world, source, asked, out)
    if found is None or text is None:
        report(world, problems, sources)
        notice(f"{spec}: {count(problems)}; nothing was written")
        return exit_code(problems)
    if out == "-":
        report(world, found.refusals, sources)
        if not found.refusals:
            emit(_bytes(world, source, text, found.change))
        return exit_code(found.refusals)
    emit(_told(found, to, sources))
    if found.refusals and found.after is not None and out is None:
        return 0  # what the counts make was asked for and is told, with why it is no spec
    if found.refusals:
        report(world, found.refusals, sources)
        notice(f"{spec}: {count(found.refusals)}; nothing was written")
    elif out is not None:
        world.create(out, _bytes(world, source, text, found.change))
        notice(f"wrote {out}")
    return exit_code(found.refusals)


def _regraded(
    world: World, source: Source, asked: Asked, out: str | None
) -> tuple[Outcome | None, str | None, tuple[Problem, ...], dict[str, Source]]:
    """Give the outcome and the new text, or the problems that stand before either; and the texts they point into."""
    import wale.driver as driver
    from wale.compare.comparison import Garment
    from wale.regrade.change import change
    from wale.regrade.outcome import outcome
    from wale.regrade.text import edited

    done = driver.check_source(world, source)
    errors = tuple(one for one in done.problems if one.is_error)
    sources = dict(done.sources)
    if done.spec is None or done.plan is None or errors:
        return None, None, errors, sources
    tree, used = _trees(done, source)
    found = change(tree, used, done.spec, done.plan, asked)
    if isinstance(found, Problem):
        return None, None, (found,), sources
    before = Garment(done.spec, done.plan)
    if not found.edits:
        return outcome(asked, found, before, done.problems, before, done.problems), source.text, (), sources
    text = edited(source, found.edits)
    # a text that lies nowhere is not to be taken for the file; what it uses lies beside either
    name = f"{source.name}, regraded" if out in (None, "-") else str(out)
    again = driver.check_source(world, Source(name, text))
    after = Garment(again.spec, again.plan) if again.spec is not None and again.plan is not None else None
    result = outcome(asked, found, before, done.problems, after, again.problems)
    return result, text, (), {**sources, **again.sources}


def _trees(done: Compiled, source: Source) -> tuple[Tree, list[Tree]]:
    from wale.parse.parser import parse

    return parse(source)[0], [parse(one)[0] for name, one in done.sources.items() if name != source.name]


def _bytes(world: World, source: Source, text: str, change: Change) -> bytes:
    """Give the new file; lines that do not change, and a file in which nothing does, to the byte."""
    from wale.regrade.text import as_typed

    typed = world.read_bytes(source.name)
    return as_typed(typed.decode(), source.text, text).encode() if change.edits else typed


def _told(found: Outcome, to: To, sources: dict[str, Source]) -> bytes:
    if to == "json":
        from wale.regrade import export

        return export.render(found, sources).encode(errors="replace")
    from wale.outputs import text
    from wale.regrade.page import page

    return text.render(page(found)).encode(errors="replace")
