"""The screen Files: what was dropped, looked at and asked about, and kept once somebody says so."""

from __future__ import annotations

import time
from collections.abc import Awaitable, Callable, Iterable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from urllib.parse import unquote

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.requests import ClientDisconnect
from starlette.responses import JSONResponse, RedirectResponse, Response

from dynoan.errors import CallError, DynoanError
from dynoan.jobs.demo import data_folder
from dynoan.jobs.read.look import LookAnswer
from dynoan.jobs.undo import contents, text_place
from dynoan.library.names import name_of
from dynoan.model.shock import ADJUSTERS
from dynoan.window import saying
from dynoan.window.ahead import load_ahead
from dynoan.window.dropped import MOST_FILES
from dynoan.window.guarding import MOST_BODY
from dynoan.window.keeping import keep_described, keep_runs, tell_kept
from dynoan.window.looks import Card
from dynoan.window.rendering import page, plural
from dynoan.window.table_changes import AS_BEFORE, noted, said_of, table_change

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.window.desk import Desk
    from dynoan.workbench import Workbench

MOST_AT_ONCE = MOST_FILES
A_DAY = 86_400.0  #: [s]
KNOBS = ("lsc", "hsc", "lsr", "hsr")


@dataclass(frozen=True)
class DropTable:
    """All files on the table, looked at."""

    cards: list[Card]
    knobs: tuple[str, ...]  #: adjusters to ask about

    @property
    def ready(self) -> list[Card]:
        """Those that can be kept."""
        return [c for c in self.cards if c.ready]


def table_of(desk: Desk) -> DropTable:
    """Return what lies on the table, each file looked at."""
    with desk.bench() as bench:
        known = {r.sha256 for r in bench.records}
        cards = desk.cards.all(bench, known, desk.units)
        knobs = _knobs(bench, cards)
    return DropTable(sorted(cards, key=lambda c: (c.ready, c.whole)), knobs)


def _knobs(bench: Workbench, cards: Iterable[Card]) -> tuple[str, ...]:
    named = {k for c in cards for k in c.clicks} | {k for r in bench.records for k in r.clicks}
    return tuple(k for k in ADJUSTERS if k in named) or KNOBS


def show(desk: Desk, request: Request) -> Response:
    """Show what was dropped, or what to do where nothing is there yet."""
    mark = desk.dropped.mark()  # before it is looked at: what changes meanwhile is told
    table = table_of(desk)
    with desk.bench() as bench:
        kept, packs = len(bench.records), desk.packs()
        shocks, cars = desk.shocks(), bench.library.cars()
    desk.ready_to_read(load_ahead)
    return page(
        desk, request, "files.html", table=table, kept=kept, packs=packs, shocks=shocks, cars=cars,
        mark=mark, most_mb=MOST_BODY >> 20, most_files=MOST_FILES,
    )  # fmt: skip


def receiver(desk: Desk) -> Callable[[Request], Awaitable[Response]]:
    """Return what takes files in: one as the body of a request (its name beside it), or many from a form."""

    async def receive(request: Request) -> Response:
        try:
            if request.method == "PUT":
                name = unquote(request.headers.get("dynoan-name", ""))
                data = await request.body()
                made = await run_in_threadpool(desk.dropped.put, name or "file", data, _order(request))
                await run_in_threadpool(desk.fit_ahead)
                return JSONResponse({"id": made.id, "name": made.name})
            async with request.form(max_files=MOST_AT_ONCE, max_fields=10) as form:
                await _take(desk, form)
            await run_in_threadpool(desk.fit_ahead)
        except ClientDisconnect:
            return Response(status_code=400)
        except DynoanError as error:
            if request.method == "PUT":
                return JSONResponse({"error": str(error)}, 400)
            desk.say(str(error), wrong=True)
        return RedirectResponse("/files", 303)

    return receive


async def _take(desk: Desk, form: FormData) -> None:
    for one in form.getlist("files"):
        if isinstance(one, UploadFile) and one.filename:
            data = await one.read(MOST_BODY + 1)
            try:
                await run_in_threadpool(desk.dropped.put, one.filename, data, time.time())
            except CallError as error:
                desk.say(str(error), wrong=True)


