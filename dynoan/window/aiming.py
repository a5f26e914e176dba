"""Clicks for a launch, asked on the Car screen: an aim on one surface; the search runs beside the requests."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING
from urllib.parse import quote

from dynoan.errors import CallError, DynoanError
from dynoan.jobs import aim
from dynoan.jobs.aim import AimAnswer
from dynoan.jobs.aim.asked import AimQuestion
from dynoan.model.car import AXLES
from dynoan.model.shock import clicks_text
from dynoan.show import presenting
from dynoan.units import shown
from dynoan.window.rendering import bare_number, minus

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.window.desk import Desk
    from dynoan.window.working import Work


@dataclass(frozen=True)
class Wish:
    """One thing a person may want of a launch."""

    name: str
    words: str
    aim: str  #: as the job reads it; a limit follows where there is one
    kind: str | None = None  #: of the limit; None where the least there is is wanted


WISHES = (
    Wish("nose-rate", "Nose rises slower than", "nose slower than", "velocity"),
    Wish("nose", "Nose rises less than", "nose under", "length"),
    Wish("wheels", "Front wheels lift less than", "front wheels under", "length"),
    Wish("squat", "Rear squats less than", "rear squat under", "length"),
    Wish("spin", "Least wheelspin", "least wheelspin"),
    Wish("steady", "Steadiest load on the driven tyres", "steadiest"),
)


@dataclass(frozen=True)
class AimShown:
    """The last answer of a car, as the page shows it."""

    answer: AimAnswer
    html: str

    @property
    def changes(self) -> dict[str, str]:
        """What putting it on would change in the car's file, by key."""
        return {f"{corner}.clicks": clicks_text(clicks) for corner, clicks in self.answer.turned.items()}


def last_aimed(desk: Desk, car: str) -> AimShown | None:
    """Return the last answer of a car that still holds; None where there is none."""
    with desk.bench():
        found: AimShown | None = desk.remembered.get(f"aimed {car}")
    return found


def refused(desk: Desk, car: str) -> dict[str, str]:
    """Return an aim that was refused, with what is wrong with its limit, once; empty where none was."""
    with desk.bench():
        found: dict[str, str] = desk.remembered.pop(f"refused {car}", {})
    return found


def ask(desk: Desk, form: FormData, _: Request) -> str:
    """Begin to search all clicks for an aim."""
    given = {key: str(form.get(key, "")) for key in ("wish", "limit", "axle", "surface")}
    car, surface, axle = str(form.get("car", "")), given["surface"], given["axle"]
    try:
        text = wished(desk, given["wish"], given["limit"])
        asked = AimQuestion.asked(car, text, axle=axle if axle in AXLES else None, surface=surface or ())
    except DynoanError as error:
        if given["wish"] not in {w.name for w in WISHES}:
            raise
        with desk.bench():
            desk.remembered[f"refused {car}"] = given | {"fault": error.text}
        return f"/car?car={quote(car)}#aims"
    with desk.bench():
        stamp = desk.stamp()

    def run(work: Work) -> None:
        found = replace(aim.answer(desk.own_bench(work), asked, work.watch), units=desk.units)
        made = AimShown(found, minus(presenting.html(found, desk.units)))
        with desk.bench():
            if desk.stamp() == stamp:
                desk.remembered[f"aimed {car}"] = made

    desk.works.begin(
        f"aim {car} {surface} {axle} {text} {stamp}", f"Clicks for {text} on {surface}", run, lane="launch"
    )
    return f"/car?car={quote(car)}#aims"


def wished(desk: Desk, name: str, limit: str) -> str:
    """Return an aim in the job's words; a bare number is in the unit of the field.

    Raises
    ------
    CallError
        If it is none of the wishes, or its limit is missing.
    """
    wish = next((w for w in WISHES if w.name == name), None)
    if wish is None:
        raise CallError("there is no such aim")
    if wish.kind is None:
        return wish.aim
    if not limit.strip():
        raise CallError("how much? Write a limit here")
    unit = shown(wish.kind, desk.units).unit
    return f"{wish.aim} {limit.strip()}" + (f" {unit}" if bare_number(limit) else "")


DONE = [("/car/aims", ask)]
