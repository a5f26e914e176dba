"""Column names and units in five languages. The names are common practice, no source; factors see NIST SP 811."""

from __future__ import annotations

import tomllib
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import QuantityError
from importers.header import describe_column
from importers.words.unit_text import clean_unit, kinds_of, scale_of
from tests.importers.making import quick

CHECKS = tomllib.loads((Path(__file__).parents[3] / "fixtures" / "check-values.toml").read_text("utf-8"))["check"]
SOURCED = {"u01": ("in", "length"), "u05": ("kgf", "force"), "u07": ("psi", "pressure"), "u10": ("in/s", "velocity")}


@pytest.mark.parametrize(
    "check", [c for c in CHECKS if c["id"] in SOURCED], ids=lambda c: f"{c['id']}-{c['source'][:30]}"
)
def test_factors_are_the_published_ones(check):
    unit, kind = SOURCED[check["id"]]
    assert scale_of(unit, kind).factor == pytest.approx(check["expected"], rel=check.get("rel_tol") or 1e-15)


@pytest.mark.parametrize(
    ("name", "channel", "unit"),
    [
        ("Force [N]", "force", "N"),
        ("force (lb)", "force", "lb"),
        ("Force_N", "force", "N"),
        ("Kraft / kN", "force", "kN"),
        ("Effort (daN)", "force", "daN"),
        ("Fuerza, kgf", "force", "kgf"),
        ("Forza in N", "force", "N"),
        ("FORCE=N", "force", "N"),
        ("LoadCellN", "force", "N"),
        ("Velocity, mm/s", "velocity", "mm/s"),
        ("vel_ips", "velocity", "ips"),
        ("velocity_mm_s", "velocity", "mm_s"),
        ("Kolbengeschwindigkeit [m/s]", "velocity", "m/s"),
        ("Vitesse de déplacement (mm/s)", "velocity", "mm/s"),
        ("Velocidad (cm/s)", "velocity", "cm/s"),
        ("Velocità [m/s]", "velocity", "m/s"),
        ("velocity_ms", "velocity", "m/s"),
        ("Weg [mm]", "displacement", "mm"),
        ("s [mm]", "displacement", "mm"),
        ("Course (mm)", "displacement", "mm"),
        ("Disp in", "displacement", "in"),
        ("Corsa [mm]", "displacement", "mm"),
        ("Recorrido (µm)", "displacement", "µm"),
        ("t [s]", "time", "s"),
        ("Temps (s)", "time", "s"),
        ("Zeit/ms", "time", "ms"),
        ("Tempo (min)", "time", "min"),
        ("Temp C", "temperature", "C"),
        ("T [°C]", "temperature", "°C"),
        ("Öltemperatur [°F]", "temperature", "°F"),
        ("Reservoir pressure [psi]", "pressure", "psi"),
        ("Druck [bar]", "pressure", "bar"),
        ("CH1 [N]", "force", "N"),
    ],
)
def test_names_and_units(name, channel, unit):
    column = describe_column(0, name)
    assert (column.channel, column.unit) == (channel, unit)


@pytest.mark.parametrize(
    ("name", "way"),
    [
        ("Compression (lbf)", "compression"),
        ("Rebound lbf", "rebound"),
        ("Zugstufe [N]", "rebound"),
        ("Détente (N)", "rebound"),
        ("Compresión (N)", "compression"),
        ("Estensione [daN]", "rebound"),
        ("Druckkraft [N]", "compression"),
        ("Bump force (N)", "compression"),
    ],
)
def test_directions(name, way):
    column = describe_column(0, name)
    assert column.channel == "force"
    assert column.direction == way


@pytest.mark.parametrize(
    "name", ["Motor speed [rpm]", "Gas force (N)", "Spring force [N]", "Level [%]", "Throttle", "Ambient temp [°C]"]
)
def test_other_quantities_are_no_channels(name):
    assert describe_column(0, name).channel is None


def test_an_unknown_unit_is_kept_as_unknown():
    assert describe_column(0, "Force [stone]").unknown_unit == "stone"
    assert describe_column(0, "Force (filtered) [N]").unknown_unit == ""


def test_units_row_wins_over_nothing_and_shows_kind():
    assert describe_column(0, "Load", "lbs").unit == "lbs"
    assert kinds_of("mm/s") == {"velocity"}
    assert clean_unit("m·s⁻¹") == "m/s"


