"""What every page has: the state that open tabs look at, work under way, undo, units."""

from __future__ import annotations

import time
from typing import TYPE_CHECKING, Any

from starlette.responses import JSONResponse, Response

from dynoan.errors import DynoanError
from dynoan.library.marker import NAME as MARKER
from dynoan.library.text_edit import with_values
from dynoan.library.toml_text import read_text

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.jobs.undo import Contents
    from dynoan.units import Shown
    from dynoan.window.desk import Desk

HELD = 1.0  #: for what is not ready yet: a browser asks a program no more than six things at a time [s]
A_GLANCE = 0.05  #: between two looks at what is ready [s]
NAMED = {"metric": "metric", "us": "US"}


def state(desk: Desk, request: Request) -> Response:
    """Return the library's mark and the work under way, and of packs asked about those not at hand yet.

    `lacking` are those without a click map, `unfitted` of these those without the curves of all their runs. The answer
    to a question `until` none is lacking, or unfitted, waits for that, no longer than `HELD`.
    """
    asked = request.query_params.getlist("pack")
    waiting = _waiting(desk, asked, request.query_params.get("until", "")) if asked else {}
    body = {"stamp": desk.stamp(), "table": desk.dropped.mark(), "works": [w.to_dict() for w in desk.works.under_way()]}
    return JSONResponse(body | waiting)


def _waiting(desk: Desk, packs: list[str], until: str) -> dict[str, list[str]]:
    looks = {"lacking": desk.packs_not_ready, "unfitted": desk.packs_not_fitted}
    end, steps = time.monotonic() + HELD, desk.works.steps
    while until in looks and (left := end - time.monotonic()) > 0:
        seen = steps.count
        if not looks[until](packs):
            break
        time.sleep(A_GLANCE)
        steps.wait(seen, left)
    return {name: look(packs) for name, look in looks.items()}


def work(desk: Desk, request: Request) -> Response:
    """Return how far a work is."""
    number = str(request.path_params["number"])
    found = desk.works.get(int(number)) if number.isdecimal() else None
    return JSONResponse({"error": "forgotten", "state": "done"} if found is None else found.to_dict())


def stop(desk: Desk, _: FormData, request: Request) -> str:
    """Ask a work to stop."""
    number = str(request.path_params["number"])
    if number.isdecimal():
        desk.halt(int(number))
        desk.say("Stopped; what was finished until then is kept.")
    return local(request.query_params.get("then", "/"))


def go_on(desk: Desk, form: FormData, _: Request) -> str:
    """Go on with what was stopped."""
    desk.halted = None
    return local(str(form.get("then", "/")))


def undo(desk: Desk, form: FormData, _: Request) -> str:
    """Take the last change back."""
    desk.undo()
    return local(str(form.get("then", "/")))


def units(desk: Desk, form: FormData, _: Request) -> str:
    """Show other units, and write into the library that it wants them: the command line then shows the same."""
    wanted: Shown = "us" if form.get("units") == "us" else "metric"
    if wanted != desk.units:
        desk.units = wanted
        try:
            with desk.change(f"{NAMED[wanted]} units", [MARKER], then="units"):
                desk.write(MARKER, with_values(read_text(desk.path / MARKER, MARKER), {("units",): wanted}).encode())
            _as_marked(desk)
            desk.say(f"This library is shown in {NAMED[wanted]} units from now on, by the command line too.", undo=True)
        except DynoanError as error:
            desk.say(f"{NAMED[wanted]} units, in this window alone: {error}", wrong=True)
    return local(str(form.get("then", "/")))


def units_again(desk: Desk, _: Contents, __: Any) -> None:
    """Show the units that the library wants after they were taken back."""
    _as_marked(desk)
    desk.units = desk.library.units


def _as_marked(desk: Desk) -> None:
    """Take what the library's marker says: the units decide, too, at which round speeds a car's ratios are told."""
    with desk.bench():
        desk.library.read_again()
        desk.remembered.clear()


def local(path: str) -> str:
    """Return a path of this window, the first page where it is none."""
    return path if path.startswith("/") and not path.startswith(("//", "/\\")) and path.isprintable() else "/"


SHOWN = [("/state", state), ("/work/{number}", work)]
DONE = [("/undo", undo), ("/units", units), ("/work/{number}/stop", stop), ("/work/again", go_on)]
