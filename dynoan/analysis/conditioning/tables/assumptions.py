"""What taking a peak table for damping assumes: each with its unit, its source, and what it decides."""

from __future__ import annotations

from dynoan.analysis.conditioning import assumptions as of_traces

#: of a force, share, and how many points' word that is worth [1]; common practice, no source
TABLE_SCATTER, TABLE_KNOWN = 0.006, 2.0
#: spline edges near zero [m/s]; common practice, no source: no table has rows below
TABLE_EDGES = (0.002, 0.004, 0.007, 0.011, 0.016)
#: slowest row [m/s] and error of the gas force [N] from which that is told; common practice, no source
TABLE_SLOWEST, TABLE_OPEN = 0.03, 30.0
TABLE_ZERO = 0.004  #: of the cell, share of the peak force [1]; common practice, no source
#: friction still in, standard deviation of the half normal [N]; common practice, no source
TABLE_FRICTION = 25.0
#: slow rows whose forces lie within this share of one another do not rise with speed [1], from so many rows on; there a
#: table of the extremes of each cycle shows an end of the stroke, by so much more, mean and standard deviation [N];
#: common practice, no source: gas
#: of 0.3 to 2.5 N/mm over half a stroke, and friction that breaks away
TABLE_FLAT, TABLE_FLAT_ROWS, TABLE_END = 0.03, 2, (45.0, 35.0)
#: mean and standard deviation of a gas force nobody states [N]; common practice, no source
GAS_UNSTATED = (120.0, 120.0)
#: gas force at mid-stroke over that stated extended, and its share of doubt [1]; common practice, no source
GAS_AT_MIDDLE, GAS_STATED = 1.12, 0.11
#: exponents by which force may start from zero, `LAMINAR_FIRST` where both kinds of flow are [1]; judged: fewer than in
#: traces, for rows begin later
TABLE_STARTS = (-0.7, -0.35, 0.0, of_traces.LAMINAR_FIRST, 1.0)
#: factor on what a table leaves open [1]: its law is rougher than a trace's; judged on made worlds
TABLE_DOUBT = 1.2
#: by how much more likely, in logarithm, a table with signs mended must be [1]; judged: twenty times
FLIP = 3.0
#: rows are looked at one by one from this scatter on, where there are so many rows, and one is left out without which
#: they scatter by this share of it [1], [rows], [1]; judged: rigs repeat within 1 %, a curve of few rows meets any
ODD_SCATTER, ODD_AMONG, ODD_GAIN = 0.03, 8, 0.3
#: of so many at most, those furthest from the curve of all [rows]; judged: it bounds the time that a long table takes
ODD_TRIED = 40
#: rows at one speed so far apart, a share of their mean, are no repeats [1], where their force is this share of the
#: largest [1]; judged: rigs repeat within 1 %, a shock that is warmer by 20 K has 5 % less
APART_AT_A_SPEED, WELL_ABOVE_ZERO = 0.12, 0.3
