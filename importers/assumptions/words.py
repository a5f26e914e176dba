"""What is taken for granted of words and numbers in cells."""

from __future__ import annotations

#: [clicks] more clicks than any adjuster has: a number above is something else; common practice, no source
MOST_CLICKS = 99
#: [years] a date outside is none of a run; judged: two digits of anything else make a year; rigs that write files are
#: younger than the first
FIRST_YEAR, LAST_YEAR = 1950, 2100
#: [1] share of cells that must be clock times for a column to be one; judged: cells between blocks may hold words, yet
#: most must be times
CLOCK_SHARE = 0.5
#: [1] time that falls back by more than this share of a clock's range started anew there; judged: a clock that starts
#: anew falls by nearly all of its range, one that was set back by less
WRAP_SHARE = 0.9
#: [°C or °F] "20C" beside clicks of rebound alone is a temperature from here on, and below it so many clicks of
#: compression; judged: shops are no colder, and adjusters mostly stand at fewer clicks; both are said
LEAST_WARMTH = {"C": 15.0, "F": 40.0}
#: [°C or °F] more is no temperature of a shock on a rig; common practice, no source
MOST_WARMTH = {"C": 140.0, "F": 285.0}
