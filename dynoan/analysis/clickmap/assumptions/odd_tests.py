"""When a test is left out, read from the other end, or its rig doubted (outliers, two_ways, rigs, plain_…)."""

from __future__ import annotations

#: an outlier is looked for from so many tests on [1], where a regular valve leaves more than this share of force [1],
#: among so many tests that lie furthest off [1], and believed where without it no more than this share is left [1];
#: judged: leaving out a sound test costs more than keeping a doubtful one
FEWEST_TO_JUDGE, SUSPICIOUS, SUSPECTS, LESS_ODD = 8, 0.04, 2, 0.4
#: with no more tests than this of a shock after others of it, its having changed explains what lies off [1]; judged:
#: from three on they tell of one another
FEW_OF_STATE = 2

#: tests counted from both ends are looked for where straight lines over clicks leave more than this share of force [1],
#: and believed where mirroring some leaves no more than this share of that, so many of either kind [1]; judged: packs
#: of every kind leave 0.01 to 0.16 and nine tenths of it, those counted both ways 0.15 to 0.50 and 0.3 of it at most
MIRRORED_FROM, MIRRORED_LEAVES, MIRRORED_LEAST = 0.12, 0.4, 2
#: and at these speeds, shares of the highest that all tests hold [1]; judged: where most screws act
MIRRORED_SPEEDS = (0.05, 0.1, 0.2, 0.4, 0.8)
#: what straight lines over clicks miss, a share of force [1]; judged: only clear cases are decided by them
PLAIN_MISFIT = 0.08

#: tests lie off by at least this share of force [1] in both directions alike, and that is at least this share of all
#: that they have of their own [1], where two rigs or two scales are suspected; judged: packs tested on one rig show
#: 0.004 at most, on two with 2 % between them 0.005 to 0.016 where the two differ enough to matter
RIGS_APART, RIGS_ALIKE = 0.005, 0.5
#: by how much the mean of two rigs is off at least, standard deviation, a share of force [1]; common practice, no
#: source: each errs by 2 % or so
RIGS_DOUBT = 0.014
