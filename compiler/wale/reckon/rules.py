"""The rules that answers rest on: where each is written down, and who published it."""

from __future__ import annotations

from msgspec import Struct


class Rule(Struct, frozen=True):
    """One rule: its place in the docs and its published source as named there."""

    page: str
    source: str


def _maths(anchor: str, source: str) -> Rule:
    return Rule(f"docs/maths.md#{anchor}", source)


RULES: dict[str, Rule] = {
    "count": Rule("docs/yarn.md#numbering-systems", "ASTM D2260-03(2013)"),
    "band": Rule("docs/yarn.md#numbering-systems", "metres × 100 / grams"),
    "fold": Rule("docs/yarn.md#folded-yarn", "common practice, no source"),
    "strands": Rule("docs/yarn.md#strands-held-together", "1/N is the sum of 1/N of each strand"),
    "class": Rule("docs/yarn.md#weight-classes", "Craft Yarn Council, *Standard Yarn Weight System*"),
    "needle": Rule(
        "docs/yarn.md#needles",
        "https://www.knitting-and.com/crafts-and-needlework/knitting/tips/miscellaneous-knitting-tips/convert/",
    ),
    "gauge": _maths("gauge", "*Handbook of Wool Knitting and Crochet* (Needlecraft Publishing, 1918)"),
    "miscount": _maths("miscounted-swatch", "https://www.bellaonline.com/articles/art174582.asp"),
    "nearest": _maths("nearest-count", "http://designyourownsweater.blogspot.com/2007/01/sleeve.html"),
    "repeat": _maths("repeat-fit", "arithmetic"),
    "rib": _maths("rib-multiples", "*Handbook of Wool Knitting and Crochet* (1918)"),
    "decrease": _maths("even-decreases", "https://twistedyarns.com/?p=1595"),
    "increase": _maths(
        "even-increases",
        "https://neasesneedlework.com/embroider/how-do-you-reduce-stitches-evenly-in-a-row.html",
    ),
    "ends": _maths("start-and-end", "https://papermoonknits.com/musings/math-monday-calculating-decreases"),
    "taper": _maths("taper", "http://designyourownsweater.blogspot.com/2007/01/sleeve.html"),
    "pick-up": _maths("pick-up-along-rows", "https://kelbournewoolens.com/blog/2015/04/perfectly-picked-up-stitches/"),
    "crown": _maths(
        "crown-in-wedges",
        "https://summityarnstudio.wordpress.com/2013/04/24/brian-my-unwilling-model/",
    ),
    "shoulder": _maths(
        "shoulder-steps",
        "https://techknitting.blogspot.com/2012/01/sweater-shoulders-transform-stair-steps.html",
    ),
    "slope": _maths("shoulder-slope", "http://woolpackyarn.com/shoulder-shaping-drape-or-drop.html"),
    "neck": _maths("neck-curve", "https://zanotowane.pl/713/7786"),
    "scoop": _maths("scoop", "common practice, no source"),
    "boat": _maths("boat-neck", "https://zanotowane.pl/713/7786"),
    "loop": _maths("yarn-in-a-stitch", "https://www.textiletriangle.com/gate-textile/question-paper/2015-2/tf/54-2/"),
    "area": _maths("area", "http://autumnbreezedesigns.com/blog/knitwit-60-how-much-yarn-part-2/"),
    "weight": _maths("weight-by-area", "http://autumnbreezedesigns.com/blog/knitwit-60-how-much-yarn-part-2/"),
    "length": _maths("weight-by-length", "definition"),
    "scarf": _maths(
        "scarf-rule",
        "https://bkkquilt.com/how-to-sew/frequent-question-how-much-yarn-do-i-need-to-cast-on-stitches.html",
    ),
    "tail": _maths("cast-on-tail", "https://www.ehow.com/how_7701638_determine-length-yarn-knitting-cast.html"),
    "put-ups": _maths("whole-put-ups", "arithmetic"),
    "pom-pom": _maths("pom-pom", "our own rule of thumb"),
    "contrast": _maths("contrast", "WCAG 2.1, https://w3c.github.io/wcag/guidelines/relative-luminance.html"),
    "lightness": _maths("lightness", "CIE 15"),
    "difference": Rule("docs/colour.md#how-it-is-reckoned", "CIE 142-2001"),
    "eyes": Rule(
        "docs/colour.md#how-it-is-reckoned",
        "Viénot, Brettel and Mollon, *Color Research and Application* 24 (1999), 243-252",
    ),
}
"""By the key that answers name. Each source stands on its page; the tests look."""
