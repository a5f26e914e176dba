"""Units against NIST SP 811 and the definitions (section 1 of the check values)."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from dynoan import units
from dynoan.errors import QuantityError
from tests.checks import check

PARSED = {
    "u01": ("1 in", "length", 1.0), "u02": ("1 lb", "mass", 1.0), "u04": ("1 lbf", "force", 1.0),
    "u05": ("1 kgf", "force", 1.0), "u06": ("1 slug", "mass", 1.0), "u07": ("1 psi", "pressure", 1.0),
    "u08": ("1 lb/in", "stiffness", 1.0), "u09": ("1 lb/ft", "stiffness", 1.0), "u10": ("1 in/s", "velocity", 1.0),
    "u11": ("1 lbf s/in", "damping", 1.0), "u12": ("275 lb/in", "stiffness", 1e-3), "u13": ("10 ips", "velocity", 1.0),
    "u14": ("200 psi", "pressure", 1e-5), "u15": ("650 lb", "mass", 1.0), "u16": ("100 °F", "temperature", 1.0),
    "u18": ("1 lbf ft", "energy", 1.0),
}  # fmt: skip


@pytest.mark.parametrize("name", PARSED, ids=lambda n: f"{n}: {check(n).status}")
def test_parsed_quantity_is_the_published_one(name):
    text, kind, scale = PARSED[name]
    check(name).holds(units.parse(text, kind) * scale)


def test_standard_gravity():
    check("u03").holds(units.GRAVITY)


def test_every_kind_has_an_si_unit():
    assert {kind: units.factor(units.SI_UNITS[kind], kind) for kind in units.FACTORS} == dict.fromkeys(
        units.FACTORS, 1.0
    )


def test_a_temperature_difference_has_no_offset():
    check("u17").holds(units.to_celsius(118.0, "°F") - units.to_celsius(100.0, "°F"))


def test_lb_is_a_force_where_a_force_is_meant_and_a_mass_where_a_mass_is():
    assert units.parse("1 lb", "force") == pytest.approx(4.4482216152605)
    assert units.parse("1 lb", "mass") == 0.45359237


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("45 N/mm", "stiffness", 45000.0), ("48,5 N/mm", "stiffness", 48500.0), ("2 in/sec", "velocity", 0.0508),
        ("3 500 N s/m", "damping", 3500.0), ("3500 N·s/m", "damping", 3500.0), ("3500 N/(m/s)", "damping", 3500.0),
        ("1150 kg m2", "inertia", 1150.0), ("60 %", "ratio", 0.6), ("0.6", "ratio", 0.6), (0.6, "ratio", 0.6),
        ("5 m/s2", "acceleration", 5.0), ("15 deg", "angle", 0.2617993877991494), ("1.013 bar", "pressure", 101300.0),
    ],
)  # fmt: skip
def test_quantities_as_people_write_them(text, kind, value):
    assert units.parse(text, kind) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("text", "kind", "value"),
    [
        ("300 lbs", "stiffness", 52538.05), ("300 lb per in", "stiffness", 52538.05), ("300#", "stiffness", 52538.05),
        ("9 kg/mm", "stiffness", 88259.85), ("9 kgf/mm", "stiffness", 88259.85),
        ("300 #/in", "stiffness", 52538.05), ("300 lbs/in.", "stiffness", 52538.05),
        ("300 pounds per inch", "stiffness", 52538.05),
        ("300 lbs", "force", 1334.4665), ("300 lbs", "mass", 136.0777), ("590#", "mass", 267.6195),
        ("180 lb ft", "torque", 244.0472), ("180 lb-ft", "torque", 244.0472), ("180 ft lb", "torque", 244.0472),
        ("180 ft-lbs", "torque", 244.0472), ("180 ft·lbf", "torque", 244.0472), ("2160 in lb", "torque", 244.0472),
        ("240 N-m", "torque", 240.0), ("20 lb-s/in", "damping", 3502.537), ("145 psig", "pressure", 999739.8),
        ("27300 lb-ft2", "inertia", 1150.425006), ("1150 kg m²", "inertia", 1150.0),
        ("16 ft/s^2", "acceleration", 4.8768),
    ],
)  # fmt: skip
def test_the_forms_of_the_trade(text, kind, value):
    assert units.parse(text, kind) == pytest.approx(value, rel=1e-6)


#: one quantity of each kind, in SI, and the ways in which people write its unit
FORMS = {
    (
        "300",
        "stiffness",
        52538.05,
    ): "lb/in lbs/in lbf/in lb/in. lbs./in. lb./in lb/inch lbs/inches|lb per in|lbs per inch|"
    'pounds per inch|# / in|#/in|#|lbs|lb|#/inch|lb/"|lb/”|# per in.|LBS/IN|[lb/in]',
    ("190", "force", 845.1621): "lb lbs lbf # lb. lbs. pounds lb-f|LBF|pounds force",
    ("2", "velocity", 0.0508): 'in/s in/sec in./s in./sec. ips inch/s inches/sec in/second "/s|in per s|in per sec|'
    "inches per second|inch per sec.|in / s|IPS",
    (
        "180",
        "torque",
        244.0472,
    ): "ft-lb lb-ft ft-lbs lbf·ft ft.lb ft*lb ftlb lbft ft·lbf lbs-ft pound-feet ft.-lb. lb.ft|"
    "ft lb|lb ft|ft lbs|lbf ft|foot pounds|ft. lbs.|ft. lb.",
    ("9", "energy", 12.20236): "ft-lb lb-ft ftlb|ft lbf|ft lb|ft lbs|foot-pounds",
    ("145", "pressure", 999739.8): "psi PSI psig lb/in2 lb/in^2 lb/in² lbf/in2 lbs/in2 #/in2|lb/sq in|lb per sq. in.|"
    "lbs per square inch",
    ("68", "temperature", 20.0): "F °F ºF ˚F degF fahrenheit|deg F|deg. F|degrees F|degrees Fahrenheit|° F",
    ("95.5", "length", 2.4257): 'in in. inch inches " ” ″|IN',
    ("820", "mass", 371.9457): "lb lbs # lbm pounds lb. lbs.|LBS",
    ("27300", "inertia", 1150.425): "lb-ft2 lb-ft² lb·ft² lb*ft^2|lb ft2|lbs ft2|lbm ft^2|lb ft²",
    ("20", "damping", 3502.537): "lb-s/in lb-sec/in lb/(in/s) #/(in/s) lb/in/s lbs/in/sec lb/ips|lb s/in|lbf s/in|"
    "lbs s/in|lb per in/s|lb per ips",
    ("16", "acceleration", 4.8768): "ft/s2 ft/s^2 ft/s² ft/sec2 ft/sec^2 ft/s/s|ft per s2|feet/s²",
}
WRITTEN = [
    (f"{number}{gap}{unit}", kind, value)
    for (number, kind, value), forms in FORMS.items()
    for unit in [*forms.split("|")[0].split(), *forms.split("|")[1:]]
    for gap in (" ", "")
]


@pytest.mark.parametrize(("text", "kind", "value"), WRITTEN)
def test_every_form_in_which_americans_write_a_unit(text, kind, value):
    assert units.parse(text, kind) == pytest.approx(value, rel=1e-6)


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("5/8 in", 0.015875), ("95 3/4 in", 2.43205), ("95-3/4 in", 2.43205), ('1/2"', 0.0127), ("7 ft 11 in", 2.413),
        ("7' 11\"", 2.413), ("7'11.5\"", 2.4257), ("7’ 11”", 2.413), ("7.9'", 2.40792), ("6 feet", 1.8288),
    ],
)  # fmt: skip
def test_lengths_as_on_a_tape_measure(text, value):
    assert units.parse(text, "length") == pytest.approx(value, rel=1e-9)


@pytest.mark.parametrize("text", ["1,190 lb", "-1,640 lb", "268,000 kg"])
def test_a_comma_that_may_set_thousands_apart_is_asked_about(text):
    with pytest.raises(QuantityError, match="can be read in two ways; write"):
        units.parse(text, "mass")


@pytest.mark.parametrize(
    ("text", "value"),
    [
        ("1,190.5 kg", 1190.5),
        ("1,234,567 kg", 1234567.0),
        ("1 190 kg", 1190.0),
        ("1'190,5 kg", 1190.5),
        ("0,190 kg", 0.19),
    ],
)
def test_a_comma_that_means_one_thing_is_read(text, value):
    assert units.parse(text, "mass") == value


def test_digits_apart_that_are_no_thousands_are_refused():
    """7' 11 was taken for 711."""
    with pytest.raises(QuantityError):
        units.parse("26 8 kg", "mass")
    assert units.parse("62,431 s", "time") == 62.431, "a lap's time, to the thousandth"


