"""What the click maps take for granted: each with its unit, its source, and what it decides.

"Common practice, no source" is a fact of the trade; "judged" was chosen on made-up packs as in
`tests/analysis/made_packs.py`.
"""

from __future__ import annotations

# What a map is fitted to (data)

#: how many speeds carry the fit of a direction; judged
FIT_SPEEDS = 10
#: lowest speed that takes part [m/s]; common practice, no source: below it seal friction rules what a rig records
LOWEST_SPEED = 0.02
#: differences are shares of the force, but of no less than this [N]; common practice, no source: nobody feels a newton
LEAST_FORCE = 40.0
#: no curve is believed better than this, a share of force [1]; common practice, no source
LEAST_SHARE = 0.004
#: what all tests of a pack err alike over a curve's least error, both in newtons [1]; common practice, no source: bands
#: are of scatter, and friction taken wrongly for damping does not scatter
SHARED_ERROR = 1.5
#: doubt added where a sweep does not state an adjuster that others do, a share of force [1]; judged
UNSTATED_SHARE = 0.10
#: doubt added below the lowest speed a test holds, a share of force [1]; judged
UNMEASURED_SHARE = 0.30
#: what a curve without a band is taken to be off by, a share of force [1]; judged
UNBANDED_SHARE = 0.02

# What the trend leaves over (discrepancy, hydraulic, interpolated)

#: over how many e-folds of speed the discrepancy stays alike [1]; judged
SPEED_SPAN = 0.9
#: share of a curve's variance that is common to neighbouring speeds [1]; judged
SHARED_NOISE = 0.7
#: what a whole turn of an adjuster that no test moved may do, a share of force, one standard deviation [1]; judged
UNTESTED_SHARE = 0.5
#: how far an odd shock may lie from the rest, standard deviation, a share of force [1]; judged
ODD_SHARE = 0.3
#: a shock this far from the middle of the others [1], and this many times their middle distance, is odd; common
#: practice, no source
ODD_LEAST, ODD_TIMES = 0.045, 3.0
#: sizes tried for the discrepancy and for the spread between shocks, shares of force [1]
DISCREPANCIES = (0.01, 0.015, 0.025, 0.04, 0.065, 0.1, 0.16)
SPREADS = (0.004, 0.01, 0.016, 0.025, 0.04, 0.065, 0.1)
#: and what is expected of them [1]: how well such valve models do, judged; how alike shocks of a kind are, common
#: practice, no source
EXPECTED_DISCREPANCY = 0.02
EXPECTED_SPREAD = 0.02
#: how many standard deviations from none an adjuster's action on the other direction must lie to be believed; judged
CROSSING_EVIDENCE = 3.0
#: steps from each start before the best is followed on; judged
FIRST_STEPS = 8
#: prior standard deviations of the valve's parameters, in their own units; judged: wide enough for any valve of the
#: trade, so that tests overrule them where they can
PRIOR_WIDTH = {
    "bleed": 1.2, "bleed_gain": 1.2, "bleed_shape": 1.3, "opening": 0.9, "opening_drop": 0.8, "opening_shape": 1.2,
    "blow": 1.2, "blow_power": 0.2, "blow_gain": 0.35, "port": 0.8, "leak": 1.2, "corner": 0.6, "bleed_power": 0.06,
    "crossing": 0.3,
}  # fmt: skip
#: how hard an adjuster's effects are pulled toward a straight line over clicks, against one test [1]; judged
SMOOTHING = 3e-3
#: how hard effects that the tests cannot tell apart are pulled toward none [1]; judged: small against any test
RIDGE = 1e-5
#: over which share of an adjuster's range a slope still goes on beyond the tested clicks [1]; judged
FADE = 0.3
#: the discrepancy of the interpolated view is never taken smaller than this share of force [1]; judged
LEAST_DISCREPANCY = 0.015
#: errors of a map are judged from this speed on [m/s]; common practice, no source
JUDGED_FROM = 0.025

# The tables

#: tabulated speeds of a direction, zero among them
TABLE_SPEEDS = 49
#: how far the tables go beyond the highest tested speed [1]
MARGIN = 1.3
#: at how many positions of each adjuster, and speeds, the band is worked out; between them it is interpolated
BAND_POSITIONS, BAND_SPEEDS = 6, 8

# What a click is worth (authority)

#: a click that moves no force by this share is dead [1]; common practice, no source
DEAD_SHARE = 0.003
#: an adjuster has a say where a click moves force by this share [1]; common practice, no source
SAY_SHARE = 0.01
#: speeds at which authority is given [m/s]; common practice, no source
AUTHORITY_SPEEDS = (0.025, 0.05, 0.1, 0.15, 0.25, 0.4, 0.5)

# Which pack an unknown sweep is, and what stands in for a curve (identify, equivalent)

#: speeds at which curves are held against the maps, where both hold them [m/s]; common practice, no source
IDENTIFY_SPEEDS = (0.02, 0.03, 0.05, 0.08, 0.12, 0.18, 0.27, 0.4, 0.5)
#: spread between shocks of a kind where the maps do not tell, standard deviation [1]; common practice, no source
UNIT_SPREAD = 0.02
#: scatter from run to run that is no common factor, standard deviation [1]; common practice, no source
RUN_SCATTER = 0.003
#: share of the errors' variance that hangs together over neighbouring speeds [1]; judged: the rest is knees put
#: elsewhere
SMOOTH_SHARE = 0.6
#: a force's own error, whatever the share [N]; common practice, no source: below it friction counts for more than the
#: valve
FORCE_ERROR = 1.0
#: a fit so poor that a true one would be worse this rarely is refused [1]
REFUSED = 0.05
#: a pack this probable is named [1]; between packs that share more, it cannot be told
SURE = 0.9
#: speeds at which a setting is held against the curve it stands in for, where the data hold them [m/s]
EQUIVALENT_SPEEDS = (0.025, 0.05, 0.075, 0.1, 0.15, 0.2, 0.25, 0.3, 0.4, 0.5)

# Which runs to pay for (plan, plan_model)

#: a run that takes less than this off the expected error is not worth its money [%]; common practice, no source
WORTH_A_RUN = 0.15
#: positions of each adjuster that candidates are drawn from
LEVELS = 5
#: speeds at which errors are weighed, shares of the top speed [1]
WEIGHED_SPEEDS = (0.05, 0.12, 0.25, 0.5, 1.0)
#: error of a planned run's curve, standard deviation, a share of force [1]; common practice, no source
RUN_ERROR = 0.008
#: what the trend is taken to miss before tests say so, a share of force [1]; judged
PLANNED_DISCREPANCY = 0.025
#: peak speeds a run should hold [m/s]; common practice, no source
LADDER = (0.025, 0.05, 0.1, 0.15, 0.25, 0.4, 0.5, 0.7, 1.0)
