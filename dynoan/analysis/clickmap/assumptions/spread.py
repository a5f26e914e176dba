"""How far shocks, states, runs and a valve's form lie from what is fitted (discrepancy, sizes, effects, one_shock)."""

from __future__ import annotations

# What the trend leaves over

#: over how many e-folds of speed the discrepancy stays alike [1]; judged: about a valve's piece between two knees;
#: a shorter one widens bands between tested speeds
SPEED_SPAN = 0.9
#: share of a curve's variance that is common to neighbouring speeds [1]; judged: a run's fit errs by pieces, the rest
#: is where it puts its knees
SHARED_NOISE = 0.7
#: what a whole turn of an adjuster that no test moved may do, a share of force, one standard deviation [1]; judged: a
#: screw that does much halves or doubles force
UNTESTED_SHARE = 0.5
#: sizes tried for the discrepancy and for the spread between shocks, shares of force [1]; numerics: averaged by how
#: probable each is
DISCREPANCIES = (0.01, 0.015, 0.025, 0.04, 0.065, 0.1, 0.16)
SPREADS = (0.004, 0.01, 0.016, 0.025, 0.04, 0.065, 0.1)
#: and what is expected of them [1]: how well such valve models do, judged; how alike shocks of a kind are, common
#: practice, no source
EXPECTED_DISCREPANCY = 0.02
EXPECTED_SPREAD = 0.025
#: how far from that they may be [e-folds]; judged: a factor of two for valves, of one and a half for shocks
DISCREPANCY_WIDTH, SPREAD_WIDTH = 0.7, 0.4
#: rounds in which the sizes are averaged [1]; judged: each is first asked with the others at what is expected
SIZE_ROUNDS = 1

# Shocks

#: how far an odd shock may lie from the rest, standard deviation, a share of force [1]; judged: wide enough
#: that it drags the others nowhere
ODD_SHARE = 0.3
#: and which share of that variance is each speed's own [1]; judged: of a leak nothing is left past the blow-off's knee
ODD_OWN = 0.03
#: a shock this far from the middle of the others [1] is odd where the tests are so much likelier with it free to differ
#: from speed to speed, a logarithm [1]; common practice, no source; the second judged: sound shocks reach 0, one in
#: twenty is faulty, and a false word costs more than a doubt
ODD_LEAST, ODD_EVIDENCE = 0.045, 4.0
#: the deviation of an odd shock is called one factor where over speeds it differs by no more than this share [1];
#: judged: decides a sentence only
ONE_FACTOR = 0.5
#: how far a direction of one shock lies from what both its directions have in common, and how far its factor differs
#: from pack to pack, its tests' scatter included (0.7 % a run, four runs of a pack, three such means; and 1 % for a
#: pack that sits otherwise in another body); standard deviations, shares of force [1]; common practice, no source
SIDE_SPREAD = 0.006
CARRIED_SHARE = 0.012
#: and by how many times shocks of a kind may differ more where passages weigh most, before a screw is held for it [1];
#: common practice, no source: bleeds and seats are made no more alike than springs and shims, and below the knee force
#: goes as the square of the bleed
UNIT_MORE = 2.0

# Runs and dates

#: scatter from run to run, standard deviation, a share of force [1]; common practice, no source. Sizes tried [1], and
#: how far from it they are expected [e-folds]
REPEAT_SHARE = 0.007
REPEATS = (0.004, 0.007, 0.013, 0.025, 0.05)
REPEAT_WIDTH = 0.6
#: share of a run's or a state's deviation that is even over speed, by variance [1]; common practice, no source
EVEN_SHARE = 0.7
#: how far a shock's damping lies in a later state from the first, standard deviations tried, shares of force [1],
#: and how common each is [1]; common practice, no source: mostly wear, sometimes a fault or a rebuild
STATES = (0.008, 0.03, 0.09)
STATES_COMMON = (0.75, 0.17, 0.08)
#: powers of pressure that a leak beside the valve goes as: laminar, and as an orifice [1]; judged: a shock that lost at
#: one setting lost the same share at others, or leaks in either way, each as common
LEAK_POWERS = (1.0, 0.5)
#: speeds at which that is worked out [1]; numerics
LOSS_SPEEDS = 10
#: how well a loss is known at a speed, a share of force and one of the loss, standard deviations [1], and how many
#: speeds tell apart [1]; judged: a run's scatter and what smoothing leaves. What a way that tells it ill keeps over one
#: that tells it well [1]; judged: two ways may be worn at once
LOSS_KNOWN, LOSS_POINTS, LOSS_LEAST = (0.02, 0.2), 3.0, 0.1
#: a band reaches so far beyond the furthest of these ways [1]; judged: a leak is known no better than that
LOSS_REACH = 1.2
#: a state whose deviation, averaged over those sizes, is at least this is said to be changed [1]; judged: half-way in
#: evidence between no change and a middling one, which two rows of a table at low speed reach
SURELY_CHANGED = 0.028
#: by how many times that a later state differs more where passages weigh most [1]; common practice, no source: worn
#: bleeds, bands and seats let oil by, which a shock feels below its knee and hardly above
WORN_MORE = 2.0
