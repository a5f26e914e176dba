"""A fourth handful: runs of one shock beside one another, titles that say it all, old encodings, coarse clocks."""

from __future__ import annotations

import io
import json
from collections.abc import Sequence
from typing import Any

import numpy as np

from tests.importers.strangers.making import (
    KGF,
    SPEEDS,
    File,
    Floats,
    both,
    file,
    moved,
    peaks,
    rows,
    stroke,
    trace,
)

MM = SPEEDS * 1e3
RUNS = "runs of"


def _scaled(share: float, **more: Any) -> dict[str, Any]:
    """Return what a table with that share of the usual forces must be read as."""
    b, r = both()
    top = float(SPEEDS.max())
    return {"layout": "peaks", "comp": (top, share * float(b.max())), "reb": (top, share * float(r.max())), **more}


def _table(name: str, above: Sequence[str], head: str, **truth: Any) -> File:
    b, r = both()
    return file(name, [*above, head, *rows([MM, b, r], 1)], peaks(**truth))


def runs_counted_at_the_columns() -> File:
    """ "Comp 1, Comp 2" are the first and the second run, no clicks."""
    b, r = both()
    lines = ["Speed (mm/s),Comp 1 (N),Comp 2 (N),Reb 1 (N),Reb 2 (N)", *rows([MM, b, 0.9 * b, r, 0.9 * r], 1)]
    said = {"clicks": {}, "must_warn": RUNS}
    return file("repeat RL-03.csv", lines, _scaled(1.0, shock="RL-03", **said), _scaled(0.9, shock="RL-03", **said))


def runs_over_the_columns() -> File:
    b, r = both()
    lines = ["Shock,RL-03", ",Run 1,,Run 2,", "Velocity (mm/s),Comp (N),Reb (N),Comp (N),Reb (N)"]
    table = rows([MM, b, r, 0.9 * b, 0.9 * r], 1)
    return file("g.csv", [*lines, *table], _scaled(1.0, shock="RL-03"), _scaled(0.9, shock="RL-03", must_warn=RUNS))


def left_and_right_with_the_unit_in_the_title() -> File:
    b, r = both()
    lines = ["Rear axle check (N)", "Speed mm/s,Left Comp,Left Reb,Right Comp,Right Reb"]
    table = rows([MM, b, r, 0.9 * b, 0.9 * r], 1)
    return file("axle.csv", [*lines, *table], _scaled(1.0, shock="Left"), _scaled(0.9, shock="Right"))


def clicks_of_one_setting_over_their_columns() -> File:
    """A line of facts that stands over the columns by chance: the setting of the run, no click positions."""
    b, r = both()
    lines = ["DYNO SHEET            Kestrel          Oct 9, 2025", "Damper no: 12         C: 8   R: 10", "",
             "  Speed    Compression   Rebound", "  mm/s     N             N"]  # fmt: skip
    table = [f"  {v:5.0f}   {c:9.1f}   {s:9.1f}" for v, c, s in zip(MM, b, r, strict=True)]
    return file("fixed.txt", [*lines, *table], peaks(clicks={"c": 8, "r": 10}, date="2025-10-09"))


def sections_of_speeds_across() -> File:
    b, r = both()
    head = "clicks," + ",".join(f"{v:.0f} mm/s" for v in MM)
    down = {way: [",".join([str(n), *(f"{k * f:.1f}" for f in force)]) for n, k in ((0, 1.0), (5, 0.9))]
            for way, force in (("COMPRESSION (N)", b), ("REBOUND (N)", r))}  # fmt: skip
    lines = [line for title, table in down.items() for line in (title, head, *table, "")]
    at = [{"c": n, "r": n} for n in (0, 5)]
    return file("matrix.csv", lines, _scaled(1.0, clicks=at[0], must_warn="both knobs"), _scaled(0.9, clicks=at[1]))


