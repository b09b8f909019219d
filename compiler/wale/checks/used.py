"""What of a spec is really used: swatches, yarns and fabrics; a used file may hold many more."""

from __future__ import annotations

from msgspec import Struct

from wale.actions import CastOn, Crown, Fabric, Hem, PomPom, Rib, Tassel
from wale.materials import Motif, Swatch, Yarn
from wale.plan import Plan
from wale.source import Span
from wale.spec import Spec


class Worked(Struct, frozen=True):
    """A motif as worked somewhere: the swatch whose gauge holds, and the line that asks for it."""

    motif: Motif
    swatch: Swatch
    span: Span


def swatches_of(spec: Spec) -> tuple[Swatch, ...]:
    """Give the swatches that pieces and bands name, in order of first use."""
    names: dict[str, None] = {}
    for piece in spec.pieces:
        for step in piece.steps:
            match step.action:
                case CastOn(swatch=name) | Fabric(swatch=name):
                    names[name] = None
                case Hem(front=str(name)):
                    names[name] = None
    names.update(dict.fromkeys(band.swatch for band in spec.bands))
    return tuple(spec.swatches[name] for name in names)


def yarns_of(spec: Spec) -> tuple[Yarn, ...]:
    """Give the yarns that are knitted, edged or tied with, in order of first use."""
    names = dict.fromkeys(yarn for swatch in swatches_of(spec) for yarn in swatch.yarns)
    for piece in spec.pieces:
        if piece.edge.yarn is not None:
            names[piece.edge.yarn] = None
        for step in piece.steps:
            if isinstance(step.action, Crown | PomPom | Tassel) and step.action.yarn is not None:
                names[step.action.yarn] = None
            if isinstance(step.action, Crown) and step.action.chart is not None:
                names.update({yarn: None for row in spec.motifs[step.action.chart].rows for yarn in row})
            if isinstance(step.action, Rib) and step.action.purls is not None:
                names[step.action.purls] = None
    names.update(dict.fromkeys(band.rib.purls for band in spec.bands if band.rib.purls is not None))
    return tuple(spec.yarns[name] for name in names)


def motifs_worked(spec: Spec, plan: Plan) -> tuple[Worked, ...]:
    """Give each motif in colours and swatch worked together, once, in knitting order; crown charts count."""
    found: dict[tuple[str, str], Worked] = {}
    for piece in plan.pieces:
        for section in piece.sections:
            swatch, fabric, action = spec.swatches[section.swatch], section.fabric, section.step.action
            if isinstance(action, Crown) and action.manner != "in pattern":
                if action.chart is not None:
                    found.setdefault(
                        (action.chart, swatch.name), Worked(spec.motifs[action.chart], swatch, action.span)
                    )
            elif fabric is not None and fabric.motif is not None and section.kind in ("work", "shape", "crown"):
                found.setdefault((fabric.motif, swatch.name), Worked(spec.motifs[fabric.motif], swatch, fabric.span))
    return tuple(one for one in found.values() if not one.motif.is_texture)
