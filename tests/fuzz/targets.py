"""What is fuzzed by mutation: seeds, and a call that must end in an answer or in one refusal of ours, and soon.

Targets: rig files, JSON, workbooks and MATLAB files of rigs, logs of travel and of a push, the TOML that people edit
(cars, shocks, setups, layouts, trials), the library's own files behind a seal that holds, and what `track_targets` has.
"""

from __future__ import annotations

import hashlib
import io
import math
import random
import time
import traceback
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

from dynoan import units
from dynoan.errors import DynoanError
from dynoan.jobs import bounce
from dynoan.jobs.bounce.asked import bounce_channel
from dynoan.jobs.read import SweepRead
from dynoan.library import sweep_file
from dynoan.library.car_file import car_from_text
from dynoan.library.layout_file import layout_from_text
from dynoan.library.setup_file import setup_from_text
from dynoan.library.shock_file import shock_from_text
from dynoan.library.trial_file import trial_from_text
from dynoan.model.dates import iso_date
from dynoan.model.shock import parse_clicks
from dynoan.reading import read_bytes, read_log_bytes
from tests.fuzz import track_targets
from tests.fuzz.hand_tables import HAND

FIXTURES = Path(__file__).parents[2] / "fixtures"
OLD_WORKBOOK = Path(__file__).parents[1] / "importers" / "records" / "old_workbook.xls"
PATIENCE = 2.0  #: of the processor: an input that takes longer hangs [s]
FITS = 10.0  #: the same for what is fitted [s]
LINES, BYTES = 36, 6000  #: of a seed; small ones are tried more often
_FITTED = b"\x08"  #: a log whose last byte is no greater is fitted: a fit takes a thousand times as long as the rest
SPLICES = (
    b"", b"\n", b"\n\n", b",", b";", b"\t", b"|", b'"', b"'", b"[", b"]", b"(", b"{", b"=", b":", b"#", b"nan", b"-inf",
    b"1e999", b"-1", b"0", b"99999999999999999999", b"1.5", b"1,5", b"\x00", b"\xff\xfe", b"\xef\xbb\xbf", b"\r", b"mm",
    b"N", b"lbf", b"s", b"LSC 6", b"C 4 R 8", b"Force", b"Velocity [mm/s]", b"Compression", b"<table>", b"\xe2\x88\x92",
    b"[[a]]", b'"""', b"true", b"2026-05-02", b"12:00:00", b"e", b"%", b"\xc3\xa9", b"1 000", b"\x1a", b"*", b"+-",
)  # fmt: skip


ODD = (
    b"0",
    b"-1",
    b"1e308",
    b"nan",
    b"-inf",
    b"99999999999999999999",
    b"true",
    b"[]",
    b"{}",
    b'""',
    b"[[]]",
    b"{a = 1}",
    b"1.5",
    b"2026-05-02",
    b"12:00:00",
    b'"0 mm"',
    b'"-5 N"',
    b'"1e308 N/m"',
    b'"nan kg"',
    b'"20 C"',
    b'"1 000,5 N"',
    b'"a/../b"',
    b'"\\u0000"',
    b'"\\u2028"',
    b'"..."',
    b'[1, "a", []]',
    b'"0..2"',
    b'"8 of 24"',
    b'"12 \xc2\xb1 1"',
    b'["1 mm", "2 mm"]',
)  #: values of every kind, in the place of another: what a parser takes, and a reader must judge


@dataclass(frozen=True)
class Target:
    """One thing that is fuzzed."""

    name: str
    seeds: Sequence[bytes]
    call: Callable[[bytes], object]
    longest: int = BYTES  #: of what is tried [bytes]
    by_lines: bool = False  #: whether its first lines are one as well
    patience: float = PATIENCE


def _read(data: bytes) -> None:
    for sweep in read_bytes(data, "fuzz.csv"):
        SweepRead.of(sweep).to_dict()


def _read_log(data: bytes) -> None:
    read_log_bytes(data, "fuzz.csv")


def _bounce(data: bytes) -> None:
    """Find what was pushed in a log as `bounce` does, travel or a phone's axes; one in so many is fitted, too."""
    asked = bounce.BounceQuestion.asked(read_log_bytes(data, "fuzz.csv"), axle="front")
    if data[-1:] <= _FITTED:
        bounce.answer(None, asked).to_dict()
    else:
        bounce_channel(asked)


