"""Fuzz guided by what code an input reaches: ``nice -n 19 python -m tests.fuzz.guided TARGET INPUTS [SEED] [FOLDER]``.

Needs `atheris` (``pip install atheris``), which no test needs. Prints how many inputs were tried and what came of them.
The first input of each fault is kept in FOLDER; ``corpus/TARGET`` there holds what reached new code, for the next run,
and ``turns.jsonl`` the figures of each run. `tests.fuzz.marathon` runs it for all targets in turn.
"""

from __future__ import annotations

import json
import os
import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from typing import NoReturn

import atheris

with atheris.instrument_imports(include=["dynoan", "importers", "tomllib"]):
    from tests.fuzz.targets import Target, mutated, outcome, targets

FINE = ("answered", "refused")


def main(name: str, inputs: int, seed: int = 1, folder: str = "") -> None:
    """Fuzz one target with so many inputs, then print and end the process."""
    target = next(t for t in targets() if t.name == name)
    place = Path(folder or tempfile.mkdtemp())
    corpus = place / "corpus" / target.name.replace(" ", "_")
    corpus.mkdir(parents=True, exist_ok=True)
    for number, data in enumerate(target.seeds):
        (corpus / f"seed-{number}").write_bytes(data[: target.longest])
    words = [
        sys.argv[0],
        f"-seed={seed}",
        f"-max_len={target.longest}",
        "-verbosity=0",
        "-timeout=60",
        "-rss_limit_mb=6000",
    ]
    atheris.Setup([*words, str(corpus)], _counting(target, inputs, place), custom_mutator=_mutator(target))
    atheris.Fuzz()


def _mutator(target: Target):  # type: ignore[no-untyped-def]  # atheris has no types
    """Half of the inputs change words and lines as people and programs do, half change bytes as libFuzzer does."""

    def one(data: bytes, longest: int, seed: int) -> bytes:
        if seed % 2:
            return bytes(atheris.Mutate(data, longest))
        return mutated([data or b"\n", *target.seeds], random.Random(seed))[:longest]

    return one


def _counting(target: Target, inputs: int, place: Path):  # type: ignore[no-untyped-def]  # atheris has no types
    came_of: Counter[str] = Counter()
    started = time.monotonic()

    def one(data: bytes) -> None:
        came = outcome(target, data)
        if came not in FINE and came not in came_of:
            (place / f"{target.name.replace(' ', '_')}-guided-{len(came_of)}.bin").write_bytes(data)
        came_of[came] += 1
        if came_of.total() >= inputs:
            _end(target, came_of, time.monotonic() - started, place)

    return one


def _end(target: Target, came_of: Counter[str], seconds: float, place: Path) -> NoReturn:
    turn = {"target": target.name, "inputs": came_of.total(), "seconds": round(seconds, 1), "came": dict(came_of)}
    with (place / "turns.jsonl").open("a") as file:
        file.write(json.dumps(turn) + "\n")
    print(f"{target.name}: {came_of.total()} inputs in {seconds:.0f} s", flush=True)
    for came, count in came_of.most_common():
        print(f"{count:9d}  {came}", flush=True)
    os._exit(0)  # libFuzzer goes on for ever and has no call to end it


if __name__ == "__main__":
    given = sys.argv[1:]
    main(given[0], int(given[1]), *map(int, given[2:3]), *given[3:4])
