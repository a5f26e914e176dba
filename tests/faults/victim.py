"""A process that works on a library and says what the library reported as done, until it is killed."""

from __future__ import annotations

import random
from multiprocessing.connection import Connection
from pathlib import Path

import h5py  # noqa: F401 - loaded once, in the process that the victims are forked from

from dynoan.library import Library
from dynoan.library.car_file import car_from_text
from dynoan.model.setup import Setup
from tests.library.made import CAR, made_sweep


def work(folder: Path, seed: int, reports: Connection) -> None:
    """Add, edit, remove and record, at random, for ever; each report is one change that was reported as done."""

    def say(*words: object) -> None:
        reports.send_bytes(" ".join(map(str, words)).encode())

    choose = random.Random(seed)
    library = Library(folder)
    mine: list[str] = []
    say("ready")
    for number in range(1_000_000):
        job = choose.choice(["add", "add", "batch", "edit", "remove", "setup"])
        if job == "add":
            added = library.add(*made_sweep(seed * 1_000_000 + number, samples=choose.choice([20, 2000])))
            mine.append(added.id)
            say("add", added.id, "gravel")
        elif job == "batch":
            with library.batch():
                ids = [library.add(*made_sweep(seed * 1_000_000 + number * 10 + n + 500_000)).id for n in range(3)]
            mine += ids
            for sweep_id in ids:
                say("add", sweep_id, "gravel")
        elif job == "edit" and mine:
            sweep_id, pack = choose.choice(mine), f"pack-{number}"
            say("editing", sweep_id, pack)
            library.edit(sweep_id, pack=pack)
            say("edit", sweep_id, pack)
        elif job == "remove" and len(mine) > 3:
            sweep_id = mine.pop(choose.randrange(len(mine)))
            say("removing", sweep_id)
            library.remove(sweep_id)
            say("remove", sweep_id)
        elif job == "setup":
            car = car_from_text(CAR, "cars/kestrel.toml")
            kept = library.record_setup(Setup("", car, "2026-05-02", good=True, remarks=f"{seed} {number}"), CAR)
            say("setup", kept.name, seed, number)
