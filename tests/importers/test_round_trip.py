"""A random sweep written in a random layout is read back, equal within the file's rounding."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import pytest
from hypothesis import HealthCheck, assume, given, settings
from hypothesis import strategies as st

from dynoan.reading import read_bytes
from fixtures.layout_base import FACTORS, Column, Style, table, text

NAMES = {
    "en": {
        "time": "Time",
        "displacement": "Displacement",
        "velocity": "Velocity",
        "force": "Force",
        "c": "Compression",
        "r": "Rebound",
    },
    "de": {
        "time": "Zeit",
        "displacement": "Weg",
        "velocity": "Geschwindigkeit",
        "force": "Kraft",
        "c": "Druckstufe",
        "r": "Zugstufe",
    },
    "fr": {
        "time": "Temps",
        "displacement": "Déplacement",
        "velocity": "Vitesse",
        "force": "Effort",
        "c": "Compression",
        "r": "Détente",
    },
    "es": {
        "time": "Tiempo",
        "displacement": "Desplazamiento",
        "velocity": "Velocidad",
        "force": "Fuerza",
        "c": "Compresión",
        "r": "Rebote",
    },
    "it": {
        "time": "Tempo",
        "displacement": "Spostamento",
        "velocity": "Velocità",
        "force": "Forza",
        "c": "Compressione",
        "r": "Estensione",
    },
}
UNITS = {
    "time": (("s", 4), ("ms", 1)),
    "displacement": (("mm", 3), ("in", 5), ("cm", 4), ("m", 6)),
    "velocity": (("mm/s", 2), ("m/s", 5), ("in/s", 4), ("cm/s", 3)),
    "force": (("N", 2), ("kN", 5), ("lbf", 3), ("daN", 3), ("kgf", 3), ("lbs", 3)),
}
PUT = ("{n} [{u}]", "{n} ({u})", "{n}, {u}", "{n} {u}", "{n}_{u}", "{n} / {u}", "row")
SPACES = st.sampled_from([(",", "."), (";", "."), (";", ","), ("\t", "."), ("\t", ","), ("|", "."), ("|", ",")])
ENCODINGS = st.sampled_from(["utf-8", "utf-8-sig", "cp1252", "utf-16"])


@dataclass(frozen=True)
class FileLayout:
    language: str
    put: str
    delimiter: str
    decimal: str
    thousands: str
    eol: str
    encoding: str
    trailing: bool
    units: dict[str, tuple[str, int]]
    footer: bool


@st.composite
def layouts(draw):
    delimiter, decimal = draw(SPACES)
    put = draw(st.sampled_from([p for p in PUT if delimiter != "," or p != "{n}, {u}"]))
    groups = ["", "", "'"] + ([" "] if delimiter != " " else []) + (["."] if decimal == "," else [])
    return FileLayout(
        language=draw(st.sampled_from(sorted(NAMES))),
        put=put,
        delimiter=delimiter,
        decimal=decimal,
        thousands=draw(st.sampled_from(groups)),
        eol=draw(st.sampled_from(["\n", "\r\n", "\r"])),
        encoding=draw(ENCODINGS),
        trailing=draw(st.booleans()),
        units={k: draw(st.sampled_from(v)) for k, v in UNITS.items()},
        footer=draw(st.booleans()),
    )


def column(layout: FileLayout, kind: str, values, *, name: str | None = None, sign: int = 1) -> Column:
    unit, digits = layout.units[kind]
    words = name or NAMES[layout.language][kind]
    shown = (
        words
        if layout.put == "row"
        else layout.put.format(n=words, u=unit.replace("/", "_") if "_" in layout.put else unit)
    )
    return Column(shown, values, unit, digits, sign)


def written(layout: FileLayout, columns: list[Column], above: list[str]) -> bytes:
    row = tuple(c.unit for c in columns) if layout.put == "row" else ()
    style = Style(layout.delimiter, layout.decimal, layout.thousands, units_row=row, trailing=layout.trailing)
    lines = [*above, *table(columns, style)] + (["", "End of test"] if layout.footer else [])
    return text(lines, layout.eol).encode(layout.encoding)


def step(layout: FileLayout, kind: str) -> float:
    unit, digits = layout.units[kind]
    return 0.51 * 10.0**-digits * FACTORS[unit]


@dataclass(frozen=True)
class SineMotion:
    """A sine stroke with gas, friction and a knee: SI, positive in compression."""

    rate: float
    reach: float
    hertz: float
    bump: float
    drop: float
    gas: float

    def channels(self):
        t = np.arange(round(self.rate * 3 / self.hertz)) / self.rate
        omega = 2 * np.pi * self.hertz
        x, v = self.reach * np.sin(omega * t), omega * self.reach * np.cos(omega * t)
        damping = np.where(v > 0, self.bump, self.drop) * v / (1 + 2 * np.abs(v))
        return t, x, v, damping + self.gas + 300 * x + 10 * np.tanh(v / 0.002)


MOTIONS = st.builds(
    SineMotion,
    rate=st.sampled_from([200.0, 500.0, 1000.0]),
    reach=st.floats(0.008, 0.04),
    hertz=st.floats(0.5, 2.5),
    bump=st.floats(800, 4000),
    drop=st.floats(800, 4000),
    gas=st.floats(120, 250),  # weaker ones may not stand out from slow damping, which is then said
)


@pytest.mark.slow
@settings(deadline=None, suppress_health_check=list(HealthCheck))
@given(
    layout=layouts(),
    motion=MOTIONS,
    keep=st.sampled_from(["txvf", "txf", "tvf", "xvf"]),
    turned=st.tuples(st.sampled_from([1, -1]), st.sampled_from([1, -1])),
    clicks=st.tuples(st.integers(0, 30), st.integers(0, 30)),
)
def test_trace_comes_back(layout, motion, keep, turned, clicks):
    t, x, v, f = motion.channels()
    # Rebound that happens to outweigh gas leaves no mean, as in a record whose mean was taken out.
    assume(abs(f.mean()) > 1e-3 * np.abs(f).max())
    motion_sign, force_sign = turned
    kinds = {
        "t": ("time", t, 1),
        "x": ("displacement", x, motion_sign),
        "v": ("velocity", v, motion_sign),
        "f": ("force", f, force_sign),
    }
    columns = [column(layout, kind, values, sign=sign) for kind, values, sign in (kinds[k] for k in keep)]
    above = [f"LSC{layout.delimiter if layout.delimiter != ',' else ' '}{clicks[0]}", f"LSR: {clicks[1]}"]
    (sweep,) = read_bytes(written(layout, columns, above), "run.csv")
    assert sweep.layout == "trace"
    assert sweep.clicks == {"lsc": clicks[0], "lsr": clicks[1]}
    assert sweep.rate == pytest.approx(motion.rate, rel=0.02)
    for kind, values in (("displacement", x), ("velocity", v), ("force", f)):
        if kind in sweep.channels:
            np.testing.assert_allclose(sweep.channels[kind], values, atol=step(layout, kind), err_msg=kind)
            assert sweep.decisions[kind].sign == (force_sign if kind == "force" else motion_sign)
    assert set(sweep.channels) == {kinds[k][0] for k in keep}


@settings(deadline=None, suppress_health_check=list(HealthCheck))
@given(
    layout=layouts(),
    speeds=st.lists(st.floats(0.01, 1.2), min_size=4, max_size=14, unique_by=lambda v: round(v, 2)),
    slopes=st.tuples(st.floats(700, 5000), st.floats(700, 5000)),
    form=st.sampled_from(["magnitudes", "signed", "turned"]),
)
def test_peak_table_comes_back(layout, speeds, slopes, form):
    v = np.sort(np.round(speeds, 2))
    c, r = 60 + slopes[0] * v**0.7, 60 + slopes[1] * v**0.7
    names = NAMES[layout.language]
    signs = {"magnitudes": (1, 1), "signed": (1, -1), "turned": (-1, 1)}[form]
    columns = [
        column(layout, "velocity", v),
        column(layout, "force", c, name=names["c"], sign=signs[0]),
        column(layout, "force", r, name=names["r"], sign=signs[1]),
    ]
    (sweep,) = read_bytes(written(layout, columns, ["Shock: FL-03", "Pack: gravel"]), "table.csv")
    assert (sweep.layout, sweep.shock, sweep.pack) == ("peaks", "FL-03", "gravel")
    got_v, got_f = sweep.channels["velocity"], sweep.channels["force"]
    for way, truth in ((1, c), (-1, r)):
        rows = np.sign(got_v) == way
        np.testing.assert_allclose(np.abs(got_v[rows]), v, atol=step(layout, "velocity"))
        np.testing.assert_allclose(way * got_f[rows], truth, atol=step(layout, "force"))