def _phone_logs() -> list[bytes]:
    """Logs of a push as phones and loggers write them: seconds, milliseconds, nanoseconds; points and commas."""
    times = [k / 40 for k in range(100)]
    swing = [2.0 * math.exp(-1.5 * t) * math.sin(9.0 * t) if t > 0 else 0.0 for t in (t - 0.4 for t in times)]
    seconds = "".join(f"{t:.3f},{0.02 * s:.3f},0.1,{9.81 + s:.3f}\n" for t, s in zip(times, swing, strict=True))
    stamps = "".join(f"{1e18 + 1e9 * t:.0f};{1 + s / 9.81:.4f};0;0\n" for t, s in zip(times, swing, strict=True))
    travel = "".join(f"{t * 1000:.0f}\t{10 * s:.2f}\t{9 * s:.2f}\n" for t, s in zip(times, swing, strict=True))
    return [
        f"time,ax,ay,az\n{seconds}".encode(),
        f"Time (s),Acceleration x (m/s^2),Acceleration y (m/s^2),Acceleration z (m/s^2)\n{seconds}".encode(),
        f"timestamp;gFx;gFy;gFz\n{stamps.replace('.', ',')}".encode(),
        f"Time [ms]\tFL [mm]\tFR [mm]\n{travel}".encode(),
    ]


def _of_text(make: Callable[[str, str, str], object]) -> Callable[[bytes], object]:
    return lambda data: make(data.decode("utf-8", "replace"), "fuzz.toml", "fuzz")


def _short(path: Path) -> bytes:
    """Return the head of a file: all that decides how it is understood."""
    data = path.read_bytes()
    return b"\n".join(data.split(b"\n")[:LINES])[:BYTES] if len(data) > BYTES else data


DAY = b'setup.car = "kestrel"\nsetup.date = "2026-05-02"\nsetup.surface = "loose"\nsetup.good = true\n\n'
LAYOUT = (
    b'header = ["Clk", "Pos"]\npositive = "rebound"\nrate = "1 kHz"\n[columns]\nforce = "Ld"\n[units]\nforce = "N"\n'
)
JSON = (
    b'{"shock": "FL-01", "units": {"time": "s", "force": "N", "x": "mm"}, "time": [0, 0.5, 1, 1.5, 2, 2.5, 3, 3.5, 4], '
    b'"force": [1, 2, 3, 4, 9, 3, 2, 1, 4], "x": [0, 5, 9, 5, 0, -5, -9, -5, 0]}',
    b'[{"velocity_mm_s": 50, "compression_N": 100, "rebound_N": 120}, {"velocity_mm_s": 100, "compression_N": 150}]',
    b'{"runs": [{"channels": [{"name": "force", "unit": "N", "values": [1, 2, 3]}, {"name": "speed", "unit": "mm/s", '
    b'"values": [10, 20, 30]}]}]}',
    b'{"columns": ["speed mm/s", "force N"], "data": [[10, 1], [20, 2], [30, 3], [-10, -1], [-20, -2], [-30, -4]]}',
)
VALUES = (
    b"275 lb/in", b"0.5 in", b"20.5 in", b"85 \xc2\xb0F", b"2026-05-02", b"2 May 2026", b"lsc=8,hsc=12", b"lsr=3",
    b"1 200,5 N",
)  # fmt: skip
TYPED = ("force", "length", "velocity", "temperature", "mass", "stiffness", "time", "pressure")


def _matlab() -> list[bytes]:
    """MATLAB files of a run and of a structure with a cell array, plain and packed."""
    import numpy as np
    from scipy.io import savemat

    t = np.arange(12.0)
    run = {"time_s": t, "displacement_mm": np.sin(t), "force_N": np.cos(t), "shock": "FL-01"}
    out = []
    for packed in (False, True):
        for value in (run, {"runs": {"a": run, "names": np.array(["x", t], object)}}):
            file = io.BytesIO()
            savemat(file, value, do_compression=packed)
            out.append(file.getvalue())
    return out


def _sweep_file() -> bytes:
    from tests.library.made import made_sweep

    sweep, original = made_sweep(1, samples=12)
    return sweep_file.encode(sweep_file.Kept(sweep, original, "2026-05-02T10:00:00Z"))


def _sealed(data: bytes) -> None:
    """Read a damaged sweep file whose seal was made anew, so that what lies behind the seal is met."""
    _, _, rest = data.partition(b"\n")
    whole = b"dynoan sweep %d %s\n" % (sweep_file.VERSION, hashlib.sha256(rest).hexdigest().encode()) + rest
    sweep_file.read_card(whole[:4096], "fuzz.h5", "0123456789")
    sweep_file.decode(whole, "fuzz.h5")


def _typed(data: bytes) -> None:
    """Understand one text as everything that people type; refuse it where it is none of it."""
    text = data.decode("utf-8", "replace")
    tries: list[Callable[[], object]] = [partial(units.parse, text, kind) for kind in TYPED]
    refused = [_refusal(understand) for understand in (*tries, partial(iso_date, text), partial(parse_clicks, text))]
    longest = max(refused, key=len)
    assert len(longest) < 400, f"a long text is repeated whole: {longest[:60]}"
    if all(refused):
        raise DynoanError(longest)


def _refusal(understand: Callable[[], object]) -> str:
    try:
        understand()
    except DynoanError as error:
        return str(error)
    return ""


