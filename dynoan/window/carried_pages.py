"""The pages to carry and to send: made beside all else, then saved."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from starlette.responses import Response

from dynoan.errors import CallError
from dynoan.jobs import report, trackside
from dynoan.show import presenting
from dynoan.window import logged
from dynoan.window.downloads import download

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.jobs.answering import PageAnswer
    from dynoan.jobs.travel import TravelQuestion
    from dynoan.window.desk import Desk
    from dynoan.window.working import Work
    from dynoan.workbench import Workbench

#: what can be saved: how it is asked, its name on the page
PAGES = {"phone": "page for the phone", "report": "report"}


def make(desk: Desk, form: FormData, _: Request) -> str:
    """Begin to make the page for the phone, or the report."""
    kind, car = str(form.get("kind", "")), str(form.get("car", ""))
    if kind not in PAGES:
        raise CallError("there is no such page to make")
    with desk.bench() as bench:
        bench.library.car(car)
        stamp = desk.stamp()
    logs, key = logged.questions(desk, car) if kind == "report" else [], _key(desk, kind, car)

    def run(work: Work) -> None:
        bench = desk.own_bench(work)
        text = presenting.page(replace(_answer(bench, kind, car, logs), units=desk.units), desk.units)
        with desk.bench():
            if desk.stamp() == stamp:
                desk.remembered[key] = text

    desk.works.begin(f"{key} {stamp}", f"Making the {PAGES[kind]} of {car}", run, lane="pages")
    return "/log#pages"


def _key(desk: Desk, kind: str, car: str) -> str:
    """Return what a made page is remembered by: a report with other logs is another."""
    logs = [(f.id, f.facts) for f in logged.lying(desk, car)] if kind == "report" else []
    return f"page {kind} {car} {logs or ''}"


def _answer(bench: Workbench, kind: str, car: str, logs: list[TravelQuestion]) -> PageAnswer:
    if kind == "phone":
        return trackside.answer(bench, trackside.TracksideQuestion.asked(car))
    return report.answer(bench, report.ReportQuestion.asked(car, travel=logs))


def made_page(desk: Desk, kind: str, car: str) -> str | None:
    """Return a page that was made since the library last changed, None where there is none."""
    with desk.bench():
        found: str | None = desk.remembered.get(_key(desk, kind, car))
    return found


def save(desk: Desk, request: Request) -> Response:
    """Return a page that was made, to save."""
    kind, car = request.query_params.get("kind", ""), request.query_params.get("car", "")
    text = made_page(desk, kind, car)
    if text is None:
        raise CallError("that page is not made, or the library changed since: make it again")
    return download(text, f"{car} {'phone' if kind == 'phone' else 'report'}.html")
