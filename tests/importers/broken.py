"""Broken files, each with what its refusal must say: a kind, the bytes, the file's name, and words of the message."""

from __future__ import annotations

import numpy as np

T = np.arange(400) / 200
X = 20 * np.sin(2 * np.pi * T)
V = 2 * np.pi * 20 * np.cos(2 * np.pi * T)
F = 3 * V + 120
HEADER = "Time [s],Disp [mm],Velocity [mm/s],Force [N]"


def rows(form="{t:.4f},{x:.3f},{v:.2f},{f:.1f}", **changed):
    channels = {"t": T, "x": X, "v": V, "f": F} | changed
    return [form.format(**{k: a[i] for k, a in channels.items()}) for i in range(len(T))]


def file(header=HEADER, body=None):
    return "\n".join([header, *(rows() if body is None else body), ""]).encode()


def swapped(line: int, text: str, body=None):
    body = list(rows() if body is None else body)
    body[line] = text
    return file(body=body)


PEAKS = ["50,200,300", "100,400,500", "200,600,800", "400,900,1200"]
ZERO = np.zeros_like(T)
BROKEN: dict[str, tuple[bytes, tuple[str, ...]]] = {
    "empty": (b"", ("empty",)),
    "only blanks": (b" \r\n\t\n" * 50, ("empty",)),
    "binary": (bytes(range(256)) * 20, ("not text", "CSV")),
    "zip": (b"PK\x03\x04" + bytes(100), ("zip", "unpack")),
    "damaged workbook of the old kind": (b"\xd0\xcf\x11\xe0" + bytes(100), ("damaged", "save it")),
    "gzip": (b"\x1f\x8b\x08" + bytes(50), ("gzip", "unpack")),
    "picture": (b"\x89PNG\r\n\x1a\n" + bytes(50), ("picture", "CSV")),
    "web page without a table": (b"<!DOCTYPE html><html><p>Our shocks</p></html>", ("web page", "CSV")),
    "json without motion": (b'{"time": [0, 1, 2], "force": [3, 4, 5]}', ("no displacement", "--column velocity")),
    "prose": (
        b"The shock was tested on Tuesday.\nIt felt soft in rebound.\n" * 5,
        ("no table of numbers", "--delimiter"),
    ),
    "header only": ((HEADER + "\n").encode(), ("no rows of numbers",)),
    "one row": (file(body=rows()[:1]), ("only 1 row", "at least")),
    "no header": (file(header="")[1:], ("no line that names them", "--column force=3")),
    "no force": (file("Time [s],Disp [mm],Velocity [mm/s],Level [%]"), ("no force column", "--column force=NAME")),
    "no motion": (
        file("Time [s],Level [%],Part [%],Force [N]"),
        ("no velocity and no displacement", "--column velocity="),
    ),
    "unknown unit": (file("Time [s],Disp [mm],Velocity [mm/s],Force [stone]"), ("'stone'", "--unit force=UNIT")),
    "unit of another kind": (file("Time [s],Disp [mm],Velocity [mm/s],Force [mm]"), ("force", "--")),
    "no force unit": (file("Time [s],Disp [mm],Velocity [mm/s],Force"), ("force has no unit", "--unit force=UNIT")),
    "no peak units": (file("Velocity,Compression,Rebound", PEAKS), ("velocity has no unit", "--unit velocity=UNIT")),
    "no unit of motion": (file("Time [s],Disp,Velocity,Force [N]"), ("has no unit", "--unit")),
    "unit wrong by 1000": (
        file("Time [s],Disp [mm],Velocity [m/s],Force [N]"),
        ("one unit is wrong", "--unit velocity="),
    ),
    "unit wrong by 25.4": (
        file("Time [s],Disp [mm],Velocity [in/s],Force [N]"),
        ("one unit is wrong", "--unit velocity="),
    ),
    "stuck force": (file(body=rows(f=ZERO + 12)), ("stands at one value", "stuck", "--column force=")),
    "stuck displacement": (file(body=rows(x=ZERO)), ("displacement stands at one value", "stuck")),
    "time stands still": (file(body=rows(t=ZERO)), ("time stands still", "--rate")),
    "time is noise": (
        file(body=rows(t=np.random.default_rng(1).normal(size=len(T)))),
        ("time runs backwards", "--column time="),
    ),
    "impossible force": (
        file("Time [s],Disp [mm],Velocity [mm/s],Force [kN]", rows(f=F * 1000)),
        ("more than any dyno", "--unit force="),
    ),
    "more than a number in a cell": (swapped(100, "0.5000,0.0,1.0,12x7"), ("line 102", "12x7")),
    "decimal comma in one line": (swapped(100, "0,5000;0,0;1,0;2,0"), ("line 102", "0,5000;0,0")),
    "two forces": (file("Time [s],Disp [mm],Force A [N],Force B [N]"), ("force could be", "--column force=NAME")),
    "no rate": (file("Disp [mm],Force [N]", rows("{x:.3f},{f:.1f}")), ("cannot be derived", "--rate")),
    "split decimals": (
        file("t [s],x [mm],F [N]", [r.replace(".", ",") for r in rows("{t:.3f},{x:.3f},{f:.1f}")]),
        ("6 cells under 3 names", "semicolons"),
    ),
    "mostly missing": (
        file(body=[r if i * i % 11 < 3 else r.rsplit(",", 1)[0] + ",NaN" for i, r in enumerate(rows())]),
        ("only 110 of 400 rows", "force"),
    ),
    "torn rows": (
        file(body=[r if i % 9 else r.rsplit(",", 1)[0] for i, r in enumerate(rows())]),
        ("line", "wanted 4 cells"),
    ),
    "torn peak table": (
        file("Velocity [mm/s],Compression [N],Rebound [N]", [*PEAKS[:2], "150,500", *PEAKS[2:]]),
        ("line 4", "wanted 3 cells"),
    ),
    "peaks without velocity": (file("RPM,Comp [N],Reb [N]", PEAKS), ("no velocity column", "--column velocity=NAME")),
    "two directions twice": (
        file("Velocity [mm/s],Upper Comp [N],Lower Comp [N]", PEAKS),
        ("compression could be", "--column compression=NAME"),
    ),
    "bare clicks": (file("Velocity [mm/s],0,4,8", ["50,1,2,3", "100,2,3,4", "200,3,4,5"]), ("clicks", "LSC 4")),
    "half clicks": (
        file("LSC,Velocity [mm/s],Force [N]", ["2.5,100,200", "2.5,200,300", "2.5,-100,-200", "2.5,-200,-400"]),
        ("whole number of clicks",),
    ),
    "direction in riddles": (
        file("Direction,Velocity [mm/s],Force [N]", ["blue,100,200", "red,100,300", "blue,200,400"]),
        ("names no direction",),
    ),
}