@pytest.mark.parametrize(
    ("text", "kind", "says"),
    [
        ("268", "mass", "has no unit; write it like '268 kg'"), ("268 lb/in", "mass", "is no unit of mass"),
        ("heavy", "mass", "is not a number"), (None, "mass", "wanted text like"), (True, "mass", "wanted text like"),
        (268, "mass", "has no unit"), ("1e999 kg", "mass", "not a finite number"),
    ],
)  # fmt: skip
def test_a_wrong_quantity_is_refused_with_the_place_and_the_right_form(text, kind, says):
    with pytest.raises(QuantityError, match=says) as caught:
        units.parse(text, kind, where="cars/kestrel.toml, [fl] mass")
    assert str(caught.value).startswith("cars/kestrel.toml, [fl] mass: ")
    assert "\n" not in str(caught.value)


def test_examples_in_errors_are_in_the_units_of_the_library_and_are_understood():
    for number, system in enumerate(("metric", "us")):
        token = units.HINTED.set(system)
        try:
            for kind, texts in units.EXAMPLES.items():
                assert units.parse(texts[number], kind) > 0
                assert units.example(kind) == texts[number]
            with pytest.raises(QuantityError, match="nothing stands here; write it like"):
                units.parse(" ", "mass")
        finally:
            units.HINTED.reset(token)


