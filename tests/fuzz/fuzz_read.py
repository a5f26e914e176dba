"""Feeds broken files to the reader for a while and reports anything but a sweep or a one-line refusal.

Run ``nice -n 19 python -m tests.fuzz.fuzz_read 600``: seconds to run. Prints how many inputs were tried and each kind
of uncaught exception with an input that provokes it, kept in the folder given as second argument.
"""

from __future__ import annotations

import sys
import time
import traceback
from collections import Counter
from pathlib import Path

from hypothesis import HealthCheck, Phase, given, seed, settings

from dynoan.errors import DynoanError
from dynoan.jobs.read import SweepRead
from dynoan.reading import read_bytes
from tests.fuzz.mutations import FILES

BATCH = 400


def attempt(data: bytes) -> str:
    """Return what came of reading some bytes: "read", "refused" or the place of an uncaught exception."""
    try:
        for sweep in read_bytes(data, "fuzz.csv"):
            SweepRead.of(sweep).to_dict()
        return "read"
    except DynoanError as error:
        return "refused" if str(error).startswith("fuzz.csv") else f"refusal without the file's name: {error}"
    except Exception as error:
        where = traceback.extract_tb(error.__traceback__)[-1]
        ours = [
            f for f in traceback.extract_tb(error.__traceback__) if "importers" in f.filename or "dynoan" in f.filename
        ]
        last = ours[-1] if ours else where
        return f"{type(error).__name__} at {Path(last.filename).name}:{last.lineno} {str(error)[:80]}"


def run(seconds: float, keep: Path | None) -> Counter[str]:
    """Try inputs for a while; return how often each outcome came."""
    outcomes: Counter[str] = Counter()
    slowest = [0.0]
    stop = time.monotonic() + seconds
    round_ = 0
    while time.monotonic() < stop:
        round_ += 1

        @seed(round_)
        @settings(
            max_examples=BATCH,
            deadline=None,
            database=None,
            phases=[Phase.generate],
            suppress_health_check=list(HealthCheck),
        )
        @given(FILES)
        def batch(data: bytes) -> None:
            start = time.monotonic()
            outcome = attempt(data)
            if outcome not in outcomes and outcome not in ("read", "refused") and keep is not None:
                keep.mkdir(parents=True, exist_ok=True)
                (keep / f"case{len(outcomes)}.bin").write_bytes(data)
            outcomes[outcome] += 1
            slowest[0] = max(slowest[0], time.monotonic() - start)

        batch()
    outcomes["slowest [ms]"] = round(1000 * slowest[0])
    return outcomes


def main() -> None:
    """Run for the seconds given and print what came of it."""
    seconds = float(sys.argv[1]) if len(sys.argv) > 1 else 600.0
    keep = Path(sys.argv[2]) if len(sys.argv) > 2 else None
    outcomes = run(seconds, keep)
    tried = sum(n for k, n in outcomes.items() if k != "slowest [ms]")
    sys.stdout.write(f"{tried} inputs in {seconds:.0f} s\n")
    for outcome, n in outcomes.most_common():
        sys.stdout.write(f"{n:8d}  {outcome}\n")


if __name__ == "__main__":
    main()
