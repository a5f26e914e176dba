"""A sixth handful: missing cells set out by blanks, pads of loggers, keys that blanks set apart, sections, tags."""

from __future__ import annotations

import numpy as np

from tests.importers.strangers.making import SPEEDS, File, both, damping, file, peaks, rows, stroke, trace

MM = SPEEDS * 1e3
HEAD = "Speed (mm/s),Comp (N),Reb (N)"


def _card(name: str, *above: str, **truth: object) -> File:
    return file(name, [*above, HEAD, *rows([MM, *both()], 1)], peaks(**truth))


def cells_missing_between_blanks() -> File:
    lines = ["  VELOCITY   COMP    REB   TEMP", "    MM/S       N      N      C"]
    for at, (v, b, r) in enumerate(zip(MM, *both(), strict=True)):
        lines.append(f"{v:10.1f}{b:8.1f}{r:7.1f}" + (f"{30 + at:7.1f}" if at % 2 else ""))
    return file("fw.prn", lines, peaks())


def compression_plus_in_brackets() -> File:
    v = np.concatenate([SPEEDS, -SPEEDS])
    return file("neg.csv", ["Velocity mm/s (compression +);Force N", *rows([1e3 * v, damping(v)], 1, ";")], peaks())


def so_many_of_so_many() -> File:
    return _card("total.csv", "LSC 6 of 20, LSR 8/20", clicks={"lsc": 6, "lsr": 8})


def units_as_a_system_in_brackets() -> File:
    s = stroke()
    body = rows([s.t, 1e3 * s.x, s.f], [4, 3, 1], ";")
    return file("metric.csv", ["Units;Metric (mm, N, s)", "Time;Position;Force", *body], trace(s))


def a_column_of_events() -> File:
    s = stroke()
    body = rows([s.t, 1e3 * s.x, s.f], [4, 3, 1])
    body[200] += ",Mark 1"
    body[700] += ",Mark 2"
    return file("mark.csv", ["Time (s),Pos (mm),Force (N),Event", *body], trace(s))


def force_by_clicks_in_titles() -> File:
    lines = []
    sweeps = [peaks(n, n, clicks={"c": n, "r": n}, must_warn="both knobs") for n in (0, 4, 8)]
    for way, key in (("Bump", "c"), ("Rebound", "r")):
        lines += [f"{way} (N) by clicks", "mm/s,0 clk,4 clk,8 clk"]
        lines += [*rows([MM, *(both(n, n)[key == "r"] for n in (0, 4, 8))], 1), ""]
    return file("matrix.csv", lines, *sweeps)


def keys_that_blanks_set_apart() -> File:
    told = {"shock": "FL-03", "pack": "mixed", "clicks": {"lsc": 6, "lsr": 8}}
    return _card("keys.csv", "# shock=FL-03 pack=mixed lsc=6 lsr=8", **told)


def colons_that_blanks_set_apart() -> File:
    told = {"shock": "FL-03", "pack": "mixed", "clicks": {"c": 6, "r": 8}}
    return _card("colons.csv", "Damper: FL-03 Valving: mixed Comp: 6 Reb: 8", **told)


def sections_of_names() -> File:
    above = ["[Shock]", "Name=FL-03", "Pack=mixed", "[Setting]", "Compression=6", "Rebound=8", "[Data]"]
    return _card("t.ini", *above, shock="FL-03", pack="mixed", clicks={"c": 6, "r": 8})


def names_between_tags() -> File:
    return _card("tags.txt", "<shock>FL-03</shock>", "<clicks c=6 r=8>", shock="FL-03", clicks={"c": 6, "r": 8})


def zeros_behind_the_text() -> File:
    s = stroke()
    made = file("pad.csv", ["Time (s),Pos (mm),Force (N)", *rows([s.t, 1e3 * s.x, s.f], [4, 3, 1])], trace(s))
    return made._replace(data=made.data + bytes(512))


def force_in_tens_of_newtons() -> File:
    s = stroke()
    body = rows([s.t, 1e3 * s.x, s.f / 10], [4, 3, 3], ";")
    return file("x10.csv", ["Time [s];Weg [mm];Kraft [x10 N]", *body], trace(s, must_warn="multiplied by 10"))


def ticks_of_a_tenth_of_a_millisecond() -> File:
    s = stroke()
    body = rows([s.t * 1e4, 1e3 * s.x, s.f], [0, 3, 1])
    return file("tick.csv", ["Time (0.1 ms),Pos (mm),Force (N)", *body], trace(s, must_warn="multiplied by 0.1"))


def hundredths_of_a_millimetre() -> File:
    s = stroke()
    body = rows([s.t, s.x * 1e5, s.f], [4, 0, 1])
    return file("hun.csv", ["Time (s),Pos (1/100 mm),Force (N)", *body], trace(s, must_warn="multiplied by 0.01"))


def signs_at_the_force_alone() -> File:
    b, r = both()
    lines = [f"{v:.1f};{f:.1f}" for v, x, y in zip(MM, b, r, strict=True) for f in (x, -y)]
    return file("signs.csv", ["Velocity (mm/s);Force (N)", *lines], peaks(must_warn="compression was assumed"))


def opening_and_closing_in_short() -> File:
    b, r = both()
    head = "Speed mm/s,C open N,C close N,R open N,R close N"
    return file("oc.csv", [head, *rows([MM, 1.03 * b, 0.97 * b, 1.03 * r, 0.97 * r], 1)], peaks(must_warn="mean of"))


def phases_of_a_run() -> File:
    warm, test = stroke(0.8), stroke()
    lines = [
        f"{phase},{row}"
        for phase, s in (("warmup", warm), ("test", test))
        for row in rows([s.t, 1e3 * s.x, s.f], [4, 3, 1])
    ]
    return file("warm.csv", ["Phase,Time (s),Pos (mm),Force (N)", *lines], trace(warm), trace(test))
