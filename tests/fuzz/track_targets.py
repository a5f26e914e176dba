"""What is fuzzed of all that comes back from the track: logs, tables of times, the phone's setups; and edits of texts.

An edit of a text that people write must leave a text that reads as asked, or refuse: a changed value nobody asked for
counts as a fault.
"""

from __future__ import annotations

import os
import tempfile
import tomllib
from collections.abc import Sequence
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from dynoan.errors import DynoanError
from dynoan.jobs import travel
from dynoan.jobs.learn.logs import LearnHints, learn_log
from dynoan.jobs.travel import TravelQuestion
from dynoan.jobs.trial.results import timed_runs
from dynoan.jobs.trial.results_table import result_columns
from dynoan.library.car_edit import CornerSetting, with_settings
from dynoan.library.car_file import car_from_text
from dynoan.library.car_learned import NewValue, with_learned
from dynoan.library.setup_file import car_text_of, setup_from_text, setup_to_text
from dynoan.library.trial_file import trial_from_text
from dynoan.library.trial_store import TrialShelf
from dynoan.model.trial import Trial, TrialRun
from dynoan.reading import read_log_bytes

TIMED = Trial("start", "soft", "hard", less=True, unit="s", measure="time to 30 m")
RUN = TrialRun("b", 4.83, "4.83 s", "2026-05-02T10:12")
RESULTS = (
    b"run,setting,result [s],clock [s]\n1,a,4.83,0\n2,b,4.79,95\n3,b,4.81,170\n4,a,4.9,260\n",
    b"Pos;Start no;Name;Time\n1;12;Kestrel;1:02,31\n2;12;Kestrel;1:02,90\n3;12;Kestrel;1:03,05\n",
    b"# club rallycross\nlap\ttime to 30 m (s)\tspeed (km/h)\n1\t4.83\t71\n2\t4.79\t72\n",
    b"4,83\n4,79\n4,81\n",
    b'"Result"|"A/B"\n"4.83 s"|"a"\n"4.9 s"|"b"\n',
)
NOTED = (
    b'setup.car = "kestrel"\nsetup.date = "2026-05-02T14:05"\nsetup.surface = "loose"\n'
    b'setup.temperature = "18 \xc2\xb0C"\nsetup.result = "1:02.31"\nsetup.good = true\n'
    b'setup.remarks = """nose up\nrear loose"""\nsetup.extra.tyres = "worn"\n\n'
)
FILE = Path(os.environ.get("TMPDIR", tempfile.gettempdir())) / f"fuzz-{os.getpid()}.csv"


def travel_logs(demo: Path) -> list[bytes]:
    """Return logs of launches, thinned so that an input is small and still has a second before the start."""
    thinned = {"kestrel_launch_?.csv": 4, "kestrel_loose_*.csv": 12}
    return [_thinned(p.read_bytes(), step) for glob, step in thinned.items() for p in sorted(demo.glob(glob))]


def _thinned(data: bytes, step: int) -> bytes:
    lines = data.split(b"\n")
    head = next(n for n, line in enumerate(lines) if line[:1].isdigit())
    return b"\n".join([*lines[:head], *lines[head::step]])


def phone_setups(cars: Sequence[bytes]) -> list[bytes]:
    """Return setups as the phone page saves them."""
    return [NOTED + car for car in cars]


def learn(data: bytes) -> None:
    """Find the launch in a log."""
    learn_log(read_log_bytes(data, "fuzz.csv"), LearnHints())


def travelled(data: bytes) -> None:
    """Take the velocities out of a log."""
    travel.answer(None, TravelQuestion(read_log_bytes(data, "fuzz.csv"))).to_dict()


def results(data: bytes) -> None:
    """Read a table of results, as a trial's and by its columns."""
    FILE.write_bytes(data)
    try:
        result_columns(FILE)
        runs, _ = timed_runs(FILE, TIMED)
        assert len(runs) <= data.count(b"\n") + data.count(b"\r") + 1, "more runs than lines"
    finally:
        FILE.unlink()


def brought(data: bytes) -> None:
    """Read a setup that a phone saved, and write it as the library keeps it."""
    text = data.decode("utf-8", "replace")
    setup = setup_from_text(text, "fuzz.toml", "fuzz")
    kept = setup_to_text(setup, car_text_of(text, "fuzz.toml"))
    assert setup_from_text(kept, "fuzz.toml", "fuzz") == setup, "kept as another setup"


def edited_car(data: bytes) -> None:
    """Put packs, clicks and learned values into a car's text, which may have been spoiled since it was read."""
    text = data.decode("utf-8", "replace")
    try:
        was = car_from_text(text, "fuzz.toml")
    except DynoanError:
        for edit in (lambda: _settings(text), lambda: _learned(text, 0.5)):
            with suppress(DynoanError):
                edit()
        raise
    _hold_rest(text, _settings(text), {"pack", "clicks"})
    if was.cg_height is not None:
        _hold_rest(text, _learned(text, was.cg_height), {"cg_height"})


def _settings(text: str) -> str:
    setting = CornerSetting("mixed", {"lsc": 3, "lsr": 7})
    return with_settings(text, "fuzz.toml", dict.fromkeys(("fl", "rl", "rr"), setting))[0]


def _learned(text: str, height: float) -> str:
    value = NewValue(height, 1.02 * height, 0.01 * height)
    return with_learned(text, "fuzz.toml", {"cg_height": value})[0]


def _hold_rest(before: str, after: str, keys: set[str]) -> None:
    """Fail where anything else than the keys differs."""
    assert _without(tomllib.loads(before), keys) == _without(tomllib.loads(after), keys), "another value is changed"


def _without(data: object, keys: set[str]) -> object:
    if not isinstance(data, dict):
        return repr(data)  # a number that is none is itself
    return {k: kept for k, v in data.items() if k not in keys and (kept := _without(v, keys)) != {}}


def edited_trial(data: bytes) -> None:
    """Note a run in a trial's text and strike one out."""
    text = data.decode("utf-8", "replace")
    was = trial_from_text(text, "fuzz.toml", "fuzz")
    with tempfile.TemporaryDirectory(dir=FILE.parent) as folder:
        path = Path(folder) / "trials" / "fuzz.toml"
        path.parent.mkdir()
        path.write_bytes(text.encode())
        shelf = TrialShelf(Path(folder), lambda _folder: ("fuzz",))
        now = shelf.add_runs("fuzz", (RUN,))
        assert replace(now, runs=now.runs[:-1], file="") == replace(was, file=""), "a run noted changes the others"
        assert now.runs[-1] == RUN
        struck = shelf.strike("fuzz", 0, "wet")
        assert [r.struck for r in struck.runs] == ["wet", *(r.struck for r in now.runs[1:])]
