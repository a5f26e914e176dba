"""The screen Curves: what packs do at any click, side by side, and whether two shocks are a pair."""

from __future__ import annotations

from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from starlette.responses import JSONResponse, Response

from dynoan.analysis.matching.assumptions import TOLERANCE_PCT
from dynoan.errors import CallError, DynoanError
from dynoan.jobs import match, turned
from dynoan.units import shown
from dynoan.window.rendering import page
from dynoan.workbench.resolving import parse_wanted

if TYPE_CHECKING:
    from starlette.requests import Request

    from dynoan.window.desk import Desk
    from dynoan.workbench import Workbench


def show(desk: Desk, request: Request) -> Response:
    """Show the settings of the address, or one of the first pack."""
    with desk.bench() as bench:
        packs = [p for p in desk.packs() if p not in desk.faults]
        options = _pairable(bench)
    settings = _settings(request, packs)
    wanted = {_pack_of(s) for s in settings} & set(packs)
    asked = request.query_params.get("a"), request.query_params.get("b")
    waiting = desk.prepare(wanted)
    found, pair, fault = None, None, ""
    with desk.bench() as bench:
        if settings and packs:
            question = turned.TurnedQuestion(settings, desk.units)
            try:
                told = turned.answer(bench, question) if waiting is None else turned.tested(bench, question)
                found = None if told is None else told.to_dict()
            except DynoanError as error:
                fault = str(error)
        if asked[0] and asked[1] and waiting is None:
            pair = match.answer(bench, match.MatchQuestion(asked[0], asked[1], _tolerance(request)))
    return page(
        desk, request, "curves.html", packs=packs, settings=settings, waiting=waiting, found=found, fault=fault,
        pair=pair, pairs=options, asked=asked, tolerance=_tolerance(request),
        wanted=sorted(wanted),
        data={"units": display(desk), "found": found, "packs": packs, "most": turned.MOST},
    )  # fmt: skip


def _settings(request: Request, packs: list[str]) -> tuple[str, ...]:
    """Return the settings of an address: written out, or from the fields of the form without scripts."""
    given = request.query_params
    written = [s for s in given.getlist("s") if s]
    if not written:
        return tuple(packs[:1])
    out = []
    for i, text in enumerate(written[: turned.MOST]):
        clicks = ",".join(f"{k.split('.')[1]}={v}" for k, v in given.items() if k.startswith(f"c{i}.") and v)
        out.append(f"{text.partition('@')[0]}@{clicks}" if clicks else text)
    return tuple(out)


def _pack_of(setting: str) -> str:
    try:
        return parse_wanted(setting if "=" in setting or "@" in setting else f"pack={setting}").pack or ""
    except DynoanError:
        return ""


def _tolerance(request: Request) -> float:
    try:
        return float(request.query_params.get("tolerance", TOLERANCE_PCT))
    except ValueError:
        raise CallError("the tolerance is a number of percent, such as 5") from None


def _pairable(bench: Workbench) -> list[tuple[str, str]]:
    """Return what can be held against one another: each shock with each pack it was tested with."""
    found = sorted({(r.shock, r.pack) for r in bench.records if r.shock and r.pack})
    return [(f"shock={s},pack={p}", f"{s}, {p}") for s, p in found if not set("=,") & set(f"{s}{p}")][:400]


def data(desk: Desk, request: Request) -> Response:
    """Return the curves of settings, as somebody turns."""
    settings = tuple(s for s in request.query_params.getlist("s") if s)
    if desk.packs_not_ready({_pack_of(s) for s in settings if _pack_of(s)}):
        desk.prepare({_pack_of(s) for s in settings})
        return JSONResponse({"waiting": True}, 202)
    with desk.bench() as bench:
        return JSONResponse(turned.answer(bench, turned.TurnedQuestion(settings, desk.units)).to_dict())


def display(desk: Desk) -> dict[str, Any]:
    """Return how quantities are shown, for scripts."""
    kinds = ("velocity", "force", "length", "mass", "stiffness")
    return {kind: asdict(shown(kind, desk.units)) for kind in kinds}


SHOWN = [("/curves", show), ("/curves/data", data)]
DONE: list[tuple[str, Any]] = []
