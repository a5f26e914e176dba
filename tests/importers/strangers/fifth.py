"""A fifth handful: blocks in a grid, knobs in pairs, titles between marks, channels in tables, tests of gas beside."""

from __future__ import annotations

import json
from typing import Any

import numpy as np

from tests.importers.strangers.making import LBF, SPEEDS, File, Floats, both, damping, file, peaks, rows, stroke, trace

MM = SPEEDS * 1e3
HEAD = "Speed (mm/s),Comp (N),Reb (N)"


def _scaled(share: float, **more: Any) -> dict[str, Any]:
    """Return what a table with that share of the usual forces must be read as."""
    b, r = both()
    top = float(SPEEDS.max())
    return {"layout": "peaks", "comp": (top, share * float(b.max())), "reb": (top, share * float(r.max())), **more}


def _block(share: float = 1.0, sep: str = ",") -> list[str]:
    b, r = both()
    return rows([MM, share * b, share * r], 1, sep)


def tables_in_a_grid() -> File:
    lines, sweeps = [], []
    for left, right, share in (("FL-01", "FR-02", 1.0), ("RL-03", "RR-04", 0.8)):
        lines += [f"{left},,,,{right},,", f"{HEAD},,{HEAD}"]
        beside = zip(_block(share), _block(0.9 * share), strict=True)
        lines += [*(f"{one},,{other}" for one, other in beside), ",,,,,,"]
        sweeps += [_scaled(share, shock=left), _scaled(0.9 * share, shock=right)]
    return file("four corners.csv", lines, *sweeps)


def direction_over_clicks() -> File:
    lines = []
    sweeps = [peaks(n, n, clicks={"c": n, "r": n}, must_warn="both knobs") for n in (0, 6, 12)]
    for way in ("Compression", "Rebound"):
        lines += [f"{way} (N)", "Speed (mm/s),0 clicks,6 clicks,12 clicks"]
        found = [both(n, n)[way == "Rebound"] for n in (0, 6, 12)]
        lines += [*rows([MM, *found], 1), ""]
    return file("series.csv", lines, *sweeps)


def knobs_in_pairs() -> File:
    head = "Speed (mm/s)," + ",".join(f"Comp @ {n} clicks (N),Reb @ {n} clicks (N)" for n in (0, 8))
    columns = [force for n in (0, 8) for force in both(n, n)]
    sweeps = [peaks(n, n, clicks={"c": n, "r": n}, must_warn="one run") for n in (0, 8)]
    return file("at clicks.csv", [head, *rows([MM, *columns], 1)], *sweeps)


def directions_and_speeds_in_a_word() -> File:
    speeds = np.array([0.05, 0.1, 0.25])
    lines = ["Forces in N at mm/s", "Shock;C50;C100;C250;R50;R100;R250"]
    for shock, share in (("FL-01", 1.0), ("FR-01", 0.9)):
        forces = np.concatenate([damping(speeds), -damping(-speeds)]) * share
        lines.append(";".join([shock, *(f"{f:.1f}" for f in forces)]))
    top = (damping(speeds).max(), -damping(-speeds).min())
    sweeps = [
        {"layout": "peaks", "shock": shock, "comp": (0.25, share * top[0]), "reb": (0.25, share * top[1])}
        for shock, share in (("FL-01", 1.0), ("FR-01", 0.9))
    ]
    return file("words.csv", lines, *sweeps)


def titles_between_marks() -> File:
    lines = [
        line
        for shock, share in (("RL-02", 1.0), ("RR-02", 0.9))
        for line in (f"*** {shock} ***", "Speed mm/s   Comp N   Reb N", *_block(share, "   "), "")
    ]
    return file("framed.txt", lines, _scaled(1.0, shock="RL-02"), _scaled(0.9, shock="RR-02"))


def shocks_as_keys_in_json() -> File:
    b, r = both()
    found = {
        shock: {"speed_mm_s": list(MM), "compression_N": list(share * b), "rebound_N": list(share * r)}
        for shock, share in (("RL-02", 1.0), ("RR-02", 0.9))
    }
    return file("pair.json", [json.dumps(found)], _scaled(1.0, shock="RL-02"), _scaled(0.9, shock="RR-02"))