def setting_in_cells_above_the_columns() -> File:
    """As many cells as the table has columns, and no group of columns any of them."""
    return _table("hs.csv", ["LSC 5, HSC 2, LSR 9"], "Velocity mm/s,Compression N,Rebound N",
                  clicks={"lsc": 5, "hsc": 2, "lsr": 9})  # fmt: skip


def shocks_named_above_their_blocks() -> File:
    b, r = both()
    lines = [line for name, k in (("FL-21", 1.0), ("FR-22", 0.9))
             for line in (name, "V(mm/s)\tC(N)\tR(N)", *rows([MM, k * b, k * r], 1, "\t"), "")]  # fmt: skip
    return file("pair.txt", ["Kestrel, front", "", *lines], _scaled(1.0, shock="FL-21"), _scaled(0.9, shock="FR-22"))


def one_shock_of_a_set() -> File:
    return _table("set.csv", ["Shock 3 of 4", "Serial,K-104"], "mm/s,Comp N,Reb N", shock="K-104")


def unit_only_in_a_title_in_portuguese() -> File:
    b, r = both(unit=KGF)
    lines = ["Ensaio de amortecedor - forças em kgf", "Velocidade (m/s);Compressão;Extensão"]
    return file("e.csv", [*lines, *rows([SPEEDS, b, r], 3, ";", ",")], peaks())


def day_alone_in_a_comment() -> File:
    return _table("d.csv", ["# 11/14/2025 2:33 PM"], "Speed mm/s,Comp N,Reb N", date="2025-11-14")


def day_behind_its_word_in_spanish() -> File:
    above = ["Amortiguador DI-3; fecha 7 de octubre de 2025"]
    return _table("d.csv", above, "Velocidad (mm/s),Compresión (N),Extensión (N)", date="2025-10-07")


def crank_with_its_stroke_in_the_title() -> File:
    b, r = both()
    rpm = SPEEDS / (np.pi * 0.05) * 60
    lines = ["Crank rig, stroke 50 mm", "RPM,Comp N,Reb N", *rows([rpm, b, r], (4, 1, 1))]
    return file("crank.csv", lines, peaks(must_warn="sine crank"))


def a_word_for_time_with_the_unit_of_speed() -> File:
    return _table("tempo.csv", [], "Tempo mm/s,Druck N,Zug N")


def pack_named_beside_its_valving() -> File:
    return _table("v.csv", ["Valving: 1.10/0.15 stack 4", "Pack: gravel"], "Speed mm/s,Comp N,Reb N", pack="gravel")


def rebound_and_compression_apart_in_json() -> File:
    b, r = both()
    ways = {
        way: {"velocity_mm_s": MM.tolist(), "force_N": f.tolist()} for way, f in (("compression", b), ("rebound", r))
    }
    return File("two.json", json.dumps({"shock": "FL-09", **ways}).encode(), (peaks(shock="FL-09"),))


def units_beside_the_data_in_json() -> File:
    b, r = both()
    held = {"meta": {"shock": "FR-09", "clicks": {"lsc": 3, "lsr": 7}},
            "units": {"velocity": "mm/s", "compression": "N", "rebound": "N"},
            "data": {"velocity": MM.tolist(), "compression": b.tolist(), "rebound": (-r).tolist()}}  # fmt: skip
    return File("u.json", json.dumps(held).encode(), (peaks(shock="FR-09", clicks={"lsc": 3, "lsr": 7}),))


def one_json_value_a_line() -> File:
    s = stroke()
    lines = [json.dumps({"t": round(t, 5), "x_mm": round(x * 1e3, 4), "F_N": round(f, 3)})
             for t, x, f in zip(s.t.tolist(), s.x.tolist(), s.f.tolist(), strict=True)]  # fmt: skip
    return file("s.jsonl", lines, trace(s))


def polish_of_an_old_code_page() -> File:
    return _old("Prędkość [m/s];Siła ściskania [N];Siła rozciągania [N]", "cp1250")


def russian_of_an_old_code_page() -> File:
    return _old("Скорость, м/с;Сжатие, Н;Отбой, Н", "cp1251")


