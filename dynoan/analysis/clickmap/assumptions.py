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
#: no error of friction or zero counts for more than this share of force [1]; judged: beyond it logarithms mislead
MOST_COMMON = 0.7
#: of a curve's own error at least this share is not of friction's split [1]; judged
REST_OF_SPLIT = 0.3
#: friction of a shock that no test tells, and how far shocks lie from it, standard deviation [N]; common practice, no
#: source: seals of rod and piston drag 5 to 45 N
USUAL_FRICTION, USUAL_FRICTION_SD = 18.0, 9.0
#: how far one run's friction lies from its shock's, standard deviation [N]; common practice, no source
FRICTION_SCATTER = 3.0
#: error of a friction that comes without one, standard deviation [N]; common practice, no source
FRICTION_UNTOLD = 5.0
#: friction that is still in the forces of a pack of which no test tells it, as an error [N]; common practice, no source
FRICTION_LEFT_IN = 15.0
#: of a force with friction in it at least this share is damping [1]; judged
LEAST_LEFT = 0.2

# Dates and temperatures (states)

#: runs of a shock within so many days from the first are of one state [days]; common practice, no source: about what
#: lies between two races' rebuilds
SAME_STATE_DAYS = 60
#: a later run of a setting shows that a shock has changed where its force, the mean over these speeds [m/s], differs by
#: at least this share [1] and by so many standard errors [1], runs scattering by so much, standard deviation, a share
#: of force [1]; judged: less is wear that a state may hold, and a rig's scatter is no change
CHANGE_SPEEDS = (0.1, 0.15, 0.25, 0.4, 0.5)
CHANGED_SHARE, CHANGED_SURELY, CHANGE_REPEAT = 0.05, 3.0, 0.013
#: how far a state lies whose date is not known [days]
NEVER_DAYS = 10**6
#: oil temperature that tests are brought to, or the nearest one tested [°C]; common practice, no source: a rig's shop
REFERENCE_C = 25.0
#: damping lost a kelvin, and how far shocks differ in it, standard deviation [1/K]; common practice, no source: 1 to
#: 2.5 % per 10 K
THINNING, THINNING_SD = 0.0017, 0.0006

# What the trend leaves over (discrepancy, hydraulic, interpolated)

