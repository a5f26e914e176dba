"""The addresses of the window, and what answers them."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from contextlib import nullcontext
from typing import TYPE_CHECKING, Any

from starlette.applications import Starlette
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import FormData
from starlette.exceptions import HTTPException
from starlette.requests import ClientDisconnect, Request
from starlette.responses import JSONResponse, RedirectResponse, Response
from starlette.routing import Route

from dynoan.errors import DynoanError
from dynoan.show.text.restated import restated
from dynoan.units import HINTED
from dynoan.window import api, car, curves, entering, files, helping, keeping, learning, logbook, logged, packs, pages
from dynoan.window.guarding import Guard, Keys
from dynoan.window.rendering import page, static
from dynoan.window.table_changes import AS_BEFORE, as_before

if TYPE_CHECKING:
    from dynoan.window.api import Asks
    from dynoan.window.desk import Desk

MOST_FIELDS = 20_000
Shows = Callable[["Desk", Request], Response]
Does = Callable[["Desk", FormData, Request], "Response | str"]


def make_app(desk: Desk, keys: Keys, asks: Asks) -> Guard:
    """Return the window as an application: a library at hand, who may ask, and what answers ``/api``."""
    desk.thens |= {"lay back": keeping.lay_back, "units": pages.units_again, AS_BEFORE: as_before}
    routes = [
        Route("/static/{name}", _static),
        *entering.routes(keys),
        Route("/", lambda _: RedirectResponse("/files", 303)),
        *(Route(path, _shown(desk, show)) for path, show in _shown_paths()),
        *(Route(path, _done(desk, do), methods=["POST"]) for path, do in _done_paths()),
        Route("/files/drop", files.receiver(desk), methods=["POST", "PUT"]),
        Route("/api/{job:path}", api.endpoint(desk, asks)),
    ]
    app = Starlette(routes=routes, exception_handlers={HTTPException: _http_error(desk), Exception: _fault(desk)})
    return Guard(app, keys)


def _shown_paths() -> list[tuple[str, Shows]]:
    return [*pages.SHOWN, *files.SHOWN, *packs.SHOWN, *curves.SHOWN, *car.SHOWN, *logbook.SHOWN, *logged.SHOWN,
            *helping.SHOWN]  # fmt: skip


def _done_paths() -> list[tuple[str, Does]]:
    return [*pages.DONE, *files.DONE, *packs.DONE, *curves.DONE, *car.DONE, *logbook.DONE, *logged.DONE,
            *learning.DONE]  # fmt: skip


async def _static(request: Request) -> Response:
    return static(request.path_params["name"])


def _shown(desk: Desk, show: Shows) -> Callable[[Request], Awaitable[Response]]:
    async def endpoint(request: Request) -> Response:
        HINTED.set(desk.units)
        try:
            with desk.page_first() if _is_page(request) else nullcontext():
                return await run_in_threadpool(show, desk, request)
        except DynoanError as error:
            text = restated(str(error), desk.units)
            if request.url.path.endswith("/data"):
                return JSONResponse({"error": text}, 400)
            return page(desk, request, "refused.html", 400, text=text)

    return endpoint


def _is_page(request: Request) -> bool:
    """Whether a browser asks for a page to show, and not its script for what changed."""
    return "text/html" in request.headers.get("accept", "")


def _done(desk: Desk, do: Does) -> Callable[[Request], Awaitable[Response]]:
    async def endpoint(request: Request) -> Response:
        HINTED.set(desk.units)
        try:
            async with request.form(max_fields=MOST_FIELDS, max_files=files.MOST_AT_ONCE) as form:
                where: Response | str = await run_in_threadpool(do, desk, form, request)
        except ClientDisconnect:
            return Response(status_code=400)
        except DynoanError as error:
            desk.say(restated(str(error), desk.units), wrong=True)
            where = _back(request)
        return where if isinstance(where, Response) else RedirectResponse(where, 303)

    return endpoint


def _back(request: Request) -> str:
    """Return the page a form was on: the browser says so; only a path of this window counts."""
    origin = f"http://{request.headers.get('host', '')}"
    came = request.headers.get("referer", "")
    return came.removeprefix(origin) if came.startswith(f"{origin}/") else "/"


def _http_error(desk: Desk) -> Callable[[Request, Any], Awaitable[Response]]:
    async def answer(request: Request, error: HTTPException) -> Response:
        text = "There is no such page." if error.status_code == 404 else str(error.detail)
        if text.startswith("Too many files"):
            text = f"More than {files.MOST_AT_ONCE} files at once: choose fewer of them, and the others after these."
        return await run_in_threadpool(page, desk, request, "refused.html", error.status_code, text=text)

    return answer


def _fault(desk: Desk) -> Callable[[Request, Any], Awaitable[Response]]:
    async def answer(request: Request, error: Exception) -> Response:
        text = f"A fault of the program ({type(error).__name__}). What was kept is there; the log names the place."
        return await run_in_threadpool(page, desk, request, "refused.html", 500, text=text)

    return answer
