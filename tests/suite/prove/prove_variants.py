"""Specs that make the writer print every wording: each construct of pieces, necks, shoulders, crowns and bands."""

from __future__ import annotations

HEAD = 'wale 1\npattern "{name}"\n    use "mill-yarns.wale"\n'
BODY = """sizes small large
    measure bust 90 (110) cm
    ease bust 6 cm
piece back, worked flat
    edge {edge}
    cast on {cast_on}
    {low}
    {fabric}
    work 6 cm
    {shape}
    work to 40 cm
    mark underarm
    work to 58 cm
    neck {neck}
    shoulders {shoulders}
piece front, as back
    neck {front}
join
    seam back shoulders with front shoulders, {seam}
    seam sides, mattress stitch
"""


def body(name: str, **parts: str) -> str:
    """Give a back and a front with some lines replaced."""
    usual = {
        "edge": "1 st each side in rye",
        "cast_on": "bust/2 in plain",
        "low": "rib 5 cm, 2x2, on 3 mm",
        "fabric": "work in grist on easy, centred on the stitch",
        "shape": "shape to bust/2 + 4 cm over 12 cm",
        "neck": "18 cm wide, 2 cm deep",
        "shoulders": "slope 3 cm, short rows",
        "front": "18 cm wide, 8 cm deep, round",
        "seam": "three-needle bind-off",
    }
    return HEAD.format(name=name) + BODY.format(**{**usual, **parts})


STEEK = """wale 1
pattern "Sluice panel"
yarn rye
    count  2/8 Nm wool
    colour #8a5a2b
yarn flour
    count  2/8 Nm wool
    colour #efe6d2
motif ear
    repeat 6 sts, 4 rows
    key    |-| rye, |x| flour
    | - - - x - - |
    | - - x - x - |
    | - x - x - x |
    | - - - - - - |
swatch easy, in the round
    motif  ear in rye, flour
    needle 3.5 mm
    washed 24 sts and 26 rows in 10 cm
sizes one
piece panel, in the round
    steek 7 sts
    cast on 50 cm in easy
    work in ear on easy, whole repeats
    work to 60 cm
    bind off
"""

HAT = """sizes {sizes}
    ease head -2.5 cm
piece hat, in the round
    cast on head in facing-round
    {low}
    {fabric}
    work to 13 cm
    {crown}
"""


def hat(name: str, before: str = "", **parts: str) -> str:
    """Give a hat with some lines replaced."""
    usual = {
        "sizes": "small large\n    measure head 52 (60) cm",
        "low": "hem 4 cm, folded, purl ridge",
        "fabric": "work in grist on easy-round, whole repeats",
        "crown": "crown 6 wedges over 9 cm, in pattern",
    }
    return HEAD.format(name=name) + before + HAT.format(**{**usual, **parts})


WEDGE = """motif point
    repeat 6 sts, 9 rows
    key |-| rye, |x| flour
    | - |
    | - - |
    | x - |
    | - x - |
    | - x - x |
    | - - x - |
    | x - - x - |
    | - - x - - - |
    | - x - x - x |
    wedge
"""
ODD = """motif spot
    repeat 4 sts, 5 rows
    key |-| rye, |x| flour
    | - - - x |
    | - - x - |
    | - x - - |
    | x - - - |
    | - - - - |
swatch spotted, worked flat
    motif spot in rye, flour
    needle 3.5 mm
    washed 40 sts = 14.0 cm, 40 rows = 12.6 cm
"""
GARTER = """swatch ridged, worked flat
    fabric garter in rye
    needle 3.25 mm
    washed 26 sts and 48 rows in 10 cm
"""
TUBE = """sizes one
piece cowl, in the round
    cast on 62 cm in plain-round
    rib 3 cm, 2x2
    {middle}
    bind off{manner}
"""
SCARF = """sizes small large
piece scarf, worked flat
    edge 1 st each side in rye
    cast on 40 (50) cm in plain
    rib 4 cm, 2x2, on 3 mm
    work in grist on easy, centred on the stitch
    work 20 cm
    {end}
    bind off
"""
SLEEVE = """sizes one
    measure wrist 18 cm
    ease wrist 4 cm
piece sleeve, worked flat, make 2
    edge {edge}
    cast on wrist in plain{manner}
    {low}
    {fabric}
    shape to 36 cm over 30 cm{rows}
    work to 42 cm
    bind off, loosely
"""


