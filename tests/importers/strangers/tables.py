"""Peak tables as shops and teams keep them."""

from __future__ import annotations

import numpy as np

from tests.importers.strangers.making import IN, KGF, LBF, SPEEDS, File, both, damping, file, peaks, rows

MM = SPEEDS * 1e3


def both_directions() -> File:
    b, r = both()
    return file("card.csv", ["V (mm/s);Bump (N);Rebound (N)", *rows([MM, b, r], 0, ";")], peaks())


def inches_and_pounds() -> File:
    b, r = both(unit=LBF)
    head = ["Shock: LF-12", "in/sec,lbs comp,lbs reb"]
    return file("LF.csv", head + rows([SPEEDS / IN, b, r], (2, 1, 1)), peaks(shock="LF-12"))


def kgf_metres() -> File:
    b, r = both(unit=KGF)
    head = ["Piston speed [m/s]\tCompression [kgf]\tExtension [kgf]"]
    return file("kgf.txt", head + rows([SPEEDS, b, r], (3, 2, 2), "\t"), peaks())


def signed_rows() -> File:
    v = [*(-MM[::-1]), *MM]
    f = [*damping(-SPEEDS[::-1]), *damping(SPEEDS)]
    return file("pv.csv", ["speed mm/s, force N", *rows([v, f], 1, ", ")], peaks())


def speeds_across() -> File:
    lines = ["Clicks from closed,Direction," + ",".join(f"{m:.0f} mm/s" for m in MM)]
    sweeps = []
    for n in (2, 8, 14):
        b, r = both(n, n)
        lines += [
            f"C{n} R{n},Comp (N)," + ",".join(f"{f:.0f}" for f in b),
            f"C{n} R{n},Reb (N)," + ",".join(f"{f:.0f}" for f in r),
        ]
        sweeps.append(peaks(n, n, clicks={"c": n, "r": n}))
    return file("across.csv", lines, *sweeps)


def clicks_down_one_direction() -> File:
    lines = ["Rebound force in N by clicker position", "Reb clicks," + ",".join(f"{m:.0f} mm/s" for m in MM)]
    sweeps = []
    for n in (0, 6, 12):
        lines.append(f"{n}," + ",".join(f"{f:.0f}" for f in both(6, n)[1]))
        sweeps.append({**peaks(6, n, clicks={"r": n}), "comp": None})
    return file("rebound.csv", lines, *sweeps)


def pair_columns() -> File:
    """Compression and rebound of one number beside one another are one run, with a word of it."""
    head, columns, sweeps = "Velocity [mm/s]", [MM], []
    for n in (0, 5, 10):
        b, r = both(n, n)
        head += f";C{n} comp [N];R{n} reb [N]"
        columns += [b, r]
        sweeps.append(peaks(n, n, clicks={"c": n, "r": n}, must_warn="one run"))
    return file("pairs.csv", [head, *rows(columns, 1, ";")], *sweeps)


def stroke_and_rpm() -> File:
    rpm = np.array([10.0, 20, 40, 80, 120])
    v = rpm / 60 * 2 * np.pi * 0.025
    head = ["Crank stroke: 50 mm", "RPM,Compression peak (N),Rebound peak (N)"]
    return file("rpm.csv", head + rows([rpm, damping(v), -damping(-v)], 1), peaks(speeds=v))


def four_shocks() -> File:
    names = ["FL-01", "FR-02", "RL-03", "RR-04"]
    lines = ["," + ",,".join(names) + ",", "mm/s" + ",Comp N,Reb N" * 4]
    columns = [MM]
    for n in range(4):
        columns += list(both(4 + n, 6 + n))
    return file(
        "car set.csv", lines + rows(columns, 1), *(peaks(4 + n, 6 + n, shock=name) for n, name in enumerate(names))
    )


def blocks_with_notes() -> File:
    lines, sweeps = ["Kestrel front left", "Oil changed before test"], []
    for n in (2, 6, 10):
        b, r = both(n, n)
        lines += [
            "",
            f"Bump {n} clicks, rebound {n} clicks",
            "note: felt notchy",
            "mm/s,Bump N,Reb N",
            *rows([MM, b, r], 1),
        ]
        sweeps.append(peaks(n, n, clicks={"c": n, "r": n}))
    return file("blocks.csv", lines, *sweeps)


def clicks_in_columns() -> File:
    lines, sweeps = ["HSC,LSC,HSR,LSR,Speed (mm/s),Comp (N),Reb (N)"], []
    for n in (3, 9):
        b, r = both(n, n)
        lines += [f"10,{n},12,{n + 1},{line}" for line in rows([MM, b, r], 1)]
        sweeps.append(peaks(n, n, clicks={"hsc": 10, "lsc": n, "hsr": 12, "lsr": n + 1}))
    return file("cols.csv", lines, *sweeps)


