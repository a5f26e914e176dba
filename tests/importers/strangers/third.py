"""A third handful: words of other languages, cells that mislead, several things in one file."""

from __future__ import annotations

import numpy as np

from tests.importers.strangers.making import IN, KGF, LBF, SPEEDS, File, both, damping, file, peaks, rows, stroke, trace

MM = SPEEDS * 1e3
HEAD = "Velocity [mm/s],Comp [N],Reb [N]"


def _card(name: str, above: list[str], **truth: object) -> File:
    b, r = both()
    return file(name, [*above, HEAD, *rows([MM, b, r], 1)], peaks(**truth))


def settings_in_a_key_line() -> File:
    return _card("k.csv", ["Settings; LSC; HSC; LSR; HSR", "Clicks out; 6; 10; 8; 12"],
                 clicks={"lsc": 6, "hsc": 10, "lsr": 8, "hsr": 12})  # fmt: skip


def clicks_behind_colons() -> File:
    return _card("c.csv", ["LSC:6 HSC:10 LSR:8 HSR:12"], clicks={"lsc": 6, "hsc": 10, "lsr": 8, "hsr": 12})


def clicks_by_arrow() -> File:
    """Somebody changed the setting and noted both."""
    return _card("a.csv", ["LSC 6 -> 8", "LSR 8"], clicks={"lsr": 8}, must_warn="6")


def fully_closed_in_words() -> File:
    return _card("f.csv", ["LSC: closed", "LSR: 8 clicks"], clicks={"lsc": 0, "lsr": 8})


def a_temperature_of_the_room() -> File:
    return _card("room.csv", ["Room temp: 21 C", "Oil temp: 45 C"], temperature_c=45.0)


def a_temperature_without_unit() -> File:
    return _card("nounit.csv", ["Temp: 104"], temperature_c=None, must_warn="has no unit")


def gas_charge_in_psi_below_the_table() -> File:
    b, r = both()
    foot = ["", "Gas: 150 psi", "Oil: 5 wt"]
    return file("below.csv", [HEAD, *rows([MM, b, r], 1), *foot], peaks(gas_pressure_pa=150 * 6894.757))


def serial_that_looks_like_clicks() -> File:
    return _card("ser.csv", ["Serial: C12R08-3"], clicks={}, shock="C12R08-3")


def spring_rate_is_no_setting() -> File:
    return _card("sp.csv", ["Spring: 60 N/mm", "Comp shim 20 mm", "Reb shim 18 mm"], clicks={})


def tyre_pressure_is_no_gas() -> File:
    return _card("ty.csv", ["Tyre pressure: 1.8 bar"], gas_pressure_pa=None)


def french() -> File:
    b, r = both(unit=10)
    head = ["Température huile : 40 °C", "Date d'essai : 14 mars 2026", "Vitesse (m/s);Compression (daN);Détente (daN)"]
    return file(
        "fr.csv",
        head + rows([SPEEDS, b, r], 3, ";", ","),
        peaks(temperature_c=40.0, date="2026-03-14"),
        encoding="cp1252",
    )


def spanish_clicks() -> File:
    b, r = both()
    head = ["Compresión: 6 clics; Rebote: 8 clics", "Velocidad (mm/s);Compresión (N);Rebote (N)"]
    return file("es.csv", head + rows([MM, b, r], 1, ";", ","), peaks(clicks={"c": 6, "r": 8}))


def german_trace() -> File:
    s = stroke()
    head = ["Druckstufe: 6 Klicks", "Zugstufe: 8 Klicks", "Zeit/ms;Kolbenweg/mm;Dämpferkraft/N"]
    return file("de.csv", head + rows([s.t * 1e3, s.x * 1e3, s.f], 3, ";", ","), trace(s, clicks={"c": 6, "r": 8}))


def zug_positive() -> File:
    s = stroke()
    head = ["Zug positiv", "Zeit [s];Weg [mm];Kraft [N]"]
    return file("zug.csv", head + rows([s.t, -s.x * 1e3, -s.f], 4, ";", ","), trace(s))


