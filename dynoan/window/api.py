"""``GET /api/<job>``: the object that the command prints with --json, its parameters named as the command's options."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from pathlib import Path
from typing import TYPE_CHECKING, Any

from starlette.concurrency import run_in_threadpool
from starlette.responses import JSONResponse, Response

if TYPE_CHECKING:
    from starlette.requests import Request

    from dynoan.window.desk import Desk

#: command, parameters as (name, value), the library: the exit code and the object
Asks = Callable[[str, Sequence[tuple[str, str]], Path], tuple[int, dict[str, Any]]]
STATUS = {0: 200, 1: 200, 2: 400}


def endpoint(desk: Desk, asks: Asks) -> Callable[[Request], Any]:
    """Return what answers: 200 where the job answered (yes or no), 400 where the call was wrong."""

    async def answer(request: Request) -> Response:
        job = request.path_params["job"].replace("/", " ").replace("-", " ")
        code, body = await run_in_threadpool(asks, job, request.query_params.multi_items(), desk.path)
        return JSONResponse(body, STATUS.get(code, 500), headers={"Dynoan-Exit": str(code)})

    return answer
