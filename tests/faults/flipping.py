"""Flipping single bits of a library's files, and what a library then says."""

from __future__ import annotations

import os
import random
import shutil
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy as np

from dynoan.errors import DynoanError
from dynoan.jobs.setup.record import SetupRecordQuestion
from dynoan.jobs.setup.record import answer as record
from dynoan.jobs.trial.run import TrialRunQuestion
from dynoan.jobs.trial.run import answer as noted
from dynoan.jobs.undo import LibraryChange
from dynoan.library import Library, index, soundness, text_seals
from dynoan.library.car_learned import NewValue
from dynoan.model.setup import Setup
from dynoan.model.trial import Trial, TrialRun
from dynoan.reading import read_bytes
from dynoan.window import undo_shelf
from dynoan.window.dropped import Dropped
from dynoan.window.dropped_file import SaidOfFile
from dynoan.window.undo_shelf import Undoable, UndoShelf
from dynoan.workbench import Workbench
from tests.fuzz.track_targets import NOTED, RESULTS
from tests.library.made import CAR, LAYOUT

DEMO = Path(__file__).parents[2] / "fixtures" / "demo"
V = np.array([-0.4, -0.1, -0.03, 0.03, 0.1, 0.4])
EDITED = ".toml"  #: text that people edit: with another time of change, a flip there is an edit like any other


@dataclass
class Told:
    """What a library answers, and whatever it names beside."""

    answer: Any
    words: list[str] = field(default_factory=list)

    def __contains__(self, name: str) -> bool:
        return any(name in text for text in self.words)


@dataclass(frozen=True)
class Was:
    """A file as it was."""

    data: bytes
    times: tuple[int, int]  #: of access and of change [ns]

    @classmethod
    def of(cls, path: Path) -> Was:
        """Return a file as it is now."""
        return cls(path.read_bytes(), (path.stat().st_atime_ns, path.stat().st_mtime_ns))


def make(folder: Path) -> Path:
    """Make a library with all caches warm, as after some days of use."""
    library = Library.create(folder)
    for file in sorted((DEMO / "dyno").glob("*tarmac*.csv"))[:3]:
        data = file.read_bytes()
        for sweep in read_bytes(data, file.name):
            library.add(sweep, data)
    shutil.copytree(DEMO / "shocks", folder / "shocks", dirs_exist_ok=True)
    (folder / "cars" / "kestrel.toml").write_text(CAR)
    (folder / "layouts" / "odd.toml").write_text(LAYOUT)
    kept = library.record_setup(Setup("", library.car("kestrel"), "2026-05-02", surface="loose"), CAR)
    assert library.setup(kept.name).surface == "loose"
    runs = tuple(TrialRun("ab"[n % 2], 4.8 + n / 100, f"{4.8 + n / 100} s", "2026-05-02") for n in range(4))  # type: ignore[arg-type]
    library.trials.keep_new(Trial("start", "soft", "hard", less=True, unit="s", date="2026-05-02", runs=runs))
    bring(library)
    tell(folder)
    return folder


def bring(library: Library) -> None:
    """Lay what comes back from the track: a car with learned values, the phone's setup, times; and the window's own."""
    height = library.car("kestrel").cg_height
    assert height is not None
    library.write_text_file("cars", "learned", CAR)
    library.write_learned("learned", {"cg_height": NewValue(height, 1.03 * height, 0.01 * height)}, write=True)
    phone = library.path.parent / "phone.toml"
    phone.write_bytes(NOTED + CAR.encode())
    record(Workbench(library), SetupRecordQuestion.asked(file=phone))
    times = library.path.parent / "times.csv"
    times.write_bytes(RESULTS[0])
    noted(Workbench(library), TrialRunQuestion.asked("start", table=times))
    UndoShelf(library.path).put(
        Undoable(LibraryChange("a car", {"cars/kestrel.toml": CAR.encode()}, {"cars/kestrel.toml": None}))
    )
    dropped = Dropped(library.path)
    dropped.state(dropped.put("run.csv", RESULTS[1], 1.0).id, SaidOfFile({"pack": "gravel", "clicks": "lsc=6"}))