def targets() -> tuple[Target, ...]:
    """Return what is fuzzed, with seeds from the corpus, the demo and earlier finds."""
    rigs = [
        p for p in sorted((FIXTURES / "layouts").iterdir()) if not p.name.endswith((".truth.json", ".xlsx", ".mat"))
    ]
    found = [p.read_bytes() for p in sorted((FIXTURES / "fuzz").glob("*.txt"))]
    demo = FIXTURES / "demo"
    books = [p.read_bytes() for p in sorted((FIXTURES / "layouts").glob("*.xlsx")) if p.stat().st_size < 2 * BYTES]
    cars = [p.read_bytes() for p in sorted((demo / "cars").iterdir())]
    logs = [_short(p) for p in sorted((demo / "travel").glob("*.csv"))]
    return (
        Target("rig files", [*map(_short, rigs), *found], _read, by_lines=True),
        Target("hand tables", HAND, _read, by_lines=True),
        Target("json", JSON, _read),
        Target("workbooks", [*books, OLD_WORKBOOK.read_bytes()], _read, longest=2 * BYTES),
        Target("matlab", _matlab(), _read),
        Target("logs", [*logs, *map(_short, rigs[:20])], _read_log, by_lines=True),
        Target("bounce logs", _phone_logs(), _bounce, patience=FITS),
        Target("cars", cars, _of_text(car_from_text)),
        Target("shocks", [p.read_bytes() for p in sorted((demo / "shocks").iterdir())], _of_text(shock_from_text)),
        Target("setups", [DAY + car for car in cars], _of_text(setup_from_text)),
        Target("layouts", [LAYOUT], _of_text(layout_from_text)),
        Target("trials", [p.read_bytes() for p in sorted((demo / "trials").iterdir())], _of_text(trial_from_text)),
        Target("sweep files", [_sweep_file()], _sealed, longest=2 * BYTES),
        Target("typed values", VALUES, _typed),
        *_of_the_track(demo, cars),
    )


def _of_the_track(demo: Path, cars: list[bytes]) -> tuple[Target, ...]:
    launches = track_targets.travel_logs(demo / "travel")
    trials = [p.read_bytes() for p in sorted((demo / "trials").iterdir())]
    return (
        Target("learn logs", launches[:3], track_targets.learn, patience=FITS),
        Target("travel logs", launches, track_targets.travelled, patience=FITS),
        Target("results", track_targets.RESULTS, track_targets.results),
        Target("phone setups", track_targets.phone_setups(cars), track_targets.brought),
        Target("edited cars", cars, track_targets.edited_car),
        Target("edited trials", trials, track_targets.edited_trial),
    )


def mutated(seeds: Sequence[bytes], choose: random.Random) -> bytes:
    """Return a seed with some bytes, words or lines changed, doubled, moved, or taken from another seed."""
    data = bytearray(choose.choice(seeds))
    for _ in range(choose.choice((1, 1, 2, 3, 5, 9))):
        at = choose.randrange(len(data) + 1)
        end = min(len(data), at + choose.choice((0, 1, 2, 5, 20, 200)))
        kind = choose.random()
        if kind < 0.15 and b"=" in data:
            data = _another_value(data, choose)
        elif kind < 0.3:
            data[at:end] = choose.choice(SPLICES)
        elif kind < 0.45 and data:
            data[choose.randrange(len(data))] = choose.randrange(256)
        elif kind < 0.7:
            lines = bytes(data).split(b"\n")
            one, other = choose.randrange(len(lines)), choose.randrange(len(lines))
            lines[one:one] = [lines[other]] * choose.choice((0, 1, 1, 3))
            lines[one], lines[other] = lines[other], lines[one]
            data = bytearray(b"\n".join(lines))
        elif kind < 0.85:
            other = choose.choice(seeds)
            start = choose.randrange(len(other) + 1)
            data[at:end] = other[start : start + choose.choice((5, 50, 500))]
        else:
            del data[at:end]
    return bytes(data[: 3 * BYTES])


def _another_value(data: bytearray, choose: random.Random) -> bytearray:
    """Return a text with an odd value behind one of its equals signs."""
    lines = bytes(data).split(b"\n")
    number = choose.choice([n for n, line in enumerate(lines) if b"=" in line])
    lines[number] = lines[number].partition(b"=")[0] + b"= " + choose.choice(ODD)
    return bytearray(b"\n".join(lines))


def outcome(target: Target, data: bytes) -> str:
    """Return "answered", "refused", or what went wrong: the kind and place of an exception, or a hang."""
    started = time.process_time()
    try:
        target.call(data)
        came = "answered"
    except DynoanError as error:
        came = "refused" if "\n" not in str(error) else "a refusal of several lines"
    except Exception as error:
        frames = traceback.extract_tb(error.__traceback__)
        last = ([f for f in frames if "/tests/" not in f.filename] or frames)[-1]
        came = f"{type(error).__name__} at {Path(last.filename).name}:{last.lineno} {str(error)[:60]}"
    return f"over {target.patience:g} s" if time.process_time() - started > target.patience else came
