"""What stands, all of it in comments, at the end of a new car's file: targets, surfaces, links, engine, wheelie bar."""

from __future__ import annotations

from dynoan.units import Shown

_TARGETS = """
# The damping ratios you want, at 50 and 250 mm/s at the shock; without them choose proposes some and says why;
# dynoan guide ratios says how to choose.
# [targets.front]
# compression = { low = 0.42, high = 0.30 }
# rebound = { low = 0.62, high = 0.42 }
# [targets.rear]
# compression = { low = 0.38, high = 0.30 }
# rebound = { low = 0.57, high = 0.43 }

# What you drive on, for a launch: peak friction, roughness as a class of ISO 8608, A (smooth) to H, the grip that is
# left when the wheels spin, how steeply grip comes in with slip (some 10 to 30), and by which power of its load a
# tyre's grip falls (0 to 0.2; grip is that under the load at rest).
# [surfaces.sticky]
# grip = 1.05
# roughness = "B"
# [surfaces.loose]
# grip = 0.65
# roughness = "D"
# sliding_grip = 0.55
# slip_stiffness = 15
# load_sensitivity = 0.1
"""
_METRIC = """
# A driven axle on links, in the place of antisquat: points from the ground under the axle, ahead and up. Several holes
# at the body may stand there; holes picks one, and dynoan launch NAME --holes lays them side by side. In the place of
# upper may stand torque_arm = { body = [["900 mm", "330 mm"]] }; in the place of both swing_arm, written so too, which
# is a ladder bar; torque = "body" is for a final drive that is bolted to the body.
# [links]
# lower = { axle = ["0 mm", "240 mm"], body = [["520 mm", "250 mm"], ["520 mm", "275 mm"]] }
# upper = { axle = ["30 mm", "430 mm"], body = [["430 mm", "410 mm"]] }
# holes = { lower = 1, upper = 1 }
# torque = "links"

# What drives it at full throttle, in the place of all the grip there is: torque against engine speed, turns of the
# engine a turn of the wheels, the limiter, and what turns with the engine.
# [engine]
# torque = [["1500 rpm", "170 N m"], ["3000 rpm", "225 N m"], ["4500 rpm", "240 N m"], ["6000 rpm", "225 N m"]]
# ratio = 10.4
# limit = "7200 rpm"
# inertia = "0.14 kg m2"

# A wheelie bar: its roller behind the rear axle and above the ground at rest, and how stiff it is.
# [wheelie_bar]
# behind = "1200 mm"
# above = "80 mm"
# rate = "200 N/mm"
"""
#: the metric examples that read otherwise in US units, longest first where one holds another
_US = (
    ('["0 mm", "240 mm"], body = [["520 mm", "250 mm"], ["520 mm", "275 mm"]]',
     '["0 in", "9.5 in"], body = [["20.5 in", "9.8 in"], ["20.5 in", "10.8 in"]]'),
    ('["30 mm", "430 mm"], body = [["430 mm", "410 mm"]]', '["1.2 in", "17 in"], body = [["17 in", "16.1 in"]]'),
    ('["900 mm", "330 mm"]', '["35.5 in", "13 in"]'),
    ("50 and 250 mm/s", "about 2 and 10 in/s"),
    ("170 N m", "125 lb ft"), ("225 N m", "166 lb ft"), ("240 N m", "177 lb ft"), ("1200 mm", "47 in"),
    ("80 mm", "3.2 in"), ("200 N/mm", "1140 lb/in"), ("0.14 kg m2", "3.3 lb ft2"),
)  # fmt: skip


def car_more(units: Shown) -> str:
    """Return the end of a new car's file, in the units to show."""
    text = _TARGETS + _METRIC
    for metric, us in _US if units == "us" else ():
        text = text.replace(metric, us)
    return text