def units_in_a_head_in_json() -> File:
    s = stroke()
    head = {"shock": "RL-02", "units": {"x": "mm", "f": "N", "t": "s"}}
    body = [{"t": t, "x": 1e3 * x, "f": f} for t, x, f in zip(s.t, s.x, s.f, strict=True)]
    return file("rec.json", [json.dumps({"meta": head, "samples": body})], trace(s, shock="RL-02"))


def table_of_channels() -> File:
    s = stroke()
    above = ["Kanal\tName\tEinheit\tFaktor", "1\tZeit\ts\t1", "2\tWeg\tmm\t1", "3\tKraft\tN\t1", "Daten"]
    return file("messung.asc", [*above, *_numbers(s.t, s.x * 1e3, s.f, sep="\t", decimal=",")], trace(s))


def section_of_channels() -> File:
    s = stroke()
    above = ["[Info]", "Logger=four channel", "[Channels]", "No,Name,Unit,Range", "1,Time,s,0..100"]
    above += ["2,Stroke,mm,-50..50", "3,Load,N,-5000..5000", "[Data]"]
    return file("logger.txt", [*above, *_numbers(s.t, s.x * 1e3, s.f)], trace(s))


def one_count_is() -> File:
    s = stroke()
    above = ["# encoder: 1 count = 0.005 mm", "# load cell: 1 count = 0.25 N", "# sample rate 400 Hz"]
    return file("counts.csv", [*above, "pos_counts,load_counts", *rows([s.x / 5e-6, s.f * 4], 0)], trace(s))


def the_shocks_own_sensor() -> File:
    s = stroke()
    head = "Time (s),Actuator LVDT (mm),Shock Position (mm),Load (lbf)"
    return file("lvdt.csv", [head, *_numbers(s.t, 1010 * s.x, 1e3 * s.x, s.f / LBF)], trace(s))


def raw_beside_filtered() -> File:
    s = stroke()
    head = "Time (s);Position (mm);Force raw (N);Force filtered (N)"
    late = np.concatenate([s.f[:2], s.f[:-2]])
    return file("filter.csv", [head, *_numbers(s.t, 1e3 * s.x, s.f, late, sep=";")], trace(s))


def gas_test_above() -> File:
    above = ["GAS TEST", "Position (mm),Force (N)", "0,140", "25,170", "50,205", "", "DAMPING TEST", HEAD]
    return file("gas.csv", [*above, *_block()], _scaled(1.0, must_warn="left out"))


def friction_test_above() -> File:
    above = ["Friction test", "Speed (mm/s);Force up (N);Force down (N)", "2;18;22", "5;19;23", "", "Damper test"]
    return file("friction.csv", [*above, HEAD.replace(",", ";"), *_block(sep=";")], _scaled(1.0, must_warn="left out"))


def temperature_of_each_run() -> File:
    lines = ["Run,Temp (°C),Speed (mm/s),Comp (N),Reb (N)"]
    lines += [f"cold,18,{row}" for row in _block()] + [f"hot,64,{row}" for row in _block(0.9)]
    return file("warm.csv", lines, _scaled(1.0, temperature_c=18.0), _scaled(0.9, temperature_c=64.0))


def corners_down_the_side() -> File:
    b, r = both()
    lines = ["Corner,Direction,Speed mm/s,Force N"]
    for corner, share in (("LF", 1.0), ("RF", 0.9)):
        for way, forces in (("Compression", b), ("Rebound", r)):
            lines += [f"{corner},{way},{v:.0f},{share * f:.1f}" for v, f in zip(MM, forces, strict=True)]
    return file("corners.csv", lines, _scaled(1.0, shock="LF"), _scaled(0.9, shock="RF"))


def _numbers(*columns: Floats, sep: str = ",", decimal: str = ".") -> list[str]:
    return rows(columns, 4, sep, decimal)
