"""What `carry` found, as people read it: what to set, what becomes of the ratios, and what keeping them takes."""

from __future__ import annotations

from dynoan.analysis.corner.ratio_measures import SECANTS
from dynoan.cautions import SHORT
from dynoan.jobs.car_spread import OF_RATIO
from dynoan.jobs.carry import CarryAnswer
from dynoan.jobs.carry.found import CarriedCornerFound, CarriedPlace
from dynoan.model.car import CORNER_NAMES
from dynoan.model.shock import clicks_text
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank, or_dash
from dynoan.show.text.counting import counted
from dynoan.show.text.signs import signed


def blocks(answer: CarryAnswer, _look: Look) -> list[Block]:
    """Return the table people read, what keeping takes, and the cautions."""
    shocks = [place.chosen.shocks[c.carried.name] for place in answer.places for c in place.corners]
    columns = ["corner", "ratio", "was", "untouched", "is", "95 % limits", "off %"]
    rows = [row for corner in answer.corners for row in _rows(corner)]
    lines = dict.fromkeys(line for place in answer.places for line in _words(place, _tolerance(answer)))
    set_to = [_set_to(corner) for corner in answer.corners]
    return [
        Table(["corner", "before", "carried"], set_to, f"{answer.car.name} to {answer.other.name} ({counted(shocks)})"),
        blank(), Table(columns, rows, "Damping ratios"), blank(),
        *map(Paragraph, lines), *_unsure(answer), blank(), Paragraph(SHORT),
    ]  # fmt: skip


def _unsure(answer: CarryAnswer) -> list[Paragraph]:
    """Return why limits may be wide where little is lost, where the changed car's file gives any ±."""
    if not any(key.rpartition(".")[2] in OF_RATIO for key in answer.other.plus_minus):
        return []
    return [Paragraph("The limits hold the ± of the car's file; what both cars share moves was and is alike, and so "
                      "not how far a ratio is off.")]  # fmt: skip


def doubts(answer: CarryAnswer) -> list[str]:
    """Return what a person should know before turning: adjusters at their ends, tested ground, ratios not kept."""
    return list(dict.fromkeys(line for place in answer.places for line in _doubts(place, _tolerance(answer))))


def _tolerance(answer: CarryAnswer) -> float:
    return answer.question.limits.tolerance


def _set_to(corner: CarriedCornerFound) -> list[str]:
    was = f"{corner.before.pack} {clicks_text(corner.before.clicks)}"
    return [CORNER_NAMES[corner.carried.name], was, f"{corner.chosen.choice.pack} {clicks_text(corner.clicks)}"]


def _rows(corner: CarriedCornerFound) -> list[list[str]]:
    carried, rows = corner.carried, []
    for n, key in enumerate(SECANTS):
        b = carried.carried[key]
        untouched = or_dash(None if carried.untouched is None else carried.untouched[key], ".2f")
        name = CORNER_NAMES[carried.name] if n == 0 else ""
        rows.append([name, " ".join(key), f"{carried.before[key]:.2f}", untouched, f"{b.value:.2f}",
                     f"{b.low:.2f}–{b.high:.2f}", signed(100 * carried.lost(key))])  # fmt: skip
    return rows


def _factor(place: CarriedPlace) -> str:
    """Return how much more or less force than before the shocks of a place are asked for, left and right."""
    each = sorted({round(100 * (corner.carried.force_factor - 1)) for corner in place.corners})
    if each == [0]:
        return "the same force"
    if each[0] >= 0 or each[-1] <= 0:
        way, sizes = "more" if each[-1] > 0 else "less", sorted(abs(more) for more in each)
        return f"{' and '.join(f'{size}' for size in sizes)} % {way} force"
    return f"{-each[0]} % less force on one side and {each[-1]} % more on the other"


def _words(place: CarriedPlace, tolerance: float) -> list[str]:
    takes = f"keeping the ratios takes {_factor(place)} of the shock, at the same speed of the wheel."
    return [f"{place.chosen.choice.where}: {takes}", *_doubts(place, tolerance)]


def _doubts(place: CarriedPlace, tolerance: float) -> list[str]:
    choice = place.chosen.choice
    lines = [f"{name} stands at {end}." for name, end in choice.ends.items()]
    if choice.standing == "outside":
        lines.append("these clicks lie outside what was tested; --inside stays on tested ground.")
    if not choice.fits:
        lines.append(f"not every ratio is kept within {100 * tolerance:.0f} %; another pack may do it (--packs).")
    elif not choice.sure:
        lines.append("kept, but within the 95 % limits a ratio may still be out of tolerance.")
    return [f"{choice.where}: {line}" for line in lines]
