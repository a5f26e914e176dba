"""Millions of inputs, all targets in turn: ``python -m tests.fuzz.marathon FOLDER [MINUTES [TARGET,TARGET…]]``.

One turn in `GUIDED` of a target is guided by coverage (`tests.fuzz.guided`), where `atheris` is installed; the others
mutate what those found, for a third of the time an input (`tests.fuzz.bulk`).
Goes on where an earlier call left off: FOLDER holds what reached new code, the first input of each fault, and the
figures of each turn. Ends when each target has had its number or the minutes are over, and prints the sums so far.
A turn is a process of its own, so that one which libFuzzer ends (a crash, memory, 60 s for one input) is told and the
others go on.
"""

from __future__ import annotations

import importlib.util
import json
import subprocess
import sys
import time
from collections import Counter
from collections.abc import Mapping
from pathlib import Path
from typing import Any

#: inputs wanted of each target; those that a process of its own reads are tried less often
WANTED = {
    "layouts": 3_000_000, "shocks": 2_500_000, "typed values": 1_200_000, "trials": 600_000, "json": 600_000,
    "sweep files": 600_000, "cars": 600_000, "setups": 600_000, "logs": 100_000, "rig files": 100_000,
    "hand tables": 200_000, "results": 500_000, "edited trials": 250_000, "phone setups": 150_000,
    "edited cars": 150_000, "bounce logs": 20_000, "learn logs": 15_000, "travel logs": 15_000,
    "workbooks": 1_000, "matlab": 1_000,
}  # fmt: skip
GUIDED = 10  #: one turn in so many of a target is guided by coverage
TURN = 30.0  #: so long is one turn to take [s]
FIRST = 1_000  #: inputs of a target whose pace is not known yet
FEWEST = 50


def main(folder: Path, minutes: float = 60.0, only: str = "") -> None:
    """Run turns until all is done or the time is over, then print what came of all so far."""
    folder.mkdir(parents=True, exist_ok=True)
    stop = time.monotonic() + 60 * minutes
    wanted = {name: count for name, count in WANTED.items() if not only or name in only.split(",")}
    while time.monotonic() < stop and (target := _least_done(turns(folder), wanted)):
        _turn(target, folder)
    sys.stdout.write(summary(turns(folder)))


def turns(folder: Path) -> list[dict[str, Any]]:
    """Return the figures of each turn that was run to its end."""
    kept = folder / "turns.jsonl"
    return [json.loads(line) for line in kept.read_text().splitlines()] if kept.exists() else []


def _least_done(had: list[dict[str, Any]], wanted: Mapping[str, int]) -> str | None:
    """Return the target that is furthest from its number; None where all have theirs."""
    done: Counter[str] = Counter()
    for turn in had:
        done[turn["target"]] += turn["inputs"]
    share = {name: done[name] / count for name, count in wanted.items()}
    least = min(share, key=share.__getitem__)
    return least if share[least] < 1 else None


def _turn(target: str, folder: Path) -> None:
    mine = [turn for turn in turns(folder) if turn["target"] == target]
    guided = len(mine) % GUIDED == 0 and importlib.util.find_spec("atheris") is not None
    had = [turn for turn in mine if turn.get("guided", True) == guided]
    pace = had[-1]["inputs"] / max(had[-1]["seconds"], 0.1) if had else FIRST / TURN
    left = WANTED[target] - sum(turn["inputs"] for turn in mine)
    inputs = max(min(round(pace * TURN), left), FEWEST)
    module = "tests.fuzz.guided" if guided else "tests.fuzz.bulk"
    script = [sys.executable, "-m", module, target, str(inputs), str(len(turns(folder)) + 1), str(folder)]
    ran = subprocess.run(script, capture_output=True, text=True, check=False)
    if ran.returncode:
        (folder / "ended.txt").open("a").write(f"{target}: {ran.returncode}\n{ran.stderr[-2000:]}\n")
        sys.stdout.write(f"{target}: a turn was ended ({ran.returncode}); see {folder / 'ended.txt'}\n")


def summary(had: list[dict[str, Any]]) -> str:
    """Return the sums over all turns: inputs, time, what came of them, and the same for each target."""
    lines = []
    for name in WANTED:
        mine = [turn for turn in had if turn["target"] == name]
        came = sum((Counter[str](turn["came"]) for turn in mine), Counter())
        words = ", ".join(f"{count} {what}" for what, count in came.most_common())
        worst = max((turn.get("slowest_s", 0.0) for turn in mine), default=0.0)
        most = max((turn.get("memory_mb", 0) for turn in mine), default=0)
        lines.append(
            f"{name}: {came.total()} inputs in {sum(t['seconds'] for t in mine):.0f} s: {words}; "
            f"the slowest {worst:.1f} s of the processor, at most {most} MB\n"
        )
    inputs = sum(turn["inputs"] for turn in had)
    seconds = sum(turn["seconds"] for turn in had)
    return "".join(lines) + f"{inputs} inputs in {seconds:.0f} s\n"


if __name__ == "__main__":
    main(Path(sys.argv[1]), *map(float, sys.argv[2:3]), *sys.argv[3:4])