#: over how many e-folds of speed the discrepancy stays alike [1]; judged
SPEED_SPAN = 0.9
#: share of a curve's variance that is common to neighbouring speeds [1]; judged
SHARED_NOISE = 0.7
#: what a whole turn of an adjuster that no test moved may do, a share of force, one standard deviation [1]; judged
UNTESTED_SHARE = 0.5
#: how far an odd shock may lie from the rest, standard deviation, a share of force [1]; judged
ODD_SHARE = 0.3
#: and which share of that variance is each speed's own [1]; judged: of a leak nothing is left past the blow-off's knee
ODD_OWN = 0.03
#: a shock this far from the middle of the others [1] is odd where the tests are so much likelier with it free to differ
#: from speed to speed, a logarithm [1]; common practice, no source; the second judged: sound shocks reach 0, one in
#: twenty is faulty, and a false word costs more than a doubt
ODD_LEAST, ODD_EVIDENCE = 0.045, 4.0
#: the deviation of an odd shock is called one factor where over speeds it differs by no more than this share [1];
#: judged
ONE_FACTOR = 0.5
#: scatter from run to run, standard deviation, a share of force [1]; common practice, no source. Sizes tried, and how
#: far from it they are expected [e-folds]
REPEAT_SHARE = 0.007
REPEATS = (0.004, 0.007, 0.013, 0.025, 0.05)
REPEAT_WIDTH = 0.6
#: share of a run's or a state's deviation that is even over speed, by variance [1]; common practice, no source
EVEN_SHARE = 0.7
#: how far a shock's damping lies in a later state from the first, standard deviations tried, shares of force [1],
#: and how common each is [1]; common practice, no source: mostly wear, sometimes a fault or a rebuild
STATES = (0.008, 0.03, 0.09)
STATES_COMMON = (0.75, 0.17, 0.08)
#: by how many times that a later state differs more where passages weigh most [1]; common practice, no source: worn
#: bleeds, bands and seats let oil by, which a shock feels below its knee and hardly above
WORN_MORE = 2.0
#: and by how many times shocks of a kind may differ more there, before a screw is held for it [1]; common practice, no
#: source: bleeds and seats are made no more alike than springs and shims, and below the knee force goes as the square
#: of the bleed
UNIT_MORE = 2.0
#: how far openings of an adjuster lie from the ones taken, standard deviations tried, shares of the turn [1], and how
#: common each is [1]; judged
WARPS = (0.008, 0.025, 0.07, 0.16)
WARPS_COMMON = (0.55, 0.25, 0.14, 0.06)
#: over which share of the turn such errors run on, and which share of their variance is each click's own [1]; judged
WARP_SPAN, OWN_CLICK = 0.25, 0.25
#: how far a screw stands from the click it is set to, each time anew, standard deviations tried [clicks], and how
#: common each is [1]; common practice, no source: one in twenty has half a click of play
LOOSE = (0.05, 0.5)
LOOSE_COMMON = (0.95, 0.05)
#: oddities of an adjuster and how common they are [1]; common practice, no source: one in four has some
COMMONNESS = {"dead clicks": 0.10, "stepped": 0.07, "not monotone": 0.04, "saturating": 0.04}
#: in bands oddities count as so many times as common [1]; judged: tests that stand at like places of every step, or on
#: one side of a fall, cannot show it, and a band is to hold on odd packs too; a screw that has said all early is most
#: unlike an even one where no test stands between its ends, which many plans have
ODD_DOUBTED = {"dead clicks": 2.5, "stepped": 2.5, "not monotone": 2.5, "saturating": 4.0}
#: which share of the evidence for one way of opening over another counts [1]; judged: the valve is a little wrong, and
#: what it misses hangs together over speeds and tests more than their covariance says
EVIDENCE_SHARE = 0.5
#: share of the range that does nothing at most at an end [1]; clicks between steps; clicks by which one falls back [1];
#: common practice, no source
DEAD_MOST = 0.25
STEPS = (2, 3, 4)
#: powers of the opening that a needle's taper makes of its way, and how common each is beside the others; e-folds of an
#: adjuster that has said all after a few clicks; common practice, no source
TAPERS = {0.7: 1.0, 1.0: 4.0, 1.3: 1.5, 1.6: 1.0, 2.0: 0.5}
SATURATIONS = (3.0, 4.0, 6.0)
#: openings at which an axis' force is worked out for its tables; between them it is interpolated
OPENING_POINTS = 25
FALLS_BACK = (2, 3, 4)
#: how common adjusters are that work the other way than written, a logarithm of odds [1]; common practice, no source:
#: one in fifty. Clearly falling force spares trying it: so many standard deviations [1]
BACKWARD_ODDS = -4.0
CLEARLY_FALLS = 3.0
#: standard errors by which plain least squares must show force to rise before an adjuster is said to work the wrong
#: way [1]; judged: a false word costs more trust than a doubt that is said as one
SURELY_RISES = 2.5
#: how common adjusters are that do not return to the same place [1], by how much they stand to either side [clicks]:
#: common practice, no source; from how many tests on that is looked for; judged
NO_RETURN_COMMON, NO_RETURN_CLICKS, NO_RETURN_FROM = 0.05, 0.5, 8
#: an oddity this probable is named [1]; judged: a false one costs more trust than a true one that is not named
NAMED = 0.97
#: one less probable than that, yet more than this, is said to be possible, with the run that would show it [1]; judged:
#: a few times what is common
SUSPECTED = 0.35
#: what a later test shows is told of the shock and of a screw, where either is more probable than this [1]; judged:
#: one in five is worth the run that tells
EITHER = 0.2
#: an adjuster's tests leave open how it acts where no test stands in so wide a part of its range [1]; common practice,
#: no source: what has said all early and what opens evenly differ most there
WIDE_GAP = 0.6
#: an adjuster has said nearly all at this share of its effect [1]; common practice, no source
MOSTLY = 0.9
#: sizes tried for the discrepancy and for the spread between shocks, shares of force [1]
DISCREPANCIES = (0.01, 0.015, 0.025, 0.04, 0.065, 0.1, 0.16)
SPREADS = (0.004, 0.01, 0.016, 0.025, 0.04, 0.065, 0.1)
#: and what is expected of them [1]: how well such valve models do, judged; how alike shocks of a kind are, common
#: practice, no source
EXPECTED_DISCREPANCY = 0.02
EXPECTED_SPREAD = 0.025
#: how far a direction of one shock lies from what both its directions have in common, and how far its factor differs
#: from pack to pack, its tests' scatter included (0.7 % a run, four runs of a pack, three such means; and 1 % for a
#: pack that sits otherwise in another body); standard deviations, shares of force [1]; common practice, no source
SIDE_SPREAD = 0.006
CARRIED_SHARE = 0.012
#: how far from that they may be [e-folds]; judged
DISCREPANCY_WIDTH, SPREAD_WIDTH = 0.7, 0.4
#: rounds in which the sizes are averaged, and in which openings and valve settle; judged
SIZE_ROUNDS, OPENING_ROUNDS = 1, 2
#: with how many openings the valve is fitted anew, how far apart they are at a tested click, shares of the turn [1],
#: and by how much the first must be likelier than the last to make it worth while, a logarithm [1]; judged
OPENINGS_TRIED, OTHER_OPENING, TOLD_APART = 6, 0.06, 3.0
#: openings that move less than this share of the turn are settled [1]; judged
OPENINGS_ALIKE = 0.004
#: how far past either end an opening may be taken to lie, a share of the turn [1]; judged
PAST_END = 0.03
#: step of the slopes by an opening, a share of the turn [1]; judged
SLOPE_STEP = 0.02
#: what straight lines over clicks miss, a share of force [1]; judged: only clear cases are decided by them
PLAIN_MISFIT = 0.08
#: how common adjusters are that act on the other direction as well [1]; common practice, no source: a bleed without a
#: check valve is not rare. From which probability on one is looked for with all that is known of openings [1], and from
#: which on the map has it [1]; judged: in the map its doubt is counted, so that half a belief does no harm
CROSSING_COMMON = 0.1
CROSSING_SUSPECTED, CROSSING_BELIEVED = 0.1, 0.3
#: steps from each start before the best is followed on; judged
FIRST_STEPS = 8
#: prior standard deviations of the valve's parameters, in their own units; judged: wide enough for any valve of the
#: trade, so that tests overrule them where they can
PRIOR_WIDTH = {
    "bleed": 1.2, "bleed_gain": 1.2, "bleed_shape": 1.3, "opening": 0.9, "opening_drop": 0.8, "opening_shape": 1.2,
    "blow": 1.2, "blow_power": 0.2, "blow_flow": 0.25, "blow_gain": 0.35, "port": 0.8, "leak": 1.2, "corner": 1.0,
    "bleed_power": 0.1, "corner_power": 0.5, "crossing": 0.3, "rest": 0.1,
}  # fmt: skip
#: a force that stays at rest is looked for where tests want friction or zero to be off by so many times what curves say
#: of it [1]; judged: below that it is their error
REST_SUSPECTED = 2.0
#: how hard an adjuster's effects are pulled toward a straight line over clicks, against one test [1]; judged
SMOOTHING = 3e-3
#: effects of an adjuster rise where that leaves less than this share of what falling effects leave [1]; judged
CLEARLY_RISES = 0.2
#: how hard effects that the tests cannot tell apart are pulled toward none [1]; judged: small against any test
RIDGE = 1e-5
#: over which share of an adjuster's range a slope still goes on beyond the tested clicks [1]; judged
FADE = 0.3
#: how far an adjuster's effect half-way between two tested clicks lies from the straight way, and how far it goes from
#: the slope for as many clicks beyond the last tested one, standard deviations, shares of what lies between these two
#: [1]; the first from the tapers and oddities above by their commonness (0.10 and 0.08), the second judged
BETWEEN_SHARE, BEYOND_SHARE = 0.125, 0.5
#: the interpolated view is taken only where the valve's left-out error is more than so many times its own [1]; judged:
#: left-out tests lie at the ends of adjusters, and only the valve knows what lies between
CLEARLY_WORSE = 1.25
#: the discrepancy of the interpolated view is never taken smaller than this share of force [1]; judged
LEAST_DISCREPANCY = 0.015
#: errors of a map are judged from this speed on [m/s]; common practice, no source
JUDGED_FROM = 0.025

