"""The examples with their reasons, reckoned once."""

import sys
from dataclasses import dataclass
from pathlib import Path

import pytest
from support import EXAMPLES, world

from wale.driver import Compiled, check_spec
from wale.explain import Models, Reason, explained

sys.path.insert(0, str(Path(__file__).parent))


@dataclass(frozen=True)
class Explained:
    """A spec taken through all phases, its reasons, and the models behind them."""

    done: Compiled
    reasons: tuple[Reason, ...]
    models: Models

    def of(self, size):
        """Give the reasons of a size by address."""
        return {one.address: one for one in self.reasons if one.size == size}


def explain(text):
    done = check_spec(world(text), "a.wale")
    assert done.spec is not None and done.plan is not None, done.problems
    return Explained(done, *explained(done.spec, done.plan, done.sources))


def example(name):
    return explain((EXAMPLES / f"{name}.wale").read_text("utf-8"))


FLAT = "easy, centred on the stitch\n    work      6"
CROWN = "6 wedges over 9 cm, in pattern"
VARIANTS = {
    "the pullover": ("millrace-pullover", "", ""),
    "the hat": ("sluice-hat", "", ""),
    "the vest": ("hopper-vest", "", ""),
    "the cowl": ("first-cowl", "", ""),
    "the sock": ("penstock-socks", "", ""),
    "the cardigan": ("weir-cardigan", "", ""),
    "the cardigan with a V neck": ("sluice-cardigan", "", ""),
    "the cardigan with bands worked along, a lining that begins in rib": (
        "granary-cardigan",
        "    work    12 cm\n",
        "    rib     2 cm, 1x1\n    work    to 12 cm\n",
    ),
    "the mitten": ("sack-mittens", "", ""),
    "the seamless pullover": ("weir-yoke", "", ""),
    "the raglan": ("headrace-raglan", "", ""),
    "the shawl": ("millpond-shawl", "", ""),
    "the yoke": ("tailrace-yoke", "", ""),
    "the blanket": ("sack-loft-blanket", "", ""),
    "the headband": ("dusty-headband", "", ""),
    "corrugated rib and a cord": ("flume-cowl", "", ""),
    "a bordered rib": ("sack-loft-blanket", "garter  3 cm\n", "rib     3 cm, 2x2\n"),
    "seed and moss": (
        "sack-loft-blanket",
        "garter  3 cm\n    work    in grist",
        "seed 3 cm\n    moss 4 cm\n    work    in grist",
    ),
    "hood": (
        "leat-cardigan",
        "along right-front front-edge, right-front neck, back neck, left-front neck,\n"
        "                 left-front front-edge in ridged\n    shawl collar 14 cm, 5 cm in front, garter\n"
        "    buttonholes  5 of 2 sts\n    bind off, loosely",
        "along right-front neck, back neck, left-front neck in ridged\n    hood 90 cm wide, 33 cm deep\n    bind off",
    ),
    "hood of a pullover": (
        "millrace-pullover",
        "plain-round\n    rib     2.5 cm, 1x1, on 3 mm",
        "plain\n    hood 60 cm wide, 33 cm deep, overlap 5 sts",
    ),
    "collar that stands": ("millrace-pullover", "2.5 cm, 1x1, on 3 mm", "7 cm, 2x2, open in front"),
    "shawl collar": ("leat-cardigan", "", ""),
    "shawl collar in rib": ("leat-cardigan", "garter\n    buttonholes  5 of 2 sts", "2x2"),
    "tassel": ("sluice-hat", "pom-pom 8 cm", "tassel 10 cm"),
    "slipped": ("dusty-headband", "rolled  2 cm", "hem 2 cm, folded, slipped"),
    "picot": ("dusty-headband", "rolled  2 cm", "hem 2 cm, folded, picot"),
    "the set-in sleeve": ("flume-pullover", "", ""),
    "square neck": ("millrace-pullover", "8 cm deep, round", "8 cm deep, square"),
    "shoulders in steps": ("millrace-pullover", "slope slope, short rows", "slope slope, bound off in steps"),
    "bound off at the sides": (
        "millrace-pullover",
        "mark      underarm\n",
        "mark      underarm\n    bind off  3 cm each side\n",
    ),
    "on any row": ("millrace-pullover", "to waist/2 over 10 cm", "to waist/2 over 10 cm, on any row"),
    "half repeats": ("millrace-pullover", FLAT, "easy, half repeats at bust\n    work      6"),
    "knitted hem": ("millrace-pullover", "folded, purl ridge", "folded, purl ridge, front in plain, knitted together"),
    "rows as written": ("millrace-pullover", "work      6 cm", "work      22 rows"),
    "neck rows as written": ("millrace-pullover", "neck-width wide, 2 cm deep", "neck-width wide, 8 rows deep"),
    "fewer after the rib": ("millrace-pullover", "cast on wrist in plain", "cast on wrist in dense"),
    "another weight": ("millrace-pullover", "units cm", "units cm\n    prefer bust 4"),
    "seven wedges": ("sluice-hat", CROWN, "7 wedges over 9 cm, in pattern"),
    "plain crown": ("sluice-hat", CROWN, "9 wedges over 14 cm, plain in rye"),
    "plain above the motif": (
        "first-cowl",
        "work    to 20 cm",
        "work 9 cm\n    work in plain-round\n    work to 20 cm",
    ),
    "a rib above the motif": ("millrace-pullover", "    bind off\n\njoin", "    rib 2 cm, 2x2\n    bind off\n\njoin"),
    "test knits": ("sluice-hat", CROWN, CROWN + "\n    knitted   62 g in medium"),
    "fewer after the facing": ("sluice-hat", "cast on head in facing-round", "cast on head in dense-round"),
}
DENSE = """
swatch dense{kind}
    fabric  stockinette in rye
    needle  2 mm
    washed  36 sts and 46 rows in 10 cm
"""


@pytest.fixture(scope="session", params=VARIANTS)
def garment(request):
    """Give every example and, of the pullover and the hat, others with one line changed."""
    name, old, new = VARIANTS[request.param]
    text = (EXAMPLES / f"{name}.wale").read_text("utf-8")
    assert old in text
    dense = [DENSE.format(kind=kind) for kind in (", worked flat", "-round, in the round")]
    return explain(text.replace(old, new, 1) + "".join(dense if "dense" in new else []))


@pytest.fixture(scope="session")
def pullover():
    return example("millrace-pullover")


@pytest.fixture(scope="session")
def hat():
    return example("sluice-hat")
