"""A change of a car's file, shown before it is written."""

from __future__ import annotations

import hashlib
from typing import TYPE_CHECKING
from urllib.parse import quote

from dynoan.window.rendering import page

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from dynoan.window.carfile import CarText
    from dynoan.window.desk import Desk


def mark_of(text: str) -> str:
    """Return a mark that tells whether a text is the one that was shown."""
    return hashlib.sha256(text.encode()).hexdigest()


def shown_first(desk: Desk, request: Request, made: CarText) -> Response | str:
    """Return the page that shows a change, or where to go where nothing changes."""
    if not made.changes:
        desk.say(f"Nothing to write: {made.name} is like that already.")
        return f"/car?car={quote(made.name)}"
    return page(desk, request, "car_change.html", made=made, mark=mark_of(made.before), name=made.name)
