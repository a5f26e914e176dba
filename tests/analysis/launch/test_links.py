"""Side-view links against published and derived figures, and against a linkage moved by hand."""

from __future__ import annotations

import math

import numpy as np
import pytest

from dynoan.analysis.launch.links import follow, polynomials, runs_away
from dynoan.errors import QuantityError
from dynoan.model.links import Link, Links
from tests.checks import check

RADIUS = 0.33


def four(lower, upper, torque="links"):
    made = {n: Link({"1": body}, axle, "1") for n, (axle, body) in (("lower", lower), ("upper", upper))}
    return Links(made, torque)


def of(found, torque="links"):
    i = found.inputs
    return four((tuple(i["lower_axle_xz_m"]), tuple(i["lower_body_xz_m"])),
                (tuple(i["upper_axle_xz_m"]), tuple(i["upper_body_xz_m"])), torque)  # fmt: skip


def at_rest(found, name):
    return found.at_rest(getattr(found, name))


class TestPublished:
    def test_instant_centre(self):
        found = check("kA01")
        along = follow(of(found), RADIUS)
        found.holds([at_rest(along, "centre_ahead"), at_rest(along, "centre_up")])

    def test_live_axle(self):
        found = check("kA02")
        along = follow(of(found), RADIUS)
        slope = at_rest(along, "slope")
        squat = along.antisquat(wheelbase=found.inputs["wheelbase_m"], height=found.inputs["cg_height_m"])
        found.holds([slope, math.degrees(math.atan(slope)), 100 * along.at_rest(squat)])

    def test_final_drive_on_the_body(self):
        found = check("kA03")
        base = {"wheelbase": found.inputs["wheelbase_m"], "height": found.inputs["cg_height_m"]}
        body, links = (follow(of(found, t), found.inputs["wheel_radius_m"]) for t in ("body", "links"))
        one, other = (100 * f.at_rest(f.antisquat(**base)) for f in (body, links))
        found.holds([one, other - one])

    def test_what_the_links_carry(self):
        """The last of the three: the load the links carry for a thrust, which is that times the slope."""
        found = check("kA04")
        carried = found.inputs["thrust_n"] * at_rest(follow(of(found), RADIUS), "slope")
        assert carried == pytest.approx(found.expected[2], rel=found.rel)

    def test_swing_arm(self):
        found = check("kA05")
        i = found.inputs
        arm = Links({"swing_arm": Link({"1": (i["pivot_x_m"], i["pivot_z_m"])}, None, "1")})
        along = follow(arm, RADIUS)
        found.holds(100 * along.at_rest(along.antisquat(wheelbase=i["wheelbase_m"], height=i["cg_height_m"])))

    def test_parallel_links_have_anti_squat_without_a_centre(self):
        found = check("kA06")
        i = found.inputs
        rise = math.tan(math.radians(i["link_angle_deg"]))
        along = follow(four(((0.0, 0.2), (0.5, 0.2 + 0.5 * rise)), ((0.0, 0.45), (0.5, 0.45 + 0.5 * rise))), RADIUS)
        found.holds(100 * along.at_rest(along.antisquat(wheelbase=i["wheelbase_m"], height=i["cg_height_m"])))
        assert not np.isfinite(at_rest(along, "centre_ahead"))

    def test_every_centre_on_one_line_is_as_good(self):
        found = check("kA07")
        i = found.inputs
        values = []
        for x, z in zip(i["ic_x_m"], i["ic_z_m"], strict=True):
            along = follow(Links({"swing_arm": Link({"1": (x, z)}, None, "1")}), RADIUS, bump=0.02, droop=0.02)
            values.append(100 * along.at_rest(along.antisquat(wheelbase=i["wheelbase_m"], height=i["cg_height_m"])))
        found.holds(values)

    def test_how_the_axle_moves_in_bump(self):
        found = check("kA08")
        along = follow(of(check("kA01")), found.inputs["wheel_centre_z_m"])
        found.holds([at_rest(along, "ahead_slope"), math.degrees(at_rest(along, "turn_slope"))])

    def test_a_support_angle_is_the_slope_of_a_centre(self):
        """Anti-dive is the same line at a braked front axle: its share of the force, over L/h."""
        found = check("kA09")
        i = found.inputs
        slope = i["anti_dive_percent"] / 100 * i["cg_height_mm"] / i["wheelbase_mm"] / i["front_brake_share"]
        arm = Links({"swing_arm": Link({"1": (2.0, 2.0 * slope)}, None, "1")})
        line = at_rest(follow(arm, 0.3), "slope")
        found.holds([line, math.degrees(math.atan(line))])

    def test_full_support(self):
        found = check("kA10")
        i = found.inputs
        slope = i["cg_height_m"] / i["wheelbase_m"] / i["front_brake_share"]
        arm = Links({"swing_arm": Link({"1": (1.5, 1.5 * slope)}, None, "1")})
        found.holds(math.degrees(math.atan(at_rest(follow(arm, 0.3), "slope"))))


