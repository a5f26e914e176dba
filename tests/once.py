"""What takes long to make and is only read: made once a run, by whichever worker comes first; each gets a copy."""

from __future__ import annotations

import contextlib
import fcntl
import functools
import hashlib
import importlib
import inspect
import io
import os
import pickle
import shutil
from collections.abc import Callable, Iterator
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

if TYPE_CHECKING:
    from dynoan.analysis.learning.fitting import LearnScene

#: what takes long, hangs on its arguments alone and is asked for with the same ones by many tests, where the program
#: looks it up as it calls it. A test of these functions has imported them by name before, and calls them as they are.
LONG = (
    "dynoan.analysis.fitting.fit.fit", "dynoan.workbench.fitting_jobs.curve_and_told",
    "dynoan.workbench.fitting_jobs.told_by", "dynoan.jobs.match.held.condition",
    "dynoan.analysis.clickmap.mapping.fit_map", "dynoan.analysis.clickmap.at_clicks.curve_at",
    "dynoan.jobs.health.curve_at", "dynoan.jobs.identify.identify_curve", "dynoan.jobs.identify.telling_run",
    "dynoan.jobs.plan.plan", "dynoan.jobs.choose.ranking.plans", "dynoan.jobs.launch.answering.launch_large",
    "dynoan.jobs.launch.measure_first.launch_large", "dynoan.jobs.launch.measure_first.nominal",
    "dynoan.jobs.launch.not_in_file.nominal", "dynoan.jobs.launch.near_over.nominal", "dynoan.jobs.launch.levers.run",
    "dynoan.jobs.ratio.answering.road_motion",
    "dynoan.jobs.launch.best.best_clicks_large", "dynoan.jobs.bounce.answering.fit_swings",
    "dynoan.analysis.bounce.predicting.fit_swings",
    "dynoan.jobs.learn.answering.fit_launches", "dynoan.jobs.learn.answering.left_out",
)  # fmt: skip
#: parts of a report with pictures in them: a picture takes a quarter of a second to lay out and draw
DRAWN = tuple(f"dynoan.show.pages.report.build.{of}_section" for of in ("car", "travel", "overlay", "pack", "shock"))
#: what is told there of a car is how people want it shown, and which ratios they aim at: nothing that is reckoned with
OF_ANY_UNITS = ("fit_launches", "left_out")


def copied(base: Path, name: str, make: Callable[[Path], Any], to: Path) -> Any:
    """Copy what `make(folder)` leaves to a folder, and return what it returned; `base` is the worker's own folder."""
    made = _made(base, name, make)
    laid(made, to)
    return pickle.loads(made.with_name(f"{name}.pickle").read_bytes())


def laid(made: Path, to: Path) -> Path:
    """Copy a library; its caches, four fifths of it, are the same files twice, for those are never changed in place."""
    return Path(shutil.copytree(made, to, copy_function=_link_or_copy, dirs_exist_ok=True))


def _link_or_copy(source: str, to: str) -> None:
    if f"{os.sep}cache{os.sep}" in source:
        with contextlib.suppress(OSError):
            os.link(source, to)
            return
    shutil.copy2(source, to)


def lent_fits(base: Path, library: Path) -> None:
    """Give a library of the demo's runs the curves and maps that the demo fitted, as one that was asked before has."""
    from tests.golden.grounds import made_demo

    laid(_made(base, "demo", made_demo) / "cache", library / "cache")


def drawn_anew(patch: pytest.MonkeyPatch) -> None:
    """Let reports draw their pictures, whoever drew the same before: for a test that looks on."""
    for place in DRAWN:
        function = _looked_up(place)
        patch.setattr(place, getattr(function, "__wrapped__", function))


@contextlib.contextmanager
def remembered(base: Path) -> Iterator[None]:
    """Let workbenches and jobs reckon the same thing once a run; `base` is the worker's own folder."""
    folder = _root(base) / "remembered"
    folder.mkdir(exist_ok=True, parents=True)
    with pytest.MonkeyPatch.context() as patch:
        for place in LONG + DRAWN:
            patch.setattr(place, _remembering(folder, _looked_up(place)))
        yield


def _looked_up(place: str) -> Callable[..., Any]:
    module, _, name = place.rpartition(".")
    found: Callable[..., Any] = getattr(importlib.import_module(module), name)
    return found


def _remembering(folder: Path, function: Callable[..., Any]) -> Callable[..., Any]:
    form = inspect.signature(function)

    @functools.wraps(function)
    def asked(*given: Any, **named: Any) -> Any:
        if named.get("pieces") is False:  # a curve without them is there before its map is looked up
            return function(*given, **named)
        try:
            arguments = form.bind(*given, **named).arguments
            arguments.pop("watch", None)  # is told how far it is, and changes nothing
            if function.__name__ in OF_ANY_UNITS:
                arguments["scene"] = _of_any_units(arguments["scene"])
            question = _as_asked((function.__module__, function.__name__, sorted(arguments.items())))
        except (pickle.PicklingError, AttributeError, TypeError, ValueError):
            return function(*given, **named)
        kept = folder / question
        with contextlib.suppress(FileNotFoundError):
            return pickle.loads(kept.read_bytes())
        found = function(*given, **named)
        fresh = kept.with_suffix(f".{os.getpid()}")
        fresh.write_bytes(pickle.dumps(found))
        fresh.replace(kept)
        return found

    return asked


def _of_any_units(scene: LearnScene) -> LearnScene:
    return replace(scene, car=replace(scene.car, units="metric", targets={}))


def _as_asked(question: Any) -> str:
    """Return the same digest for equal questions, whichever of their parts are one object in memory.

    The click maps of a question are megabytes of arrays, a table asked for by many: none is copied, each is read once.
    """
    told: dict[int, tuple[memoryview, bytes]] = {}
    whole = hashlib.sha256()

    def apart(buffer: pickle.PickleBuffer) -> None:
        raw = buffer.raw()
        if id(raw.obj) not in told:
            told[id(raw.obj)] = raw, hashlib.sha256(raw).digest()
        whole.update(told[id(raw.obj)][1])

    out = io.BytesIO()
    pickler = pickle.Pickler(out, 5, buffer_callback=apart)
    pickler.fast = True
    pickler.dump(question)
    whole.update(out.getbuffer())
    return whole.hexdigest()


def _root(base: Path) -> Path:
    return (base.parent if "PYTEST_XDIST_WORKER" in os.environ else base) / "once"


def _made(base: Path, name: str, make: Callable[[Path], Any]) -> Path:
    root = _root(base)
    root.mkdir(exist_ok=True, parents=True)
    made, kept = root / name, root / f"{name}.pickle"
    with (root / f"{name}.lock").open("w") as lock:
        fcntl.flock(lock, fcntl.LOCK_EX)
        if not kept.exists():
            shutil.rmtree(made, ignore_errors=True)
            kept.write_bytes(pickle.dumps(make(made)))
    return made
