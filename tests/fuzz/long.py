"""Fuzz by mutation for a while: ``nice -n 19 python -m tests.fuzz.long SECONDS [SEED] [FOLDER] [TARGET,TARGET…]``.

Prints how many inputs were tried of each target and what came of them; the first input of each fault is kept in FOLDER.
"""

from __future__ import annotations

import random
import resource
import sys
import time
from collections import Counter
from pathlib import Path

from tests.fuzz.targets import Target, mutated, outcome, targets

MEMORY = 6 << 30  #: an input that needs more is a fault [bytes]
TURN = 50  #: inputs of one target before the next one's turn


def main(seconds: float, seed: int = 1, folder: str = "", only: str = "") -> None:
    """Fuzz all targets in turn."""
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    choose = random.Random(seed)
    chosen = [t for t in targets() if not only or t.name in only.split(",")]
    found: dict[str, Counter[str]] = {t.name: Counter() for t in chosen}
    stop = time.monotonic() + seconds
    while time.monotonic() < stop:
        for target in chosen:
            _turn(target, choose, found[target.name], folder)
    for name, outcomes in found.items():
        sys.stdout.write(f"{name}: {sum(outcomes.values())} inputs\n")
        sys.stdout.writelines(f"{n:9d}  {came}\n" for came, n in outcomes.most_common())


def _turn(target: Target, choose: random.Random, outcomes: Counter[str], folder: str) -> None:
    for _ in range(TURN):
        data = mutated(target.seeds, choose)
        came = outcome(target, data)
        if came not in ("answered", "refused") and came not in outcomes and folder:
            Path(folder).mkdir(parents=True, exist_ok=True)
            (Path(folder) / f"{target.name.replace(' ', '_')}-{len(outcomes)}.bin").write_bytes(data)
        outcomes[came] += 1


if __name__ == "__main__":
    given = sys.argv[1:]
    main(float(given[0]) if given else 60.0, *map(int, given[1:2]), *given[2:4])
