"""What is loaded a moment after the first page: the first dropped file then takes as long as those after it.

Names of columns, clicks and settings are found by some hundreds of patterns, which are compiled when a file first asks
for them; with pyarrow, HDF5 and the next pages' templates that is 0.4 s of the processor, of which nobody waits for
any while he looks for his files. So a few made lines are read as a shop would have written them.
"""

from __future__ import annotations

from contextlib import suppress
from functools import cache

import numpy as np

from dynoan.errors import DynoanError
from dynoan.library.folder import now
from dynoan.library.sweep_file import Kept, encode
from dynoan.reading import read_bytes
from dynoan.window.rendering import load_templates

NEXT = ("curves.html", "packs.html")  #: the pages that follow the files
_HEADS = (
    ("Shock: A-1\nPack: p\nClicks: LSC 1 HSC 1 LSR 1 HSR 1\nTemperature: 40 °C\nGas pressure: 8.0 bar\n"
     "Date: 2026-01-01\nTime [s],Displacement [mm],Velocity [mm/s],Force [N]"),
    ("Dämpfer;A-1\nVentilpaket;p\nKlicks;LSC 1 HSC 1 LSR 1 HSR 1\nDatum;01.02.2026\n"
     "Zeit;Weg;Geschwindigkeit;Kraft\ns;mm;mm/s;N"),
)  # fmt: skip


def made_runs() -> tuple[bytes, ...]:
    """Return a run in the words, the separators and the decimal mark of two shops; too long to be a table of peaks."""
    time = np.arange(3000) / 250.0
    turn = 2.0 * np.pi * 2.0 * time
    columns = [time, -25.0 * np.cos(turn), 314.16 * np.sin(turn), 120.0 + 500.0 * np.sin(turn)]
    lines = "\n".join(",".join(f"{value:.3f}" for value in row) for row in zip(*columns, strict=True))
    german = lines.replace(",", ";").replace(".", ",")
    return tuple(f"{head}\n{rows}\n".encode() for head, rows in zip(_HEADS, (lines, german), strict=True))


@cache
def load_ahead() -> None:
    """Load what reads files, what keeps them, and the pages after that; once."""
    for name, data in zip(("A-1_p_lsc1.csv", "A-1_p_lsc1.txt"), made_runs(), strict=True):
        with suppress(DynoanError):  # of an importer that cannot be loaded: told once a file is read
            for sweep in read_bytes(data, name):
                encode(Kept(sweep, data, now()))
    load_templates(NEXT)
