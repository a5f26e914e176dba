"""Killing processes at random moments, and holding the library against what they had reported as done."""

from __future__ import annotations

import multiprocessing
import random
import re
import time
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from dynoan.library import Library
from dynoan.window.dropped import Dropped
from dynoan.window.undo_shelf import UndoShelf
from tests.faults.strokes import STEPS
from tests.faults.victim import derived, page, work
from tests.library.made import CAR

SAMPLES = (18, 20, 200, 2000)  #: of whatever is added


@dataclass
class Ledger:
    """What was reported as done, and beside it what was under way when the end came."""

    packs: dict[str, set[str]] = field(default_factory=dict)  #: that each sweep may have
    doubtful: set[str] = field(default_factory=set)  #: sweeps that may be there or not
    setups: dict[str, set[str]] = field(default_factory=dict)  #: the remarks that each may have
    removed: set[str] = field(default_factory=set)
    trials: dict[str, int] = field(default_factory=dict)  #: the least number of runs each must have
    struck: dict[str, int] = field(default_factory=dict)  #: the least number of those struck out
    layouts: set[str] = field(default_factory=set)
    car: set[str] = field(default_factory=set)  #: the pack and clicks that it may have
    height: set[str] = field(default_factory=set)  #: of the car, as it may have been learned [mm]
    cars: set[str] = field(default_factory=set)  #: new ones
    shocks: set[str] = field(default_factory=set)  #: new ones
    dropped: set[str] = field(default_factory=set)  #: what lies on the window's table
    pages: set[str] = field(default_factory=set)  #: the numbers of what may lie beside the library
    keys: set[str] = field(default_factory=set)  #: of what was cached, which may be lost, and never other than it was

    def take(self, line: str) -> bool:
        """Enter one line of a victim; tell whether it reports a change as done."""
        job, name, rest = (*line.split(" ", 2), "", "")[:3]
        if job in ("", "ready"):
            return False
        getattr(self, f"_{job}", lambda *_: None)(name, rest)
        return not job.endswith("ing")

    def _add(self, name: str, pack: str) -> None:
        self.packs[name] = {pack}

    _edit = _add

    def _editing(self, name: str, pack: str) -> None:
        self.packs[name] = {*self.packs[name], pack}

    def _removing(self, name: str, _rest: str) -> None:
        self.doubtful.add(name)

    def _remove(self, name: str, _rest: str) -> None:
        self.removed.add(name)
        self.packs.pop(name)

    def _setup(self, name: str, remarks: str) -> None:
        self.setups[name] = {remarks}

    def _correcting(self, name: str, remarks: str) -> None:
        self.setups[name].add(remarks)

    def _trial(self, name: str, runs: str) -> None:
        self.trials[name] = int(runs)

    def _strike(self, name: str, struck: str) -> None:
        self.struck[name] = int(struck)

    def _layout(self, name: str, _rest: str) -> None:
        self.layouts.add(name)

    def _car(self, pack: str, clicks: str) -> None:
        self.car = {f"{pack} {clicks}"}

    def _writing(self, pack: str, clicks: str) -> None:
        self.car.add(f"{pack} {clicks}")

    def _learned(self, height: str, _rest: str) -> None:
        self.height = {height}

    def _learning(self, height: str, _rest: str) -> None:
        self.height.add(height)

    def _new(self, name: str, _rest: str) -> None:
        self.cars.add(name)

    def _shock(self, name: str, _rest: str) -> None:
        self.shocks.add(name)

    def _drop(self, name: str, _rest: str) -> None:
        self.dropped.add(name)

    def _page(self, number: str, _rest: str) -> None:
        self.pages = {number}

    def _paging(self, number: str, _rest: str) -> None:
        self.pages.add(number)

    def _cache(self, key: str, _rest: str) -> None:
        self.keys.add(key)


def begin(folder: Path) -> None:
    """Make a library with a car, for victims to work on."""
    (Library.create(folder).path / "cars" / "kestrel.toml").write_text(CAR)