class TestTravel:
    def test_lengths_stay(self):
        links = of(check("kA01"))
        along = follow(links, RADIUS)
        for link in links.members.values():
            x, z = link.axle[0], link.axle[1] - RADIUS
            c, s = np.cos(along.turn), np.sin(along.turn)
            px, pz = along.ahead + c * x - s * z, along.travel + s * x + c * z
            length = np.hypot(px - link.at_body[0], pz - (link.at_body[1] - RADIUS))
            assert np.ptp(length) < 1e-9

    def test_the_slopes_are_the_derivatives(self):
        along = follow(of(check("kA01")), RADIUS)
        middle = slice(3, -3)
        for values, slope in ((along.ahead, along.ahead_slope), (along.turn, along.turn_slope)):
            assert np.gradient(values, along.travel)[middle] == pytest.approx(slope[middle], abs=2e-3)

    def test_a_short_upper_link_moves_the_anti_squat_a_lot(self):
        """A short four-link moves from about 150 % at rest by tens of percent over 50 mm, one side up, one down."""
        short = four(((0.0, 0.22), (0.35, 0.27)), ((0.0, 0.45), (0.25, 0.40)))
        along = follow(short, 0.3)
        squat = along.antisquat(wheelbase=2.43, height=0.51)
        at = np.interp([-0.05, 0.0, 0.05], along.travel, squat)
        assert abs(at[2] - at[0]) > 0.3

    def test_polynomials_follow_the_links(self):
        along = follow(of(check("kA01")), RADIUS)
        for values, powers in zip((along.ahead, along.turn), polynomials(along), strict=True):
            assert np.polynomial.polynomial.polyval(along.travel, powers) == pytest.approx(values, abs=2e-6)

    def test_a_torque_arm_has_its_centre_straight_above_or_below_its_front_end(self):
        arm = Links(
            {"lower": Link({"1": (0.5, 0.25)}, (0.0, 0.22), "1"), "torque_arm": Link({"1": (1.2, 0.35)}, None, "1")}
        )
        assert at_rest(follow(arm, RADIUS), "centre_ahead") == pytest.approx(1.2)


class TestWarnings:
    def test_a_centre_that_comes_near_runs_away(self):
        close = four(((0.0, 0.2), (0.2, 0.25)), ((0.0, 0.45), (0.2, 0.30)))
        assert runs_away(follow(close, 0.3, bump=0.05, droop=0.05), 2.43)
        assert not runs_away(follow(of(check("kA01")), RADIUS), 2.43)

    def test_links_that_bind_are_told(self):
        with pytest.raises(QuantityError, match="bind"):
            follow(four(((0.0, 0.2), (0.05, 0.2)), ((0.0, 0.45), (0.05, 0.45))), 0.3)

    def test_one_rod_is_no_linkage(self):
        with pytest.raises(QuantityError, match="swing_arm alone"):
            follow(Links({"lower": Link({"1": (0.5, 0.25)}, (0.0, 0.22), "1")}), 0.3)
