"""The screen Car: its ratios, what would give the wanted ones, what if, the launch, and its file."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any
from urllib.parse import quote

from starlette.responses import JSONResponse, Response

from dynoan.errors import CallError, DynoanError, QuantityError
from dynoan.jobs import choose, ratio
from dynoan.jobs.choose import ChooseQuestion, Limits
from dynoan.jobs.choose.proposals import beginnings
from dynoan.jobs.ratio.asked import RatioQuestion
from dynoan.jobs.ratio.figures import corner_dict
from dynoan.jobs.turned import drawn
from dynoan.library.car_changes import changed
from dynoan.model.car import AXLES, CORNERS, Car, axle_of
from dynoan.model.curve import DIRECTIONS
from dynoan.model.example_numbers import has_example_numbers
from dynoan.show.text.choose_advice import proposed_numbers, proposed_why
from dynoan.window import aiming, changing, example_car, gaps
from dynoan.window.curves import display
from dynoan.window.how import ratios_words, swing_rate
from dynoan.window.launching import begin_launch, launch_of
from dynoan.window.looks import spoken
from dynoan.window.rendering import page
from dynoan.window.saying_cars import beginning_words, doubts_of
from dynoan.window.tried import TRIED, changes_of, told

if TYPE_CHECKING:
    from starlette.datastructures import FormData
    from starlette.requests import Request

    from dynoan.jobs.ratio import RatioAnswer
    from dynoan.window.desk import Desk
    from dynoan.workbench import Workbench

SHOWN_CHOICES, FIRST_CHOICES = 6, 3  #: ranked settings: all that are shown, those shown at once


@dataclass(frozen=True)
class Shown:
    """What the screen shows of one car."""

    car: Car
    now: RatioAnswer
    ranked: tuple[Any, ...]
    advice: list[str]
    why_not: str  #: why nothing is ranked


def show(desk: Desk, request: Request) -> Response:
    """Show a car, or the form where there is none yet."""
    with desk.bench() as bench:
        cars, packs = bench.library.cars(), desk.packs()
    name = request.query_params.get("car") or (cars[0] if cars else "")
    if not cars:
        return page(desk, request, "car_none.html", packs=packs)
    changes = changes_of(desk, request.query_params)
    with desk.bench() as bench:
        car = bench.library.car(name)
        grounds = _grounds(car, request.query_params.getlist("surface"))
        worn = sorted({c.pack for c in car.corners.values() if c.pack} & set(packs))
    waiting = desk.prepare(packs) if packs else None
    found, fault, then = None, "", None
    if waiting is None:
        with desk.bench() as bench:
            try:
                found = desk.remembered.get(f"car {name}") or _shown(bench, car)
                desk.remembered[f"car {name}"] = found
                desk.remembered.setdefault(f"ratios {name}", found.now)  # what is turned first begins with these
                then = ratio.answer_for(bench, changed(car, changes), RatioQuestion(name)) if changes else None
            except DynoanError as error:
                fault = str(error)
    return page(
        desk, request, "car.html", **_against(car, found), cars=cars, name=name, car=car, worn=worn, waiting=waiting,
        found=found, fault=fault,
        packs=packs, example=has_example_numbers(desk.library.car_text(name)),
        changes=changes, then=then, ran=launch_of(desk, name, changes, grounds),
        aims=_beginnings(desk, car),
        grounds=grounds, wishes=aiming.WISHES, aimed=aiming.last_aimed(desk, name), refused=aiming.refused(desk, name),
        swing_rate=swing_rate, how_now=ratios_words(found.now, desk.units) if found else {},
        how_then=ratios_words(then, desk.units) if then else {},
        corners=CORNERS, targets=_targets(car), most=SHOWN_CHOICES, best=FIRST_CHOICES, tried=TRIED,
        data={"units": display(desk), "car": name, "now": None if found is None else found.now.to_dict()["corners"],
              "targets": _targets(car), "surfaces": grounds, "what": _what(desk, car) if found else None,
              "curves": _curves(found.now) if found else {}, "then": _curves(then) if then else {}},
    )  # fmt: skip


def _against(car: Car, found: Shown | None) -> dict[str, Any]:
    """Return what the screen shows of the car against what is wanted of it."""
    facts = {"is_on": gaps.is_on, "fields_of": gaps.fields_of}
    if found is None:
        return facts
    of, first = gaps.gaps_of(found.now, _targets(car)), gaps.best_of(found.ranked)
    return facts | {
        "gaps": of, "worst": gaps.worst_of(of), "first": first, "doubts": doubts_of(found.now.warnings),
        "first_on": all(gaps.is_on(one, found.now) for one in first),
    }  # fmt: skip


def _beginnings(desk: Desk, car: Car) -> list[dict[str, Any]]:
    """Return what a car without targets may begin with: for any ground and for each of its own, with the reason."""
    return [] if car.targets else [
        {"surface": one.surface, "words": beginning_words(one.surface),
         "axles": [(p.axle, proposed_numbers(p), spoken(proposed_why(p, desk.units))) for p in one.proposals]}
        for one in beginnings(car)
    ]  # fmt: skip


def _grounds(car: Car, asked: Iterable[str]) -> list[str]:
    """Return the surfaces to run a launch on: of those asked for the ones that the car's file has, else all of them."""
    wanted = set(asked)
    return [s for s in car.surfaces if s in wanted] or list(car.surfaces)


