"""The door: a token in the first address, or a password where other machines can come in."""

from __future__ import annotations

import asyncio
import hmac
from typing import TYPE_CHECKING

from starlette.responses import HTMLResponse, Response
from starlette.routing import Route

if TYPE_CHECKING:
    from starlette.requests import Request

    from dynoan.window.guarding import Keys

PAUSE = 1.0  #: after a wrong password, so that nobody can try many [s]
_PAGE = """<!doctype html><html lang="en"><meta charset="utf-8"><title>dynoan</title>
<meta name="viewport" content="width=device-width, initial-scale=1">
<link rel="stylesheet" href="/static/common.css"><link rel="stylesheet" href="/static/window.css">
<main class="door"><h1>dynoan</h1>{body}</main></html>"""
_FORM = """<form method="post" action="/enter" class="card"><label>Password, as the program printed it
<input type="password" name="password" autocomplete="off" required></label><button class="main">Open</button></form>"""


def routes(keys: Keys) -> list[Route]:
    """Return the addresses of the door."""

    async def come(request: Request) -> Response:
        if keys.spend(request.query_params.get("token", "")):
            return keys.admit()
        if keys.password is not None:
            return HTMLResponse(_PAGE.format(body=_FORM), 401)
        said = "<p>This address was used already, or is another window's. Run <b>dynoan open</b> again.</p>"
        return HTMLResponse(_PAGE.format(body=said), 403)

    async def knock(request: Request) -> Response:
        async with request.form(max_files=0, max_fields=4) as form:
            given = str(form.get("password", ""))
        if keys.password is not None and hmac.compare_digest(given.encode(), keys.password.encode()):
            return keys.admit()
        await asyncio.sleep(PAUSE)
        return HTMLResponse(_PAGE.format(body=_FORM), 403)

    return [Route("/enter", come, methods=["GET"]), Route("/enter", knock, methods=["POST"])]
