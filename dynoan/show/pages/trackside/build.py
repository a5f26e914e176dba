"""The one HTML file that goes on a phone: every pack at every click, without a network."""

from __future__ import annotations

from dynoan.cautions import CLOSED_COURSE, PUSHING
from dynoan.errors import CallError
from dynoan.jobs.trackside import TracksideAnswer
from dynoan.model.example_numbers import TOLD
from dynoan.show.clock import now_text
from dynoan.show.pages.launch_table import TAKEN
from dynoan.show.pages.page import asset, policy, render, script
from dynoan.show.pages.trackside.payload import payload
from dynoan.show.pages.trackside.view import TracksideView, view_of
from dynoan.units import Shown

LIMIT = 2_000_000
SCRIPTS = (
    "inflate.js", "tables.js", "elements.js", "quantity.js", "state.js", "figures.js", "curve.js", "export.js",
    "fill.js", "entries.js", "note.js", "trial.js", "trackside.js",
)  # fmt: skip


def page(answer: TracksideAnswer, units: Shown = "metric", made: str | None = None) -> str:
    """Return the page of an answer, made now unless another moment is given in words.

    Raises
    ------
    CallError
        If it would be larger than a phone should be asked to open.
    """
    return build_trackside(view_of(answer, units, made or now_text()))


def build_trackside(view: TracksideView) -> str:
    """Return the page; the same view gives the same bytes.

    Raises
    ------
    CallError
        If it would be larger than a phone should be asked to open.
    """
    data = payload(view)
    style, code = asset("common.css") + asset("trackside.css"), script(SCRIPTS)
    text = render(
        "trackside.html", policy=policy(style, code), style=style, code=code, data=data, worn=view.worn,
        launch=view.launch, taken=TAKEN, no_launch=view.no_launch, example=TOLD if view.example else "",
        closed_course=CLOSED_COURSE, pushing=PUSHING,
    )  # fmt: skip
    if len(text.encode()) > LIMIT:
        raise CallError("the page would be over 2 MB", where=view.car.name, hint="name fewer packs", need="fewer packs")
    return text