def _order(request: Request) -> float:
    """Return which file of those dropped together it is: three go up at once, and the last may be there first."""
    now = time.time()
    try:
        asked = float(request.headers.get("dynoan-order", ""))
    except ValueError:
        return now
    return asked if abs(asked - now) < A_DAY else now


def keep_files(desk: Desk, form: FormData, _: Request) -> str:
    """Keep the files named, or all that are ready; what was written beside them is said of them first."""
    named = [str(v) for v in form.getlist("id")]
    if len(named) == 1:
        saying.of_one(desk, named[0], form)
    saying.of_rows(desk, form, lambda: table_of(desk).cards)
    cards = {c.file.id: c for c in table_of(desk).ready}
    taken = [cards[i] for i in (named or cards) if i in cards]
    texts, chosen = [c for c in taken if c.described], [c.file for c in taken if not c.described]
    if not taken:
        raise CallError("nothing to keep: what is on the table needs an answer first, or was kept already")
    kept: dict[str, Any] = {}

    def words() -> str:
        return f"{plural(len(kept), 'file')} kept"

    with desk.bench() as bench, desk.change(words, then="lay back", facts=kept) as made:
        told = keep_described(desk, texts, made, kept)
        sweeps, failed = keep_runs(desk, bench, chosen, made, kept)
    for file in (*chosen, *(c.file for c in texts)):
        if file.name not in failed:
            desk.dropped.take_off(file.id)
    if told:
        desk.say(f"Kept: {', '.join(told)}.", undo=not sweeps)
    tell_kept(desk, sweeps, failed)
    desk.prepare({s.record.pack for s in sweeps if s.record.pack})
    return "/files"


def say(desk: Desk, form: FormData, request: Request) -> str:
    """Take what is said of one file."""
    file_id = str(request.path_params["id"])
    with table_change(desk, said_of, "dropped"):
        saying.of_one(desk, file_id, form)
    return f"/files#f-{file_id}"


def say_many(desk: Desk, form: FormData, _request: Request) -> str:
    """Take what the table says of many files."""
    with table_change(desk, said_of, "dropped"):
        saying.of_rows(desk, form, lambda: table_of(desk).cards)
    return "/files#many"


def take_off(desk: Desk, form: FormData, _: Request) -> str:
    """Take files off the table; they are still where they came from, and can be laid here again."""
    with table_change(desk, lambda count, _: f"{plural(count, 'file')} taken off", "dropped"):
        gone = desk.dropped.set_aside(str(one) for one in form.getlist("id"))
    if gone:
        desk.say(f"{plural(len(gone), 'file')} taken off.", undo=True)
    return "/files"


def lay_demo(desk: Desk, _: FormData, _request: Request) -> str:
    """Lay the demo's files on the table, and put its car and shocks into the library."""
    source = data_folder()
    laid: dict[str, Any] = {}
    with desk.bench() as bench:
        places = {
            text_place(folder, name_of(path.stem)): path.read_bytes()
            for folder in ("cars", "shocks")
            for path in sorted((source / folder).glob("*.toml"))
        }
        have = contents(bench.library, places)
        with desk.change("the demo laid here", places, AS_BEFORE, laid), noted(desk, laid, "dropped"):
            for place, data in places.items():
                if have[place] is None:
                    desk.write(place, data)
            for i, path in enumerate([*sorted((source / "dyno").iterdir()), source / "unlabelled.csv"]):
                desk.dropped.put(path.name, path.read_bytes(), time.time() + i * 1e-3)
    desk.fit_ahead()
    desk.say("The demo's files lie here now. All of it is invented: the Kestrel is no real car.", undo=True)
    return "/files"


def looked(desk: Desk, request: Request) -> Response:
    """Return one file's evidence as data."""
    file = desk.dropped.get(str(request.path_params["id"]))
    with desk.bench() as bench:
        found: LookAnswer = desk.dropped.look(bench, file)
    body: dict[str, Any] = found.to_dict()
    return JSONResponse(body)


SHOWN = [("/files", show), ("/files/{id}/data", looked)]
DONE = [
    ("/files/many", say_many), ("/files/keep", keep_files), ("/files/off", take_off), ("/files/demo", lay_demo),
    ("/files/{id}/say", say),
]  # fmt: skip
