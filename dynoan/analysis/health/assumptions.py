"""What `health` takes for granted, with the reason for it."""

from __future__ import annotations

#: standard error of a gas force whose record does not tell it: how far a load cell's zero is set by hand [N];
#: common practice, no source. It decides how large a change of gas must be to count where such a record takes part.
GAS_SD_UNTOLD = 5.0
#: scatter from one run of a setting to the next, standard deviation, a share of force [1]; common practice, no source
RUN_SCATTER = 0.007
#: how far a screw set to the same click again stands from where it stood, standard deviation [clicks]; common practice,
#: no source. It decides how much of a change the clicks may be
RETURN_CLICKS = 0.3
#: what a click is worth where no click map tells, a share of force [1]; common practice, no source
UNKNOWN_CLICK = 0.03
#: how far friction may have moved where a test cannot tell it, standard deviation [N]; common practice, no source
FRICTION_DRIFT = 5.0
#: error of a click map where two sessions have no setting in common, standard deviation, a share of force [1]; common
#: practice, no source. It decides how large a change of force must be to count where they are compared through the map.
MAP_ERROR = 0.03
#: a smaller change of force is no finding [%]; common practice, no source. This and the next four decide what is named
FORCE_LIMIT = 3.0
#: one of gas force or friction is, or of force at most of its speeds, where its best value lies beyond the limit and
#: its whole interval beyond this share of it [1]; judged: wholly beyond the limit no change could lie that is not twice
#: as large
SURELY_SHARE = 1 / 3
#: nor is one of gas force [N]; common practice, no source
GAS_LIMIT = 15.0
#: nor is one of friction [N]; common practice, no source
FRICTION_LIMIT = 8.0
#: nor is one of what oil and mounts give, as a share [%]; common practice, no source
GIVE_LIMIT = 30.0
#: nor is one of fade [% per 10 °C]; common practice, no source
FADE_LIMIT = 2.0
#: a change is most at one end of the tested speeds where it is there so many times what it is at the other [1]; common
#: practice, no source: bleed and leak rule at low speed, blow-off at high speed. It decides what a change of force is
#: said to come from
MOSTLY_THERE = 1.7
#: fewest values to tell a step from a drift and from none [1]; judged
FEWEST_VALUES = 6
#: quantile of the distribution of a change point that covers 95 % [1] (Bai, 1997): Review of Economics and Statistics
#: 79, 551-563 (from memory)
BAI = 11.0
