"""Reading a trace told nothing, against bare parsers told everything, side by side in one process.

Run ``python -m tests.benchmarks.bench_import [ROWS]``; prints a table. Peers: pandas with its C engine, pandas with its
pyarrow engine, pyarrow.csv. Peak memory is of a process of its own for each reader, above one that only imports.
"""

from __future__ import annotations

import io
import os
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from typing import Any

import numpy as np

from tests.benchmarks.measuring import in_turn, row, share

PREAMBLE = 12
_MEASURE = """
import numpy, pyarrow, pyarrow.csv
{imports}
def high():
    return next(int(line.split()[1]) for line in open("/proc/self/status") if line.startswith("VmHWM"))
base = high()
{body}
print(high() - base)
"""


def trace(rows: int) -> bytes:
    """Return a trace with a preamble, a header and a units row, four columns, no gaps."""
    rng = np.random.default_rng(1)
    t = np.arange(rows) / 1000
    omega = 2 * np.pi * 2
    x = 25 * np.sin(omega * t) + rng.normal(0, 0.01, rows)
    v = 25 * omega * np.cos(omega * t)
    f = 2 * v + 130 + 0.3 * x + rng.normal(0, 4, rows)
    out = io.StringIO()
    out.writelines(f"Note {i}: invented for a benchmark\n" for i in range(PREAMBLE))
    out.write("Time,Displacement,Velocity,Force\ns,mm,mm/s,N\n")
    np.savetxt(out, np.column_stack([t, x, v, f]), fmt="%.4f", delimiter=",")
    return out.getvalue().encode()


def readers(data: bytes) -> dict[str, Callable[[], Any]]:
    """Return ours and the peers, each told what it wants."""
    import pandas as pd
    import pyarrow as pa
    from pyarrow import csv

    from dynoan.reading import read_bytes

    skip = PREAMBLE + 2
    return {
        "ours": lambda: read_bytes(data, "trace.csv"),
        "pandas C": lambda: pd.read_csv(io.BytesIO(data), skiprows=skip, header=None),
        "pandas pyarrow": lambda: pd.read_csv(io.BytesIO(data), skiprows=skip, header=None, engine="pyarrow"),
        "pyarrow.csv": lambda: csv.read_csv(
            pa.BufferReader(data), read_options=csv.ReadOptions(skip_rows=skip, autogenerate_column_names=True)
        ),
    }


def peak_memory(path: Path) -> dict[str, float]:
    """Return the peak memory of reading a file above the imports [MB], each reader in a process of its own."""
    skip = PREAMBLE + 2
    bodies = {
        # What parses a long record is loaded with the first one; here it counts as an import, as the peers' parsers do.
        "ours": ("from dynoan.reading import read\nimport importers, llvmlite.binding", f"s = read({str(path)!r})"),
        "pyarrow.csv": (
            "from pyarrow import csv",
            f"o = csv.ReadOptions(skip_rows={skip}, autogenerate_column_names=True)\n"
            f"t = csv.read_csv({str(path)!r}, read_options=o)",
        ),
        "pandas C": ("import pandas", f"t = pandas.read_csv({str(path)!r}, skiprows={skip}, header=None)"),
    }
    found = {}
    for name, (imports, body) in bodies.items():
        code = _MEASURE.format(imports=imports, body=body)
        done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        found[name] = int(done.stdout) / 1024
    return found


def cold(path: Path) -> list[float]:
    """Return the median time of a whole process that reads a file, ours and pandas. [s]

    Both from compiled modules, as installing leaves them: a shell that forbids to write those of a source tree would
    have ours compiled in each process, which takes longer than all else.
    """
    env = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    codes = (
        f"from dynoan.reading import read; read({str(path)!r})",
        f"import pandas; pandas.read_csv({str(path)!r}, skiprows={PREAMBLE + 2}, header=None)",
    )
    calls = [partial(subprocess.run, [sys.executable, "-c", code], check=True, env=env) for code in codes]
    return in_turn(*calls, turns=7)


def judging(data: bytes) -> Callable[[], object]:
    """Return a job that judges the first 64 KiB as if it saw them for the first time."""
    from importers import TEXT
    from importers.grid import detect_grid

    def judge() -> object:
        detect_grid.cache_clear()
        return TEXT.recognises(data[:65536], "trace.csv")

    return judge


def _reading(data: bytes, n: int, label: str, turns: int) -> Iterator[dict[str, object]]:
    calls = readers(data)
    times = dict(zip(calls, in_turn(*calls.values(), turns=turns), strict=True))
    for peer in list(calls)[1:]:
        yield share(f"{label}: read told nothing, against bare {peer} told all", n, (times["ours"], times[peer]))


def _small(n: int) -> Iterator[dict[str, object]]:
    data = trace(n)
    yield from _reading(data, n, "I1, the first files of a process", 4)
    from importers.tables import by_machine_code

    by_machine_code.at_hand(1 << 30)
    yield from _reading(data, n, "I1, once it has read 4 MB", 25)
    times = in_turn(judging(data), readers(data)["pandas C"], turns=30)
    yield share("I3: judge the first 64 KiB, against pandas C reading all", n, times)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "trace.csv"
        path.write_bytes(data)
        yield share("I4: a fresh process that reads a file, against pandas C in one", n, cold(path))


def _large(n: int) -> Iterator[dict[str, object]]:
    data = trace(n)
    yield from _reading(data, n, "I2", 7)
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "trace.csv"
        path.write_bytes(data)
        memory = peak_memory(path)
    for peer, used in {"the parsed table": n * 32 / 1e6, **memory}.items():
        if peer != "ours":
            yield row(f"peak memory of reading, against {peer}", n, f"{memory['ours']:.3g} MB", f"{used:.3g} MB",
                      f"{memory['ours'] / used:.2g} × its memory")  # fmt: skip


def rows(large: int = 2_000_000, small: int = 20_000) -> list[dict[str, object]]:
    """The rows of the benchmark table."""
    return [*_small(small), *_large(large)]


if __name__ == "__main__":
    from tests.benchmarks.run import table

    print(table(rows(int(sys.argv[1]) if len(sys.argv) > 1 else 2_000_000)))
