"""Killing commands that put an answer into a car's file, `choose --write` and `learn --write`.

``python -m tests.faults.written [KILLS [SECONDS]]``: prints the figures; fails where the file is neither as it was nor
as the whole command leaves it, or where a command that told of its writing has not written. Two in three are killed at
a call of the system, the others at a random moment. Forks of this process type the commands, with the click maps of
`tests.cli.launch_library` and with what takes long reckoned once.
"""

from __future__ import annotations

import json
import os
import random
import signal
import sys
import tempfile
import time
from collections import Counter
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import NoReturn

import pytest

from dynoan.cli import main as shell
from dynoan.library import Library
from dynoan.library.car_file import car_from_text
from dynoan.reading import read_bytes
from tests.cli.launch_library import CAR, make
from tests.faults.strokes import STEPS, die_at
from tests.once import remembered

DEMO = Path(__file__).parents[2] / "fixtures" / "demo"
#: tables of two packs, one far softer, so that other targets are met by another pack
TESTED = {
    pack: f"Shock: FL-01\nPack: {pack}\nClicks: LSC 2 HSC 2 LSR 2 HSR 2\nSpeed [mm/s],Compression [N],Rebound [N]\n"
    + "".join(f"{v},{share * (150 + 2 * v):.0f},{share * (200 + 3 * v):.0f}\n" for v in range(25, 525, 25))
    for pack, share in (("gravel", 1.0), ("tarmac", 0.5))
}
BEFORE = CAR.replace('pack = "gravel"', 'pack = "tarmac"', 1)  # in front, where the first target asks for gravel
WANTED = (("front", "1.0"), ("rear", "0.5"))  #: axle and damping ratio in rebound
CALLS = tuple(step for step in STEPS if step not in ("link", "unlink"))  #: those of a text written anew
KILLED = -signal.SIGKILL


class Garage:
    """A library with a car, and the commands that write into its file."""

    def __init__(self, folder: Path, patch: pytest.MonkeyPatch, seed: int = 1) -> None:
        self.library, self.said = make(folder / "library", patch), folder / "said.json"
        for table in TESTED.values():
            (sweep,) = read_bytes(table.encode(), "card.csv")
            Library(self.library).add(sweep, table.encode())
        self.car = self.library / "cars" / "kestrel.toml"
        self.choose, self.came = random.Random(seed), Counter[str]()
        log = str(DEMO / "travel" / "kestrel_launch_1.csv")
        self.commands: list[Sequence[str]] = [
            *(("choose", "kestrel", "--axle", axle, "--rebound-low", ratio, "--write", "--outside")
              for axle, ratio in WANTED),
            ("learn", log, "--car", "kestrel", "--surface", "loose", "--write"),
        ]  # fmt: skip
        self.whole: dict[Sequence[str], str] = {}  #: what each leaves in the car's file
        self.took: dict[Sequence[str], float] = {}

    def begin(self) -> None:
        """Let each command come to its end once, and keep what it wrote."""
        for words in self.commands:
            self.car.write_text(BEFORE)
            started = time.monotonic()
            code = self._typed(words)
            self.took[words] = time.monotonic() - started
            self.whole[words] = self.car.read_text()
            assert code in (0, 1), f"{words}: {code}, {self.said.read_text()[-500:]}"
            assert self.whole[words] != BEFORE, f"{words} writes nothing"

    def kill(self) -> None:
        """Kill one command, and hold the car's file against what it was and what it was to be."""
        words = self.choose.choice(self.commands)
        self.car.write_text(BEFORE)
        at = (self.choose.choice(CALLS), self.choose.randint(1, 2), self.choose.random() < 0.5)
        patience = self.choose.uniform(0.5, 1.2) * self.took[words] if self.choose.random() < 1 / 3 else None
        code = self._typed(words, None if patience else at, patience)
        text = self.car.read_text()
        assert text in (BEFORE, self.whole[words]), f"{words} at {at} or {patience}: a file that is neither"
        car_from_text(text, "cars/kestrel.toml")
        told = self._told()
        assert not told or text == self.whole[words], f"{words} at {at} or {patience}: told and not written"
        faults = Library(self.library).check().faults
        assert not faults, f"{words} at {at} or {patience}: {faults}"
        self.came["killed" if code == KILLED else "let be"] += 1
        self.came[f"{words[0]}, {'written' if text != BEFORE else 'as before'}"] += 1

    def _told(self) -> bool:
        """Whether the command said to its end that it had written."""
        with suppress(ValueError):
            return bool(json.loads(self.said.read_text())["result"].get("written"))
        return False

    def _typed(self, words: Sequence[str], at: tuple[str, int, bool] | None = None,
               patience: float | None = None) -> int:  # fmt: skip
        """Type a command in a fork of this process; return its exit code, of a killed one the signal's below nought."""
        self.said.write_text("")
        child = os.fork()
        if child == 0:
            _type([*words, "--json", "--library", str(self.library)], self.said, at)
        if patience is not None:
            time.sleep(patience)
            with suppress(ProcessLookupError):
                os.kill(child, signal.SIGKILL)
        return os.waitstatus_to_exitcode(os.waitpid(child, 0)[1])


def _type(words: list[str], said: Path, at: tuple[str, int, bool] | None) -> NoReturn:
    code = 3
    try:
        with said.open("w", encoding="utf-8") as out, said.with_suffix(".err").open("w", encoding="utf-8") as errors:
            sys.stdout, sys.stderr, sys.argv = out, errors, ["dynoan", *words]
            if at is not None:
                die_at(at[0], at[1], after=at[2])
            shell.main()
    except SystemExit as ended:
        code = ended.code if isinstance(ended.code, int) else 3
    finally:
        os._exit(code)


def main(kills: int = 300, seconds: float = 3600.0) -> Counter[str]:
    """Kill so many commands, or as many as there is time for; print and return the figures."""
    started = time.monotonic()
    with tempfile.TemporaryDirectory() as scratch, pytest.MonkeyPatch.context() as patch, remembered(Path(scratch)):
        garage = Garage(Path(scratch), patch)
        garage.begin()
        while garage.came["killed"] < kills and time.monotonic() - started < seconds:
            garage.kill()
        assert garage.came.total() > 0
    print(", ".join(f"{count} {what}" for what, count in garage.came.items()), flush=True)
    return garage.came


if __name__ == "__main__":
    main(*map(int, sys.argv[1:2]), *map(float, sys.argv[2:3]))
