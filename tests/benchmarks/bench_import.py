"""Reading a trace told nothing, against bare parsers told everything, side by side in one process.

Run ``python -m tests.benchmarks.bench_import [ROWS]``; prints a table. Peers: pandas with its C engine, pandas with its
pyarrow engine, pyarrow.csv. Peak memory is of a process of its own for each reader, above one that only imports.
"""

from __future__ import annotations

import io
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

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


def timed(calls: dict[str, Callable[[], Any]], rounds: int) -> dict[str, float]:
    """Return the median time of each call [s], the calls taken in turn."""
    times: dict[str, list[float]] = {name: [] for name in calls}
    for _ in range(rounds):
        for name, call in calls.items():
            start = time.perf_counter()
            call()
            times[name].append(time.perf_counter() - start)
    return {name: float(np.median(found)) for name, found in times.items()}


def peak_memory(path: Path) -> dict[str, float]:
    """Return the peak memory of reading a file above the imports [MB], each reader in a process of its own."""
    skip = PREAMBLE + 2
    bodies = {
        "ours": ("from dynoan.reading import read\nfrom importers import assemble, text", f"s = read({str(path)!r})"),
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


def cold(path: Path, rounds: int = 5) -> dict[str, float]:
    """Return the median time of a whole process that reads a file [s]."""
    codes = {
        "ours": f"from dynoan.reading import read; read({str(path)!r})",
        "pandas C": f"import pandas; pandas.read_csv({str(path)!r}, skiprows={PREAMBLE + 2}, header=None)",
    }
    calls = {n: lambda c=c: subprocess.run([sys.executable, "-c", c], check=True) for n, c in codes.items()}
    return timed(calls, rounds)


def detection(data: bytes) -> float:
    """Return the median time of judging the first 64 KiB [s]."""
    from importers import TEXT, grid

    head = data[:65536]

    def judge() -> None:
        grid.detect.cache_clear()
        TEXT.recognises(head, "trace.csv")

    return timed({"judge": judge}, 30)["judge"]


def _row(what: str, ours: float, peer: float, n: int, unit: str = "ms") -> dict[str, object]:
    k = 1000.0 if unit == "ms" else 1.0
    ratio = f"{ours / peer:.2f}" if peer else "–"
    return {"what": what, "ours": f"{k * ours:.3g} {unit}", "peer": f"{k * peer:.3g} {unit}", "ratio": ratio, "n": n}


def _small(n: int) -> list[dict[str, object]]:
    data = trace(n)
    times = timed(readers(data), 25)
    out = [
        _row(f"read told nothing, bare {peer} told all", times["ours"], times[peer], n)
        for peer in times
        if peer != "ours"
    ]
    out.append(_row("judge 64 KiB, pandas C reading all", detection(data), times["pandas C"], n))
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "trace.csv"
        path.write_bytes(data)
        whole = cold(path)
    return [*out, _row("read in a fresh process, pandas C in one", whole["ours"], whole["pandas C"], n)]


def _large(n: int) -> list[dict[str, object]]:
    data = trace(n)
    times = timed(readers(data), 7)
    out = [
        _row(f"read told nothing, bare {peer} told all", times["ours"], times[peer], n)
        for peer in times
        if peer != "ours"
    ]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "trace.csv"
        path.write_bytes(data)
        memory = peak_memory(path)
    out.append(_row("peak memory, the parsed table", memory["ours"], n * 32 / 1e6, n, "MB"))
    return out + [_row(f"peak memory, {p}", memory["ours"], memory[p], n, "MB") for p in memory if p != "ours"]


def rows(large: int = 2_000_000, small: int = 20_000) -> list[dict[str, object]]:
    """The rows of the benchmark table."""
    return [*_small(small), *_large(large)]


if __name__ == "__main__":
    from tests.benchmarks.run import table as markdown

    print(markdown(rows(int(sys.argv[1]) if len(sys.argv) > 1 else 2_000_000)))