#: a stranger is looked for from so many tests on, where a regular valve leaves more than this share of force, among so
#: many tests that lie furthest off, and believed where without it no more than this share is left; judged
FEWEST_TO_JUDGE, SUSPICIOUS, SUSPECTS, LESS_ODD = 8, 0.04, 2, 0.4
#: with no more tests than this of a shock after others of it, its having changed explains what lies off; judged
FEW_OF_STATE = 2
#: how many tests' worth of belief stands against what left-out tests say of the bands [1]; judged
LEFT_OUT_PRIOR = 4.0
#: one test counts for no more than this, squares of standard deviations [1]; judged
MOST_SQUARES = 9.0

#: errors are brought from the force seen to the force fitted by no more than so many e-folds [1]; judged
WEIGHED_ANEW = 0.7
#: a force whose error is more than this share of it is compared in newtons [1]; judged: below it a logarithm is as good
FEEBLE_SHARE = 0.1

#: tests counted from both ends are looked for where straight lines over clicks leave more than this share of force,
#: and believed where mirroring some leaves no more than this share of that, so many of either kind; judged: packs of
#: every kind leave 0.01 to 0.16 and nine tenths of it, those counted both ways 0.15 to 0.50 and 0.3 of it at most
MIRRORED_FROM, MIRRORED_LEAVES, MIRRORED_LEAST = 0.12, 0.4, 2
#: and at these speeds, shares of the highest that all tests hold [1]; judged: where most screws act
MIRRORED_SPEEDS = (0.05, 0.1, 0.2, 0.4, 0.8)

