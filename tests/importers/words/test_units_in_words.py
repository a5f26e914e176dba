"""Units as rigs write them: every spelling of a unit is that unit. Spellings: common practice, no source."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan.errors import QuantityError
from dynoan.units import FACTORS
from importers.words.unit_text import CHANNEL, KIND, UnitScale, clean_unit, is_unit, kinds_of, scale_of
from tests.importers.making import quick

SPELLINGS = {
    ("force", "N"): ["N", "n", "Newton", "newtons", "[N]", "(N)"],
    ("force", "kN"): ["kN", "KN", "kilonewton", "Kilonewtons"],
    ("force", "daN"): ["daN", "dan", "decanewton"],
    ("force", "lbf"): ["lbf", "lb", "lbs", "Lbs.", "LBS", "pounds", "pound force", "pounds-force", "#", "libras"],
    ("force", "kgf"): ["kgf", "kg", "kgs", "kg f", "kilopond", "Kg."],
    ("length", "mm"): ["mm", "MM", "millimeter", "millimetres",  "millimetri"],
    ("length", "in"): ["in", "In", "inch", "inches", "Zoll", "''", "pouces", "pulgadas", "pollici"],
    ("length", "m"): ["m", "meter", "metres", "metri"],
    ("length", "µm"): ["µm", "μm", "um", "micron", "microns"],
    ("time", "s"): ["s", "sec", "secs", "Sekunden", "secondes", "segundos", "seconds"],
    ("time", "ms"): ["ms", "msec", "milliseconds", "Millisekunden"],
    ("velocity", "mm/s"): ["mm/s", "mm_s", "mm/sec", "mm per second", "mm·s⁻¹", "mm s^-1", "mms", "mm s-1", "mmps"],
    ("velocity", "m/s"): ["m/s", "m_s", "m·s⁻¹", "mps", "metres per second", "m s"],
    ("velocity", "in/s"): ["in/s", "in/sec", "ips", "in_s", "inches per second", "inches/second", "insec"],
    ("temperature", "°C"): ["°C", "ºC", "degC", "deg C", "C", "Celsius", "Grad Celsius"],
    ("temperature", "°F"): ["°F", "F", "deg F", "Fahrenheit", "degrees Fahrenheit"],
    ("pressure", "psi"): ["psi", "PSI", "psig"],
    ("pressure", "bar"): ["bar", "bars", "barg", "bar g", "Bar"],
}  # fmt: skip
PAIRS = [(kind, unit, spelling) for (kind, unit), spellings in SPELLINGS.items() for spelling in spellings]


@pytest.mark.parametrize(("kind", "unit", "spelling"), PAIRS, ids=str)
def test_every_spelling_is_the_unit(kind, unit, spelling):
    assert kind in kinds_of(spelling)
    assert scale_of(spelling, kind) == scale_of(unit, kind)


@pytest.mark.parametrize("text", ["", "stone", "rpm", "%", "V", "Hz", "gravel", "N/mm", "FL-03", "mm²"])
def test_other_text_is_no_unit_of_a_channel(text):
    assert kinds_of(text) == frozenset()
    assert not is_unit(text)


@pytest.mark.parametrize("kind", [k for k in CHANNEL if k != "temperature"])
def test_every_unit_of_the_tables_is_known_by_its_own_name(kind):
    lost = {unit for unit in FACTORS[kind] if kind not in kinds_of(unit)}
    assert lost <= {'"'}  # quotes are taken off with a cell's
    for unit in FACTORS[kind].keys() - lost:
        assert scale_of(unit, kind) == UnitScale(FACTORS[kind][unit])


def test_channels_and_kinds_are_one_to_one():
    assert {CHANNEL[KIND[channel]] for channel in KIND} == set(KIND)


@quick
@given(st.text(max_size=20))
def test_cleaning_a_unit_twice_is_cleaning_it_once_or_it_is_none(text):
    unit = clean_unit(text)
    if kinds_of(text):
        assert kinds_of(unit) == kinds_of(text)


@quick
@given(st.lists(st.floats(-1e6, 1e6), min_size=1, max_size=20))
def test_a_scale_multiplies_then_adds(numbers):
    x = np.array(numbers)
    np.testing.assert_allclose(UnitScale(2.5, -3.0).si(x), 2.5 * x - 3.0)
    assert UnitScale(1.0).si(x) is x


@pytest.mark.parametrize(("unit", "kind"), [("mm", "force"), ("N", "length"), ("psi", "temperature"), ("", "force")])
def test_a_unit_of_another_kind_is_refused_by_name(unit, kind):
    with pytest.raises(QuantityError, match=f"no unit of {kind}"):
        scale_of(unit, kind)
