"""What every page has: the state that open tabs look at, work under way, undo, units."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.responses import JSONResponse, Response

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.window.desk import Desk


def state(desk: Desk, _: Request) -> Response:
    """Return the library's mark and the work under way; a tab with another mark is behind."""
    return JSONResponse({"stamp": desk.stamp(), "works": [w.to_dict() for w in desk.works.under_way()]})


def work(desk: Desk, request: Request) -> Response:
    """Return how far a work is."""
    number = str(request.path_params["number"])
    found = desk.works.get(int(number)) if number.isdecimal() else None
    return JSONResponse({"error": "forgotten", "state": "done"} if found is None else found.to_dict())


def stop(desk: Desk, _: FormData, request: Request) -> str:
    """Ask a work to stop."""
    number = str(request.path_params["number"])
    if number.isdecimal():
        desk.works.stop(int(number))
        desk.say("Stopped; what was finished until then is kept.")
    return local(request.query_params.get("then", "/"))


def undo(desk: Desk, form: FormData, _: Request) -> str:
    """Take the last change back."""
    desk.undo()
    return local(str(form.get("then", "/")))


def units(desk: Desk, form: FormData, _: Request) -> str:
    """Show other units, as long as this window is open."""
    desk.units = "us" if form.get("units") == "us" else "metric"
    return local(str(form.get("then", "/")))


def local(path: str) -> str:
    """Return a path of this window, the first page where it is none."""
    return path if path.startswith("/") and not path.startswith(("//", "/\\")) and path.isprintable() else "/"


SHOWN = [("/state", state), ("/work/{number}", work)]
DONE = [("/undo", undo), ("/units", units), ("/work/{number}/stop", stop)]
