"""Kill processes at work on a library and count what is lost.

``python -m tests.faults.kill_many [KILLS [FIRST]]``: prints the figures; fails at the first reported change that is not
there. FIRST is the first seed, from 1. A library in memory (``TMPDIR=/dev/shm``) is faster and no easier:
what a killed process wrote is with the system, wherever that puts it.
"""

from __future__ import annotations

import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from tests.faults.killing import Ledger, begin, kill_once, verify

EACH = 500  #: kills a library: one that grows for ever is checked ever more slowly


def main(kills: int = 500, first: int = 1) -> None:
    """Kill and verify, and print how many changes had been reported."""
    started = time.monotonic()
    total: Counter[str] = Counter()
    for done in range(0, kills, EACH):
        total += kill(range(first + done, first + min(done + EACH, kills)))
        print(f"{min(done + EACH, kills)} kills, {time.monotonic() - started:.0f} s: {dict(total)}", flush=True)
    found = ", ".join(f"{count} {what}" for what, count in total.items())
    print(f"{kills} kills: {found}; all that was reported is there, whole; {time.monotonic() - started:.0f} s")


def kill(seeds: range) -> Counter[str]:
    """Kill a victim for each seed, all at work on one library; return counts of what was reported and is there."""
    changes = 0
    with tempfile.TemporaryDirectory() as folder:
        library = Path(folder) / "library"
        begin(library)
        ledger = Ledger()
        for seed in seeds:
            changes += kill_once(library, seed, ledger)
            if seed % 100 == 0:
                verify(library, ledger)
        verify(library, ledger)
        left = sum(1 for _ in library.rglob(".tmp-*"))
    return Counter({
        "reported changes": changes, "sweeps": len(ledger.packs), "setups": len(ledger.setups),
        "trials": len(ledger.trials), "layouts": len(ledger.layouts), "cars": len(ledger.cars),
        "files dropped": len(ledger.dropped), "temporary files left": left,
    })  # fmt: skip


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
