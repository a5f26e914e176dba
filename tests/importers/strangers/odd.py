"""Workbooks, blocks, and tables with two of everything."""

from __future__ import annotations

import datetime as dt
import io

import numpy as np
import openpyxl

from tests.importers.strangers.making import LBF, SPEEDS, File, both, file, moved, peaks, rows, stroke, trace

MM = SPEEDS * 1e3


def _saved(name: str, book: openpyxl.Workbook, *sweeps: dict[str, object]) -> File:
    out = io.BytesIO()
    book.save(out)
    return File(name, out.getvalue(), sweeps)


def clicks_in_sheet_names() -> File:
    book = openpyxl.Workbook()
    book.remove(book.active)
    sweeps = []
    for n in (4, 8, 12):
        sheet = book.create_sheet(f"C{n} R{n}")
        sheet.append(["Velocity (mm/s)", "Compression (N)", "Rebound (N)"])
        for row in zip(MM, *both(n, n), strict=True):
            sheet.append([float(v) for v in row])
        sweeps.append(peaks(n, n, clicks={"c": n, "r": n}))
    return _saved("RL-05.xlsx", book, *sweeps)


def workbook_with_notes() -> File:
    book = openpyxl.Workbook()
    sheet = book.active
    for row in (
        ["Club shock day"],
        ["Date", dt.date(2026, 3, 14)],
        ["Oil temp", "38 °C"],
        [],
        ["Time", "Pos", "Force"],
        ["s", "mm", "N"],
    ):
        sheet.append(row)
    s = stroke()
    for row in zip(s.t, s.x * 1e3, s.f, strict=True):
        sheet.append([float(v) for v in row])
    book.create_sheet("Notes").append(["rod slightly marked"])
    return _saved("day.xlsx", book, trace(s, date="2026-03-14", temperature_c=38.0))


def setting_columns_in_trace() -> File:
    lines, sweeps = ["Comp clicks,Reb clicks,Time [s],Disp [mm],Force [N]"], []
    for n in (4, 10):
        s = stroke(c=n, r=n)
        lines += [f"{n},{n},{line}" for line in rows([s.t, s.x * 1e3, s.f], 4)]
        sweeps.append(trace(s, clicks={"c": n, "r": n}))
    return file("settings.csv", lines, *sweeps)


def four_corners_in_time() -> File:
    names = ("FL", "FR", "RL", "RR")
    head, columns, sweeps = "Time [s]", [], []
    for n, name in enumerate(names):
        s = stroke(c=4 + n, r=6 + n)
        head += f",{name} pos [mm],{name} force [N]"
        columns += [s.x * 1e3, s.f]
        sweeps.append(trace(s))
    return file("four post.csv", [head, *rows([stroke().t, *columns], 4)], *sweeps)


def packs_by_equals() -> File:
    lines, sweeps = [], []
    for n, pack in enumerate(("gravel", "tarmac")):
        b, r = both(6 + n, 8 + n)
        lines += [f"Pack = {pack}", "Velocity [mm/s],Comp [N],Reb [N]", *rows([MM, b, r], 1), ""]
        sweeps.append(peaks(6 + n, 8 + n, pack=pack))
    return file("packs.csv", lines, *sweeps)


def fortran() -> File:
    s = stroke()
    body = [" ".join(f"{v:.6E}".replace("E", "D") for v in row) for row in zip(s.t, s.x * 1e3, s.f, strict=True)]
    return file("lab.dat", ["TIME[s] DISP[mm] FORCE[N]", *body], trace(s))


def units_alone() -> File:
    s = stroke()
    return file("units.csv", ["s;mm;N", *rows([s.t, s.x * 1e3, s.f], 4, ";")], trace(s))


def newtons_and_pounds() -> File:
    b, r = both()
    head = ["Velocity mm/s,Comp N,Comp lbf,Reb N,Reb lbf"]
    return file("dual.csv", head + rows([MM, b, b / LBF, r, r / LBF], 1), peaks())


def acceleration_beside() -> File:
    s = stroke()
    a = -((2 * np.pi * 1.6) ** 2) * s.x / 9.81
    return file("accel.csv", ["Time [s],Accel [g],Disp [mm],Force [N]", *rows([s.t, a, s.x * 1e3, s.f], 4)], trace(s))


def two_tests_of_one_speed_table() -> File:
    """Run 1 and run 2 of one setting side by side: two sweeps, or a question, never one of them in silence."""
    b, r = both()
    head = ["Velocity [mm/s],Run 1 comp [N],Run 1 reb [N],Run 2 comp [N],Run 2 reb [N]"]
    return file(
        "runs.csv",
        head + rows([MM, b, r, b * 1.03, r * 1.03], 1),
        peaks(),
        peaks() | {"comp": (0.3, both()[0].max() * 1.03), "reb": (0.3, both()[1].max() * 1.03)},
    )


def quoted_everything() -> File:
    s = stroke()
    body = [",".join(f'"{v:.4f}"' for v in row) for row in zip(s.t, s.x * 1e3, s.v * 1e3, s.f, strict=True)]
    return file("q.csv", ['"Time (s)","Displacement (mm)","Velocity (mm/s)","Force (N)"', *body], trace(s), eol="\r\n")


def triangle_wave() -> File:
    t = np.arange(1600) / 400
    phase = (t * 1.0) % 1
    x = 0.025 * (4 * np.abs(phase - 0.5) - 1)
    v = np.where(phase < 0.5, -0.1, 0.1)
    s = moved(t, x, v)
    return file(
        "tri.csv", ["Time [s],Disp [mm],Vel [mm/s],Force [N]", *rows([s.t, s.x * 1e3, s.v * 1e3, s.f], 4)], trace(s)
    )
