"""Which pack an unknown sweep is, and which run would tell packs apart (identify, likelihood, telling)."""

from __future__ import annotations

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
#: 15 %, and clicks take back all of it or some; what lies nearer than shocks of a kind do is the known pack to who asks
STRANGE_COMMON, STRANGE_SHARES = 0.25, (0.025, 0.1)
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
#: a pack this probable is named, "none of these" is said from the same on [1]; judged: either is an answer, and answers
#: are to be right nine times in ten; between packs that share more, it cannot be told
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
