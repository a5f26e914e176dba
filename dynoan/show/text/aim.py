"""What aims for a launch lead to, as people read it: what to turn, what is reached, what it costs."""

from __future__ import annotations

from dynoan.cautions import SHORT
from dynoan.errors import typed
from dynoan.jobs.aim import AimAnswer, AimReached
from dynoan.jobs.launch.figures import BY_KEY
from dynoan.model.car import CORNER_NAMES
from dynoan.model.shock import clicks_text
from dynoan.show.text import what_if
from dynoan.show.text.blocks import Block, Look, Paragraph, Table, blank
from dynoan.units import Shown, shown


def blocks(answer: AimAnswer, look: Look) -> list[Block]:
    """Return the clicks, the aims before and after, what it costs in the other figures, and the verdict."""
    return [
        _clicks(answer),
        _aims(answer, look.units),
        Paragraph(verdict(answer, look.units)),
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


#: what has a say in a figure that clicks have little in
_ELSEWHERE = {
    "level_rear_squat_m": "where the rear comes to stand is a matter of its spring and of antisquat: more of either",
    "level_rear_lift_m": "where the rear comes to stand is a matter of its spring and of antisquat: less antisquat",
    "level_nose_rise_m": "where the nose comes to stand is front spring, height and weight: a stiffer front spring",
    "level_nose_rise_rate_m_s": "beside damping, the front spring and the height of the weight say how fast it rises",
    "front_wheel_height_m": "weight further ahead or lower, less drive, a wheelie bar",
    "wheelspin_s": "grip, weight on the driven wheels, less drive",
    "driven_load_rms_n": "springs and tyres",
    "driven_load_least_n": "springs and tyres",
    "distance_m": "grip and drive",
}


def verdict(answer: AimAnswer, units: Shown = "metric") -> str:
    """Return whether the turn is worth it, in words; where a limit is not kept, what else has a say."""
    return " ".join(filter(None, (_over(answer), _turn(answer), _outside(answer), *_not_kept(answer, units))))


def _outside(answer: AimAnswer) -> str:
    if not answer.outside:
        return ""
    where = " and ".join(CORNER_NAMES[name] for name in answer.outside)
    return f"The clicks chosen for {where} lie outside what was tested; --inside stays on tested ground."


def _over(answer: AimAnswer) -> str:
    before, after = answer.goes_over
    if after is not None:
        return (
            f"With any of these clicks the car goes over, with those chosen after {after:.2f} s, and its figures end "
            "there: clicks do not hold it down. Less drive, weight further ahead or lower, or a wheelie bar would."
        )
    return (
        ""
        if before is None
        else f"As it is the car goes over after {before:.2f} s; with the clicks chosen it does not."
    )


def _turn(answer: AimAnswer) -> str:
    if not answer.turned:
        return "" if answer.goes_over[1] is not None else (
            "Nothing to turn: what is on the car is as near to the aims as any clicks."
        )  # fmt: skip
    if answer.goes_over == (None, None) and not answer.worth:
        return (
            "Not worth the turn: the clicks chosen differ from those on the car by less than damping curves and roads "
            "leave open, or the car keeps the limits already."
        )
    return "Worth the turn." if answer.goes_over[1] is None else ""


#: the axle whose spring has a say in where an end comes to stand, and the change of it offered to try [1]; judged
_SPRINGS = {"level_rear_squat_m": "rear", "level_rear_lift_m": "rear", "level_nose_rise_m": "front",
            "level_nose_rise_rate_m_s": "front"}  # fmt: skip
STIFFER = 1.1


def _not_kept(answer: AimAnswer, units: Shown) -> list[str]:
    """Return, for each limit that no clicks keep, what else has a say, and how to try it."""
    if answer.goes_over[1] is not None:
        return []
    said = [
        f"'{one.aim.text}' is not kept by any clicks searched; {_ELSEWHERE[one.aim.key]}."
        for one in answer.reached if one.kept is False
    ]  # fmt: skip
    return [*said, _to_try(answer, units)] if said else []


def _to_try(answer: AimAnswer, units: Shown) -> str:
    """Return a command that lays what else has a say beside what is: with the car's own spring, and its bar holes."""
    missed = [one.aim.key for one in answer.reached if one.kept is False]
    axle = next((_SPRINGS[key] for key in missed if key in _SPRINGS), "")
    spring = answer.car.axle(axle)[0].spring if axle else 0.0
    change = f"{axle}.spring={shown('stiffness', units).text(spring * STIFFER)}" if axle else "KEY=VALUE"
    launch = f"dynoan launch {typed(answer.car.name)} --surface {typed(answer.surface)}"
    links = answer.car.links
    many = links is not None and any(len(member.body) > 1 for member in links.members.values())
    holes = f", and the bar holes with: {launch} --holes" if many and axle == "rear" else ""
    return f"Try it with: {launch} --what '{change}'{holes}."
