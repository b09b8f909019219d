"""Each construction for every size of every table and for adults of the survey: all_constructions.py [step].

Each is solved alone, written and proven, or refused with ways out. Prints a table, and each refusal that offers none.
Measures that a table or survey lacks follow from those it has, as said beside them. With a step of 10, every tenth
body only.
"""

from __future__ import annotations

import re
import sys
from collections import Counter
from fractions import Fraction
from pathlib import Path

TESTS = Path(__file__).parents[1]
sys.path[:0] = [str(TESTS), str(TESTS / "suite" / "tables")]

from support import EXAMPLES, written  # noqa: E402
from survey import measures_of, rows  # noqa: E402

from wale.sizes import GROUPS, group  # noqa: E402

Body = dict[str, Fraction]
PIECES = re.compile(r"(?ms)^(?:sizes .*?\n\n)")
EASES = {
    "headrace-raglan": "bust 8 cm, upper-arm 8 cm, armhole-depth 4 cm, wrist 5 cm, neck-base 8 cm",
    "tailrace-yoke": "bust 8 cm, upper-arm 8 cm, armhole-depth 4 cm, wrist 5 cm, neck-base 8 cm",
    "penstock-socks": "ankle -1.5 cm, foot-length -1 cm",
    "wheelpit-socks": "ankle -1.5 cm, foot-length -1 cm",
    "sack-mittens": "hand 1 cm",
    "hopper-mitts": "hand 1 cm",
}
"""Constructions: examples of one piece, with the eases of their measures."""
NEEDS = {
    "headrace-raglan": ("bust", "upper-arm", "armhole-depth", "wrist", "neck-base"),
    "tailrace-yoke": ("bust", "upper-arm", "armhole-depth", "wrist", "neck-base"),
    "penstock-socks": ("ankle", "foot-length", "heel-diagonal"),
    "wheelpit-socks": ("ankle", "foot-length", "heel-diagonal"),
    "sack-mittens": ("hand",),
    "hopper-mitts": ("hand",),
}


def adults() -> list[Body]:
    """The 300 adults, feet as they were measured."""
    found = []
    for row in rows():
        feet = {"ankle": "ankle_cm", "foot-length": "foot_length_cm", "heel-diagonal": "heel_ankle_cm"}
        found.append(measures_of(row) | {name: Fraction(row[column]) for name, column in feet.items()})
    return found


def tables() -> dict[str, list[Body]]:
    """All sizes of the published tables."""
    return {
        name: [{key: one.value_cm for key, one in body.measures.items()} for body in group(name).bodies]
        for name in GROUPS
    }


def completed(body: Body) -> Body:
    """Add what follows roughly from the head, where a table of children has no wrist and no neck (our estimate)."""
    found = dict(body)
    if "head" in body:
        found.setdefault("neck-base", body["head"] * Fraction(55, 100))
    if "upper-arm" in body:
        found.setdefault("wrist", body["upper-arm"] * Fraction(65, 100))
    return found


def spec(name: str, body: Body) -> str:
    """The example with one body in place of its sizes."""
    text = (EXAMPLES / f"{name}.wale").read_text("utf-8")
    lines = [f"    measure {key} {float(round(body[key], 1))} cm" for key in NEEDS[name]]
    block = "\n".join(("body one", *lines, f"    ease {EASES[name]}")) + "\n\n"
    text = PIECES.sub(block, text, count=1)
    return re.sub(r"([0-9.]+) \([0-9., ]+\) cm", r"\1 cm", text)


def main(step: int) -> int:
    """Run and give the number of refusals without a way out."""
    faults = 0
    groups = {"300 adults": adults()[::step], **tables()}
    print("| construction | bodies | proven | refused | codes |\n| --- | --- | ---: | ---: | --- |")
    for name in EASES:
        for label, bodies in groups.items():
            codes, proven = Counter[str](), 0
            known = [body for one in bodies if all(key in (body := completed(one)) for key in NEEDS[name])]
            for body in known:
                done = written(spec(name, body))
                if done.proof is not None:
                    proven += 1
                    continue
                (error, *_) = [one for one in done.problems if one.is_error]
                codes[error.code] += 1
                if not error.help and not error.fixes:
                    faults += 1
                    print(f"{name} {label} {error.code}: {error.message}", file=sys.stderr)
            if known:
                told = ", ".join(f"{code}: {times}" for code, times in sorted(codes.items())) or "none"
                print(f"| {name} | {label} | {proven} | {codes.total()} | {told} |", flush=True)
    return faults


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 1))
