"""The screen Log book: what was on the car when and how it went, trials, and the pages to carry and to send."""

from __future__ import annotations

from contextlib import suppress
from typing import TYPE_CHECKING, Any

from starlette.responses import Response

from dynoan.errors import DynoanError
from dynoan.jobs.setup import compare as setup_compare
from dynoan.jobs.setup import edit as setup_edit
from dynoan.jobs.setup import record as setup_record
from dynoan.jobs.trial import listing as trial_list
from dynoan.jobs.trial import show as trial_show
from dynoan.jobs.undo import text_place
from dynoan.library import files
from dynoan.library.setup_file import car_text_of
from dynoan.model.car import CORNER_NAMES
from dynoan.show.text.trials import onward_lines, verdict_line
from dynoan.units import degree_unit, degrees
from dynoan.window import carfile, launch_logs, logged
from dynoan.window.carfile import CarText
from dynoan.window.carried_pages import PAGES, made_page, make, save
from dynoan.window.changing import shown_first
from dynoan.window.learning import last_learned
from dynoan.window.looks import spoken
from dynoan.window.rendering import page, sentence
from dynoan.window.trials import note, plan_trial, strike

if TYPE_CHECKING:
    from collections.abc import Mapping

    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.model.setup import Setup
    from dynoan.window.desk import Desk
    from dynoan.workbench import Workbench

SHOWN_DAYS = 200
_OF_A_DAY = ("surface", "result", "remarks")
_GOOD = {"good": True, "bad": False}


def show(desk: Desk, request: Request) -> Response:
    """Show the days kept, what was asked of them, trials, and what can be saved."""
    given = request.query_params
    with desk.bench() as bench:
        setups, faults = bench.library.readable_setups()
        cars, packs = bench.library.cars(), desk.packs()
        listed = trial_list.answer(bench, trial_list.TrialListQuestion())
        one = _trial(bench, given.get("trial"))
        pair = None
        if given.get("a") and given.get("b"):
            asked = setup_compare.SetupCompareQuestion(given["a"], given["b"])
            pair = setup_compare.answer(bench, asked)
    surface = given.get("surface", "")
    days = [s for s in reversed(setups) if not surface or (s.surface or "").casefold() == surface.casefold()]
    surfaces = sorted({s.surface for s in setups if s.surface} | _surfaces(desk, cars))
    made = {kind: {c: made_page(desk, kind, c) is not None for c in cars} for kind in PAGES}
    return page(
        desk, request, "log.html", setups=setups, days=days[:SHOWN_DAYS], more=max(0, len(days) - SHOWN_DAYS),
        faults=faults, cars=cars, packs=packs, surface=surface, surfaces=surfaces, pair=pair, good=_last_good(setups),
        learned=last_learned(desk), launches=launch_logs.lying(desk), corners=CORNER_NAMES,
        columns_of=launch_logs.COLUMNS_OF,
        grounds=sorted(_surfaces(desk, cars)),
        trials=listed.trials, unread_trials=listed.unreadable, one=one, made=made, pages=PAGES,
        logged={c: logged.lying(desk, c) for c in cars},
        differences=pair.differences(desk.units) if pair else (),
        verdict=verdict_line, onward=lambda found: [spoken(t) for t in onward_lines(found)],
    )  # fmt: skip


def _trial(bench: Workbench, name: str | None) -> Any:
    return trial_show.answer(bench, trial_show.TrialShowQuestion(name)).found if name else None


def _surfaces(desk: Desk, cars: tuple[str, ...]) -> set[str]:
    """Return the surfaces that files of cars have; they hold as long as the library is as it is."""
    with desk.bench() as bench:
        found: set[str] | None = desk.remembered.get("surfaces")
        if found is None:
            found = desk.remembered["surfaces"] = set()
            for name in cars:
                with suppress(DynoanError):
                    found |= set(bench.library.car(name).surfaces)
    return found


def _last_good(setups: tuple[Setup, ...]) -> dict[str, Setup]:
    """Return the last good day on each surface."""
    return {s.surface or "any ground": s for s in setups if s.good}


