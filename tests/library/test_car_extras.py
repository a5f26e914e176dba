"""Links, holes, engine, wheelie bar and ± in a car file: read, written back the same, refused with what is right."""

from __future__ import annotations

import math

import pytest

from dynoan.analysis.launch.from_car import half_car
from dynoan.errors import QuantityError
from dynoan.library.car_changes import changed
from dynoan.library.car_file import car_from_text
from dynoan.library.car_written import car_to_text
from tests.cli.launch_library import CAR as BASE

LINKS = """
[links]
lower = { axle = ["0 mm", "240 mm"], body = [["520 mm", "250 mm"], ["520 mm", "275 mm"]] }
upper = { axle = ["30 mm", "430 mm"], body = { high = ["430 mm", "395 mm"], low = ["430 mm", "380 mm"] } }
holes = { lower = 2, upper = "low" }
"""
ENGINE = """
[engine]
torque = [["2000 rpm", "180 N m"], ["5000 rpm", "240 N m"]]
ratio = 10.4
limit = "6500 rpm"
[wheelie_bar]
behind = "1200 mm"
above = "80 mm"
rate = "200 N/mm"
"""
STOPS = """
bump_stop = [["0 mm", "0 N"], ["10 mm", "600 N"], ["25 mm", "4 kN"]]
droop_stop = [["0 mm", "0 N"], ["8 mm", "2000 N"]]
"""
PLAIN = BASE.replace('antisquat = "45 %"\n', "")


def car(text=PLAIN + LINKS + ENGINE):
    return car_from_text(text, "cars/kestrel.toml")


class TestReading:
    def test_links_and_the_holes_in_use(self):
        links = car().links
        assert links.members["lower"].at_body == pytest.approx((0.52, 0.275))
        assert links.members["upper"].at_body == pytest.approx((0.43, 0.38))
        assert list(links.members["upper"].body) == ["high", "low"]

    def test_the_first_hole_where_none_is_named(self):
        assert car(PLAIN + LINKS.replace('holes = { lower = 2, upper = "low" }', "")).links.members["lower"].hole == "1"

    def test_an_engine_has_no_torque_beyond_its_limit(self):
        engine = car().extras.engine
        assert engine.speeds[0] == pytest.approx(2000 * math.pi / 30)
        assert engine.torques[-1] == 0.0
        assert engine.speeds[-1] > 6500 * math.pi / 30

    def test_what_an_axle_states_besides(self):
        text = PLAIN.replace("[rear]", '[rear]\nanti_roll = "12 N/mm"\nfriction = "40 N"\ntyre_damping = "200 N s/m"')
        extras = car(text).extras
        assert (extras.anti_roll, extras.friction) == ({"rear": 12e3}, {"rear": 40.0})

    def test_stops_as_force_over_how_far_they_are_squeezed(self):
        found = car(PLAIN.replace("[rear]", f"[rear]\n{STOPS}"))
        assert found.extras.bump_stop == {"rear": ((0.0, 0.0), (pytest.approx(0.01), 600.0), (0.025, 4000.0))}
        assert found.extras.droop_stop["rear"][-1] == pytest.approx((0.008, 2000.0))

    def test_a_surface_that_grips_less_when_the_wheels_spin(self):
        surface = car(PLAIN.replace("grip = 0.65", "grip = 0.65\nsliding_grip = 0.5")).surfaces["loose"]
        assert surface.sliding_grip == 0.5

    def test_a_surface_on_which_grip_falls_with_load(self):
        found = car(PLAIN.replace("grip = 0.65", 'grip = 0.65\nload_sensitivity = "0.12 ± 0.05"'))
        assert found.surfaces["loose"].load_sensitivity == 0.12
        assert found.plus_minus["surfaces.loose.load_sensitivity"] == pytest.approx(0.05)
        assert car_from_text(car_to_text(found), "cars/it.toml").surfaces == found.surfaces
        with pytest.raises(QuantityError, match="load_sensitivity"):
            car(PLAIN.replace("grip = 0.65", "grip = 0.65\nload_sensitivity = 12"))


