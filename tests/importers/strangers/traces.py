"""Records in time as rigs of workshops, universities and loggers write them."""

from __future__ import annotations

import numpy as np

from tests.importers.strangers.making import IN, KGF, LBF, File, file, moved, rows, stroke, trace


def two_header_rows() -> File:
    s = stroke()
    head = ["Elapsed,Actuator position,Load cell", "sec,in,lbf"]
    return file("run 014.csv", head + rows([s.t, s.x / IN, s.f / LBF], 4), trace(s))


def negative_compression() -> File:
    """Formula team: tension positive, extension positive."""
    s = stroke()
    head = [
        "# load cell: tension positive",
        "# displacement: extension positive",
        "Time (s),Displacement (mm),Force (N)",
    ]
    return file("fsae_rear.csv", head + rows([s.t, -s.x * 1e3, -s.f], 4), trace(s))


def semicolons_german() -> File:
    s = stroke()
    head = [
        "Prüfstand 2;;;",
        "Prüfdatum;14.03.2026;;",
        "Öltemperatur;38,5 °C;;",
        "Zeit [s];Weg [mm];Geschw. [mm/s];Kraft [daN]",
    ]
    body = rows([s.t, s.x * 1e3, s.v * 1e3, s.f / 10], 4, ";", ",")
    return file(
        "Messung_7.csv", head + body, trace(s, date="2026-03-14", temperature_c=38.5), encoding="cp1252", eol="\r\n"
    )


def mac_line_ends() -> File:
    s = stroke()
    return file(
        "mac.txt",
        ["time\tposition\tload", "s\tmm\tkgf", *rows([s.t, s.x * 1e3, s.f / KGF], 4, "\t")],
        trace(s),
        eol="\r",
    )


def utf16_tabs() -> File:
    s = stroke()
    head = ["Channel list", "Time\tStroke\tForce", "[ms]\t[mm]\t[kN]"]
    return file(
        "export.txt", head + rows([s.t * 1e3, s.x * 1e3, s.f / 1e3], 5, "\t"), trace(s), encoding="utf-16", eol="\r\n"
    )


def fixed_width() -> File:
    s = stroke()
    body = [f"{t:10.4f}{x:12.4f}{v:12.3f}{f:12.2f}" for t, x, v, f in zip(s.t, s.x * 1e3, s.v * 1e3, s.f, strict=True)]
    return file("RUN3.PRN", ["  TIME (s)    POS (mm)  VEL (mm/s)   FORCE (N)", *body], trace(s))


def microseconds() -> File:
    s = stroke()
    head = ["t_us,pos_mm,force_N"]
    return file("baja_front.csv", head + rows([s.t * 1e6, s.x * 1e3, s.f], (0, 4, 2)), trace(s))


def milliseconds_from_boot() -> File:
    """A board's counter that starts wherever it stands."""
    s = stroke()
    return file(
        "logger.csv", ["millis,pot_mm,load_N", *rows([s.t * 1e3 + 81234567, s.x * 1e3, s.f], (1, 4, 2))], trace(s)
    )


def clock_times() -> File:
    s = stroke(rate=200)
    clock = [f"14:59:{58 + t:06.3f}" if t < 2 else f"15:00:{t - 2:06.3f}" for t in s.t]
    body = [f"{c},{x:.4f},{f:.2f}" for c, x, f in zip(clock, s.x * 1e3, s.f, strict=True)]
    return file("daq.csv", ["Time of day,Disp (mm),Force (N)", *body], trace(s, 200.0))


def timestamps_iso() -> File:
    s = stroke(rate=200)
    clock = [str(np.datetime64("2026-03-02T09:10:11.000") + np.timedelta64(round(t * 1e3), "ms")) for t in s.t]
    body = [f"{c},{x:.4f},{f:.2f}" for c, x, f in zip(clock, s.x * 1e3, s.f, strict=True)]
    return file("pi.csv", ["timestamp,disp_mm,force_n", *body], trace(s, 200.0, date="2026-03-02"))


def force_in_compression_negative() -> File:
    """A testing machine: load and position negative where it presses."""
    s = stroke()
    head = ["Position(mm),Load(kN),Running Time(s)"]
    return file("specimen_1.csv", head + rows([-s.x * 1e3, -s.f / 1e3, s.t], (4, 5, 4)), trace(s))


def load_tension_only_force_flipped() -> File:
    """Position counts compression, the cell counts tension: gas and work must settle it."""
    s = stroke()
    return file("rig.csv", ["Time (s),Compression (mm),Force (N)", *rows([s.t, s.x * 1e3, -s.f], 4)], trace(s))


def rate_in_words() -> File:
    s = stroke(rate=500)
    head = ["Shock dyno export", "Data acquisition at 500 samples per second", "Position [mm];Force [N]"]
    return file("no time.csv", head + rows([s.x * 1e3, s.f], 4, ";"), trace(s, 500.0))


def interval_stated() -> File:
    s = stroke()
    head = ["dt = 2.5 ms", "x (mm), F (N)"]
    return file("dt.csv", head + rows([s.x * 1e3, s.f], 4, ", "), trace(s))


def sensor_volts() -> File:
    """Volts with the scales above them, and the scaled channels beside."""
    s = stroke()
    head = ["Pot scale: 20 mm/V", "Cell scale: 500 N/V", "Time [s],Pot [V],Cell [V]"]
    return file("volts.csv", head + rows([s.t, s.x / 0.02, s.f / 500], 5), trace(s))


