"""A second handful, written after the first was read: settings, names, dates and signs that mislead."""

from __future__ import annotations

import numpy as np

from tests.importers.strangers.making import IN, KGF, LBF, SPEEDS, File, both, damping, file, peaks, rows, stroke, trace

MM = SPEEDS * 1e3
HEAD = "Velocity [mm/s],Comp [N],Reb [N]"


def _card(name: str, above: list[str], **truth: object) -> File:
    b, r = both()
    return file(name, [*above, HEAD, *rows([MM, b, r], 1)], peaks(**truth))


def turns_are_no_clicks() -> File:
    above = ["LSC: 6 clicks, HSC: 2 turns", "LSR: 8 clicks"]
    return _card("t.csv", above, clicks={"lsc": 6, "lsr": 8}, must_warn="turns and no clicks")


def clicks_of_how_many() -> File:
    return _card("o.csv", ["LSC 6 of 20 clicks", "LSR 8 of 20 clicks"], clicks={"lsc": 6, "lsr": 8})


def clicks_with_a_dash() -> File:
    return _card("d.csv", ["Adj: C-6 R-8"], clicks={"c": 6, "r": 8})


def clicks_from_soft() -> File:
    return _card("s.csv", ["Comp: 6 clicks from full soft", "Reb: 8 clicks from full soft"],
                 clicks={"c": 6, "r": 8}, must_warn="soft")  # fmt: skip


def clicks_of_nobody() -> File:
    return _card("n.csv", ["Clicks: 6/8"], clicks={}, must_warn="6/8")


def name_of_a_corner_and_a_count() -> File:
    return _card("R2 test 2 of 4.csv", [], clicks={})


def name_with_setting_and_time() -> File:
    return _card("Run 3 C6R8 2026-03-14 10-12.csv", [], clicks={"c": 6, "r": 8}, date="2026-03-14")


def temperatures_before_and_after() -> File:
    return _card("w.csv", ["Temp start: 35 C", "Temp end: 48 C"], temperature_c=35.0)


def year_first_unpadded() -> File:
    return _card("y.csv", ["Date: 2026/3/14"], date="2026-03-14")


def day_first_two_digits() -> File:
    return _card("e.csv", ["Date: 14/03/26 09:30"], date="2026-03-14")


def two_digit_german() -> File:
    return _card("g.csv", ["Datum: 14.3.26"], date="2026-03-14")


def weekday_and_month() -> File:
    return _card("wd.csv", ["Date: Sat Mar 14 09:12:44 2026"], date="2026-03-14")


def calibration_is_no_test() -> File:
    return _card("cal.csv", ["Load cell calibrated 2025-01-10", "Tested: 2026-03-14"], date="2026-03-14")


def gas_in_bar_absolute_words() -> File:
    return _card("gb.csv", ["Nitrogen: 10 bar", "Rod: 14 mm"], gas_pressure_pa=1e6)


def speeds_with_letters() -> File:
    b, r = both(unit=LBF)
    body = [f"{v:.1f},{x:.1f},{y:.1f}" for v, x, y in zip(SPEEDS / IN, b, r, strict=True)]
    return file("l.csv", ["Forces in lbs, speeds in in/s", "Speed,C,R", *body], peaks())


def means_of_three() -> File:
    b, r = both()
    head = "Velocity [mm/s],Comp 1 [N],Comp 2 [N],Comp avg [N],Reb 1 [N],Reb 2 [N],Reb avg [N]"
    return file("m.csv", [head, *rows([MM, b * 0.98, b * 1.02, b, r * 0.98, r * 1.02, r], 2)], peaks(clicks={}))


def magnitudes_at_signed_speeds() -> File:
    b, r = both()
    return file("mag.csv", ["Velocity [mm/s],Force [N]", *rows([[*-MM[::-1], *MM], [*r[::-1], *b]], 1)], peaks())


def a_row_at_rest() -> File:
    b, r = both()
    return file("z.csv", [HEAD, "0,0,0", *rows([MM, b, r], 1)], peaks())


def rebound_columns_first() -> File:
    b, r = both()
    return file("rf.csv", ["Velocity [mm/s],Rebound [N],Compression [N]", *rows([MM, r, b], 1)], peaks())


def plus_and_minus_columns() -> File:
    b, r = both()
    return file("pm.csv", ["Velocity [mm/s],F comp (+) [N],F reb (-) [N]", *rows([MM, b, -r], 1)], peaks())


def mixed_units_in_time() -> File:
    s = stroke()
    head = "Time [s];Position [mm];Velocity [in/s];Force [lbf]"
    return file("mix.csv", [head, *rows([s.t, s.x * 1e3, s.v / IN, s.f / LBF], 4, ";")], trace(s))


def minutes() -> File:
    s = stroke()
    return file(
        "min.csv", ["Time [min],Disp [mm],Load [kg]", *rows([s.t / 60, s.x * 1e3, s.f / KGF], (8, 4, 3))], trace(s)
    )


def date_and_time_columns() -> File:
    s = stroke(rate=200)
    body = [f"14.03.2026;09:12:{t:06.3f};{x:.4f};{f:.2f}" for t, x, f in zip(s.t, s.x * 1e3, s.f, strict=True)]
    return file("dt.csv", ["Datum;Uhrzeit;Weg [mm];Kraft [N]", *body], trace(s, 200.0, date="2026-03-14"))


def points_of_thousands() -> File:
    s = stroke(half=0.04)
    body = [f"{t:.4f}\t{x:.3f}\t{f:,.2f}".replace(",", "_").replace(".", ",").replace("_", ".")
            for t, x, f in zip(s.t, s.x * 1e3, s.f * 4, strict=True)]  # fmt: skip
    return file("tp.txt", ["Zeit [s]\tWeg [mm]\tKraft [N]", *body], trace(s._replace(f=s.f * 4)))


def raw_and_corrected() -> File:
    s = stroke()
    head = "Time [s],Disp [mm],Force raw [N],Force corrected [N]"
    return file("rc.csv", [head, *rows([s.t, s.x * 1e3, s.f + 40, s.f], 4)], trace(s))


def gas_force_beside() -> File:
    s = stroke()
    head = "Time [s],Disp [mm],Gas force [N],Force [N]"
    return file("gf.csv", [head, *rows([s.t, s.x * 1e3, 160 + 1500 * s.x, s.f], 4)], trace(s))


def tension_positive_by_name() -> File:
    s = stroke()
    return file("ten.csv", ["Time [s],Extension [mm],Tension [N]", *rows([s.t, -s.x * 1e3, -s.f], 4)], trace(s))


def travel_from_full_extension() -> File:
    s = stroke()
    return file(
        "ext.csv", ["Time (s),Shock travel (in),Load (lbs)", *rows([s.t, (s.x + 0.03) / IN, s.f / LBF], 5)], trace(s)
    )


def counts_of_samples() -> File:
    s = stroke()
    head = ["Sampling frequency;400;Hz", "Sample;Disp [mm];Force [N]"]
    return file("n.csv", head + rows([np.arange(len(s.t)), s.x * 1e3, s.f], (0, 4, 2), ";"), trace(s))


def signed_speed_falls_back() -> File:
    """Signed speeds, rebound first, descending, as a loop through a card."""
    v = np.concatenate([-SPEEDS, SPEEDS[::-1]])
    return file("loop.csv", ["v [mm/s];F [kgf]", *rows([v * 1e3, damping(v) / KGF], (0, 3), ";", ",")], peaks())
