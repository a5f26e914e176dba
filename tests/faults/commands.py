"""Killing whole commands as people type them, ended at a random moment, held against what they told.

``python -m tests.faults.commands [KILLS [FOLDER]]`` prints the figures; fails at the first reported change that is not
there. Each `PIECE` kills have a library of their own, and their figures are kept in FOLDER: a call that is stopped goes
on there with what is left.
"""

from __future__ import annotations

import json
import multiprocessing
import os
import random
import subprocess
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any, NamedTuple

from dynoan.cli import main as shell
from dynoan.library import Library
from dynoan.library.car_file import car_from_text
from tests.faults.killing import Ledger, begin, verify
from tests.library.made import CAR

RUN = """\
Shock: FL-01
Pack: gravel
Clicks: LSC 6 LSR 8
Speed [mm/s],Compression [N],Rebound [N]
"""

PIECE = 50  #: kills on one library
FRESH = 5  #: one command in so many is a process of its own from its beginning
LOADED = [
    "tests.faults.killing",
    *(f"dynoan.cli.{name}" for name in ("main", "add", "new", "sweeps", "setup", "trial")),
]


class Command(NamedTuple):
    """A command that changes a library."""

    words: Sequence[str]
    begun: str = ""  #: what a ledger is told before it runs
    done: str = ""  #: what it is told where the command said that it is done; {} stands for the name it gave


def _fresh(words: Sequence[str], said: Path, patience: float | None) -> int | None:
    """Run a command in a process of its own, as a shell does; return its exit code, None where it was killed."""
    with said.open("wb") as out, said.with_suffix(".err").open("wb") as errors:
        whole = [sys.executable, "-m", "dynoan", *words]
        process = subprocess.Popen(whole, stdout=out, stderr=errors, cwd=said.parent)
    try:
        return process.wait(timeout=patience)
    except subprocess.TimeoutExpired:
        process.kill()
        process.wait()
        return None


def _forked(words: Sequence[str], said: Path, patience: float | None) -> int | None:
    """Run a command in a fork of a process that has loaded the program: the same code, without the loading."""
    context = multiprocessing.get_context("forkserver")
    context.set_forkserver_preload(LOADED)
    process = context.Process(target=_typed, args=(list(words), said))
    process.start()
    process.join(patience)
    if process.exitcode is None:
        process.kill()
        process.join()
    return None if process.exitcode == -9 else process.exitcode


def _typed(words: list[str], said: Path) -> None:
    with said.open("w", encoding="utf-8") as out, said.with_suffix(".err").open("w", encoding="utf-8") as errors:
        sys.stdout, sys.stderr, sys.argv = out, errors, ["dynoan", *words]
        os.chdir(said.parent)
        shell.main()