def _shown(bench: Workbench, car: Car) -> Shown:
    now = ratio.answer_for(bench, car, RatioQuestion(car.name))
    if not car.targets:
        return Shown(car, now, (), [], "")  # no advice toward ratios that nobody asked for
    try:
        ranked = choose.answer_for(bench, car, ChooseQuestion(car.name, limits=Limits.asked(count=SHOWN_CHOICES)))
    except DynoanError as error:
        return Shown(car, now, (), [], spoken(str(error)))
    return Shown(car, now, ranked.ranked, [spoken(text) for text in ranked.sentences()], "")


def _targets(car: Car) -> dict[str, dict[str, dict[str, float | None]]]:
    """Return the wanted ratios by corner, direction and level."""
    out: dict[str, dict[str, dict[str, float | None]]] = {}
    for corner in car.corners:
        wanted = car.targets_of(axle_of(corner))
        sides = {"compression": wanted.compression, "rebound": wanted.rebound}
        out[corner] = {d: {"low": sides[d].low, "high": sides[d].high} for d in DIRECTIONS}
    return out


def _what(desk: Desk, car: Car) -> dict[str, Any]:
    """Return what can be turned on the page, with what it is now."""
    out: dict[str, Any] = {}
    with desk.bench() as bench:
        for axle in AXLES:
            first = car.axle(axle)[0]
            knobs = []
            if first.pack and bench.has_map(first.pack):
                shock = bench.corner_shock(first, first.pack)
                map = bench.click_map(first.pack)
                full = shock.to_counted(map.complete(shock.to_closed(first.clicks)))
                counted = {a.name: a.counted for a in shock.adjusters}
                knobs = [
                    {"name": a.name, "last": a.clicks, "counted": counted.get(a.name, a.counted), "click": full[a.name]}
                    for a in map.adjusters
                ]  # fmt: skip
            out[axle] = {
                "pack": first.pack, "knobs": knobs, "spring": first.spring,
                "mass": {c.name: c.mass for c in car.axle(axle)},
            }  # fmt: skip
    return out


def data(desk: Desk, request: Request) -> Response:
    """Return the corners of a car with keys of its file changed, as somebody turns."""
    name, changes = request.query_params.get("car", ""), changes_of(desk, request.query_params)
    with desk.bench() as bench:
        own = desk.remembered.get(f"file {name}") or bench.library.car(name)
        desk.remembered[f"file {name}"] = own
        try:
            car = changed(own, changes)
        except QuantityError as error:
            raise CallError(told(error, changes)) from None
        packs = {c.pack for c in car.corners.values() if c.pack}
    if desk.prepare(packs) is not None:
        return JSONResponse({"waiting": True}, 202)
    with desk.bench() as bench:
        found = ratio.answer_for(bench, car, RatioQuestion(name), desk.remembered.get(f"ratios {name}"))
        desk.remembered[f"ratios {name}"] = found
        corners = {corner: corner_dict(one) for corner, one in found.corners.items()}
        body = {"corners": corners, "warnings": list(found.warnings), "curves": _curves(found),
                "how": ratios_words(found, desk.units)}  # fmt: skip
    return JSONResponse(_plain(body))


def _curves(found: RatioAnswer) -> dict[str, Any]:
    return {corner: drawn(curve) for corner, curve in found.curves.items()}


def _plain(value: Any) -> Any:
    kind = type(value)
    if kind is float:  # first, for most are
        return value if value == value else None
    if kind is str or value is None:
        return value
    if isinstance(value, list | tuple):
        return [_plain(v) for v in value]
    if isinstance(value, Mapping):
        return {k: _plain(v) for k, v in value.items()}
    return _plain(value.tolist()) if hasattr(value, "tolist") else value


def run(desk: Desk, form: FormData, _: Request) -> str:
    """Begin to reckon the launch."""
    name, changes = str(form.get("car", "")), changes_of(desk, {str(k): str(v) for k, v in form.items()})
    with desk.bench() as bench:
        grounds = _grounds(bench.library.car(name), map(str, form.getlist("surface")))
    begin_launch(desk, name, changes, grounds)
    pairs = [*changes.items(), *(("surface", ground) for ground in grounds)]
    asked = "".join(f"&{k}={quote(v)}" for k, v in pairs)
    return f"/car?car={quote(name)}{asked}#launch"


def launch_data(desk: Desk, request: Request) -> Response:
    """Return the launch of a car with keys changed, as lines to draw."""
    name, changes = request.query_params.get("car", ""), changes_of(desk, request.query_params)
    with desk.bench() as bench:
        grounds = _grounds(bench.library.car(name), request.query_params.getlist("surface"))
    found = launch_of(desk, name, changes, grounds)
    if found is None:
        begin_launch(desk, name, changes, grounds)
        return JSONResponse({"waiting": True}, 202)
    return JSONResponse(_plain(found))


SHOWN = [("/car", show), ("/car/data", data), ("/car/launch/data", launch_data), *changing.SHOWN]
DONE = [("/car/launch", run), *changing.DONE, *aiming.DONE, *example_car.DONE]
