"""The gas pressure of each run in a column of its own."""

from __future__ import annotations

import pytest

from dynoan.reading import read_bytes

V = (25, 50, 100, 200, 300)
PSI = 6894.757


def table(head: str, runs, mark: str = ",") -> bytes:
    """Rows of runs: what stands before the speeds, then speeds and forces of both directions."""
    rows = [mark.join(map(str, (*run, v, 4 * v + 100, 6 * v + 50))) for run in runs for v in V]
    return "\n".join([head.replace(",", mark), *rows, ""]).encode()


@pytest.mark.parametrize("name", ["Air (psi)", "Reservoir psi", "N2 [psi]", "gas pressure psi", "Res. press. (psi)"])
def test_of_each_run(name):
    data = table(f"Run,LSC,LSR,{name},mm/s,Comp N,Reb N", [(1, 2, 4, 150), (2, 6, 8, 200), (3, 2, 4, 200)])
    sweeps = read_bytes(data, "runs.csv")
    assert [s.clicks["lsc"] for s in sweeps] == [2, 6, 2]
    assert [s.gas_pressure for s in sweeps] == pytest.approx([150 * PSI, 200 * PSI, 200 * PSI], rel=1e-5)
    assert all(s.samples == 10 and not s.warnings for s in sweeps)


def test_alone_tells_runs_apart():
    sweeps = read_bytes(table("LSC,LSR,N2 (bar),mm/s,Comp N,Reb N", [(2, 4, 10.5), (2, 4, 14.5)]), "runs.csv")
    assert [(s.gas_pressure, s.samples) for s in sweeps] == [(1.05e6, 10), (1.45e6, 10)]


def test_one_for_the_whole_table_is_the_runs():
    rows = "\n".join(f"{v},{4 * v + 100},{6 * v + 50},12" for v in V)
    (sweep,) = read_bytes(f"mm/s,Comp N,Reb N,Gasdruck (bar)\n{rows}\n".encode(), "a.csv")
    assert (sweep.gas_pressure, sweep.warnings) == (1.2e6, ())


def test_beside_speeds_across():
    head = "LSC,LSR,gas bar,C 50 mm/s N,C 250 mm/s N,R 50 mm/s N,R 250 mm/s N"
    rows = ("2,4,10,410,905,620,1390", "2,4,14,420,915,630,1400")
    sweeps = read_bytes("\n".join([head, *rows, ""]).encode(), "a.csv")
    assert [(s.gas_pressure, s.samples) for s in sweeps] == [(1.0e6, 4), (1.4e6, 4)]


def test_one_that_was_recorded_is_told_and_not_taken():
    rows = "\n".join(f"{v},{4 * v + 100},{6 * v + 50},{10 + v / 100}" for v in V)
    (sweep,) = read_bytes(f"mm/s,Comp N,Reb N,Gas (bar)\n{rows}\n".encode(), "a.csv")
    assert sweep.gas_pressure is None
    assert sweep.warnings == ("column 'Gas (bar)' has more than one gas pressure in the run: none was taken",)


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("Air spring (psi)", "is a pressure that is not said to be the shock's gas: left out"),
        ("tyre psi", "is a pressure that is not said to be the shock's gas: left out"),
        ("Gas", "has no unit (bar or psi): no gas pressure was taken of it"),
    ],
)
def test_of_something_else_or_in_nothing(name, said):
    sweeps = read_bytes(table(f"LSC,LSR,{name},mm/s,Comp N,Reb N", [(2, 4, 30), (6, 8, 30)]), "runs.csv")
    assert [(s.clicks["lsc"], s.gas_pressure) for s in sweeps] == [(2, None), (6, None)]
    assert all(any(w == f"column '{name}' {said}" for w in s.warnings) for s in sweeps)


def test_in_the_line_of_a_setting():
    one = "mm/s,C N,R N\n25,210,330\n50,380,610\n100,560,980\n\n"
    data = f"LSC 2 LSR 4 air 150 psi\n{one}LSC 2 LSR 4 air 200 psi\n{one}"
    assert [s.gas_pressure for s in read_bytes(data.encode(), "a.csv")] == pytest.approx(
        [150 * PSI, 200 * PSI], rel=1e-5
    )
