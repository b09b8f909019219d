"""Patterns compiled once for all tests of the proof: examples, starters and variants."""

from __future__ import annotations

import re
from functools import cache

from prove_variants import VARIANTS
from support import EXAMPLES, ROOT, written

from wale.driver import Compiled
from wale.problems.show import show

STARTERS = ROOT / "compiler" / "wale" / "starters"
FILES = {path.stem: path for path in (*EXAMPLES.glob("*.wale"), *STARTERS.glob("*.wale")) if path.stem != "mill-yarns"}
MOTIF, TEXTURE = re.compile(r"(?m)^ +work +in \S+ on "), re.compile(r"(?m)^ +stitches +\|")
STRANDED = sorted(
    name
    for name, text in ((name, path.read_text("utf-8")) for name, path in FILES.items())
    if MOTIF.search(text) and not TEXTURE.search(text)
)
"""Those that work a motif in colours."""
NAMES = (*sorted(FILES), *VARIANTS)


@cache
def compiled(name: str) -> Compiled:
    """Compile an example, a starter or a variant."""
    done = written(FILES[name].read_text("utf-8") if name in FILES else VARIANTS[name])
    assert done.pattern is not None, show(done.problems, done.sources, colour=False, width=120)
    return done
