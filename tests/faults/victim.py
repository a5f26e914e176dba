"""A process that works on a library and says what the library reported as done, until it is killed."""

from __future__ import annotations

import random
from dataclasses import replace
from multiprocessing.connection import Connection
from pathlib import Path

import h5py  # noqa: F401 - loaded once, in the process that the victims are forked from

from dynoan import output
from dynoan.jobs.undo import LibraryChange
from dynoan.library import Library
from dynoan.library.car_edit import CornerSetting
from dynoan.library.car_file import car_from_text
from dynoan.library.car_learned import NewValue
from dynoan.model.setup import Setup
from dynoan.model.trial import Trial, TrialRun
from dynoan.window.dropped import Dropped
from dynoan.window.dropped_file import SaidOfFile
from dynoan.window.undo_shelf import Undoable, UndoShelf
from tests.faults.strokes import die_at
from tests.library.made import CAR, LAYOUT, made_sweep

JOBS = (
    "add", "add", "batch", "edit", "remove", "setup", "correct", "trial", "run", "strike", "car", "rename", "layout",
    "page", "cache", "undo", "learned", "new", "drop",
)  # fmt: skip
PAGE = '<!doctype html><meta name="generator" content="dynoan report">'


def page(number: int) -> bytes:
    """Return the page of that number."""
    return (PAGE + f"{number} " * 5000).encode()


def derived(key: str) -> bytes:
    """Return what is reckoned once and cached under a key."""
    return key.encode() * 3000