def of_the_window(folder: Path, words: list[str]) -> list[str]:
    """Return what lies on the window's table and what it would take back; what it does not believe is named."""
    dropped, found = Dropped(folder), []
    for file in dropped.files():
        try:
            found.append(repr((file, dropped.brought(file).data)))
        except DynoanError as error:
            words.append(f"{file.id}: {error}")
        words += [f"{file.id}.json: {file.name}"] if "damaged" in file.name else []
    for path in sorted((folder / "cache" / "undo").glob("*.zip")):
        try:
            found.append(repr(undo_shelf._read(path.read_bytes())))
        except undo_shelf._DAMAGED as error:
            words.append(f"{path.name}: {error}")
    return found


def tell(folder: Path) -> Told:
    """Return the list of sweeps, the texts, the fitted curves and the map's forces, and all that is named as wrong."""
    words: list[str] = []
    try:
        library = Library(folder)
        bench = Workbench(library, words.append)
        cars, shocks = (library.text_names(kind) for kind in ("cars", "shocks"))
        texts = (
            [library.car(n) for n in cars], [library.shock(n) for n in shocks], library.layouts(), library.setups(),
            library.trial("start"), library.team,
        )  # fmt: skip
        answer = [repr((bench.records, library.units, texts)), *of_the_window(folder, words)]
        answer += [np.round(t.curve(V), 9).tobytes() for t in bench.tested(pack="tarmac")]
        clicks = {"lsc": 7, "hsc": 9, "lsr": 7, "hsr": 9}
        answer += [np.round(part, 9).tobytes() for part in bench.click_map("tarmac").force(clicks, V)]
    except DynoanError as error:
        return Told(None, [*words, str(error)])
    return Told(answer, words)


def flip(path: Path, bit: int, *, quietly: bool) -> None:
    """Turn one bit of a file over; quietly, its time of change stays as it was."""
    data, status = bytearray(path.read_bytes()), path.stat()
    data[bit // 8] ^= 1 << bit % 8
    path.write_bytes(data)
    if quietly:
        os.utime(path, ns=(status.st_atime_ns, status.st_mtime_ns))


def flip_many(folder: Path, count: int, seed: int = 0) -> dict[str, int]:
    """Flip bits one at a time, all kinds of file alike often; count what came of it.

    Raises
    ------
    AssertionError
        If an answer changed without the flipped file being named.
    """
    settled, eager = index.SETTLED, -(10**12)
    index.SETTLED = soundness.SETTLED = text_seals.SETTLED = eager
    try:
        tell(folder)  # so that all is remembered of files that are young
        return _flip_many(folder, count, random.Random(seed))
    finally:
        index.SETTLED = soundness.SETTLED = text_seals.SETTLED = settled


def _flip_many(folder: Path, count: int, choose: random.Random) -> dict[str, int]:
    before = {p: Was.of(p) for p in sorted(folder.rglob("*")) if p.is_file() and p.stat().st_size}
    kinds: dict[str, list[Path]] = {}
    for path in before:
        kinds.setdefault(str(path.parent), []).append(path)
    right, seen = tell(folder), {"same": 0, "named": 0}
    for number in range(count):
        path = choose.choice(kinds[sorted(kinds)[number % len(kinds)]])
        # The beginning of a file decides most, so half of the flips go there.
        length = len(before[path].data)
        size = length if choose.random() < 0.5 else min(length, 600)
        bit = choose.randrange(8 * size)
        flip(path, bit, quietly=path.suffix == EDITED or choose.random() < 0.5)
        seen[_judged(folder, path, right, f"bit {bit} of {path.relative_to(folder)}")] += 1
        _restore(folder, before)
    return seen


def _judged(folder: Path, path: Path, right: Told, what: str) -> str:
    told = tell(folder)
    if told.answer == right.answer:
        return "same"
    assert path.name in told or path.stem in told, f"{what}: another answer, and no word of it: {told.words}"
    return "named"


def _restore(folder: Path, before: dict[Path, Was]) -> None:
    for path in folder.rglob("*"):
        if path.is_file() and path not in before and path.stat().st_size:
            path.unlink()
    for path, was in before.items():
        if not path.exists() or path.read_bytes() != was.data:
            path.parent.mkdir(exist_ok=True)
            path.write_bytes(was.data)
        os.utime(path, ns=was.times)
