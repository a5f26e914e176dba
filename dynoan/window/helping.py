"""Help from the guide, where the package holds one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from dynoan.window.rendering import page

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from dynoan.window.desk import Desk


def show(desk: Desk, request: Request) -> Response:
    """Show the help of a screen."""
    return page(desk, request, "help.html")


SHOWN = [("/help", show)]
