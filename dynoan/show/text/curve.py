"""What `curve` found, as people read it in a terminal."""

from __future__ import annotations

from dynoan.jobs.curve import CurveAnswer
from dynoan.jobs.curve_table import Speeds
from dynoan.model.curve import DIRECTIONS, Curve
from dynoan.model.shock import clicks_text
from dynoan.model.side import Knee, Segment, Side
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank
from dynoan.show.text.forces import forces
from dynoan.units import Shown, shown

#: a knee whose 95 % interval is wider than this share of its speed is shown without its ends
HARDLY_KNOWN = 1.5

ON = {"between": "clicks between tested ones", "outside": "clicks beyond all tests"}


def blocks(answer: CurveAnswer, look: Look) -> list[Block]:
    """Return what people read of each curve, one after another."""
    at = answer.question.at
    return [b for one in answer.found for b in (*_curve(one.label, one.curve, at, look.units), blank())]


def _curve(label: str, curve: Curve, at: Speeds | None, units: Shown) -> list[Block]:
    setting = " ".join(filter(None, (curve.shock, curve.pack, clicks_text(curve.clicks))))
    head = f"{label}{f'  ({setting})' if setting and setting != label else ''}"
    lines = [f"note: {note}" for note in dict.fromkeys((*curve.compression.notes, *curve.rebound.notes))]
    lines += ["found and taken out:"] if curve.findings else []
    lines += [f"  {line}" for line in curve.findings]
    return [Paragraph(head), Paragraph(_beside(curve, units)), _pieces(curve, units), *forces(curve, at, units),
            *map(Paragraph, lines)]  # fmt: skip


def _beside(curve: Curve, units: Shown) -> str:
    force = shown("force", units)
    stands = "" if curve.standing == "tested" else f", at {ON[curve.standing]}"
    parts = f"gas force {force.text(curve.gas_force)}, friction {force.text(curve.friction)}"
    return f"{parts}, left over (residual) {force.text(curve.rms)} rms{stands}"


def _pieces(curve: Curve, units: Shown) -> Table:
    speed, slope, force = shown("velocity", units), shown("damping", units), shown("force", units)
    columns = ["direction", f"from {speed.unit}", f"to {speed.unit}", f"slope {slope.unit}", "character",
               f"knee at its end {speed.unit}", f"force there {force.unit}"]  # fmt: skip
    sides = {d: curve.side(d) for d in DIRECTIONS}
    return Table(columns, [row for name, side in sides.items() for row in _side(name, side, units)])


def _side(name: str, side: Side, units: Shown) -> list[list[str]]:
    knees: list[Knee | None] = [*side.knees, *[None] * (len(side.segments) - len(side.knees))]
    return [[name, *_piece(piece, knee, units)] for piece, knee in zip(side.segments, knees, strict=False)]


def _piece(piece: Segment, knee: Knee | None, units: Shown) -> list[str]:
    speed, slope, force = shown("velocity", units), shown("damping", units), shown("force", units)
    law = f"force grows as speed^{piece.exponent:.2f}" if not piece.slope_in else "bent"
    character = f"{piece.character}, {law}" if piece.bend else piece.character
    cells = [speed.text(piece.start, unit=False), speed.text(piece.end, unit=False),
             slope.text(piece.slope, unit=False), character]  # fmt: skip
    if knee is None:
        return [*cells, "", ""]
    loose = knee.high - knee.low > HARDLY_KNOWN * knee.velocity
    within = "hardly known" if loose else f"{knee.low / speed.factor:.1f} to {knee.high / speed.factor:.1f}"
    return [*cells, f"{speed.text(knee.velocity, unit=False)} ({within})", force.text(knee.force, unit=False)]