def three_runs_by_column() -> File:
    s, lines = stroke(), ["Run,Time [s],Disp [mm],Force [N]"]
    for run in (1, 2, 3):
        lines += [f"{run},{line}" for line in rows([s.t, s.x * 1e3, s.f], 4)]
    return file("runs.csv", lines, trace(s), trace(s), trace(s))


def cycles_numbered() -> File:
    s = stroke()
    cycle = 1 + (s.t * 1.6).astype(int)
    body = [f"{n},{line}" for n, line in zip(cycle, rows([s.t, s.x * 1e3, s.f], 4), strict=True)]
    return file("cyc.csv", ["Cycle,Time [s],Disp [mm],Force [N]", *body], trace(s))


def force_over_range() -> File:
    """A cell that rails at its end."""
    s = stroke()
    f = np.minimum(s.f, 700.0)
    truth = trace(s._replace(f=f), must_warn="700")
    return file("rail.csv", ["Time [s],Disp [mm],Force [N]", *rows([s.t, s.x * 1e3, f], 4)], truth)


def kilonewtons_without_saying() -> File:
    """A header of N over numbers that can only be kN stays N: a warning is due, no silent thousand."""
    s = stroke()
    return file("kn.csv", ["Time [s],Disp [mm],Force [kN]", *rows([s.t, s.x * 1e3, s.f / 1e3], 6)], trace(s))


def speed_steps_in_words() -> File:
    b, r = both()
    body = [f"{v:g} in/s;{x / LBF:.1f};{y / LBF:.1f}" for v, x, y in zip(np.round(SPEEDS / IN, 3), b, r, strict=True)]
    return file("st.csv", ["Test speed;Compression lbf;Rebound lbf", *body], peaks())


def kgf_glued() -> File:
    b, r = both(unit=KGF)
    return file("gl.csv", ["v(m/s),Fc(kgf),Fr(kgf)", *rows([SPEEDS, b, r], (3, 3, 3))], peaks())


def two_shocks_trace_beside() -> File:
    a, z = stroke(c=4, r=4), stroke(c=12, r=12)
    head = "Time [s],L disp [mm],L force [N],R disp [mm],R force [N]"
    return file("lr.csv", [head, *rows([a.t, a.x * 1e3, a.f, z.x * 1e3, z.f], 4)], trace(a), trace(z))


def before_and_after_rebuild() -> File:
    b, r = both()
    lines = ["Before rebuild", HEAD, *rows([MM, b * 0.8, r * 0.8], 1), "", "After rebuild", HEAD, *rows([MM, b, r], 1)]
    old = peaks() | {"comp": (0.3, float(b.max()) * 0.8), "reb": (0.3, float(r.max()) * 0.8)}
    return file("reb.csv", lines, old, peaks())


def velocity_per_row_pairs() -> File:
    """One row a direction."""
    body = []
    for v in SPEEDS:
        body += [
            f"{v * 1e3:.0f},Comp,{damping(np.array([v]))[0]:.1f}",
            f"{v * 1e3:.0f},Reb,{-damping(np.array([-v]))[0]:.1f}",
        ]
    return file("pairs2.csv", ["Velocity mm/s,Stroke,Force N", *body], peaks())


def percent_of_baseline() -> File:
    b, r = both()
    head = "Velocity [mm/s],Comp [N],Comp [%],Reb [N],Reb [%]"
    return file("pc.csv", [head, *rows([MM, b, b / 5, r, r / 5], 1)], peaks())


def a_clock_of_twelve_hours() -> File:
    """Over noon."""
    s = stroke(rate=200)
    clock = [f"11:59:{58 + t:06.3f} AM" if t < 2 else f"12:00:{t - 2:06.3f} PM" for t in s.t]
    body = [f"{c},{x:.4f},{f:.2f}" for c, x, f in zip(clock, s.x * 1e3, s.f, strict=True)]
    return file("ampm.csv", ["Time,Disp (mm),Force (N)", *body], trace(s, 200.0))


def two_shocks_in_a_name() -> File:
    return _card("FL-03 vs FR-04.csv", [], shock=None)


def a_day_as_a_workbook_counts() -> File:
    return _card("xs.csv", ["Date: 46095"], date=None, must_warn="no date that is known")
