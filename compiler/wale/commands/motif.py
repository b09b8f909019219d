"""`wale motif`: a motif from a picture."""

from __future__ import annotations

import os.path
import re
from fractions import Fraction
from typing import TYPE_CHECKING

import click

from wale.commands.report import count, emit, exit_code, notice, progress, report
from wale.files import Refused, World
from wale.motifs.size import MOST_ROWS, MOST_STITCHES, counted, size_words
from wale.problems.problem import Problem

if TYPE_CHECKING:
    from wale.picture.make import Made, Wish
    from wale.picture.symmetry import Kind
    from wale.resolve.stock import Stock

MOST_YARNS = 8
_COLOUR = re.compile(r"([^\W\d_][\w-]*)=(#[0-9a-fA-F]{6})")
_NAME = re.compile(r"[^\W\d_][^\W_]*(-[^\W_]+)*")
_NO_NAMES = ("in", "on", "to", "over", "at", "with", "and", "of", "per", "into", "along", "from", "as")
_QUOTES = frozenset('"“”„«»‟')
_LONGEST = 300
"""Characters of a text that is told."""


@click.command(
    "motif",
    short_help="Make a motif from a picture.",
    epilog="""\b
Examples:
  wale motif ear.png --width 12 --spec jumper.wale --on easy
  wale motif ear.png --width 12 --spec jumper.wale --on easy --yarns rye,flour --max-float 5
  wale motif ear.png --width 12 --colours rye=#8a5a2b,flour=#efe6d2 --mirror sides --out ear.wale
""",
)
@click.argument("picture")
@click.option(
    "--width", type=click.IntRange(2, MOST_STITCHES), required=True, metavar="N", help="Stitches of one repeat."
)
@click.option(
    "--height", type=click.IntRange(1, MOST_ROWS), metavar="N", help="Rows of one repeat; by default what follows."
)
@click.option("--spec", metavar="FILE", help="A spec or a file of yarns and swatches.")
@click.option("--on", metavar="SWATCH", help="The swatch of the spec whose stitches the cells are shaped like.")
@click.option(
    "--yarns", metavar="LIST", help="Yarns of the spec, such as rye,flour; by default the swatch's, else all."
)
@click.option("--colours", metavar="LIST", help="Yarns that are in no spec, such as rye=#8a5a2b,flour=#efe6d2.")
@click.option("--whole", is_flag=True, help="The picture is one repeat; look for no smaller one.")
@click.option("--max-float", type=click.IntRange(1), metavar="N", help="Change stitches so that no float is longer.")
@click.option(
    "--mirror",
    type=click.Choice(("sides", "rows", "both", "turn")),
    help="Force it to be alike left and right, top and bottom, both, or on its head.",
)
@click.option("--name", metavar="NAME", help="The motif's name; by default the picture's.")
@click.option("--source", metavar="TEXT", help="Where the motif comes from; by default the picture's name.")
@click.option("--rights", metavar="TEXT", help="Whose it is, and what may be done with it.")
@click.option("--credit", metavar="TEXT", help="Who is thanked for it.")
@click.option("--out", metavar="PATH", help="File to write; by default standard output, as `-`.")
@click.pass_obj
def motif(
    world: World,
    picture: str,
    width: int,
    height: int | None,
    spec: str | None,
    on: str | None,
    yarns: str | None,
    colours: str | None,
    whole: bool,
    max_float: int | None,
    mirror: Kind | None,
    name: str | None,
    source: str | None,
    rights: str | None,
    credit: str | None,
    out: str | None,
) -> int:
    """Make a motif from PICTURE: cells shaped like the swatch's stitches, each in the nearest yarn.

    A picture that holds several repeats gives one of them. The result is a `motif` block for the spec, on standard
    output; with --colours alone it is a file that a spec can `use`.
    """
    from wale.picture.make import Wish, make
    from wale.picture.opening import open_picture
    from wale.picture.text import motif_text, yarns_text

    title = _named(name, picture)
    told = _told(picture, source, rights, credit)
    own = _colours(colours)
    if on is not None and spec is None:
        raise click.UsageError("--on names a swatch of a spec; name that with --spec")
    if spec is None and not own:
        raise click.UsageError(
            "which yarns? Name a spec with --spec, or yarns with --colours rye=#8a5a2b,flour=#efe6d2"
        )
    try:
        stock = _stock(world, spec)
        if stock is None:
            return 1
        cell, used = _cell(stock, on), _chosen(stock, own, on, yarns)
        wish = Wish(width, height, cell, whole, mirror, max_float)
        data = world.read_picture(picture)
        with progress(world, f"reading {picture}"):
            image = open_picture(picture, data, next(iter(used.values())))
            made = make(picture, image, wish, list(used.values()))
    except Refused as refused:
        report(world, (refused.problem,), {})
        notice(f"{picture}: {count((refused.problem,))}; nothing was written")
        return exit_code((refused.problem,))
    text = motif_text(title, list(used), made.motif, made.shift, told)
    unknown = {yarn: colour for yarn, colour in used.items() if yarn not in stock.yarns}
    text = yarns_text(unknown) + "\n" + text if unknown else text
    text = text if spec is not None else "wale 1\n\n" + text
    report(world, _warnings(picture, made), {})
    notice(_summary(wish, made, on))
    if out is None or out == "-":
        emit(text.encode())
    else:
        world.write(out, text.encode())
        notice(f"wrote {out}")
    return 0