def volts_beside() -> File:
    s = stroke()
    head = ["Time [s],Pot [V],Cell [V],Position [mm],Force [N]"]
    return file("volts2.csv", head + rows([s.t, s.x / 0.02, s.f / 500, s.x * 1e3, s.f], 5), trace(s))


def gas_taken_out() -> File:
    s = stroke()
    net = s._replace(f=s.f - 160 - 1500 * s.x)
    head = ["Gas force subtracted: yes", "Time [s],Disp [mm],Vel [mm/s],Force [N]"]
    return file("net.csv", head + rows([s.t, s.x * 1e3, s.v * 1e3, net.f], 4), trace(net, gas_removed=True))


def fahrenheit() -> File:
    s = stroke()
    head = [
        "Technician,pit crew",
        'Test date,"March 4, 2026"',
        "Body temp,104 F",
        "Gas charge,150 psi",
        "Time (s),Stroke (in),Velocity (in/s),Force (lb)",
    ]
    truth = trace(s, date="2026-03-04", temperature_c=40.0, gas_pressure_pa=150 * 6894.757)
    return file("GH 2.csv", head + rows([s.t, s.x / IN, s.v / IN, s.f / LBF], 4), truth, eol="\r\n")


def missing_values() -> File:
    s = stroke()
    body = rows([s.t, s.x * 1e3, s.f], 4)
    body[100] = body[100].rsplit(",", 1)[0] + ",---"
    body[500] = body[500].rsplit(",", 1)[0] + ","
    return file("gaps.csv", ["Time [s],Disp [mm],Force [N]", *body], trace(s, samples=None))


def totals_below() -> File:
    s = stroke()
    body = rows([s.t, s.x * 1e3, s.f], 4)
    foot = [
        "",
        f"Max,{s.x.max() * 1e3:.3f},{s.f.max():.2f}",
        f"Min,{s.x.min() * 1e3:.3f},{s.f.min():.2f}",
        "Mean,0.0,150.0",
    ]
    return file("totals.csv", ["Time [s],Disp [mm],Force [N]", *body, *foot], trace(s))


def comments_after_values() -> File:
    s = stroke()
    body = rows([s.t, s.x * 1e3, s.f], 4)
    body[0] += "   # start"
    body[300] += "   # knocked the table"
    return file("remarks.csv", ["Time [s],Disp [mm],Force [N]", *body], trace(s))


def chirp() -> File:
    rate, seconds = 500.0, 8.0
    t = np.arange(int(rate * seconds)) / rate
    phase = 2 * np.pi * (0.5 * t + (4 - 0.5) / (2 * seconds) * t**2)
    hz = 0.5 + (4 - 0.5) / seconds * t
    s = moved(t, 0.012 * np.sin(phase), 0.012 * 2 * np.pi * hz * np.cos(phase))
    return file(
        "sweep sine.csv", ["Time (s),Displacement (mm),Force (N)", *rows([s.t, s.x * 1e3, s.f], 4)], trace(s, rate)
    )


def random_road() -> File:
    rng, rate = np.random.default_rng(7), 500.0
    t = np.arange(5000) / rate
    hz, at = rng.uniform(0.4, 5, 24), rng.uniform(0, 2 * np.pi, 24)
    size = 0.004 / np.sqrt(hz)
    x = (size * np.sin(2 * np.pi * np.outer(t, hz) + at)).sum(1)
    v = (size * 2 * np.pi * hz * np.cos(2 * np.pi * np.outer(t, hz) + at)).sum(1)
    s = moved(t, x, v)
    return file(
        "belgian.csv",
        ["Time (s),Velocity (m/s),Displacement (m),Load (N)", *rows([s.t, s.v, s.x, s.f], 6)],
        trace(s, rate),
    )


def several_speeds_in_one() -> File:
    """A block a speed under a line of its own: three runs of one setting."""
    parts = [stroke(hz, rate=400, seconds=2.5) for hz in (0.8, 1.6, 3.2)]
    lines = ["Seal drag 8 N"]
    for hz, s in zip((0.8, 1.6, 3.2), parts, strict=True):
        lines += [
            "",
            f"Test speed: {hz * 2 * np.pi * 25:.0f} mm/s",
            "Time [s],Disp [mm],Force [N]",
            *rows([s.t, s.x * 1e3, s.f], 4),
        ]
    return file("three speeds.csv", lines, *(trace(s) for s in parts))


def force_first_no_time_name() -> File:
    s = stroke()
    return file("two_channels.lvm", ["X_Value\tLoad (N)\tLVDT (mm)", *rows([s.t, s.f, s.x * 1e3], 4, "\t")], trace(s))


def absolute_length() -> File:
    """Eye-to-eye length falls as the shock is compressed."""
    s = stroke()
    return file("eye.csv", ["Time [s],Eye-to-eye [mm],Force [N]", *rows([s.t, 380 - s.x * 1e3, s.f], 4)], trace(s))


def exponents() -> File:
    s = stroke()
    body = [f"{t:.6E};{x:.6E};{f:.6E}".replace(".", ",") for t, x, f in zip(s.t, s.x, s.f, strict=True)]
    return file("sci.csv", ["t/s;x/m;F/N", *body], trace(s))


def true_minus() -> File:
    s = stroke()
    body = [line.replace("-", "−") for line in rows([s.t, s.x * 1e3, s.f], 4)]
    return file("minus.csv", ["Time [s],Disp [mm],Force [N]", *body], trace(s))
