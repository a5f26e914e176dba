"""What learning from a launch takes for granted: every number a referee would question, and what it decides.

"Common practice, no source" is a fact of the trade; "judged" is our judgement; "numerics" is how finely one reckons.
"""

from __future__ import annotations

from collections.abc import Mapping

# How far values lie off where the car's file states no ±: half widths of 95 % limits
#: as shares of the value [1]; common practice, no source. They decide how much a log has to tell before a value counts
#: as told
USUAL: Mapping[str, float] = {
    "cg_height": 0.10, "pitch_inertia": 0.25, "mass": 0.02, "spring": 0.06, "tyre": 0.15, "shock_ratio": 0.03,
    "grip": 0.25,
}  # fmt: skip
#: of anti-squat [1]; common practice, no source
USUAL_ANTISQUAT = 0.25
#: how much higher or lower than measured the ends of the links at the body may sit [m]; common practice, no source
USUAL_LINKS = 0.02
#: of the damping on the car over that of the dyno's curve [1]; common practice, no source: bushings, oil at another
#: temperature
USUAL_DAMPING = 0.15
#: friction of one shock on the car where the file states none [N], and how far off in the logarithm (one standard
#: deviation) [1]; common practice, no source: joints and bushings rub too
FRICTION, FRICTION_OFF = 25.0, 0.7

# Told or not
#: a value is told where its limits become narrower than this share of what they were [1]; judged: a third
#: at least is to come of the log
TOLD = 0.7
#: a launch left out is predicted better where the error falls below this share, worse where it rises above
#: [1]; judged: between them is scatter
BETTER, WORSE = 0.8, 1.1

#: what is logged less what is predicted is evened out over this before it is judged [s]; judged: the road's hits do not
#: count
EVENED = 0.5

# The sensors: standard deviations. What they hold open no log can tell
#: scale of a shock's sensor, of acceleration and of speed [1]; common practice, no source
SENSOR_SCALE = 0.01
#: zero of a shock's sensor where the car stood, and its drift in a second [m, m/s]; common practice, no source
SENSOR_ZERO, SENSOR_DRIFT = 2e-4, 2e-4
#: zero of an accelerometer after the car stood [m/s²]; common practice, no source
ACCELERATION_ZERO = 0.05
#: how late a speed is, and how far that may be off [s]; common practice, no source
SPEED_LATE, SPEED_LATE_OFF = 0.04, 0.04

# The drive
#: what is looked at: so long before the launch is seen, and so long after that [s]; judged: the drive comes
#: in before, the body has swung out after
BEFORE, AFTER = 0.5, 2.4
#: when the drive comes in before it is seen, and how far that may be off [s]; judged: it is seen once the car moves
SEEN_LATE, SEEN_OFF = 0.2, 0.1
#: its rise, median and one standard deviation of the logarithm [s, 1]; common practice, no source
RISE, RISE_OFF = 0.18, 0.5
#: how late the tyres' force follows, median and one standard deviation of the logarithm [s, 1]; common
#: practice, no source: a relaxation length of some decimetres at launch speeds
TYRE_LAG, TYRE_LAG_OFF = 0.02, 0.6
#: of the plateau in the logarithm: of a launch, and what it wanders from knot to knot [1]; judged: a foot held
#: down is steady to some per cent
LEVEL_OFF, WANDER = 0.03, 0.012
#: it may wander so many times as much for a short time, where the logs ask for it: a change of gear [1, s];
#: judged: a wander that is allowed too freely takes what values should explain
WANDERS, SHORT = (1.0, 4.0, 12.0), 0.25
#: between knots of the plateau [s]; judged: a body swings in two to four of them
KNOT = 0.2

# The model
#: what the launch model itself is off by, a share of the largest deflection, over this time [1, s]; judged from made
#: launches of a whole car
MODEL_ERROR, MODEL_TIME = 0.03, (0.4, 0.12)
#: roads whose effect on the logs is run, to know what roughness may do to them [1] (numerics)
ROADS = 64
#: how much of what rough roads pull the car down in the model they do on the ground, mean and one standard deviation
#: [1]: it hangs on short waves, which the logs tell little of; judged: anything from none to all
SUNK, SUNK_OFF = 0.5, 0.5
#: seconds beyond which two moments' road is taken as independent [s] (numerics: few roads cannot tell)
ROAD_APART = 0.8
#: what leaning over a road whose sides differ adds to the travel of one side at the end of a launch, at this
#: roughness [m, m³]; judged from made launches of a whole car
LEANING, LEANING_AT = 1.5e-3, 1e-4
#: how long it lasts, and which share of its mean square does so: a rocking, and a lean that stays [s, 1]; judged from
#: the same launches, 60 on two roughnesses: two moments 0.2 s apart have 0.7 in common, 0.4 s and more apart a half
LEANING_TIMES = ((0.23, 0.55), (1.5, 0.45))
#: roughness looked through [m³]; common practice, no source: from a runway to a torn field
ROUGHNESSES = tuple(float(10.0**e) for e in (-7, -6.5, -6, -5.5, -5.25, -5, -4.75, -4.5, -4.25, -4, -3.75, -3.5, -3))

# How it is carried out (numerics)
#: samples are averaged over such blocks [s]; judged: a body swings ten times as slowly
BLOCK = 0.05
#: step of the launch [s]; numerics
STEP = 2e-3
#: step of a derivative, in standard deviations of the prior [1]; numerics
NUDGE = 0.1
#: rounds of Gauss-Newton after each look at the roughness [1]; numerics
ROUNDS = 2
#: starts that are tried, about where the launch was seen [s]; judged: as far as it may be seen late
STARTS = (-0.2, -0.15, -0.1, -0.05, 0.0, 0.05, 0.1, 0.15)
#: samples before the launch that a zero needs, and how far before it is seen the car still stands [s];
#: judged: the drive may have come in before it is seen
REST_SAMPLES, REST_UNTIL, REST_FROM = 10, 0.35, 3.0
#: of a launch that a log must hold [s]; judged: the nose has risen by then
SHORTEST = 1.2
