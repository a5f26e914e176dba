"""Killing processes at random moments, and holding the library against what they had reported as done."""

from __future__ import annotations

import multiprocessing
import random
import time
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path

from dynoan.library import Library
from tests.faults.victim import work
from tests.library.made import CAR


@dataclass
class Ledger:
    """What was reported as done: the pack of each sweep, what was under way when the end came, and the setups."""

    packs: dict[str, set[str]] = field(default_factory=dict)
    doubtful: set[str] = field(default_factory=set)
    setups: dict[str, str] = field(default_factory=dict)
    removed: set[str] = field(default_factory=set)
    trials: dict[str, int] = field(default_factory=dict)  #: the least number of runs each must have
    layouts: set[str] = field(default_factory=set)
    clicks: set[str] = field(default_factory=set)  #: what the car may have: the last done, or one under way

    def take(self, line: str) -> bool:
        """Enter one line of a victim; tell whether it reports a change as done."""
        words = line.split()
        if not words or words[0] == "ready":
            return False
        job, name = words[0], words[1]
        if job in ("add", "edit"):
            self.packs[name] = {words[2]}
        elif job == "editing":
            self.packs[name] = {*self.packs[name], words[2]}
        elif job == "removing":
            self.doubtful.add(name)
        elif job == "remove":
            self.removed.add(name)
            self.packs.pop(name)
        elif job == "setup":
            self.setups[name] = " ".join(words[2:])
        elif job == "trial":
            self.trials[name] = int(words[2])
        elif job == "layout":
            self.layouts.add(name)
        elif job == "car":
            self.clicks = {words[2]}
        elif job == "writing":
            self.clicks.add(words[2])
        return not job.endswith("ing")


def begin(folder: Path) -> None:
    """Make a library with a car, for victims to work on."""
    (Library.create(folder).path / "cars" / "kestrel.toml").write_text(CAR)


def kill_once(library: Path, seed: int, ledger: Ledger) -> int:
    """Let a victim work, kill it at a random moment of a random change, and return how many it had reported."""
    choose = random.Random(seed)
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(["tests.faults.victim"])
    ours, theirs = context.Pipe(duplex=False)
    victim = context.Process(target=work, args=(library, seed, theirs))
    victim.start()
    theirs.close()
    assert ours.recv_bytes() == b"ready"
    wanted, started = choose.randint(1, 8), time.monotonic()
    reported = 0
    for _ in range(wanted):
        reported += ledger.take(ours.recv_bytes().decode())
    # Up to twice what a change takes just now, however busy the machine is.
    time.sleep(choose.uniform(0.0, 2.0) * (time.monotonic() - started) / wanted)
    victim.kill()
    victim.join()
    assert victim.exitcode == -9, "the victim ended before it was killed"
    with suppress(EOFError, OSError):  # the last report may be cut short: then it was none
        while True:
            reported += ledger.take(ours.recv_bytes().decode())
    return reported


def verify(folder: Path, ledger: Ledger) -> None:
    """Fail where a reported change is not in the library, whole, or where half a file is in sight."""
    library = Library(folder)
    assert library.check().faults == ()
    listed = {record.id: record.pack for record in library.records()}
    for sweep_id, packs in ledger.packs.items():
        if sweep_id in ledger.doubtful and sweep_id not in listed:
            continue
        assert listed.get(sweep_id) in packs, f"{sweep_id}: {listed.get(sweep_id)!r}, reported {packs}"
        assert library.load(sweep_id).samples in (20, 200, 2000)
    assert not ledger.removed & set(listed), "a sweep that was removed is back"
    remarks = {setup.name: setup.remarks for setup in library.setups()}
    for name, text in ledger.setups.items():
        assert remarks.get(name) == text, f"setup {name}: {remarks.get(name)!r}, reported {text!r}"
    for name, runs in ledger.trials.items():
        found = len(library.trial(name).runs)
        assert found in (runs, runs + 1), f"trial {name}: {found} runs, reported {runs}"
    assert ledger.layouts <= set(library.text_names("layouts")), "a layout that was kept is gone"
    if ledger.clicks:
        assert str(library.car("kestrel").corners["fl"].clicks["lsc"]) in ledger.clicks