class Victim:
    """Changes a library at random, in every way it can be changed, and reports each change once it is done."""

    def __init__(self, folder: Path, seed: int, reports: Connection) -> None:
        self.library, self.seed, self.reports = Library(folder), seed, reports
        self.choose = random.Random(seed)
        self.mine: list[str] = []
        self.setups: list[Setup] = []
        self.runs, self.struck = 0, 0
        self.dropped = Dropped(folder)

    def say(self, *words: object) -> None:
        """Report one change as done, or one as under way."""
        self.reports.send_bytes(" ".join(map(str, words)).encode())

    def work(self) -> None:
        """Change the library for ever."""
        self.say("ready")
        for number in range(1_000_000):
            getattr(self, self.choose.choice(JOBS))(number)

    def add(self, number: int) -> None:
        """Add a sweep."""
        sweep = made_sweep(self.seed * 1_000_000 + number, samples=self.choose.choice([20, 2000]))
        self.mine.append(self.library.add(*sweep).id)
        self.say("add", self.mine[-1], "gravel")

    def batch(self, number: int) -> None:
        """Add three sweeps with one waiting for the disk."""
        first = self.seed * 1_000_000 + number * 10 + 500_000
        with self.library.batch():
            ids = [self.library.add(*made_sweep(first + n)).id for n in range(3)]
        self.mine += ids
        for sweep_id in ids:
            self.say("add", sweep_id, "gravel")

    def edit(self, number: int) -> None:
        """Give a sweep another pack."""
        if self.mine:
            sweep_id, pack = self.choose.choice(self.mine), f"pack-{number}"
            self.say("editing", sweep_id, pack)
            self.library.edit(sweep_id, pack=pack)
            self.say("edit", sweep_id, pack)

    def remove(self, _number: int) -> None:
        """Remove a sweep."""
        if len(self.mine) > 3:
            sweep_id = self.mine.pop(self.choose.randrange(len(self.mine)))
            self.say("removing", sweep_id)
            self.library.remove(sweep_id)
            self.say("remove", sweep_id)

    def setup(self, number: int) -> None:
        """Record a setup."""
        car = car_from_text(CAR, "cars/kestrel.toml")
        remarks = f"{self.seed} {number}"
        kept = self.library.record_setup(Setup("", car, "2026-05-02", good=True, remarks=remarks), CAR)
        self.setups.append(kept)
        self.say("setup", kept.name, self.seed, number)

    def correct(self, number: int) -> None:
        """Give a setup other remarks."""
        if self.setups:
            setup = self.choose.choice(self.setups)
            self.say("correcting", setup.name, self.seed, -number)
            self.library.edit_setup(replace(setup, remarks=f"{self.seed} {-number}"))
            self.say("setup", setup.name, self.seed, -number)

    def trial(self, number: int) -> None:
        """Begin a trial."""
        name, self.runs, self.struck = f"trial-{self.seed}-{number}", 0, 0
        self.library.trials.keep_new(Trial(name, "soft", "hard", less=True, unit="s"))
        self.named = name
        self.say("trial", name, 0)

    def run(self, number: int) -> None:
        """Note a run of the newest trial."""
        if hasattr(self, "named"):
            self.library.trials.add_runs(self.named, (TrialRun("a", 4.5, "4.5 s"),))
            self.runs += 1
            self.say("trial", self.named, self.runs)

    def strike(self, _number: int) -> None:
        """Strike out the first run of the newest trial that counts."""
        if self.struck < self.runs:
            self.say("striking", self.named)
            self.library.trials.strike(self.named, self.struck, "wet")
            self.struck += 1
            self.say("strike", self.named, self.struck)

    def car(self, number: int) -> None:
        """Write clicks into the car's file; they are the victim's number, so that what is read can be told."""
        clicks = self.seed * 10 % 900 + number % 10
        self.say("writing", "gravel", clicks)
        self.library.write_settings("kestrel", {"fl": CornerSetting("gravel", {"lsc": clicks})})
        self.say("car", "gravel", clicks)

    def rename(self, number: int) -> None:
        """Give the pack of the car's front left shock another name, wherever it stands in a car's file."""
        setting = self.library.car("kestrel").corners["fl"]
        new, clicks = f"pack-{self.seed}-{number}", setting.clicks["lsc"]
        self.say("writing", new, clicks)
        self.library.rename_in_texts("cars", "pack", setting.pack or "", new)
        self.say("car", new, clicks)

    def page(self, number: int) -> None:
        """Write a page over the one before, beside the library."""
        self.say("paging", number)
        output.write(self.library.path.parent / "report.html", page(number))
        self.say("page", number)

    def cache(self, number: int) -> None:
        """Keep what was reckoned."""
        key = f"key-{self.seed}-{number}"
        self.library.cache("kill", key, derived(key))
        self.say("cache", key)

    def undo(self, number: int) -> None:
        """Remember what lay there before a change, and now and then take it back."""
        shelf = UndoShelf(self.library.path)
        place = "cars/kestrel.toml"
        shelf.put(Undoable(LibraryChange(f"change {number}", {place: CAR.encode()}, {place: None})))
        if number % 3 == 0:
            shelf.forget()
        self.say("undo", number)

    def learned(self, number: int) -> None:
        """Write a learned height with its ± into the car's file; its millimetres tell whose it is."""
        height = 300 + (self.seed * 10 + number % 10) % 700
        self.say("learning", height)
        value = NewValue(self.library.car("kestrel").cg_height or 0.5, height / 1000, 0.01)
        self.library.write_learned("kestrel", {"cg_height": value}, write=True)
        self.say("learned", height)

    def new(self, number: int) -> None:
        """Write a new car's file."""
        name = f"club-{self.seed}-{number}"
        self.library.write_text_file("cars", name, CAR)
        self.say("new", name)

    def drop(self, number: int) -> None:
        """Lay a file on the window's table, and say of it what pack it is of."""
        data = f"dropped-{self.seed}-{number}\n".encode() * 99
        if len(self.dropped.files()) > 400:  # the table is full at 500
            return
        laid = self.dropped.put("run.csv", data, float(number))
        self.dropped.state(laid.id, SaidOfFile({"pack": "gravel"}))
        self.say("drop", laid.id)

    def layout(self, number: int) -> None:
        """Keep a description of a rig's files."""
        name = f"odd-{self.seed}-{number}"
        self.library.save_layout(name, LAYOUT)
        self.say("layout", name)


def work(folder: Path, seed: int, reports: Connection, stroke: tuple[str, int, bool] | None = None) -> None:
    """Let a victim work; with a stroke it is killed at that call: its name, its number, and whether after it."""
    victim = Victim(folder, seed, reports)
    if stroke:
        die_at(stroke[0], stroke[1], after=stroke[2])
    victim.work()