def test_temperatures_are_shown_in_the_units_asked_for():
    assert [units.degrees(c, "us") for c in (-40.0, 0.0, 100.0)] == ["-40 °F", "32 °F", "212 °F"]
    assert units.degrees(21.4) == "21 °C"
    assert units.degrees(float("nan")) == "–"


@given(st.text(max_size=40), st.sampled_from([*units.FACTORS, "temperature"]))
def test_any_text_is_a_quantity_or_a_quantity_error(text, kind):
    try:
        value = units.parse(text, kind)
    except QuantityError:
        return
    assert value == value


@pytest.mark.parametrize("system", ["metric", "us"])
def test_shown_units_return_to_si(system):
    for kind in ("force", "velocity", "stiffness", "mass"):
        shown = units.shown(kind, system)
        assert units.parse(f"{shown.number(1.0):.12f} {shown.unit}", kind) == pytest.approx(1.0, rel=1e-9)


def test_no_minus_zero_is_shown():
    assert units.shown("force").text(-0.2) == "0 N"


def test_published_spring_rates_give_the_printed_number_of_coils():
    """The wire formula is the textbook's; ours is what "N/mm" is in SI, which a slip of a thousand would show."""
    published = check("q08")
    i = published.inputs
    rates = np.array([units.parse(f"{rate} N/mm", "stiffness") for rate in i["rate_n_mm"]])
    wire, coil = i["wire_mm"] * 1e-3, np.array(i["coil_mm"]) * 1e-3
    published.holds(i["shear_modulus_n_mm2"] * 1e6 * wire**4 / (8 * rates * coil**3))
