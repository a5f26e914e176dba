"""Changes of a car's file, by its form, a setting put on, an aim or what was tried, shown before they are written."""

from __future__ import annotations

import hashlib
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING
from urllib.parse import quote

from starlette.responses import RedirectResponse, Response

from dynoan.errors import CallError
from dynoan.jobs.choose.proposals import beginnings
from dynoan.library.car_file import car_from_text
from dynoan.library.names import check_name
from dynoan.library.text_edit import Value, with_values
from dynoan.model.car import AXLES
from dynoan.model.shock import ADJUSTERS
from dynoan.window import carfile
from dynoan.window.carfields import GROUPS, seated
from dynoan.window.carfile import CarText
from dynoan.window.rendering import page
from dynoan.window.saying_cars import beginning_words
from dynoan.window.tried import changes_of

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.window.desk import Desk

KNOBS = ("lsc", "hsc", "lsr", "hsr")  #: asked for where nothing tells of others


def mark_of(text: str) -> str:
    """Return a mark that tells whether a text is the one that was shown."""
    return hashlib.sha256(text.encode()).hexdigest()


def shown_first(desk: Desk, made: CarText) -> str:
    """Return the address of a change, or of its car where nothing changes: back, forward and reload find it again."""
    if not made.changes:
        desk.say(f"Nothing to write: {made.name} is like that already.")
        return f"/car?car={quote(made.name)}"
    mark = mark_of(made.after)
    desk.remembered[f"change {mark}"] = made
    return f"/car/change?car={quote(made.name)}&of={mark}"


def show(desk: Desk, request: Request) -> Response:
    """Show what would change, as long as the library is as it was."""
    name = request.query_params.get("car", "")
    with desk.bench():
        made = desk.remembered.get(f"change {request.query_params.get('of', '')}")
    if not isinstance(made, CarText):
        desk.say("That change was written, or the library is another by now: begin with how the car is now.")
        return RedirectResponse(f"/car?car={quote(name)}", 303)
    return page(desk, request, "car_change.html", made=made, mark=mark_of(made.before), name=made.name)


def edit(desk: Desk, request: Request) -> Response:
    """Show the form of a car, new or known."""
    name = request.query_params.get("car", "")
    with desk.bench() as bench:
        known = name in bench.library.cars()
        values = carfile.flat(carfile.text_of(desk, name)) if known else {}
        if "rear.antisquat" in values or "front.antisquat" in values:
            values["antisquat"] = values.get("rear.antisquat") or values["front.antisquat"]
        names = _names(desk)
    if not known:
        values |= seated(names["shock"]) | _only_pack(names["pack"])
    return page(desk, request, "car_form.html", made=None, name=name, known=known, values=values, faults={},
                groups=GROUPS, names=names, knobs=knobs_of(values, turned(desk)))  # fmt: skip


def _only_pack(packs: Sequence[str]) -> dict[str, str]:
    """Return the pack of both axles where the library has one alone."""
    return {f"{axle}.pack": packs[0] for axle in AXLES} if len(packs) == 1 else {}


def turned(desk: Desk) -> frozenset[str]:
    """Return the adjusters that the library's runs name, or those of most shocks where none does."""
    with desk.bench() as bench:
        return frozenset(name for run in bench.records for name in run.clicks) or frozenset(KNOBS)


def knobs_of(values: Mapping[str, str], known: frozenset[str]) -> dict[str, dict[str, str]]:
    """Return the clicks that a form holds, by axle and adjuster: those it names, and those that are known."""
    out = {}
    for axle in AXLES:
        parts = [part.partition("=") for part in values.get(f"{axle}.clicks", "").split(",")]
        held = {name.strip(): click.strip() for name, _, click in parts}
        out[axle] = {a: held.get(a, "") for a in ADJUSTERS if a in held or a in known}
    return out


def _names(desk: Desk) -> dict[str, tuple[str, ...]]:
    return {"pack": desk.packs(), "shock": desk.shocks()}


def check(desk: Desk, form: FormData, request: Request) -> Response | str:
    """Show the form again with its faults, or what would be written."""
    name = check_name(str(form.get("name", "")).strip(), "name of the car", longest=60)
    with desk.bench() as bench:
        known = name in bench.library.cars()
        made = carfile.formed(desk, name, {str(k): str(v) for k, v in form.items()})
        names = _names(desk)
    if made.faults:
        return page(desk, request, "car_form.html", 422, made=made, name=name, known=known, values=made.values,
                    faults=made.faults, groups=GROUPS, names=names,
                    knobs=knobs_of(made.values, turned(desk)))  # fmt: skip
    if not known:
        carfile.write(desk, made, f"car {name} made")
        desk.say(f"Car {name} is in the library.", undo=True)
        return f"/car?car={quote(name)}"
    return shown_first(desk, made)


def put_on(desk: Desk, form: FormData, _: Request) -> str:
    """Show what the car's file would be with a setting put on or with what was tried."""
    name = str(form.get("car", ""))
    changes = changes_of(desk, {str(k): str(v) for k, v in form.items()})
    if not changes:
        raise CallError("nothing was changed yet: turn something first")
    with desk.bench():
        made = carfile.with_changes(desk, name, changes)
    return shown_first(desk, made)


def aim(desk: Desk, form: FormData, _: Request) -> str:
    """Write an aim to begin with into a file without targets; show first what would change where it has some."""
    name, wanted = str(form.get("car", "")), str(form.get("aim", ""))
    found = next((one for one in beginnings(desk.library.car(name)) if one.surface == wanted), None)
    if found is None:
        raise CallError("there is no such aim")
    values: dict[tuple[str, ...], Value | None] = {
        ("targets", one.axle, d, level): getattr(target, level)
        for one in found.proposals
        for d, target in (("compression", one.targets.compression), ("rebound", one.targets.rebound))
        for level in ("low", "high")
    }
    with desk.bench():
        before = carfile.text_of(desk, name)
        made = CarText(name, before, with_values(before, values), {})
        if desk.library.car(name).targets:
            return shown_first(desk, made)
        carfile.write(desk, made, f"targets of {name} set")  # nothing of the team's is lost: there were none
    words = beginning_words(wanted)
    desk.say(f"Wanted of {name} now: a start {words[:1].lower()}{words[1:]}.", undo=True)
    return f"/car?car={quote(name)}#choose"


def keep(desk: Desk, form: FormData, _: Request) -> str:
    """Write a car's file as it was shown."""
    name, text, mark = str(form.get("car", "")), str(form.get("text", "")).replace("\r\n", "\n"), str(form.get("mark"))
    with desk.bench():
        before = carfile.text_of(desk, name)
        if mark_of(before) != mark:
            raise CallError(
                f"the file of {name} was changed elsewhere meanwhile: nothing was written", hint="look at it again"
            )
        made = CarText(name, before, text, {})
        car_from_text(text, f"cars/{name}.toml", name)
        carfile.write(desk, made, f"file of {name} changed")
    desk.say(f"Written into the file of {name}.", undo=True)
    return f"/car?car={quote(name)}"


SHOWN = [("/car/edit", edit), ("/car/change", show)]
DONE = [("/car/check", check), ("/car/put-on", put_on), ("/car/keep", keep), ("/car/aim", aim)]
