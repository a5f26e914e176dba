"""What is taken for granted of what makes a sweep, and which sheets are none."""

from __future__ import annotations

#: [runs] more in one file are a column of measurements read as a key; judged: a shop's year in one file is fewer; it
#: bounds time
MOST_PARTS = 2000
#: [rows] a trace has no fewer; judged: two cycles of four samples; of fewer no direction is told
TRACE_ROWS = 8
#: [rows] and no more, unless its columns name directions; judged: 20 speeds of 30 settings; longer tables are traces
MOST_PEAK_ROWS = 600
#: [sheets] beside one called an average hold so many runs at least, or it is a run itself; judged: of one run there is
#: no average
FEWEST_AVERAGED = 2
#: [1] sheets whose travel differs by less of the stroke, sample by sample, hold one motion; judged: two channels of
#: one run differ by rounding, two runs by their phase
ONE_MOTION = 0.02
#: [speeds] of so many different ones, none further from the last than this share of their span, both directions and
#: back, a record is made though they repeat; judged: a table has no more speeds, and from its fastest it starts again
SAMPLED_SPEEDS, SAMPLED_STEP = 24, 0.2
