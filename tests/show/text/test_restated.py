"""What is found in words, in the units people are shown."""

from __future__ import annotations

import pytest

from dynoan.show.text.restated import restated


@pytest.mark.parametrize(
    ("metric", "us"),
    [
        ("friction 17.6 N (± 1.4), turning around", "friction 3.96 lbf (± 0.31), turning around"),
        ("gas force -80 N (-80 to -79), about 5.2 bar", "gas force -18.0 lbf (-18.0 to -17.8), about 75 psi"),
        ("at 50, 100 and 250 mm/s", "at 2.0, 3.9 and 9.8 in/s"),
        ("0.36 to 0.40 N/mm", "2.1 to 2.3 lb/in"),
        ("estimated as 1306 kg m2 (sprung mass)", "estimated as 30992 lb ft² (sprung mass)"),
        ("the first at 40 °C, 10 °C cooler", "the first at 104 °F, 18 °F cooler"),
        ("+1.2 % per 10 °C within", "+1.2 % per 18 °F within"),
        ('add wheel_radius = "300 mm"', 'add wheel_radius = "11.8 in"'),
        ("3500 N s/m", "19.99 lbf s/in"),
        # what somebody wrote, and what is no quantity
        ("'60 mm' has no unit", "'60 mm' has no unit"),
        ("RL-03 N and P2 m", "RL-03 N and P2 m"),
        ("time to 30 m, gate 5 J", "time to 30 m, gate 5 J"),
        ("12 Nm5, 44 ms, 3 x 4 months", "12 Nm5, 44 ms, 3 x 4 months"),
    ],
)  # fmt: skip
def test_quantities_are_turned_and_nothing_else(metric, us):
    assert restated(metric, "us") == us
    assert restated(metric, "metric") == metric


def test_a_number_keeps_about_the_step_it_was_told_in():
    assert restated("2 mm/s", "us") == "0.08 in/s"
    assert restated("2551 N/mm", "us") == "14567 lb/in"