#: tests lie off by at least this share of force [1] in both directions alike, and that is at least this share of all
#: that they have of their own [1], where two rigs or two scales are suspected; judged: packs tested on one rig show
#: 0.004 at most, on two with 2 % between them 0.005 to 0.016 where the two differ enough to matter
RIGS_APART, RIGS_ALIKE = 0.005, 0.5
#: by how much the mean of two rigs is off at least, standard deviation, a share of force [1]; common practice, no
#: source: each errs by 2 % or so
RIGS_DOUBT = 0.014

# The tables

#: tabulated speeds of a direction, zero among them
TABLE_SPEEDS = 49
#: how far the tables go beyond the highest tested speed [1]
MARGIN = 1.3
#: half of a band is never less than this share of force [1]; common practice, no source
LEAST_BAND = 0.01
#: at how many positions of each adjuster, and speeds, the band is worked out; between them it is interpolated
BAND_POSITIONS, BAND_SPEEDS = 6, 8

# What a click is worth (authority)

#: a click that moves no force by this share is dead [1]; common practice, no source
DEAD_SHARE = 0.003
#: an adjuster has a say where a click moves force by this share [1]; common practice, no source
SAY_SHARE = 0.01
#: speeds at which authority is given [m/s]; common practice, no source
AUTHORITY_SPEEDS = (0.025, 0.05, 0.1, 0.15, 0.25, 0.4, 0.5)
#: the same where people read inches: 1, 2, 4, 6, 10, 16, 20 in/s [m/s]; common practice, no source
AUTHORITY_SPEEDS_US = tuple(0.0254 * s for s in (1, 2, 4, 6, 10, 16, 20))

# Which pack an unknown sweep is, and what stands in for a curve (identify, equivalent)

#: speeds at which curves are held against the maps, where both hold them [m/s]; common practice, no source
IDENTIFY_SPEEDS = (0.02, 0.03, 0.05, 0.08, 0.12, 0.18, 0.27, 0.4, 0.5)
#: scatter from run to run that is no common factor, standard deviation [1]; common practice, no source
RUN_SCATTER = 0.006
#: friction that a fit may have taken for damping, standard deviation [N]; common practice, no source
FRICTION_SPLIT = 3.0
#: what oil of an unknown temperature may change, standard deviation, a share of force [1]; common practice, no source:
#: 15 K
UNSAID_WARMTH = 0.025
#: how often an unknown run is of a pack that the library does not hold [1], and how far such a one lies from the
#: nearest known pack at its best clicks, standard deviations, shares of force, each as common [1]; common practice, no
#: source: shocks without a label are about a club's boxes because somebody rebuilt them; shim stacks differ by 3 to
#: 15 %, and clicks take back all of it, some or next to none
STRANGE_COMMON, STRANGE_SHARES = 0.25, (0.012, 0.025, 0.1)
#: share of the errors' variance that hangs together over neighbouring speeds [1]; judged: the rest is knees put
#: elsewhere
SMOOTH_SHARE = 0.6
#: of a map's errors, and of what an unknown pack differs by, this share of the variance hangs together over speeds, the
#: map's as its fit has it, else over an e-fold [1]; judged: openings and valves err so
MAP_RUNS_ON = 0.98
#: a force's own error, whatever the share [N]; common practice, no source: below it friction counts for more than the
#: valve
FORCE_ERROR = 0.7
#: a true one would fit worse this rarely [1]; common practice, no source: below it the fit is called poor, and a pack
#: keeps as much of its probability as the rarity is of this, the rest is left to a pack unlike all here
REFUSED = 0.05
#: and this rarely it is said not to fit [1]; judged: of a pack's probability a tenth is left, so that none is said
NEVER_SO_POOR = 0.005
#: a pack this probable is named, "none of these" is said from the same on [1]: either is an answer, and answers are to
#: be right nine times in ten; between packs that share more, it cannot be told
SURE = SURE_NONE = 0.9
#: which share of the evidence for one pack over another counts [1]; judged, on 90 runs of made packs mostly 3 to 15 %
#: apart and 45 of packs 3 to 20 % off them that are not known: with so much 23 known were named, all rightly, and 2
#: strangers; with all of it 8 strangers in 50 names
IDENTIFY_EVIDENCE = 0.6
#: a pack this probable is a rival where it cannot be told [1]; common practice, no source
RIVAL = 0.05
#: packs that lie so many standard deviations apart at a run are told apart by it [1]; judged: as sure as a pack is
#: named, with the share of the evidence that counts, wants 2.7
TELLING = 3.0
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
#: with more tests than this a plan takes openings and discrepancy from them; judged
PLANNED_FROM = 4
#: peak speeds a run should hold [m/s]; common practice, no source
LADDER = (0.025, 0.05, 0.1, 0.15, 0.25, 0.4, 0.5, 0.7, 1.0)
