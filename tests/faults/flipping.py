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
from dynoan.library import Library, index, soundness, text_seals
from dynoan.model.setup import Setup
from dynoan.model.trial import Trial, TrialRun
from dynoan.reading import read_bytes
from dynoan.workbench import Workbench
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
    tell(folder)
    return folder


def tell(folder: Path) -> Told:
    """Return the list of sweeps, the texts, the fitted curves and the map's forces, and all that is named as wrong."""
    words: list[str] = []
    try:
        library = Library(folder)
        bench = Workbench(library, words.append)
        texts = (library.car("kestrel"), library.layouts(), library.setups(), library.trial("start"))
        answer = [repr((bench.records, library.units, texts))]
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
    assert path.name in told, f"{what}: another answer, and no word of it: {told.words}"
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