class TestPlusMinus:
    @pytest.mark.parametrize("text", ["510 ± 20 mm", "510 mm ± 20 mm", "510 +- 20 mm", "510 +/- 20 mm"])
    def test_what_follows_it_is_the_half_width(self, text):
        found = car(PLAIN.replace("510 mm", text))
        assert found.cg_height == pytest.approx(0.51)
        assert found.plus_minus == {"cg_height": pytest.approx(0.02)}

    def test_shares_and_plain_numbers_may_have_one(self):
        text = BASE.replace('"45 %"', '"45 ± 15 %"').replace("shock_ratio = 0.92", 'shock_ratio = "0.92 ± 0.02"')
        found = car(text)
        assert found.plus_minus == {"antisquat": pytest.approx(0.15), "front.shock_ratio": pytest.approx(0.02)}
        assert found.corners["fr"].shock_ratio == 0.92

    @pytest.mark.parametrize("text", ["510 ± 0 mm", "510 ± mm", "± 20 mm", "510 ± 20"])
    def test_what_is_none_is_named(self, text):
        with pytest.raises(QuantityError, match="cg_height"):
            car(PLAIN.replace("510 mm", text))

    def test_a_decimal_comma_is_one_in_a_plain_number_too(self):
        found = car(PLAIN.replace("shock_ratio = 0.92", 'shock_ratio = "0,92 ± 0,02"'))
        assert found.plus_minus == {"front.shock_ratio": pytest.approx(0.02)}
        assert found.corners["fr"].shock_ratio == pytest.approx(0.92)

    @pytest.mark.parametrize("text", ["0..92 ± 0.02", "0.92, ± 0.02", "0.92 ± 0.0.2", "0.92 ± 0", "0.92 ± ."])
    def test_what_is_no_number_beside_it_is_named(self, text):
        with pytest.raises(QuantityError, match="shock_ratio"):
            car(PLAIN.replace("shock_ratio = 0.92", f'shock_ratio = "{text}"'))


class TestWriting:
    def test_a_car_written_and_read_is_the_same(self):
        text = PLAIN.replace("510 mm", "510 ± 20 mm").replace('"38 N/mm"', '"38 ± 1 N/mm"') + LINKS + ENGINE
        found = car(text.replace("[rear]", f'[rear]\nfriction = "40 N"{STOPS}'))
        again = car(car_to_text(found))
        assert again == found
        assert set(found.plus_minus) == {"cg_height", "rear.spring"}

    def test_a_hole_is_changed_by_its_link(self):
        assert changed(car(), {"links.lower": "1"}).links.members["lower"].hole == "1"

    def test_a_stated_anti_squat_takes_the_place_of_the_links(self):
        found = changed(car(), {"rear.antisquat": "80 %"})
        assert (found.antisquat, found.links) == (pytest.approx(0.8), None)