def _named(name: str | None, picture: str) -> str:
    if name is not None:
        if _NAME.fullmatch(name) is None or name in _NO_NAMES:
            raise click.BadParameter("a name is words with hyphens, such as ear-of-rye", param_hint="--name")
        return name
    stem = os.path.splitext(os.path.basename(picture))[0].lower()
    words = [word for word in re.split(r"[\W_]+", stem) if word]
    found = "-".join(words)
    return found if _NAME.fullmatch(found) is not None and found not in _NO_NAMES else "figure"


def _told(picture: str, source: str | None, rights: str | None, credit: str | None) -> dict[str, str]:
    told = {"source": source, "rights": rights, "credit": credit}
    for keyword, words in told.items():
        if words is not None and (not 0 < len(words) <= _LONGEST or _speakable(words) != words):
            raise click.BadParameter(
                "a text has 1 to 300 characters on one line, without quotation marks", param_hint=f"--{keyword}"
            )
    if source is None:
        told["source"] = f"a picture, {_speakable(os.path.basename(picture))[:200]}"
    return {keyword: words for keyword, words in told.items() if words is not None}


def _speakable(words: str) -> str:
    """Give the words without what cannot stand between quotes."""
    return "".join(sign for sign in words if sign.isprintable() and sign not in _QUOTES)


def _colours(text: str | None) -> dict[str, str]:
    found: dict[str, str] = {}
    for part in (text or "").split(",") if text is not None else ():
        match = _COLOUR.fullmatch(part.strip())
        if match is None or match[1] in found or _NAME.fullmatch(match[1]) is None or match[1] in _NO_NAMES:
            raise click.BadParameter(
                f"`{part.strip()}` is no name with a colour of its own, such as rye=#8a5a2b", param_hint="--colours"
            )
        found[match[1]] = match[2].lower()
    return found


def _stock(world: World, spec: str | None) -> Stock | None:
    """Give the yarns and swatches of the spec; None where it has an error, which is told."""
    from wale.resolve.stock import Stock

    if spec is None:
        return Stock({}, {})
    import wale.driver as driver

    stock, problems, sources = driver.read_stock(world, spec)
    errors = [one for one in problems if one.is_error]
    if errors:
        report(world, errors, sources)
        notice(f"{spec}: {count(errors)}; nothing was written")
        return None
    return stock


def _cell(stock: Stock, on: str | None) -> Fraction:
    """Give the height of a stitch of a swatch over its width, 1 where none is named."""
    if on is None:
        return Fraction(1)
    if on not in stock.swatches:
        raise _missing("E212", "swatch", on, list(stock.swatches))
    gauge = stock.swatches[on].washed
    return gauge.stitches / gauge.rows


def _chosen(stock: Stock, own: dict[str, str], on: str | None, yarns: str | None) -> dict[str, str]:
    """Give the names and colours of the yarns to match with, the first one as the ground."""
    known = {**{name: yarn.colour for name, yarn in stock.yarns.items()}, **own}
    if yarns is not None:
        names = [name.strip() for name in yarns.split(",")]
    elif own:
        names = list(own)
    else:
        names = list(stock.swatches[on].yarns) if on is not None else list(known)
    for name in names:
        if name not in known:
            raise _missing("E211", "yarn", name, list(known))
    found = {name: known[name] for name in names}
    if not 2 <= len(found) <= MOST_YARNS:
        raise click.UsageError(f"a motif takes 2 to {MOST_YARNS} yarns, not {len(found)}; name them with --yarns")
    return found


def _missing(code: str, kind: str, name: str, known: list[str]) -> Refused:
    from wale.problems.nearest import nearest
    from wale.refusals import refuse

    near = nearest(name, known)
    there = ", ".join(known[:8]) or "none"
    return refuse(
        code, f"there is no {kind} named `{name}`", f"There are: {there}.{f' Perhaps {near[0]}?' if near else ''}"
    )


def _warnings(picture: str, made: Made) -> tuple[Problem, ...]:
    if len({yarn for row in made.motif for yarn in row}) > 1:
        return ()
    return (
        Problem(
            "W926",
            f"every cell of `{picture}` comes out in one yarn",
            help="Name yarns whose colours are nearer to those of the picture with --colours, or cut its border off.",
        ),
    )


def _summary(wish: Wish, made: Made, on: str | None) -> str:
    """Tell in words what was found and changed."""
    size = size_words(len(made.motif[0]), len(made.motif))
    if made.shift:
        size += f", the next repeat {counted(made.shift, 'st')} along"
    words = [f"the picture holds {float(made.across):g} × {float(made.up):g} repeats"]
    if made.across == made.up == 1:
        words = ["the picture is one repeat"]
    mirror, floats, cells = made.changed
    if wish.mirror is not None:
        words.append(f"{mirror} of {cells} stitches changed to mirror or turn")
    if wish.float_limit is not None:
        words.append(f"{floats} of {cells} stitches changed for floats of at most {wish.float_limit}")
    if on is None and wish.rows is None:
        words.append("stitches taken as square, for no swatch is named with --on")
    return f"{size}: {'; '.join(words)}"