def chinese_of_an_old_code_page() -> File:
    return _old("速度(m/s);压缩力(N);复原力(N)", "gb18030")


def japanese_of_an_old_code_page() -> File:
    return _old("速度(m/s);縮み側(N);伸び側(N)", "shift_jis")


def _old(head: str, encoding: str) -> File:
    b, r = both()
    return file("old.csv", [head, *rows([SPEEDS, b, r], 2, ";")], peaks(), encoding=encoding)


def clock_of_whole_seconds() -> File:
    """A logger that stamps whole seconds only, with its rate in a line."""
    s = stroke(seconds=4.0)
    stamps = [f"10:12:{33 + int(t):02d}" for t in s.t]
    table = [f"{t},{x * 1e3:.4f},{f:.2f}" for t, x, f in zip(stamps, s.x, s.f, strict=True)]
    return file("w.csv", ["Sample rate: 400 Hz", "Time,Disp mm,Force N", *table], trace(s, must_warn="repeat the time"))


def load_cell_that_was_not_zeroed() -> File:
    """No gas, and 85 N that the cell shows of itself: which way they push tells nothing of the rig's signs."""
    s = stroke()
    bare = moved(s.t, 0 * s.x, s.v).f - 160
    shown = s._replace(f=bare - 85.0)
    truth = {"layout": "trace", "must_warn": "not zeroed"}
    return file("z.csv", ["Time s,Disp mm,Force N", *rows([s.t, s.x * 1e3, shown.f], 4)], truth)


def voltages_beside_what_they_mean() -> File:
    s = stroke()
    columns: list[Floats] = [s.t * 1e3, 2.5 + 50 * s.x, 2.5 + s.f / 500, s.x * 1e3, s.f]
    return file("v.csv", ["t_ms,pos_V,load_V,pos_mm,load_N", *rows(columns, 4)], trace(s))


def empty_row_above_the_footer() -> File:
    s = stroke()
    foot = [";;", f"Min;{s.x.min() * 1e3:.3f};{s.f.min():.1f}", f"Max;{s.x.max() * 1e3:.3f};{s.f.max():.1f}"]
    return file("f.csv", ["Time [s];Disp [mm];Force [N]", *rows([s.t, s.x * 1e3, s.f], 4, ";"), *foot], trace(s))


def scale_row_that_changes_nothing() -> File:
    s = stroke()
    table = [f"D,{t:.4f},{x * 1e3:.4f},{f:.3f}" for t, x, f in zip(s.t, s.x, s.f, strict=True)]
    return file("l.csv", ["Name,Time,Pos,Load", "Unit,[s],[mm],[N]", "Scale,1,1,1", *table], trace(s))


def labels_listed_with_what_they_are() -> File:
    s = stroke()
    above = ["Ch0 = Force (N)", "Ch1 = Position (mm)", "Ch2 = Time (s)", "Ch0,Ch1,Ch2"]
    return file("ch.txt", [*above, *rows([s.f, s.x * 1e3, s.t], 4)], trace(s))


def card_of_the_shock_on_a_sheet_of_its_own() -> File:
    import openpyxl

    b, r = both()
    book = openpyxl.Workbook()
    sheets = [("Info", [["Kestrel", "gravel pack"], ["Shock", "RL-02"]])]
    sheets += [(f"C{n} R{n}", [["Velocity mm/s", "Compression N", "Rebound N"],
                *([v, k * c, k * s] for v, c, s in zip(MM.tolist(), b.tolist(), r.tolist(), strict=True))])
               for n, k in ((4, 1.0), (10, 0.9))]  # fmt: skip
    for title, lines in sheets:
        sheet = book.create_sheet(title)
        for line in lines:
            sheet.append(line)
    book.remove(book.worksheets[0])
    out = io.BytesIO()
    book.save(out)
    truth = [_scaled(k, shock="RL-02", clicks={"c": n, "r": n}) for n, k in ((4, 1.0), (10, 0.9))]
    return File("clicks.xlsx", out.getvalue(), tuple(truth))
