"""Fuzz one target by mutation, fast: ``nice -n 19 python -m tests.fuzz.bulk TARGET INPUTS SEED FOLDER``.

Mutates the seeds and what `tests.fuzz.guided` found to reach new code (``corpus/TARGET`` of FOLDER), without looking at
what code an input reaches: a third of the time for an input. The figures (the slowest input and the most memory among
them) go to ``turns.jsonl``, the first input of each fault to FOLDER; `tests.fuzz.marathon` takes both kinds in turn.
"""

from __future__ import annotations

import faulthandler
import json
import random
import resource
import signal
import sys
import time
from collections import Counter
from pathlib import Path

from tests.fuzz.targets import FITS, Target, mutated, outcome, targets

FINE = ("answered", "refused")
MEMORY = 6 << 30  #: an input that needs more is a fault [bytes]
HANGS = 30  #: an input that takes the processor for longer is given up, and is a fault [s]
WATCHED = 200  #: inputs between two looks at the clock by a thread of its own, which costs more than a small input
HEAD = 14  #: lines: enough for a header and a few rows; what an input costs grows with its rows


class Hang(Exception):
    """An input did not end."""


def main(name: str, inputs: int, seed: int, folder: str) -> None:
    """Try so many inputs of one target, and keep the figures."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    for ended in (signal.SIGPROF, signal.SIGALRM):
        signal.signal(ended, _give_up)
    target = next(t for t in targets() if t.name == name)
    place, choose = Path(folder), random.Random(seed)
    place.mkdir(parents=True, exist_ok=True)
    pools = _pools(target, place)
    came_of: Counter[str] = Counter()
    slowest = 0.0
    started = time.monotonic()
    for number in range(inputs):
        if number % WATCHED == 0:  # a call that never comes back to Python ends the process, and says where
            faulthandler.dump_traceback_later(2 * HANGS + WATCHED * FITS, exit=True)
        data = mutated(choose.choice(pools), choose)[: target.longest]
        before = time.process_time()
        came = _timed(target, data)
        slowest = max(slowest, time.process_time() - before)
        if came not in FINE and came not in came_of:
            (place / f"{_plain(target)}-{seed}-{len(came_of)}.bin").write_bytes(data)
        came_of[came] += 1
    turn = {"target": name, "inputs": inputs, "seconds": round(time.monotonic() - started, 1), "came": dict(came_of)}
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss >> 10
    turn |= {"guided": False, "slowest_s": round(slowest, 2), "memory_mb": most}
    with (place / "turns.jsonl").open("a") as file:
        file.write(json.dumps(turn) + "\n")


def _timed(target: Target, data: bytes) -> str:
    signal.setitimer(signal.ITIMER_PROF, HANGS)  # of the processor: on a busy machine nothing hangs that only waits
    signal.alarm(20 * HANGS)
    try:
        return outcome(target, data)
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        signal.alarm(0)


def _give_up(_number: int, _frame: object) -> None:
    raise Hang(f"over {HANGS} s")


def _pools(target: Target, place: Path) -> list[list[bytes]]:
    """Return what to mutate, each as often: seeds, two thirds as their first lines, and what reached new code.

    What reached new code is broken as a rule; of it alone most would be refused at once.
    """
    seeds = list(target.seeds)
    heads = [_head(data) for data in seeds] if target.by_lines else seeds
    reached = [p.read_bytes() for p in sorted((place / "corpus" / _plain(target)).glob("*"))]
    reached = [_head(data) for data in reached] if target.by_lines else reached
    return [heads, heads, seeds, reached or seeds]


def _head(data: bytes) -> bytes:
    return b"\n".join(data.split(b"\n")[:HEAD])


def _plain(target: Target) -> str:
    return target.name.replace(" ", "_")


if __name__ == "__main__":
    given = sys.argv[1:]
    main(given[0], int(given[1]), int(given[2]), given[3])
