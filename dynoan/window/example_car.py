"""An example car to begin with: the numbers that the form names as examples, which say so until they are one's own."""

from __future__ import annotations

from typing import TYPE_CHECKING
from urllib.parse import quote

from dynoan.model.example_numbers import SAID
from dynoan.window import carfile
from dynoan.window.carfields import FIELDS, bare_example, seated
from dynoan.window.carfile import CarText

if TYPE_CHECKING:
    from collections.abc import Sequence

    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.units import Shown
    from dynoan.window.desk import Desk

NAME = "example"


def example_values(units: Shown, packs: Sequence[str], shocks: Sequence[str]) -> dict[str, str]:
    """Return what the form of an example car holds, by key; packs and shocks are the library's own."""
    numbers = {k: bare_example(f, units) for k, f in FIELDS.items() if f.example and f.kind != "text"}
    ground = {k: f.example for k, f in FIELDS.items() if k.startswith("surfaces.") and f.kind == "text"}
    worn = {f"{axle}.pack": packs[0] for axle in ("front", "rear") if packs}
    return numbers | ground | worn | seated(shocks)


def begin(desk: Desk, _form: FormData, _request: Request) -> str:
    """Make an example car, in the units that are shown; one that is there stays as it is."""
    if NAME not in desk.library.cars():
        values = example_values(desk.units, desk.packs(), desk.shocks())
        made = carfile.formed(desk, NAME, values)
        carfile.write(desk, CarText(NAME, made.before, f"{SAID}\n{made.after}", made.values), "an example car made")
        desk.say("An example car is in the library: none of its numbers is yours yet.", undo=True)
    return f"/car?car={quote(NAME)}"


def own(desk: Desk, form: FormData, _: Request) -> str:
    """Take note that the numbers of a car are somebody's own now."""
    name = str(form.get("car", ""))
    with desk.bench():
        before = desk.library.car_text(name)
        after = before.replace(f"{SAID}\n", "")
        if after != before:
            carfile.write(desk, CarText(name, before, after, {}), f"numbers of {name} called one's own")
            desk.say(f"The numbers of {name} count as yours now.", undo=True)
    return f"/car?car={quote(name)}"


DONE = [("/car/example", begin), ("/car/own", own)]
