"""The screen Packs: what was tested, what is doubtful, which pack an unknown run is, and what to test next."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from dynoan.errors import CallError, DynoanError
from dynoan.jobs import edit, identify, plan, remove
from dynoan.jobs.read.look import clicks_in
from dynoan.jobs.undo import sweep_place, text_place
from dynoan.library.names import check_name
from dynoan.model.shock import ADJUSTERS, Adjuster, Shock
from dynoan.show.text.identify import verdict_words
from dynoan.window import histories
from dynoan.window.downloads import download
from dynoan.window.grid import TestedGrid, grid_of, part_of
from dynoan.window.histories import health, health_of, picture
from dynoan.window.rendering import page, plural
from dynoan.window.shocks import say_counting

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.library import SweepRecord
    from dynoan.window.desk import Desk

SHOWN_RUNS = 300  #: of one list
#: what runs are sorted by
SORTED_BY: dict[str, Callable[[SweepRecord], Any]] = {
    "shock": lambda r: r.shock or "", "pack": lambda r: r.pack or "",
    "clicks": lambda r: [r.clicks.get(a, -1) for a in ADJUSTERS], "date": lambda r: (r.date or "")[:10],
}  # fmt: skip


def show(desk: Desk, request: Request) -> Response:
    """Show the grid, and what was asked of it."""
    find, first = request.query_params.get("find", "").strip(), request.query_params.get("from", "")
    with desk.bench() as bench:
        records = bench.records
        grid: TestedGrid = desk.remembered.get("grid") or grid_of(records)
        desk.remembered["grid"] = grid
        part = part_of(grid, find, int(first[:9]) if first.isdecimal() else 0)
        named_here = [name for name in part.grid.shocks if name]
        stated = {name for name in named_here if bench.library.has_shock_file(name)}
        shocks = {name: bench.shock(name) if name in stated else _seen(name, grid) for name in named_here}
    worn = health_of(desk)
    which, sheet, waiting = request.query_params.get("which"), request.query_params.get("plan"), None
    named = planned = None
    if which or sheet:
        waiting = desk.prepare(grid.packs if which else [p for p in grid.packs if p == sheet])
    with desk.bench() as bench:
        if which and waiting is None:
            named = identify.answer(bench, identify.IdentifyQuestion.asked(_id(which)))
        if sheet and waiting is None:
            runs = request.query_params.get("runs", "4")
            planned = plan.answer(bench, plan.PlanQuestion.asked(sheet, runs=int(runs) if runs.isdecimal() else 4))
    return page(
        desk, request, "packs.html", grid=grid, part=part, stated=stated, shocks=shocks, worn=worn, which=which,
        named=named, sheet=sheet, planned=planned, waiting=waiting, unasked=histories.UNASKED,
        faults=desk.faults, total=len(records), which_words=verdict_words,
    )  # fmt: skip


def _seen(name: str, grid: TestedGrid) -> Shock:
    """Return a shock without a file: its adjusters are those it was tested with."""
    return Shock(name, tuple(Adjuster(k, v) for k, v in grid.last.get(name, {}).items()), stated=False)


def _id(text: str) -> str:
    if not text.isalnum():
        raise CallError("there is no such run")
    return text


def runs(desk: Desk, request: Request) -> Response:
    """Show the runs of a shock and a pack, to correct or take out."""
    shock, pack = request.query_params.get("shock"), request.query_params.get("pack")
    with desk.bench() as bench:
        chosen = [
            r for r in bench.records
            if (shock is None or (r.shock or "") == shock) and (pack is None or (r.pack or "") == pack)
        ]  # fmt: skip
        names, packs = desk.shocks(), desk.packs()
    knobs = tuple(k for k in ADJUSTERS if any(k in r.clicks for r in chosen)) or ("lsc", "hsc", "lsr", "hsr")
    by = request.query_params.get("by", "shock")
    by = by if by in SORTED_BY else "shock"
    asked = {k: v for k, v in (("shock", shock), ("pack", pack)) if v is not None}
    return page(
        desk, request, "runs.html", runs=in_order(chosen, by)[:SHOWN_RUNS], by=by, asked=asked,
        all=len(chosen), shock=shock, pack=pack, knobs=knobs,
        shocks=names, packs=packs,
    )  # fmt: skip


def in_order(records: Iterable[SweepRecord], by: str) -> list[SweepRecord]:
    """Return runs sorted by one of `SORTED_BY`, what is equal by the others; the latest first where dates decide."""
    first, *others = (by, *(key for key in SORTED_BY if key != by))
    found = sorted(records, key=lambda r: [SORTED_BY[key](r) for key in others])
    return sorted(found, key=SORTED_BY[first], reverse=by == "date")


def correct(desk: Desk, form: FormData, _: Request) -> str:
    """Correct what the chosen runs say of themselves, or take them out."""
    ids = [_id(str(v)) for v in form.getlist("id")]
    if not ids:
        raise CallError("choose at least one run first")
    given = {str(k): str(v).strip() for k, v in form.multi_items()}
    if given.get("do") == "remove":
        return _remove(desk, ids)
    said = {k: given[k] for k in ("shock", "pack", "date") if given.get(k)}
    clicks = clicks_in(given)
    if not said and not clicks:
        raise CallError("nothing to correct: write what is right into a field first")
    words = f"{plural(len(ids), 'run')} corrected"
    with desk.bench() as bench:
        full = [bench.library.full_id(i) for i in ids]
        with desk.change(words, map(sweep_place, full)):
            for sweep_id in full:
                edit.answer(bench, edit.EditQuestion.asked(sweep_id, clicks=clicks or None, **said))
    desk.say(f"{words}.", undo=True)
    desk.prepare_all()
    return "/packs"


def _remove(desk: Desk, ids: list[str]) -> str:
    words = f"{plural(len(ids), 'run')} taken out"
    with desk.bench() as bench:
        full = [bench.library.full_id(i) for i in ids]
        with desk.change(words, map(sweep_place, full)):
            found = remove.answer(bench, remove.RemoveQuestion(tuple(full)))
    desk.say(f"{words}.", undo=True)
    for text in found.failures:
        desk.say(text, wrong=True)
    desk.prepare_all()
    return "/packs"


def rename(desk: Desk, form: FormData, _: Request) -> str:
    """Give a pack another name, in all its runs and in the cars and kept setups that wear it."""
    old, new = str(form.get("pack", "")), check_name(str(form.get("to", "")).strip(), "name of the pack")
    with desk.bench() as bench:
        ids = [r.id for r in bench.records if r.pack == old]
        if not ids or new == old:
            raise CallError(f"there is no pack '{old}' to rename" if not ids else "that is its name already")
        if new in desk.packs():
            raise CallError(f"there is a pack '{new}' already", hint="correct the runs one by one if they belong to it")
        texts = {text_place(folder, name): text for folder in ("cars", "setups")
                 for name, text in bench.library.renamed_texts(folder, "pack", old, new).items()}  # fmt: skip
        words = f"pack {old} renamed to {new}"
        with desk.change(words, [*map(sweep_place, ids), *texts]):
            for sweep_id in ids:
                bench.library.edit(sweep_id, pack=new)
            for place, text in texts.items():
                desk.write(place, text.encode())
    worn = f" and {plural(len(texts), 'file')} of cars and setups" if texts else ""
    desk.say(f"{words}, in {plural(len(ids), 'run')}{worn}.", undo=True)
    desk.prepare_all()
    return "/packs"


def settle(desk: Desk, form: FormData, _: Request) -> str:
    """Write down which pack and clicks an unknown run is."""
    with desk.bench() as bench:
        sweep_id = bench.library.full_id(_id(str(form.get("id", ""))))
        pack, clicks = str(form.get("pack", "")), clicks_in({k: str(v) for k, v in form.items()})
        words = f"a run told to be {pack}"
        with desk.change(words, [sweep_place(sweep_id)]):
            edit.answer(bench, edit.EditQuestion.asked(sweep_id, pack=pack, clicks=clicks or None))
    desk.say(f"Written down: {words}.", undo=True)
    desk.prepare([pack])
    return "/packs"


def sheet(desk: Desk, request: Request) -> Response:
    """Return the sheet for the dyno shop, to save."""
    asked, count = request.query_params.get("plan", ""), request.query_params.get("runs", "4")
    with desk.bench() as bench:
        found = plan.answer(bench, plan.PlanQuestion.asked(asked, runs=int(count) if count.isdecimal() else 4))
        text = _page(found, desk)
    return download(text, f"runs for {asked}.html")


def _page(found: plan.PlanAnswer, desk: Desk) -> str:
    from dynoan.show import presenting

    return presenting.page(found, desk.units)


def counting(desk: Desk, form: FormData, _: Request) -> str:
    """State a shock's adjusters: how many clicks, and how they are counted."""
    name = str(form.get("shock", ""))
    try:
        say_counting(desk, name, {str(k): str(v) for k, v in form.items()})
    except DynoanError as error:
        desk.say(str(error), wrong=True)
        return "/packs"
    desk.say(f"Written down how the clicks of {name} are counted.", undo=True)
    desk.prepare_all()
    return "/packs"


SHOWN = [
    ("/packs", show), ("/packs/runs", runs), ("/packs/sheet", sheet), ("/packs/health", health),
    ("/packs/picture", picture),
]  # fmt: skip
DONE = [
    ("/packs/correct", correct), ("/packs/rename", rename), ("/packs/settle", settle), ("/packs/counting", counting),
]  # fmt: skip
