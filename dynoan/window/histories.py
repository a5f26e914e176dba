"""What became of the shocks: their histories, made once beside all else, a page and a picture of each."""

from __future__ import annotations

import io
from collections.abc import Mapping
from typing import TYPE_CHECKING

from starlette.responses import Response

from dynoan.errors import CallError
from dynoan.jobs.beside import histories
from dynoan.jobs.health import HealthAnswer
from dynoan.window.rendering import page

if TYPE_CHECKING:
    from starlette.requests import Request

    from dynoan.window.desk import Desk
    from dynoan.window.working import Work

UNASKED = 300  #: sweeps up to which all shocks are held against their earlier tests unasked: some minutes of work
HISTORY = "histories"


def health_of(desk: Desk) -> Mapping[str, HealthAnswer] | None:
    """Return the histories of all shocks tested on two dates or more; None while they are being looked at.

    Of a large library none: there each shock's history is looked at when it is asked for.
    """
    with desk.bench() as bench:
        known: dict[str, HealthAnswer] | None = desk.remembered.get(HISTORY)
        if known is not None:
            return known
        if len(bench.records) > UNASKED:
            return {}
        days: dict[str, set[str]] = {}
        for record in bench.records:
            if record.shock and record.date:
                days.setdefault(record.shock, set()).add(record.date[:10])
        wanted = sorted(name for name, found in days.items() if len(found) > 1)
        if not wanted:
            desk.remembered[HISTORY] = {}
            return {}
        stamp = desk.stamp()
        before = desk.works.last(f"{HISTORY} {stamp}")
        if before is not None and before.stopping.is_set():
            return {}  # somebody stopped it

    def run(work: Work) -> None:
        bench = desk.own_bench(work)
        found: dict[str, HealthAnswer] = {}
        for done, name in enumerate(wanted):
            work.progress(f"history of {name}", done, len(wanted))
            found |= {one.question.what: one for one in histories(bench, [name], [])}
        with desk.bench():
            if desk.stamp() == stamp:
                desk.remembered[HISTORY] = found

    desk.works.begin(f"{HISTORY} {stamp}", "Checking shocks for wear", run)
    return None


def health(desk: Desk, request: Request) -> Response:
    """Show what became of a shock."""
    name = request.query_params.get("shock", "")
    known = health_of(desk)
    one = None if known is None else known.get(name)
    if known is not None and one is None:
        raise CallError(f"{name or 'that shock'} was not tested on two dates, so there is nothing to hold it against")
    return page(desk, request, "health.html", shock=name, one=one)


def picture(desk: Desk, request: Request) -> Response:
    """Return the picture of a shock's history."""
    from dynoan.show import presenting

    known = health_of(desk) or {}
    one = known.get(request.query_params.get("shock", ""))
    if one is None:
        raise CallError("there is no such history")
    body = io.BytesIO()
    presenting.figure(one, desk.units).savefig(body, format="png")
    return Response(body.getvalue(), media_type="image/png")
