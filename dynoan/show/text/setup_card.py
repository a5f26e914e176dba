"""A setup as a card for whoever turns the screws: what goes on each corner, and nothing else."""

from __future__ import annotations

from collections.abc import Callable

from dynoan.model.car import AXLES, CORNER_NAMES, Corner
from dynoan.model.setup import Setup
from dynoan.model.shock import ADJUSTERS
from dynoan.show.text.blocks import Block, Look, Paragraph, Table
from dynoan.units import degrees, shown

VERDICTS = {True: "good", False: "bad", None: ""}


def card(setup: Setup, counted: str, look: Look) -> list[Block]:
    """Return the card of a setup.

    Parameters
    ----------
    setup
        What was on the car.
    counted
        How its clicks count, in words.
    look
        How a person wants to see it.
    """
    warm = "" if setup.temperature is None else degrees(setup.temperature, look.units)
    day = ", ".join(filter(None, (setup.surface, setup.date[:10], warm, VERDICTS[setup.good], setup.result)))
    out: list[Block] = [Paragraph(f"{setup.car.name}: {day}")]
    for axle in AXLES:
        corners = setup.car.axle(axle)
        rows = [(name, *texts) for name, tell in _facts(setup, look) if any(texts := [tell(c) for c in corners])]
        out += [Paragraph(""), Table(("", *(CORNER_NAMES[c.name] for c in corners)), rows)]
    remarks = f"\n{setup.remarks}" if setup.remarks else ""
    return [*out, Paragraph(f"\n{counted}{remarks}")]


def _facts(setup: Setup, look: Look) -> list[tuple[str, Callable[[Corner], str]]]:
    spring, mass = shown("stiffness", look.units), shown("mass", look.units)
    named = [a for a in ADJUSTERS if any(a in c.clicks for c in setup.car.corners.values())]
    return [
        ("shock", lambda c: c.shock or ""),
        ("pack", lambda c: c.pack or ""),
        *((a, lambda c, a=a: str(c.clicks.get(a, ""))) for a in named),
        ("spring", lambda c: spring.text(c.spring)),
        ("weight", lambda c: mass.text(c.mass)),
    ]