def test_temperature_scales():  # 212 °F is 100 °C, 273.15 K is 0 °C by definition
    assert scale_of("°F", "temperature").si(np.array([212.0])) == pytest.approx(100.0)
    assert scale_of("K", "temperature").si(np.array([273.15])) == pytest.approx(0.0)


def test_a_unit_of_another_kind_is_refused():
    with pytest.raises(QuantityError, match="no unit of force"):
        scale_of("mm", "force")


@pytest.mark.parametrize(
    ("name", "role"),
    [("Shock", "shock"), ("Serial number", "shock"), ("Valve pack", "pack"), ("Run", "run"), ("Test No.", "run"),
     ("Cycle", "cycle"), ("Direction", "direction"), ("LSC", "lsc"), ("Low speed rebound clicks", "lsr"),
     ("#", "index"), ("Index", "index")],
)  # fmt: skip
def test_keys_of_a_row(name, role):
    column = describe_column(3, name)
    assert (column.role, column.channel, column.index) == (role, None, 3)


@pytest.mark.parametrize(
    ("name", "clicks"), [("LSC 4", {"lsc": 4}), ("Comp C4 R6 [N]", {"c": 4, "r": 6}), ("Force [N]", {})]
)
def test_clicks_in_names(name, clicks):
    assert describe_column(0, name).clicks == clicks


@pytest.mark.parametrize(
    ("name", "positive"),
    [("Shock length [mm]", "rebound"), ("Eye to eye (mm)", "rebound"), ("Compression travel [mm]", "compression"),
     ("Extension [mm]", "rebound"), ("Position [mm]", None)],
)  # fmt: skip
def test_a_length_that_grows_in_a_direction_says_so(name, positive):
    column = describe_column(0, name)
    assert (column.channel, column.positive, column.direction) == ("displacement", positive, None)


@pytest.mark.parametrize("name", ["Force set [N]", "Target velocity [mm/s]", "Kraft Sollwert [N]", "Average force [N]"])
def test_goals_and_averages_are_lesser(name):
    assert describe_column(0, name).lesser


FORMS = ("{n} [{u}]", "{n} ({u})", "{n}, {u}", "{n} {u}", "{n}_{u}", "{n} / {u}", "{n}; {u}", "{n} in {u}")
WORDS = {"force": ("Force", "Kraft", "Load", "Effort", "Fuerza", "Forza"),
         "velocity": ("Velocity", "Geschwindigkeit", "Speed", "Vitesse", "Velocidad", "Velocità"),
         "displacement": ("Displacement", "Weg", "Travel", "Position", "Recorrido", "Corsa"),
         "time": ("Time", "Zeit", "Tiempo", "Tempo")}  # fmt: skip
OF = {"force": ("N", "kN", "lbf", "daN", "kgf", "lbs"), "velocity": ("mm/s", "m/s", "in/s"),
      "displacement": ("mm", "in", "cm"), "time": ("s", "ms")}  # fmt: skip


@quick
@given(st.sampled_from(sorted(WORDS)), st.sampled_from(FORMS), st.data())
def test_any_name_with_any_of_its_units_in_any_form(channel, form, data):
    name, unit = data.draw(st.sampled_from(WORDS[channel])), data.draw(st.sampled_from(OF[channel]))
    shown = unit.replace("/", "_") if form == "{n}_{u}" else unit
    column = describe_column(0, form.format(n=name, u=shown))
    assert column.channel == channel
    assert clean_unit(column.unit) == clean_unit(unit)


@quick
@given(st.text(max_size=40), st.text(max_size=10))
def test_any_name_is_described(name, unit):
    column = describe_column(1, name, unit)
    assert column.text == name.strip()
    assert not (column.unit and column.unknown_unit)
    assert not (column.channel and column.role)


@pytest.mark.parametrize(
    ("name", "channel"),
    [("Vitesse de déplacement", "velocity"), ("Velocidad del desplazamiento", "velocity"), ("Time of velocity", "time"),
     ("Damper travel speed", "velocity"), ("Position load", "force")],
)  # fmt: skip
def test_the_last_word_counts_but_the_first_before_an_of(name, channel):
    assert describe_column(0, name).channel == channel