def sleeve(name: str, before: str = "", **parts: str) -> str:
    """Give a sleeve with some lines replaced."""
    usual = {
        "edge": "1 st each side in rye",
        "manner": "",
        "low": "rib 5 cm, 2x2, on 3 mm",
        "fabric": "work in grist on easy, centred on the stitch",
        "rows": "",
    }
    return HEAD.format(name=name) + before + SLEEVE.format(**{**usual, **parts})


def cowl(name: str, middle: str, manner: str = "") -> str:
    """Give a tube."""
    return HEAD.format(name=name) + TUBE.format(middle=middle, manner=manner)


def scarf(name: str, end: str) -> str:
    """Give a scarf whose motif ends below other rows."""
    return HEAD.format(name=name) + SCARF.format(end=end)


BAND = """band neckband
    pick up along back neck, front neck in plain-round
    {edge}
    bind off, loosely
"""

VARIANTS = {
    "short-rows": body("short rows"),
    "stepped-shoulders": body("stepped", shoulders="slope 3 cm, bound off in steps", seam="mattress stitch"),
    "stepped-over-a-low-neck": body(
        "low neck", shoulders="slope 2 cm, bound off in steps", seam="mattress stitch", neck="18 cm wide, 6 cm deep"
    ),
    "level-shoulders": body("level", shoulders="slope 0.1 cm"),
    "square-neck": body("square", front="18 cm wide, 8 cm deep, square"),
    "no-edge": body("no edge", edge="0 sts each side"),
    "wide-edge": body("wide edge", edge="2 sts each side in flour"),
    "decreasing": body("decreasing", shape="shape to bust/2 - 4 cm over 12 cm"),
    "bound-at-the-sides": body(
        "bound", shape="shape to bust/2 over 12 cm\n    bind off 3 cm each side\n    work 8 rows"
    ),
    "set-in-armhole": body(
        "set in",
        shape="shape to bust/2 over 12 cm\n    bind off 2 cm each side\n    shape to bust/2 - 9 cm over 5 cm",
        edge="2 sts each side in flour",
    ),
    "neck-within-the-armhole": body(
        "within",
        shape="work to 33 cm\n    bind off 2 cm each side\n    shape to bust/2 - 9 cm over 5 cm",
        front="18 cm wide, 23 cm deep, V",
    ),
    "neck-below-the-armhole": body(
        "below",
        shape="work to 33 cm\n    bind off 2 cm each side\n    shape to bust/2 - 9 cm over 4 cm, on any row",
        front="18 cm wide, 27 cm deep, round",
        edge="2 sts each side in flour",
        shoulders="slope 3 cm, bound off in steps",
        seam="mattress stitch",
    ),
    "plain-body": body("plain", fabric="work in plain", low="rib 5 cm, 1x1, on 3 mm"),
    "half-repeats": body("half", fabric="work in grist on easy, half repeats", shape="work 4 cm"),
    "from-the-edge": body("edge", fabric="work in grist on easy, from the edge", shape="work 4 cm"),
    "plain-hem": body("hem", cast_on="bust/2 in facing", low="hem 3 cm, folded, purl ridge, front in plain"),
    "hem": body("hem", cast_on="bust/2 in facing, provisional", low="hem 3 cm, folded, purl ridge, knitted together"),
    "front-like-the-back": body("alike", front="18 cm wide, 2 cm deep"),
    "garter-edge": sleeve("garter", low="garter 4 cm"),
    "seed-edge": sleeve("seed", low="seed 4 cm, on 3 mm"),
    "moss-edge": sleeve("moss", low="moss 4 cm"),
    "rolled-edge": sleeve("rolled", low="rolled 3 cm"),
    "garter-above-the-motif": scarf("garter above", "garter 4 cm"),
    "seed-above-the-motif": scarf("seed above", "seed 4 cm"),
    "moss-above-the-motif": scarf("moss above", "moss 4 cm"),
    "edges-in-the-round": cowl("edges", "garter 3 cm\n    work 5 cm\n    seed 2 cm\n    moss 3 cm\n    rolled 2 cm"),
    "wide-rib": cowl("wide rib", "rib 4 cm, 3x2"),
    "picot-hem": body("picot", cast_on="bust/2 in facing", low="hem 3 cm, folded, picot, front in plain"),
    "picot-hem-knitted-in": sleeve("picot", low="hem 3 cm, folded, picot, knitted together"),
    "slipped-hem": body("slipped", cast_on="bust/2 in facing", low="hem 3 cm, folded, slipped, front in plain"),
    "slipped-hem-in-the-round": hat("slipped", low="hem 4 cm, folded, slipped, knitted together"),
    "picot-hem-in-the-round": hat("picot", low="hem 4 cm, folded, picot"),
    "twisted-rib": scarf("twisted", "rib 4 cm, 1x1, twisted"),
    "twisted-rib-in-the-round": cowl("twisted", "rib 4 cm, 2x1, twisted"),
    "corrugated-rib": scarf("corrugated", "rib 4 cm, 2x2, corrugated with flour"),
    "corrugated-rib-in-the-round": cowl("corrugated", "rib 4 cm, 3x2, corrugated with flour, on 3 mm"),
    "corrugated-band": body("corrugated band") + BAND.format(edge="rib 3 cm, 1x1, corrugated with flour"),
    "corrugated-and-twisted": sleeve("corrugated", low="rib 4 cm, 1x1, twisted, corrugated with flour"),
    "cord": scarf("cord", "work 2 cm").replace("bind off", "bind off with a cord of 3 sts"),
    "cord-in-the-round": cowl("cord", "work 3 cm").replace("bind off", "bind off with a cord of 4 sts"),
    "cord-on-a-band": body("corded band")
    + BAND.format(edge="garter 2 cm").replace("off, loosely", "off with a cord of 3 sts"),
    "garter-border": scarf("border", "garter 4 cm").replace(
        "1 st each side in rye", "5 sts each side in garter in rye"
    ),
    "garter-border-in-flour": scarf("border", "seed 4 cm")
    .replace("1 st each", "3 sts each")
    .replace("in rye", "in garter in flour", 1),
    "garter-band": body("garter band", fabric="work in plain") + BAND.format(edge="garter 3 cm"),
    "seed-band": body("seed band", fabric="work in plain") + BAND.format(edge="seed 3 cm, on 3 mm"),
    "rolled-band": body("rolled band") + BAND.format(edge="rolled 3 cm"),
    "sleeve": sleeve("sleeve"),
    "sleeve-any-row": sleeve("any row", rows=", on any row"),
    "sleeve-plain-above-the-motif": sleeve("plain", rows="\n    work in plain"),
    "sleeve-from-the-chart": sleeve("chart", low="work 2 cm", manner=", provisional"),
    "sleeve-garter": sleeve("garter", GARTER, fabric="work in ridged"),
    "sleeve-odd-rows": sleeve("odd", ODD, fabric="work in spot on spotted, from the edge"),
    "sleeve-ribbed-plain": sleeve("ribbed", fabric="work 2 cm"),
    "hat": hat("hat"),
    "hat-knitted-hem": hat("hem", low="hem 4 cm, folded, purl ridge, knitted together"),
    "hat-plain-crown": hat("plain crown", crown="crown 8 wedges over 9 cm, plain in rye"),
    "hat-uneven-wedges": hat("uneven", crown="crown 5 wedges over 9 cm, in pattern"),
    "hat-plain-uneven": hat("uneven", crown="crown 7 wedges over 9 cm, plain in rye"),
    "hat-chart-crown": hat(
        "chart", WEDGE, sizes="one\n    measure head 52 cm", crown="crown 24 wedges over 9 cm, chart point"
    ),
    "hat-plain": hat("plain", fabric="work in plain-round", low="rib 4 cm, 1x1, on 3 mm"),
    "cowl": cowl("cowl", "work in grist on easy-round, whole repeats\n    work to 20 cm"),
    "cowl-two-ribs": cowl(
        "ribs",
        "work in grist on easy-round, whole repeats\n    work to 20 cm\n    rib 3 cm, 2x2, on 3 mm",
        ", loosely in rib",
    ),
    "cowl-two-fabrics": cowl(
        "fabrics",
        "work in grist on easy-round, whole repeats\n    work to 12 cm\n    work in plain-round\n    work to 20 cm",
    ),
    "scarf-rib-above-a-motif": scarf("rib", "rib 4 cm, 2x2, on 3 mm"),
    "scarf-plain-above-a-motif": scarf("plain", "work in plain\n    work 4 cm\n    rib 4 cm, 2x2"),
    "cowl-plain": cowl("plain", "work to 20 cm"),
    "steek": STEEK,
    "steek-plain": HEAD.format(name="plain")
    + "sizes one\npiece cloth, in the round\n    steek 3 sts\n    cast on 50 cm in plain-round\n"
    + "    work 6 cm\n    work to 20 cm\n    bind off\n",
}