def record(desk: Desk, form: FormData, _: Request) -> str:
    """Keep what is on a car now, and how it went."""
    given = {str(k): str(v).strip() for k, v in form.items()}
    text: dict[str, Any] = {k: given.get(k) or None for k in (*_OF_A_DAY, "date")}
    text["temperature"] = _warm(desk, given.get("temperature", "")) or None
    good = _GOOD.get(given.get("good", ""))
    asked = setup_record.SetupRecordQuestion.asked(given.get("car"), good=good, **text)
    with desk.bench() as bench, desk.change("a day kept in the log book") as made:
        found = setup_record.answer(bench, asked)
        made.add(text_place("setups", found.setup.name))
    desk.say(f"Kept: {found.setup.name}.", undo=True)
    for warning in found.warnings:
        desk.say(f"{sentence(warning)}.", wrong=True)
    return "/log"


def _warm(desk: Desk, text: str) -> str:
    """Return a temperature with its unit: a bare number is in the one that the field shows."""
    bare = text.replace("−", "-").replace(",", ".")
    return f"{bare} {degree_unit(desk.units)}" if bare.lstrip("-").replace(".", "", 1).isdecimal() else text


def edit(desk: Desk, request: Request) -> Response:
    """Show what is said of a day, to correct."""
    with desk.bench() as bench:
        setup = bench.library.setup(request.query_params.get("name", ""))
        surfaces = sorted(_surfaces(desk, bench.library.cars()))
    warm = "" if setup.temperature is None else degrees(setup.temperature, desk.units, unit=False)
    return page(desk, request, "log_edit.html", setup=setup, surfaces=surfaces, warm=warm)


def correct(desk: Desk, form: FormData, _: Request) -> str:
    """Put right what is said of a day; what was not touched stays as it is."""
    given = {str(k): str(v).strip() for k, v in form.items()}
    name = given.get("name", "")
    with desk.bench() as bench:
        right = _differing(desk, bench.library.setup(name), given)
        if not right:
            desk.say("Nothing to write: it is like that already.")
            return "/log"
        with desk.change(f"what is said of {name} corrected", [text_place("setups", name)]):
            setup_edit.answer(bench, setup_edit.SetupEditQuestion.asked(name, **right))
    desk.say(f"Written down: {', '.join(right)} of {name}.", undo=True)
    return "/log"


def _differing(desk: Desk, day: Setup, given: Mapping[str, str]) -> dict[str, Any]:
    """Return what a form says otherwise than a day does."""
    said = {k: given[k].replace("\r\n", "\n") for k in _OF_A_DAY if k in given}
    right: dict[str, Any] = {k: text for k, text in said.items() if text != (getattr(day, k) or "")}
    shown = "" if day.temperature is None else degrees(day.temperature, desk.units, unit=False)
    if given.get("temperature", shown) != shown:
        right["temperature"] = _warm(desk, given["temperature"])
    if given.get("date", "") not in ("", day.date[:10]):
        right["date"] = given["date"]
    if given.get("good") in _GOOD and _GOOD[given["good"]] is not day.good:
        right["good"] = _GOOD[given["good"]]
    return right


def remove(desk: Desk, form: FormData, _: Request) -> str:
    """Take a day out of the log book."""
    name = str(form.get("name", ""))
    with desk.bench() as bench:
        bench.library.setup_text(name)
        place = text_place("setups", name)
        with desk.change(f"{name} taken out of the log book", [place]):
            files.remove(desk.path / place)
    desk.say(f"{name} was taken out of the log book.", undo=True)
    return "/log"


def recall(desk: Desk, form: FormData, _: Request) -> str:
    """Show what the car's file would be with what was on it that day."""
    name = str(form.get("name", ""))
    with desk.bench() as bench:
        setup, text = bench.library.setup(name), bench.library.setup_text(name)
        before = carfile.text_of(desk, setup.car.name)
    made = CarText(setup.car.name, before, car_text_of(text, setup.file), {})
    return shown_first(desk, made)


def card(desk: Desk, request: Request) -> Response:
    """Show a card to print: what goes on each corner."""
    name = request.query_params.get("name", "")
    with desk.bench() as bench:
        setup = bench.library.setup(name)
        counted = {c.name: _counted(bench, c.shock) for c in setup.car.corners.values()}
    return page(desk, request, "card.html", setup=setup, counted=counted)


def _counted(bench: Workbench, shock: str | None) -> str:
    try:
        return bench.shock(shock).counted_words() if shock else "clicks from closed"
    except DynoanError:
        return "clicks from closed"


SHOWN = [("/log", show), ("/log/edit", edit), ("/log/card", card), ("/log/save", save)]
DONE = [
    ("/log/record", record), ("/log/remove", remove), ("/log/recall", recall), ("/log/make", make),
    ("/log/trial", plan_trial), ("/log/note", note), ("/log/strike", strike), ("/log/correct", correct),
]  # fmt: skip