def kill_once(library: Path, seed: int, ledger: Ledger) -> int:
    """Let a victim work, kill it, and return how many changes it had reported.

    Every second one is killed from outside, at a random moment of a random change; the others at a call of the system.
    """
    choose = random.Random(seed)
    stroke = None if seed % 2 else (choose.choice(STEPS), choose.randint(1, 12), choose.random() < 0.5)
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(["tests.faults.victim"])
    ours, theirs = context.Pipe(duplex=False)
    victim = context.Process(target=work, args=(library, seed, theirs, stroke))
    victim.start()
    theirs.close()
    reported = 0
    if stroke is None:
        assert ours.recv_bytes() == b"ready"
        wanted, started = choose.randint(1, 8), time.monotonic()
        for _ in range(wanted):
            reported += ledger.take(ours.recv_bytes().decode())
        # Up to twice what a change takes just now, however busy the machine is.
        time.sleep(choose.uniform(0.0, 2.0) * (time.monotonic() - started) / wanted)
        victim.kill()
    with suppress(EOFError, OSError):  # the last report may be cut short: then it was none
        while True:
            reported += ledger.take(ours.recv_bytes().decode())
    victim.join()
    assert victim.exitcode == -9, f"the victim ended before it was killed ({victim.exitcode})"
    return reported


def verify(folder: Path, ledger: Ledger) -> None:
    """Fail where a reported change is not in the library, whole, or where half a file is in sight."""
    library = Library(folder)
    _verify_shocks(library, ledger)
    _verify_sweeps(library, ledger)
    remarks = {setup.name: setup.remarks for setup in library.setups()}
    for name, texts in ledger.setups.items():
        assert remarks.get(name) in texts, f"setup {name}: {remarks.get(name)!r}, reported {texts!r}"
    for name, runs in ledger.trials.items():
        trial = library.trial(name)
        assert len(trial.runs) in (runs, runs + 1), f"trial {name}: {len(trial.runs)} runs, reported {runs}"
        struck, least = len(trial.runs) - len(trial.counted), ledger.struck.get(name, 0)
        assert struck in (least, least + 1), f"trial {name}: {struck} struck out, reported {least}"
    assert ledger.layouts <= set(library.text_names("layouts")), "a layout that was kept is gone"
    if ledger.car:
        corner = library.car("kestrel").corners["fl"]
        assert f"{corner.pack} {corner.clicks['lsc']}" in ledger.car
    if len(ledger.height) > 1:  # or it may be as it was in the beginning
        assert f"{1000 * (library.car('kestrel').cg_height or 0):.0f}" in ledger.height
    for name in ledger.cars:  # whose packs may have been renamed since
        assert re.sub(r"(?m)^pack = .*$", 'pack = "gravel"', library.car_text(name)) == CAR
    _verify_dropped(Dropped(folder), ledger)
    if ledger.pages:
        assert (folder.parent / "report.html").read_bytes() in [page(int(number)) for number in ledger.pages]
    assert {library.cached("kill", key) for key in ledger.keys} <= {None, *map(derived, ledger.keys)}
    shelf = UndoShelf(folder)
    while shelf.last:
        assert shelf.read(), "what can be taken back is damaged"
        shelf.forget()


def _verify_shocks(library: Library, ledger: Ledger) -> None:
    """Hold that new shocks wait for two numbers, as they were written, and that nothing else is wrong."""
    new = [name for name in library.text_names("shocks") if name.startswith("s")]
    assert ledger.shocks <= set(new)
    assert [f.file for f in library.check().faults] == [f"shocks/{name}.toml" for name in new for _ in range(2)]


def _verify_dropped(table: Dropped, ledger: Ledger) -> None:
    lying = {file.id: file for file in table.files()}
    assert ledger.dropped <= lying.keys(), "a file that was dropped is gone"
    for name in ledger.dropped:
        assert lying[name].facts.plain == {"pack": "gravel"}
        assert table.brought(lying[name]).data.startswith(b"dropped-")


def _verify_sweeps(library: Library, ledger: Ledger) -> None:
    listed = {record.id: record.pack for record in library.records()}
    for sweep_id, packs in ledger.packs.items():
        if sweep_id in ledger.doubtful and sweep_id not in listed:
            continue
        assert listed.get(sweep_id) in packs, f"{sweep_id}: {listed.get(sweep_id)!r}, reported {packs}"
        assert library.load(sweep_id).samples in SAMPLES
    assert not ledger.removed & set(listed), "a sweep that was removed is back"
