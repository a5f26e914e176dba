"""Logged travel for a car's report: logs lie in the library's caches until taken off, with what is said of them.

What their columns do not say is asked there, under the same names as `dynoan travel` has them.
"""

from __future__ import annotations

import time
from dataclasses import dataclass
from typing import TYPE_CHECKING
from urllib.parse import quote

from starlette.datastructures import UploadFile
from starlette.responses import Response

from dynoan.errors import CallError, DynoanError
from dynoan.jobs import travel
from dynoan.jobs.travel import TravelQuestion, parts_from
from dynoan.model.car import CORNER_NAMES, CORNERS
from dynoan.reading import read_log_bytes
from dynoan.show.text.travel import understood
from dynoan.window.dropped_file import DroppedFile, SaidOfFile
from dynoan.window.files import table_of
from dynoan.window.rendering import page, plural
from dynoan.window.table_changes import said_of, table_change

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.model.log import Log
    from dynoan.window.desk import Desk

MOST_TEXT = 200  #: characters of one answer
_KEPT = "logs looked at"
#: of the whole log
OF_ALL = ("scale", "zero", "part", "time", "window")
OF_CORNERS = ("scale", "zero")
#: which field answers what an error needs, and what is said beside it
ANSWERS = {
    "corner": ("column", "choose below which column is which shock"),
    "scale": ("scale", "say below what one of it means, such as 25 mm per V"),
    "time": ("time", "choose the column of the time below"),
}


@dataclass(frozen=True)
class LookedLog:
    """One log, as the page shows it."""

    file: DroppedFile
    columns: tuple[str, ...] = ()
    found: tuple[str, ...] = ()  #: how each shock's column was understood, and where the launch is
    doubts: tuple[str, ...] = ()
    error: str = ""
    field: str = ""  #: the field that an error is about


def show(desk: Desk, request: Request) -> Response:
    """Show the logs that go into a car's report, what was understood of each, and what is asked."""
    with desk.bench() as bench:
        car = bench.library.car(request.query_params.get("car", "")).name
    logs = [_looked(desk, file) for file in lying(desk, car)]
    others = [card.file for card in table_of(desk).cards if card.log]
    return page(desk, request, "log_travel.html", car=car, logs=logs, others=others, corners=CORNER_NAMES)


def lying(desk: Desk, car: str) -> list[DroppedFile]:
    """Return the logs that go into a car's report, in the order in which they came."""
    return [file for file in desk.logs.files() if file.facts.plain.get("car") == car]


def questions(desk: Desk, car: str) -> list[TravelQuestion]:
    """Return what a car's report asks of its logs.

    Raises
    ------
    CallError
        If something of one must be said first.
    """
    for file in lying(desk, car):
        if _looked(desk, file).error:
            raise CallError(
                f"{file.name} cannot go into the report yet", hint="under “Logged travel” it is asked what is missing"
            )
    return [_question(_read(desk, file), file.facts) for file in lying(desk, car)]


def _read(desk: Desk, file: DroppedFile) -> Log:
    return read_log_bytes(desk.logs.data(file), file.name)


def _question(log: Log, facts: SaidOfFile) -> TravelQuestion:
    said = facts.plain
    of_corners = {
        part: {c: text for c in CORNERS if (text := said.get(f"{part}.{c}") or said.get(part))} for part in OF_CORNERS
    }
    parts = [text.strip() for text in said.get("part", "").split(";") if text.strip()]
    return TravelQuestion.asked(
        log, corner=facts.columns, scale=of_corners["scale"], zero=of_corners["zero"], part=parts_from(parts),
        window=said.get("window"), time=said.get("time"),
    )  # fmt: skip


def _looked(desk: Desk, file: DroppedFile) -> LookedLog:
    """Return a log with what was understood of it; what was looked at before is remembered."""
    key = f"{_KEPT} {file!r} {desk.units}"
    with desk.bench():
        known: LookedLog | None = desk.remembered.get(key)
        if known is None:
            known = desk.remembered[key] = _look(desk, file)
    return known


def _look(desk: Desk, file: DroppedFile) -> LookedLog:
    columns: tuple[str, ...] = ()
    try:
        log = _read(desk, file)
        columns = tuple(c.name for c in log.columns)
        found = travel.answer(None, _question(log, file.facts))
    except DynoanError as error:
        field, how = ANSWERS.get(error.need or "", (error.part or "", ""))
        text = f"{error.what.removeprefix(f'{file.name}: ')}: {how}" if how else error.bare
        return LookedLog(file, columns, error=text, field=field)
    told = [understood(shock, desk.units) for shock in found.shocks]
    return LookedLog(file, columns, (*told, f"Parts: {found.parts_from}"), tuple(found.warnings))


def bring(desk: Desk, form: FormData, _: Request) -> str:
    """Lay logs here: those that were sent, or one that lies among the files."""
    car = _car(desk, form)
    sent = [one for one in form.getlist("files") if isinstance(one, UploadFile) and one.filename]
    named = str(form.get("id", ""))
    if not (sent or named):
        raise CallError("choose a log first")
    with table_change(desk, _brought, "dropped", "logs"):
        if named:
            file = desk.dropped.get(named)
            _lay(desk, car, file.name, desk.dropped.data(file))
            desk.dropped.set_aside([file.id])
        for one in sent:
            _lay(desk, car, one.filename or "log", one.file.read())
    return _back(car)


def _brought(count: int, name: str) -> str:
    return f"{name if count == 1 else plural(count, 'log')} put into the report"


def _lay(desk: Desk, car: str, name: str, data: bytes) -> None:
    made = desk.logs.put(name, data, time.time())
    desk.logs.state(made.id, SaidOfFile(made.facts.plain | {"car": car}, {}, made.facts.columns))


def say(desk: Desk, form: FormData, _: Request) -> str:
    """Take what is said of one log; an empty field takes it back."""
    car, file = _car(desk, form), desk.logs.get(str(form.get("id", "")))
    given = {str(k): str(v).strip()[:MOST_TEXT] for k, v in form.items()}
    plain = {k: given[k] for k in (*OF_ALL, *(f"{p}.{c}" for p in OF_CORNERS for c in CORNERS)) if given.get(k)}
    columns = {c: given[f"column.{c}"] for c in CORNERS if given.get(f"column.{c}")}
    with table_change(desk, said_of, "logs"):
        desk.logs.state(file.id, SaidOfFile(plain | {"car": car}, {}, columns))
    return f"{_back(car)}#l-{file.id}"


def take_off(desk: Desk, form: FormData, _: Request) -> str:
    """Take a log off; it can be laid here again."""
    car = _car(desk, form)
    with table_change(desk, lambda count, _: f"{plural(count, 'log')} taken off", "logs"):
        gone = desk.logs.set_aside([str(form.get("id", ""))])
    if gone:
        desk.say(f"{plural(len(gone), 'log')} taken off.", undo=True)
    return _back(car)


def _car(desk: Desk, form: FormData) -> str:
    with desk.bench() as bench:
        return bench.library.car(str(form.get("car", ""))).name


def _back(car: str) -> str:
    return f"/log/travel?car={quote(car)}"


SHOWN = [("/log/travel", show)]
DONE = [("/log/travel/bring", bring), ("/log/travel/say", say), ("/log/travel/off", take_off)]