class TestRefusals:
    @pytest.mark.parametrize(
        ("old", "new", "told"),
        [
            ("lower = 2", "lower = 3", "links.holes.lower"), ('["0 mm", "240 mm"]', '["0 mm"]', "links.lower.axle"),
            ('"520 mm", "250 mm"', '"520", "250 mm"', "links.lower.body"), ("ratio = 10.4", "", "engine.ratio"),
            ('["5000 rpm"', '["1000 rpm"', "engine.torque"), ('rate = "200 N/mm"', "", "wheelie_bar.rate"),
            ("[links]", '[links]\ntorque = "both"', "links.torque"),
        ],
    )  # fmt: skip
    def test_file_and_key_are_named(self, old, new, told):
        text = PLAIN + LINKS + ENGINE
        assert old in text
        with pytest.raises(QuantityError, match=told):
            car(text.replace(old, new, 1))

    @pytest.mark.parametrize(
        ("old", "new", "told"),
        [
            ('["2000 rpm"', '["2000"', "like '3500 rpm'"), ('limit = "6500 rpm"', 'limit = "6500"', "like '3500 rpm'"),
            ('cg_height = "510 mm"', 'cg_height = "510"', "like '510 mm'"),
            ('bump_travel = "75 mm"', 'bump_travel = "75"', "like '75 mm'"),
            ("[links]", '[links]\nlower = { torque_arm = [["900 mm", "330 mm"]] }', 'torque_arm = { body = [["'),
        ],
    )  # fmt: skip
    def test_the_way_out_is_in_the_words_of_the_thing(self, old, new, told):
        text = (PLAIN + LINKS + ENGINE).replace("lower = {", "#lower = {").replace("holes =", "#holes =")
        assert old in text
        with pytest.raises(QuantityError) as caught:
            car(text.replace(old, new, 1))
        assert told in str(caught.value)

    def test_antisquat_in_quotes_without_its_sign(self):
        with pytest.raises(QuantityError, match='write "55 %"'):
            car(BASE.replace('"45 %"', '"55"'))

    def test_an_impossible_value_is_told_by_the_key_that_the_file_has(self):
        with pytest.raises(QuantityError, match=r"front\.tyre") as caught:
            car(PLAIN.replace('tyre = "210 N/mm"', 'tyre = "2 N/mm"', 1))
        assert "more" not in str(caught.value)

    @pytest.mark.parametrize(
        ("rows", "told"),
        [
            ('[["0 mm", "0 N"]]', "2 to 7 rows"), ('[["1 mm", "0 N"], ["5 mm", "90 N"]]', "first row"),
            ('[["0 mm", "0 N"], ["5 mm", "0 N"]]', "must rise"), ('"300 N/mm"', "write it like"),
            ('[["0 mm", "0 N"], ["10 m", "600 N"]]', "check the units"),
            ('[["0 mm", "0 N"], ["10", "600 N"]]', "no unit"),
        ],
    )  # fmt: skip
    def test_stops_that_are_none(self, rows, told):
        with pytest.raises(QuantityError, match=r"rear\.bump_stop") as caught:
            car(PLAIN.replace("[rear]", f"[rear]\nbump_stop = {rows}"))
        assert told in str(caught.value)

    def test_a_stop_without_the_travel_to_it(self):
        text = PLAIN.replace("[rear]", f"[rear]\n{STOPS}")
        short = "\n".join(line for line in text.splitlines() if not line.startswith("bump_travel"))
        with pytest.raises(QuantityError, match="needs bump_travel"):
            car(short)

    def test_links_beside_anti_squat(self):
        with pytest.raises(QuantityError, match="keep one of them"):
            car(BASE + LINKS)


class TestAllWheelsDrive:
    ALL = BASE.replace('driven = "rear"', 'driven = "all"\nfront_drive = "40 %"').replace(
        "[front]", '[front]\nanti_lift = "100 %"'
    )

    def test_the_front_states_what_its_links_take_of_the_lift(self):
        """100 % leaves the front springs where they are, as load transfer by hand has it; written back the same."""
        made = car(self.ALL)
        assert made.extras.anti_lift == {"front": pytest.approx(1.0)}
        assert car(car_to_text(made)).extras == made.extras
        half = half_car(made)
        drive = 5000.0  # N, steady
        lifted = drive * made.cg_height / made.wheelbase
        assert -half.front.slope * half.front.share * drive == pytest.approx(lifted)
        assert any("100 % of the lift" in note for note in half.notes)
        none = changed(made, {"front.anti_lift": "0 %"})
        assert half_car(none).front.slope == 0.0

    def test_at_the_rear_antisquat_says_it_and_with_one_axle_driven_nothing_does(self):
        with pytest.raises(QuantityError, match=r"anti_lift: belongs in \[front\]"):
            car(self.ALL.replace("[rear]", '[rear]\nanti_lift = "50 %"'))
        half = half_car(car(BASE.replace("[front]", '[front]\nanti_lift = "50 %"')))
        assert half.front.slope == 0.0
        assert any("anti_lift in [front] says nothing" in note for note in half.notes)
