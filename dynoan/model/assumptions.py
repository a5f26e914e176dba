"""What the model takes for granted of how a record was sampled and moved, with unit, source and what it decides."""

from __future__ import annotations

#: [samples] neighbouring steps of time whose median says how often a record was sampled there; judged: one odd stamp in
#: a few is outvoted, and a change of rate is seen within a handful
NEIGHBOURS = 9
#: [1] the rate goes with the speed, by an encoder or block by block, where a twentieth of the steps lies below this
#: share of the middle one, or the middle one below it of a twentieth; judged: a clock that shakes is not meant
CHANGES = 0.7
#: [steps] a longer time between samples is a pause of the logger, or several samples that were dropped; judged: fewer
#: dropped ones are bridged, over more the motion may have turned unseen
PAUSE_STEPS = 8

#: [1] how far from mid-stroke a turn is counted, as a share of the stroke; judged: noise there makes none, and strokes
#: of half the longest still count
TURN_BAND = 0.25
#: [%] the half cycle that a percentile of all is taken for; judged: so that a slow approach does not hide fast cycles
SHORT_PERCENTILE = 25
#: [samples] the widest half window; numerics: beyond it a wider one only costs time
WIDEST_HALF = 50

#: [1] a step that far from the usual one is uneven; judged: beyond what rounded stamps make
UNEVEN = 0.08
#: [samples] a longer time between samples has lost one, where the clock is even; judged: nearer to two steps than one
LOST_STEPS = 1.6
#: [1] where more steps are so long, the clock is not even; judged: a logger that loses more than one in fifty is seldom
LOST_SHARE = 0.02
