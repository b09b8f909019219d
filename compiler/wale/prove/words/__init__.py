"""What a printed line says, for one size: plain records of words and figures, nothing worked out yet."""

from wale.prove.words.crowns import Crown, CrownChart, CrownPlain, DecreaseRound, Draw, Wedges
from wale.prove.words.edges import (
    EvenRow,
    HoleClose,
    HoleRow,
    Mitre,
    MitreRounds,
    PlainRows,
    RibRow,
    RibRows,
    TextureRow,
    TextureRows,
    Turning,
)
from wale.prove.words.ends import BindOff, CastOn, Cord, Gather, Keep, Needles, PickUp, Refer
from wale.prove.words.rows import (
    BandHoles,
    BeginChart,
    BindRow,
    Border,
    ChartRow,
    Edge,
    FrontBand,
    HemJoin,
    Mark,
    Plain,
    Schedule,
    Shaping,
    ShapingRow,
    Steek,
    Work,
)
from wale.prove.words.stitches import Fabric, Repeat, Side, Stitch, Stitches
from wale.prove.words.tops import (
    Before,
    Close,
    HalfNeck,
    HalfShoulder,
    Hold,
    NeckEdge,
    NeckRow,
    NeckSide,
    ShoulderRows,
    Top,
)

End = CastOn | Needles | BindOff | Cord | PickUp | Keep | Gather | Refer
PlainLine = PlainRows | EvenRow | Turning | RibRow | RibRows | TextureRow | TextureRows
HoleLine = HoleRow | HoleClose
MitreLine = Mitre | MitreRounds
FabricLine = Border | FrontBand | BandHoles | BeginChart | Plain | Edge | Steek | Work
ShapedLine = ShapingRow | Shaping | BindRow | Mark | HemJoin
TopLine = ShoulderRows | Before | NeckRow | NeckSide | Close | Hold | HalfNeck | HalfShoulder
CrownLine = CrownPlain | CrownChart | Wedges | DecreaseRound | Crown | Draw
Instruction = End | PlainLine | HoleLine | MitreLine | FabricLine | ShapedLine | Top | TopLine | CrownLine

__all__ = [
    "BandHoles",
    "Before",
    "BeginChart",
    "BindOff",
    "BindRow",
    "Border",
    "CastOn",
    "ChartRow",
    "Close",
    "Cord",
    "Crown",
    "CrownChart",
    "CrownLine",
    "CrownPlain",
    "DecreaseRound",
    "Draw",
    "Edge",
    "End",
    "EvenRow",
    "Fabric",
    "FabricLine",
    "FrontBand",
    "Gather",
    "HalfNeck",
    "HalfShoulder",
    "HemJoin",
    "Hold",
    "HoleClose",
    "HoleLine",
    "HoleRow",
    "Instruction",
    "Keep",
    "Mark",
    "Mitre",
    "MitreLine",
    "MitreRounds",
    "NeckEdge",
    "NeckRow",
    "NeckSide",
    "Needles",
    "PickUp",
    "Plain",
    "PlainLine",
    "PlainRows",
    "Refer",
    "Repeat",
    "RibRow",
    "RibRows",
    "Schedule",
    "ShapedLine",
    "Shaping",
    "ShapingRow",
    "ShoulderRows",
    "Side",
    "Steek",
    "Stitch",
    "Stitches",
    "TextureRow",
    "TextureRows",
    "Top",
    "TopLine",
    "Turning",
    "Wedges",
    "Work",
]
