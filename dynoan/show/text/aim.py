"""What aims for a launch lead to, as people read it: what to turn, what is reached, what it costs."""

from __future__ import annotations

from dynoan.cautions import SHORT
from dynoan.jobs.aim import AimAnswer, AimReached
from dynoan.jobs.launch_figures import BY_KEY
from dynoan.model.car import CORNER_NAMES
from dynoan.model.shock import clicks_text
from dynoan.show.text import what_if
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank
from dynoan.units import Shown


def blocks(answer: AimAnswer, look: Look) -> list[Block]:
    """Return the clicks, the aims before and after, what it costs in the other figures, and the verdict."""
    return [
        _clicks(answer),
        _aims(answer, look.units),
        Paragraph(verdict(answer)),
        blank(),
        *what_if.block(answer.compared, ("as on the car", "chosen"), look),
        blank(),
        Paragraph(SHORT),
    ]


def _clicks(answer: AimAnswer) -> Table:
    rows = [
        [
            CORNER_NAMES[name],
            corner.pack or "–",
            clicks_text(answer.car.corners[name].clicks),
            clicks_text(corner.clicks),
        ]
        for name, corner in answer.chosen.corners.items()
    ]
    title = f"{answer.car.name} on {answer.surface}: clicks for the aims ({answer.searched} settings run)"
    return Table(["corner", "pack", "on the car", "chosen"], rows, title)


def _aims(answer: AimAnswer, units: Shown) -> Table:
    rows = []
    for one in answer.reached:
        display = BY_KEY[one.aim.key].display(units)
        before, after = display.text(one.before), display.text(one.after)
        rows.append([one.aim.text, BY_KEY[one.aim.key].words, before, after, _kept(one)])
    return Table(["aim", "figure", "on the car", "chosen", ""], rows)


def _kept(one: AimReached) -> str:
    if one.kept is None:
        return "" if one.sure else "no sure difference"
    return "kept" if one.kept else "not kept"


def verdict(answer: AimAnswer) -> str:
    """Return whether the turn is worth it, in words."""
    if not answer.turned:
        return "Nothing to turn: what is on the car is as near to the aims as any clicks."
    if not answer.worth:
        return (
            "Not worth the turn: the clicks chosen differ from those on the car by less than damping curves and roads "
            "leave open, or the car keeps the limits already."
        )
    lost = (
        ""
        if not answer.no
        else " Not every limit is kept by any clicks: springs, weight or another pack would have to."
    )
    return f"Worth the turn.{lost}"
