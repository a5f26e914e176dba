"""A seventh handful: extremes and differences beside, joined cells, pairs of clicks across, clicks against others."""

from __future__ import annotations

import numpy as np

from tests.importers.strangers.making import SPEEDS, File, both, file, peaks, rows, stroke, trace

MM = SPEEDS * 1e3
HEAD = "Speed (mm/s),Comp (N),Reb (N)"


def _card(name: str, *above: str, **truth: object) -> File:
    return file(name, [*above, HEAD, *rows([MM, *both()], 1)], peaks(**truth))


def differences_beside() -> File:
    b, r = both()
    head = "Speed mm/s,Comp N,Reb N,Δ Comp N,Δ Reb N"
    return file("diff.csv", [head, *rows([MM, b, r, 0.02 * b, 0.02 * r], 1)], peaks())


def lowest_and_highest_beside() -> File:
    b, r = both()
    head = "Speed mm/s,Comp min N,Comp N,Comp max N,Reb min N,Reb N,Reb max N"
    return file("spec.csv", [head, *rows([MM, 0.9 * b, b, 1.1 * b, 0.9 * r, r, 1.1 * r], 1)], peaks())


def means_beside_numbered_runs() -> File:
    b, r = both()
    head = "Speed mm/s,Run 1 Comp N,Run 1 Reb N,Run 2 Comp N,Run 2 Reb N,Avg Comp N,Avg Reb N"
    return file("runs.csv", [head, *rows([MM, 0.9 * b, 0.9 * r, 1.1 * b, 1.1 * r, b, r], 1)], peaks())


def speeds_in_joined_cells() -> File:
    b, r = both()
    lines = ["Speed mm/s,Direction,Force N"]
    for v, x, y in zip(MM, b, r, strict=True):
        lines += [f"{v:.0f},Comp,{x:.1f}", f",Reb,{y:.1f}"]
    return file("joined.csv", lines, peaks(must_warn="joined cells"))


def pairs_of_clicks_across() -> File:
    lines = ["Clicks C/R,0/0,0/0,8/8,8/8", "Speed mm/s,Comp N,Reb N,Comp N,Reb N"]
    lines += rows([MM, *both(0, 0), *both(8, 8)], 1)
    return file("pivot.csv", lines, *(peaks(n, n, clicks={"c": n, "r": n}) for n in (0, 8)))


def a_knob_held() -> File:
    lines = ["R fixed at 8"]
    for n in (2, 10):
        lines += [f"C = {n}", HEAD, *rows([MM, *both(n, 8)], 1), ""]
    return file("held.csv", lines, *(peaks(n, 8, clicks={"c": n, "r": 8}) for n in (2, 10)))


def clicks_against_a_baseline() -> File:
    return _card("ref.csv", "Setting relative to baseline: C +2, R -1", clicks={}, must_warn="against another setting")


def pack_before_its_word() -> File:
    return _card("at.csv", "Shock RL-02 gravel pack at C6/R8", shock="RL-02", pack="gravel", clicks={"c": 6, "r": 8})


def noughts_in_the_other_direction() -> File:
    s = stroke()
    halves = np.maximum(s.f, 0), np.maximum(-s.f, 0)
    head = "Time (s),Pos (mm),Comp force (N),Reb force (N)"
    body = rows([s.t, 1e3 * s.x, *halves], [4, 3, 1, 1])
    return file("halves.csv", [head, *body], trace(s, must_warn="taken as one force"))


def corners_over_their_blocks() -> File:
    b, r = both()
    lines, sweeps = [], []
    for corner, share in (("LF", 1.0), ("RF", 0.9)):
        lines += [f"Corner: {corner}", HEAD, *rows([MM, share * b, share * r], 1), ""]
        top = float(SPEEDS.max())
        found = {"comp": (top, share * float(b.max())), "reb": (top, share * float(r.max()))}
        sweeps.append({"layout": "peaks", "shock": corner, **found})
    return file("car.csv", lines, *sweeps)


def dimensions_are_no_names() -> File:
    return _card("size.csv", "Shock body 46 mm, shaft 14 mm, stroke 120 mm", shock=None, clicks={})


def packs_and_shocks_by_number() -> File:
    told = {"shock": "12", "pack": "3", "clicks": {"c": 8, "r": 10}}
    return _card("no.csv", "Pack no. 3", "Shock no. 12", "C:8 R:10", **told)
