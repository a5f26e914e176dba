"""How the two views of a pack are fitted and which is taken (valve_…, hydraulic, at_rest, interpolated, views)."""

from __future__ import annotations

# The hydraulic view

#: prior standard deviations of the valve's parameters, in their own units, mostly e-folds [1]; judged: wide enough for
#: any valve of the trade, so that tests overrule them where they can
PRIOR_WIDTH = {
    "bleed": 1.2, "bleed_gain": 1.2, "bleed_shape": 1.3, "opening": 0.9, "opening_drop": 0.8, "opening_shape": 1.2,
    "blow": 1.2, "blow_power": 0.2, "blow_flow": 0.25, "blow_gain": 0.35, "port": 0.8, "leak": 1.2, "corner": 1.0,
    "bleed_power": 0.1, "corner_power": 0.5, "crossing": 0.3, "rest": 0.1,
}  # fmt: skip
#: errors are brought from the force seen to the force fitted by no more than so many e-folds [1]; judged: a factor of
#: two, lest a test far off at first is thrown out by its weight
WEIGHED_ANEW = 0.7
#: a force whose error is more than this share of it is compared in newtons [1]; judged: below it a logarithm is as good
FEEBLE_SHARE = 0.1
#: steps from each start before the best is followed on [1]; judged: they need only tell which start is best, and
#: take their time for each
FIRST_STEPS = 8
#: a force that stays at rest is looked for where tests want friction or zero to be off by so many times what curves say
#: of it [1]; judged: below that it is their error
REST_SUSPECTED = 2.0
#: openings at which an axis' force is worked out for its tables [1]; numerics: between them it is interpolated
OPENING_POINTS = 25
#: rounds in which openings and valve settle [1]; judged: one for the openings, one for the valve on them
OPENING_ROUNDS = 2
#: with how many openings the valve is fitted anew [1], how far apart they are at a tested click, shares of the turn
#: [1], and by how much the first must be likelier than the last to make it worth while, a logarithm [1]; judged: each
#: one more takes a whole fit
OPENINGS_TRIED, OTHER_OPENING, TOLD_APART = 6, 0.06, 3.0
#: openings that move less than this share of the turn are settled [1]; judged: a tenth of a click of 25
OPENINGS_ALIKE = 0.004
#: how far past either end an opening may be taken to lie, a share of the turn [1]; judged: less than a click
PAST_END = 0.03
#: step of the slopes by an opening, a share of the turn [1]; numerics
SLOPE_STEP = 0.02

# The interpolated view

#: how hard an adjuster's effects are pulled toward a straight line over clicks, against one test [1]; judged: it steers
#: between tests only
SMOOTHING = 3e-3
#: effects of an adjuster rise where that leaves less than this share of what falling effects leave [1]; judged: falling
#: is the rule, and scatter alone is not to turn it
CLEARLY_RISES = 0.2
#: how hard effects that the tests cannot tell apart are pulled toward none [1]; judged: small against any test
RIDGE = 1e-5
#: over which share of an adjuster's range a slope still goes on beyond the tested clicks [1]; judged: screws say less
#: toward their ends
FADE = 0.3
#: how far an adjuster's effect half-way between two tested clicks lies from the straight way, and how far it goes from
#: the slope for as many clicks beyond the last tested one, standard deviations, shares of what lies between these two
#: [1]; judged: the first from the tapers and oddities by their commonness (0.10 and 0.08), the second that nothing
#: beyond is known but its sign
BETWEEN_SHARE, BEYOND_SHARE = 0.125, 0.5
#: the discrepancy of the interpolated view is never taken smaller than this share of force [1]; judged: few left-out
#: tests agree by chance
LEAST_DISCREPANCY = 0.015

# Which is taken, and how wide its bands are

#: the interpolated view is taken only where the valve's left-out error is more than so many times its own [1]; judged:
#: left-out tests lie at the ends of adjusters, and only the valve knows what lies between
CLEARLY_WORSE = 1.25
#: errors of a map are judged from this speed on [m/s]; common practice, no source
JUDGED_FROM = 0.025
#: how many tests' worth of belief stands against what left-out tests say of the bands [1]; judged: with a handful of
#: tests chance would set the bands
LEFT_OUT_PRIOR = 4.0
#: one test counts for no more than this, squares of standard deviations [1]; judged: three of them; one that is wrong
#: is not to widen the whole map
MOST_SQUARES = 9.0
