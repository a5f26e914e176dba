"""What `health` takes for granted, with the reason for it."""

from __future__ import annotations

#: standard error of a gas force whose record does not tell it: how far a load cell's zero is set by hand [N];
#: common practice, no source. It decides how large a change of gas must be to count where such a record takes part.
GAS_SD_UNTOLD = 5.0
#: error of a click map where two sessions have no setting in common, standard deviation as a share of force; common
#: practice, no source. It decides how large a change of force must be to count where they are compared through the map.
MAP_ERROR = 0.03
