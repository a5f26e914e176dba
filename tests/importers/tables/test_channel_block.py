"""Rows of channels above a table, as loggers write them: names, units, rates, scales, with a header below or none."""

from __future__ import annotations

import io

import numpy as np
import openpyxl
import pytest

from dynoan.errors import ReadError
from dynoan.model.sweep import Sweep
from dynoan.reading import read_bytes

T = np.arange(1000) / 500
X = 25 * np.sin(2 * np.pi * 1.6 * T)
V = 25 * 2 * np.pi * 1.6 * np.cos(2 * np.pi * 1.6 * T)
F = np.where(V > 0, 2.2, 1.6) * V + 120


def rows(*columns: np.ndarray, first: list[str] | None = None, mark: str = ",", decimal: str = ".") -> str:
    lines = ([f"{x:.4f}".replace(".", decimal) for x in row] for row in zip(*columns, strict=True))
    return "".join(mark.join([*([first[k]] if first else []), *line]) + "\n" for k, line in enumerate(lines))


COUNTED = [str(k) for k in range(len(T))]
BLANK = [""] * len(T)
CLOCK = [f"10:15:{t:06.3f}" for t in T]


def held(text: str, encoding: str = "utf-8") -> Sweep:
    (sweep,) = read_bytes(text.encode(encoding), "log.csv")
    assert np.allclose(sweep.channels["force"], F, atol=0.01)
    assert np.allclose(sweep.channels["displacement"], X / 1000, atol=1e-6)
    assert sweep.rate == pytest.approx(500, rel=1e-3)
    return sweep


@pytest.mark.parametrize(
    ("head", "body"),
    [
        ("Name,Pos,Load\nUnit,mm,N\nRate (Hz),500,500\n", rows(X, F, first=COUNTED)),
        ("Channel:,1,2\nName:,Pos,Load\nUnits:,mm,N\nRate (Hz):,500,500\nStart:,09:41:07,\nSample,Pos,Load\n",
         rows(X, F, first=COUNTED)),
        ("Name,Pos,Load\nUnit,mm,N\nSample rate (kHz),0.5,0.5\n", rows(X, F, first=BLANK)),
        ("Name,Pos,Load\nUnit,mm,N\nRate,500,500\n\nData\n", rows(X, F, first=CLOCK)),
        ("Name,Time,Pos,Load\nUnit,s,mm,N\nRate,500,500,500\n", rows(T, X, F)),
        ("Channel,AI0,AI1,AI2\nName,Time,Pos,Load\nUnits,s,mm,N\nRange,,100,5000\n\n,AI0,AI1,AI2\n",
         rows(T, X, F, first=BLANK)),
        ("Channel,1,2\nName,Pos,Load\nUnits,mm,N\nSensor S/N,88,77\nTime (s),CH1,CH2\n", rows(T, X, F)),
        ("Units,mm,N\nName,Pos,Load\nRate,500,500\nMin,-25,-282\nMax,25,673\n", rows(X, F, first=COUNTED)),
        ("Kanal:;1;2;3\nName:;Weg;v;Kraft\nEinheit:;mm;mm/s;N\nAbtastrate:;500;500;500\n",
         rows(X, V, F, first=COUNTED, mark=";", decimal=",")),
        ("Canal\t1\t2\nNombre\tPosición\tFuerza\nUnidad\tmm\tN\nPeriodo de muestreo (ms)\t2\t2\n",
         rows(X, F, first=COUNTED, mark="\t")),
        ("Name   Pos   Load\nUnit   mm    N\nRate   500   500\n", rows(X, F, first=COUNTED, mark="   ")),
    ],
)  # fmt: skip
def test_names_units_and_rate_of_every_channel(head, body):
    sweep = held(head + body)
    assert sweep.shock is None
    assert not any("rate" in w or "left out" in w for w in sweep.warnings)


@pytest.mark.parametrize("encoding", ["cp949", "utf-8-sig", "utf-16"])
def test_in_other_encodings(encoding):
    head = "채널,1,2\r\n이름,변위,하중\r\n단위,mm,N\r\n샘플링 주파수,500,500\r\n"
    held(head + rows(X, F, first=COUNTED).replace("\n", "\r\n"), encoding=encoding)


def test_in_a_workbook():
    book = openpyxl.Workbook()
    for line in (["Name", "Pos", "Load"], ["Unit", "mm", "N"], ["Rate (Hz)", 500, 500]):
        book.active.append(line)
    for k, pair in enumerate(zip(X.tolist(), F.tolist(), strict=True)):
        book.active.append([k, *pair])
    file = io.BytesIO()
    book.save(file)
    (sweep,) = read_bytes(file.getvalue(), "log.xlsx")
    assert np.allclose(sweep.channels["force"], F)


def test_scales_of_numbers_said_to_be_raw_are_applied_and_others_are_told():
    head = "Name,Pos,Load\nUnit,mm,N\nScale,0.025,0.5\nOffset,-51.2,-1000\nRate,500,500\n"
    raw = held("raw counts\n" + head + rows((X + 51.2) / 0.025, (F + 1000) / 0.5, first=COUNTED))
    assert any("times their scale plus their offset" in w for w in raw.warnings)
    told = held(head + rows(X, F, first=COUNTED))
    (said,) = [w for w in told.warnings if "scale and offset" in w]
    assert "'Pos' 0.025 and -51.2" in said
    assert "not applied" in said
    idle = held("Name,Pos,Load\nUnit,mm,N\nScale,1,1\nOffset,0,0\nRate,500,500\n" + rows(X, F, first=COUNTED))
    assert not any("scale" in w for w in idle.warnings)


def test_the_rate_of_the_channels_measured_is_taken_where_rates_differ():
    head = "Name,Pos,Load,Temp\nUnit,mm,N,C\nRate (Hz),500,500,10\n"
    sweep = held(head + rows(X, F, 31 + 0 * X, first=COUNTED))
    assert any("(500, 10): 500 Hz was taken" in w for w in sweep.warnings)
    with pytest.raises(ReadError, match="no sample rate"):
        read_bytes(
            (head.replace("500,500,10", "500,250,10") + rows(X, F, 31 + 0 * X, first=COUNTED)).encode(), "log.csv"
        )


def test_a_table_of_peaks_under_such_rows():
    rows_ = ";50;123\n;100;212\n;200;284\n;-50;-188\n;-100;-341\n;-200;-462\n"
    (sweep,) = read_bytes(f"Signal;Speed;Force\nUnit;mm/s;N\nDecimals;0;0\n{rows_}".encode(), "peaks.csv")
    assert sweep.channels["force"].tolist() == [123, 212, 284, -188, -341, -462]


def test_units_of_the_run_above_names_with_their_own_are_no_rows_of_channels():
    rows_ = "50,123,188\n100,212,341\n"
    lines = f"Unit,N,mm/s\nShock,FL-3,front\nSpeed mm/s,Compression N,Rebound N\n{rows_}"
    (sweep,) = read_bytes(lines.encode(), "peaks.csv")
    assert (sweep.shock, sweep.channels["force"].tolist()) == ("FL-3", [123, 212, -188, -341])
