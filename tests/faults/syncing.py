"""A synchronised folder on two machines: files come late, in any order, halves for a while, and as conflict copies.

The tool between them keeps what each machine last had of each file. A file that both changed stays as it is where it
was sent first; the other machine's becomes a copy, named as such tools name them, and nothing is thrown away.
"""

from __future__ import annotations

import os
import random
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

#: how a conflict copy is named: {0} the name without its ending, {1} the ending
COPIED = (
    "{0} (conflicted copy 2026-05-02){1}", "{0} (Team's conflicted copy 2026-05-02){1}",
    "{0}.sync-conflict-20260502-101010-ABC{1}", "{0}_conflict-20260502-101010{1}", "{0} (Case Conflict){1}",
    "[Conflict] {0}{1}", "{0} (Konfliktkopie 2026-05-02){1}", "{0} (copie en conflit){1}",
)  # fmt: skip
OWN = ".~sync-"  #: how the tool calls what it has not put in place yet; it carries none of it


class Coming(NamedTuple):
    """A file that is under way to a machine, half of it written in its place already."""

    place: str
    data: bytes
    half: tuple[int, int]  #: what tells whether somebody else changed it meanwhile: its number and time of change
    left: int  #: steps until the rest comes


class Machine:
    """One machine's copy of the folder."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.had: dict[str, bytes] = {}  #: what it and the tool last agreed on of each file
        self.coming: dict[str, Coming] = {}

    def read(self, place: str) -> bytes | None:
        """Return a file's bytes, None where there is none."""
        with suppress(OSError):
            return (self.folder / place).read_bytes()
        return None

    def places(self, skipped: tuple[str, ...]) -> set[str]:
        """Return the places of all files that are carried."""
        found = set()
        for above, folders, names in os.walk(self.folder):
            inside = os.path.relpath(above, self.folder)
            folders[:] = [f for f in folders if os.path.normpath(f"{inside}/{f}") not in skipped]
            found |= {os.path.normpath(f"{inside}/{n}") for n in names if not n.startswith(OWN)}
        return found - set(skipped)


class Tool:
    """Carries files between machines, a step at a time, at random."""

    def __init__(self, *folders: Path, seed: int = 1, skipped: tuple[str, ...] = ("cache", ".lock")) -> None:
        self.machines = [Machine(folder) for folder in folders]
        self.choose, self.skipped = random.Random(seed), skipped
        self.kept: dict[str, bytes] = {}  #: what was sent last, of each file
        self.copies: set[str] = set()  #: the places of all conflict copies made
        self.halves = 0  #: how often half a file lay there for a while
        first = self.machines[0]
        for place in first.places(skipped):
            self.kept[place] = first.read(place) or b""
        for machine in self.machines:
            machine.had = dict(self.kept)

    def step(self, chance: float = 0.3, patience: int = 3) -> int:
        """Carry each file that differs with a chance, halves for so many steps; return how much is left to do."""
        left = 0
        for machine in self.choose.sample(self.machines, len(self.machines)):
            for place, coming in list(machine.coming.items()):
                machine.coming[place] = coming._replace(left=coming.left - 1)
                if coming.left <= 1:
                    self._finish(machine, coming)
            here = machine.places(self.skipped)
            places = sorted(here | set(machine.had) | set(self.kept))
            for place in self.choose.sample(places, len(places)):
                if place in machine.coming:
                    left += 1
                    continue
                data = machine.read(place) if place in here else None
                if data == self.kept.get(place) == machine.had.get(place):
                    continue
                left += 1
                if self.choose.random() < chance:
                    self._carry(machine, place, data, patience)
        return left

    def settle(self, most: int = 200) -> None:
        """Carry all that is left."""
        for _ in range(most):
            if not self.step(chance=1.0, patience=0):
                return
        raise AssertionError("the machines never agree")

    def _carry(self, machine: Machine, place: str, data: bytes | None, patience: int) -> None:
        had, kept = machine.had.get(place), self.kept.get(place)
        if data == kept:
            self._agree(machine, place, data)
        elif data == had:
            self._send_down(machine, place, kept, patience)
        elif had == kept or kept is None:
            if data is None and kept is None:
                return
            self._keep(place, data)
            self._agree(machine, place, data)
        elif data is None:  # taken out here, changed there: what is there stays
            self._send_down(machine, place, kept, patience)
        else:
            self._put_aside(machine, place)
            self._send_down(machine, place, kept, patience)

    def _keep(self, place: str, data: bytes | None) -> None:
        if data is None:
            self.kept.pop(place, None)
        else:
            self.kept[place] = data

    def _agree(self, machine: Machine, place: str, data: bytes | None) -> None:
        if data is None:
            machine.had.pop(place, None)
        else:
            machine.had[place] = data

    def _put_aside(self, machine: Machine, place: str) -> None:
        """Give a machine's own version the name of a copy."""
        path = machine.folder / place
        for number in range(100):
            name = self.choose.choice(COPIED).format(path.stem, path.suffix)
            aside = path.with_name(name if not number else f"{Path(name).stem} {number}{path.suffix}")
            if not aside.exists():
                with suppress(FileNotFoundError):
                    path.rename(aside)
                    self.copies.add(os.path.relpath(aside, machine.folder))
                return

    def _send_down(self, machine: Machine, place: str, data: bytes | None, patience: int) -> None:
        path = machine.folder / place
        if data is None:
            with suppress(FileNotFoundError):
                path.unlink()
            self._agree(machine, place, None)
            return
        path.parent.mkdir(parents=True, exist_ok=True)
        if patience and self.choose.random() < 0.6:
            self._begin(machine, place, data, self.choose.randint(1, patience))
            return
        temporary = path.with_name(f"{OWN}{path.name}")
        temporary.write_bytes(data)
        temporary.replace(path)
        self._agree(machine, place, data)

    def _begin(self, machine: Machine, place: str, data: bytes, patience: int) -> None:
        """Write half of a file in its place; or all of it, the second half as zeros."""
        path, cut = machine.folder / place, self.choose.randrange(len(data) + 1)
        path.write_bytes(data[:cut] + bytes(len(data) - cut) * self.choose.choice((0, 1)))
        self.halves += 1
        machine.coming[place] = Coming(place, data, _number(path), patience)

    def _finish(self, machine: Machine, coming: Coming) -> None:
        del machine.coming[coming.place]
        path = machine.folder / coming.place
        try:
            same = _number(path) == coming.half
        except OSError:
            same = False
        if same:  # where it is another by now, it was changed here
            with path.open("r+b") as stream:
                stream.write(coming.data)
                stream.truncate()
            self._agree(machine, coming.place, coming.data)


def _number(path: Path) -> tuple[int, int]:
    status = path.stat()
    return status.st_ino, status.st_mtime_ns