def clicks_as_ranges_in_name() -> File:
    """The same setting written twice must not be read as c=10, r=18."""
    b, r = both()
    return file("C10-18_R18-10.csv", ["Velocity [mm/s],Comp [N],Reb [N]", *rows([MM, b, r], 1)], peaks(clicks={}))


def clicks_by_slash() -> File:
    b, r = both()
    head = ["Comp HS/LS: 3/6", "Reb HS/LS: 4/8", "Velocity [mm/s],Comp [N],Reb [N]"]
    truth = peaks(clicks={"hsc": 3, "lsc": 6, "hsr": 4, "lsr": 8})
    return file("slash.csv", head + rows([MM, b, r], 1), truth)


def clicks_in_words() -> File:
    b, r = both()
    head = ["Compression adjuster = 6 out", "Rebound adjuster = 8 out", "Velocity [mm/s],Comp [N],Reb [N]"]
    return file("words.csv", head + rows([MM, b, r], 1), peaks(clicks={"c": 6, "r": 8}))


def number_before_clicks() -> File:
    b, r = both()
    head = ["Test no. 12   C:8 R:10", "Velocity [mm/s],Comp [N],Reb [N]"]
    return file("no12.csv", head + rows([MM, b, r], 1), peaks(clicks={"c": 8, "r": 10}))


def us_date() -> File:
    b, r = both()
    head = ["Date: 03/04/2026", "Velocity [mm/s],Comp [N],Reb [N]"]
    return file("us.csv", head + rows([MM, b, r], 1), peaks(date=None, must_warn="date"))


def clear_us_date() -> File:
    b, r = both()
    head = ["Test Date: 3/24/26", "Velocity [mm/s],Comp [N],Reb [N]"]
    return file("us2.csv", head + rows([MM, b, r], 1), peaks(date="2026-03-24"))


def date_in_words() -> File:
    b, r = both()
    head = ["Tested 24 Mar 2026 at 14:30", "Velocity [mm/s],Comp [N],Reb [N]"]
    return file("w.csv", head + rows([MM, b, r], 1), peaks(date="2026-03-24"))


def averages_below() -> File:
    b, r = both()
    foot = ["Average,250,420", "Total,1500,2520", "Tested by: crew"]
    return file("avg.csv", ["Velocity [mm/s],Comp [N],Reb [N]", *rows([MM, b, r], 1), *foot], peaks())


def percent_column() -> File:
    b, r = both()
    body = [f"{m:.0f},{x:.1f},{y:.1f},{100 * y / x:.0f}%" for m, x, y in zip(MM, b, r, strict=True)]
    return file("ratio.csv", ["Velocity [mm/s],Comp [N],Reb [N],R/C", *body], peaks())


def target_beside() -> File:
    b, r = both()
    head = ["Velocity [mm/s],Comp [N],Reb [N],Target comp [N],Target reb [N]"]
    return file("target.csv", head + rows([MM, b, r, b * 1.1, r * 1.1], 1), peaks())


def units_in_cells() -> File:
    b, r = both()
    body = [f"{m:.0f} mm/s;{x:.0f} N;{y:.0f} N" for m, x, y in zip(MM, b, r, strict=True)]
    return file("cells.csv", ["Velocity;Compression;Rebound", *body], peaks())


def thousands() -> File:
    b, r = both()
    body = [f'{m:.0f},"{x:,.1f}","{y:,.1f}"' for m, x, y in zip(MM, b * 3, r * 3, strict=True)]
    truth = peaks()
    truth |= {"comp": (0.3, float(np.max(b * 3))), "reb": (0.3, float(np.max(r * 3)))}
    return file("stiff.csv", ["Velocity [mm/s],Comp [N],Reb [N]", *body], truth)


def comma_of_thousands_german() -> File:
    b, r = both()
    body = [f"{m:.0f};{x * 3:.1f};{y * 3:.1f}".replace(".", ",") for m, x, y in zip(MM, b, r, strict=True)]
    truth = peaks()
    truth |= {"comp": (0.3, truth["comp"][1] * 3), "reb": (0.3, truth["reb"][1] * 3)}
    return file("druck.csv", ["v mm/s;Druck N;Zug N", *body], truth)


def gas_with_thousands() -> File:
    b, r = both()
    head = ["Gas pressure: 1,250 kPa", "Velocity [mm/s],Comp [N],Reb [N]"]
    return file("gas.csv", head + rows([MM, b, r], 1), peaks(gas_pressure_pa=1.25e6))


def turned_table() -> File:
    b, r = both()
    lines = ["Velocity (mm/s)," + ",".join(f"{m:.0f}" for m in MM)]
    lines += [f"{n}," + ",".join(f"{f:.1f}" for f in fs) for n, fs in (("Compression (N)", b), ("Rebound (N)", r))]
    return file("side.csv", lines, peaks())
