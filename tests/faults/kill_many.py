"""Kill 500 processes at work on one library and count what is lost.

``python -m tests.faults.kill_many [KILLS]``: prints the figures; fails at the first reported change that is not there.
"""

from __future__ import annotations

import sys
import tempfile
import time
from pathlib import Path

from dynoan.library import Library
from tests.faults.killing import Ledger, kill_once, verify


def main(kills: int = 500) -> None:
    """Kill and verify, and print how many changes had been reported."""
    started, changes = time.monotonic(), 0
    with tempfile.TemporaryDirectory() as folder:
        library = Path(folder) / "library"
        Library.create(library)
        ledger = Ledger()
        for seed in range(1, kills + 1):
            changes += kill_once(library, seed, ledger)
            if seed % 100 == 0 or seed == kills:
                verify(library, ledger)
        leftover = sum(1 for _ in library.rglob(".tmp-*"))
    print(f"{kills} kills, {changes} reported changes, {len(ledger.packs)} sweeps and {len(ledger.setups)} setups: "
          f"all there, whole; {leftover} temporary files left, none taken for data; "
          f"{time.monotonic() - started:.0f} s")  # fmt: skip


if __name__ == "__main__":
    main(*map(int, sys.argv[1:]))
