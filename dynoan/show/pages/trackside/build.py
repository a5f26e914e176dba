"""The one HTML file that goes on a phone: every pack at every click, without a network."""

from __future__ import annotations

from dynoan.errors import CallError
from dynoan.show.pages.page import asset, policy, render, script
from dynoan.show.pages.trackside.view import TracksideView, payload

LIMIT = 2_000_000
SCRIPTS = ("tables.js", "state.js", "curve.js", "export.js", "trackside.js")


def build_trackside(view: TracksideView) -> str:
    """Return the page; the same view gives the same bytes.

    Raises
    ------
    CallError
        If it would be larger than a phone should be asked to open.
    """
    data = payload(view)
    style, code = asset("common.css") + asset("trackside.css"), script(SCRIPTS)
    page = render("trackside.html", policy=policy(style, code), style=style, code=code, data=data)
    if len(page.encode()) > LIMIT:
        raise CallError(f"{view.car.name}: the page would be over 2 MB; name fewer packs with --pack")
    return page