class Team:
    """Types commands at a library, and kills most of them."""

    def __init__(self, folder: Path, seed: int = 1) -> None:
        begin(folder)
        self.folder, self.choose, self.ledger = folder, random.Random(seed), Ledger()
        self.taken: dict[str, float] = {}  #: what each kind took lately [s]; the first of each is let be
        self.came: Counter[str] = Counter()

    def one(self, number: int) -> None:
        """Let one command run, or a part of it."""
        job = self.choose.choice(
            ("add", "add", "edit", "remove", "record", "correct", "plan", "run", "rename", "recall", "new")
        )
        command: Command | None = getattr(self, job)(number)
        if command is not None:
            if command.begun:
                self.ledger.take(command.begun)
            told = self._told(command.words)
            self.came["killed" if told is None else "let be"] += 1
            if told is not None and command.done:
                self.ledger.take(command.done.format(_named(told)))

    def _told(self, words: Sequence[str]) -> dict[str, Any] | None:
        """Run a command; return what it says that it did, None where it was killed before."""
        whole = [*words, "--json", "--library", str(self.folder)]
        job, said = " ".join(words[: 2 if words[0] in ("setup", "trial") else 1]), self.folder.parent / "said.json"
        fresh = self.came.total() % FRESH == 0
        run = _fresh if fresh else _forked
        key, started = f"{job} {fresh}", time.monotonic()
        # It writes near its end; before that it loads.
        patience = max(self.choose.gauss(1.0, 0.3), 0.1) * self.taken[key] if key in self.taken else None
        code = run(whole, said, patience)
        if code is None:
            self.taken[key] *= 1.1  # a machine that got slower is to let some be, too
            return None
        assert code == 0, f"{' '.join(words)}: {code}, {said.with_suffix('.err').read_text()[-2000:]}"
        took = time.monotonic() - started
        self.taken[key] = 0.5 * (self.taken.get(key, took) + took)
        found: dict[str, Any] = json.loads(said.read_text())["result"]
        return found

    def verify(self) -> None:
        """Fail where something that a command told is not there, whole."""
        verify(self.folder, self.ledger)
        if (card := self.folder.parent / "again.toml").exists():
            assert card.read_text().endswith(CAR[-80:]), "half a car"
            car_from_text(card.read_text(), card.name)

    def add(self, number: int) -> Command:
        """Add a run that no other is like."""
        file = self.folder.parent / f"run-{number}.csv"
        rows = [f"{v},{v * 3 + number},{v * 2}" for v in range(50, 500, 50)]
        file.write_text(RUN + "\n".join(rows) + "\n")
        return Command(("add", str(file)), done="add {} gravel")

    def edit(self, number: int) -> Command | None:
        """Give a run another pack."""
        one = self._one_of(self.ledger.packs.keys() - self.ledger.doubtful)
        return one and Command(
            ("edit", one, "--pack", f"p{number}"), f"editing {one} p{number}", f"edit {one} p{number}"
        )

    def remove(self, _number: int) -> Command | None:
        """Take a run out."""
        one = self._one_of(self.ledger.packs.keys() - self.ledger.doubtful)
        return one and Command(("remove", one), f"removing {one}", f"remove {one}")

    def record(self, number: int) -> Command:
        """Record a setup."""
        words = ("setup", "record", "kestrel", "--date", "2026-05-02", "--good", "--remarks", f"r{number}")
        return Command(words, done=f"setup {{}} r{number}")

    def correct(self, number: int) -> Command | None:
        """Give a setup other remarks."""
        one, remarks = self._one_of(self.ledger.setups), f"r{number}"
        return one and Command(("setup", "edit", one, "--remarks", remarks), f"correcting {one} {remarks}",
                               f"setup {one} {remarks}")  # fmt: skip

    def plan(self, number: int) -> Command:
        """Plan a trial."""
        return Command(("trial", "new", f"t{number}", "--a", "soft", "--b", "hard"), done=f"trial t{number} 0")

    def run(self, _number: int) -> Command | None:
        """Note the first run of a trial; one whose first run was cut off is left alone."""
        fresh = {name for name, runs in self.ledger.trials.items() if runs == 0 and not self._tried(name)}
        one = self._one_of(fresh)
        return one and Command(("trial", "run", one, "a", "4.83"), f"running {one}", f"trial {one} 1")

    def _tried(self, name: str) -> bool:
        return bool(Library(self.folder).trial(name).runs)

    def rename(self, number: int) -> Command | None:
        """Give a pack another name, in all runs that have it."""
        packs = {record.pack for record in Library(self.folder).records()}
        old, new = self._one_of(filter(None, packs)), f"n{number}"
        for mine in self.ledger.packs.values() if old else ():
            mine |= {new} if old in mine else set()
        return old and Command(("edit", "--rename-pack", old, new))

    def new(self, number: int) -> Command:
        """Write a shock's file to fill in."""
        return Command(("new", "shock", f"s{number}", "--adjusters", "c,r"), done=f"shock s{number}")

    def recall(self, _number: int) -> Command | None:
        """Write the car of a setup over the one that was written before."""
        one = self._one_of(self.ledger.setups)
        out = str(self.folder.parent / "again.toml")
        return one and Command(("setup", "recall", one, "--to", out, "--force"))

    def _one_of(self, names: Iterable[str]) -> Any:
        known = sorted(names)
        return self.choose.choice(known) if known else None


def _named(told: Mapping[str, Any]) -> str:
    """Return the name under which a command kept something, empty where it told none."""
    sweeps = told.get("sweeps") or [{}]
    return str(told.get("setup", {}).get("name") or sweeps[0].get("id", ""))


def main(kills: int = 500, folder: Path | None = None) -> None:
    """Type commands until so many were killed, earlier calls with the same folder counted; print the figures."""
    with tempfile.TemporaryDirectory() as scratch:
        kept = (folder or Path(scratch)) / "commands.jsonl"
        kept.parent.mkdir(parents=True, exist_ok=True)
        while (left := kills - summed(kept)["killed"]) > 0:
            figures = piece(min(left, PIECE), seed=1 + summed(kept)["pieces"])
            with kept.open("a") as file:
                file.write(json.dumps(figures) + "\n")
            print(_words(figures), flush=True)
        print(f"all pieces: {_words(summed(kept))}; all that was told is there, whole")


def piece(kills: int, seed: int) -> Counter[str]:
    """Kill so many commands on a fresh library, hold it against what they told, and return the figures."""
    started = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        team, number = Team(Path(folder) / "library", seed), 0
        while team.came["killed"] < kills:
            number += 1
            team.one(number)
        team.verify()
        assert team.came["let be"] > kills // 10, "hardly a command came to its end: nothing was put to the test"
    held = {name: len(getattr(team.ledger, name)) for name in ("packs", "setups", "trials")}
    return team.came + Counter(held) + Counter({"pieces": 1, "seconds": round(time.monotonic() - started)})


def summed(kept: Path) -> Counter[str]:
    """Return the figures of all pieces that were run to their end."""
    lines = kept.read_text().splitlines() if kept.exists() else []
    return sum((Counter[str](json.loads(line)) for line in lines), Counter())


def _words(figures: Mapping[str, int]) -> str:
    return ", ".join(f"{count} {'sweeps' if what == 'packs' else what}" for what, count in figures.items())


if __name__ == "__main__":
    given = sys.argv[1:]
    main(int(given[0]) if given else 500, Path(given[1]) if given[1:] else None)
