"""What is taken for granted of what columns of numbers are, in SI and positive in compression."""

from __future__ import annotations

#: [samples] of a longer record stretches of so many samples are looked at; numerics: long enough for several cycles at
#: any rate, and looked at in milliseconds
PROBE_SAMPLES = 1 << 16
#: [stretches] into how many they are cut; numerics: so many places of a record of several speeds
PROBE_STRETCHES = 8
#: [1] correlation from which displacement and velocity belong together, to find a unit; judged: a noisy travel still
#: reaches it, two channels of other motions do not
UNIT_FIT = 0.97
#: [1] to find the sample rate; judged: lower than for units, as a wrong rate does not change how alike two shapes are
RATE_FIT = 0.95
#: [1] to judge their units at all; judged: below it the channels are too noisy to call either wrong
CHECK_FIT = 0.9
#: [1] how near the motion must come to a unit to find it; judged: sensors agree as nearly; the factors between units
#: lie further apart, 25.4 and 30.48 the closest
UNIT_NEAR = 0.04
#: [m/s] peak shaft speeds a dyno reaches, which tell s from ms and µs; common practice, no source
RIG_SPEEDS = (0.008, 6.0)
#: [Hz] sample rates of rigs, which tell s from ms and µs; common practice, no source
RIG_RATES = (40.0, 3e4)
#: [Hz] sample rates that are possible where the speed has told already; judged: those of rigs with room of eight times
#: and more
POSSIBLE_RATES = (5.0, 1e6)
#: [%] percentile of speed that stands for the peak there, above noise; judged: one sample in fifty may be a spike; a
#: harmonic motion is within 0.1 % of its peak there
REACH_PERCENTILE = 98.0
#: [1] factors by which a wrong unit shows in displacement against velocity; by definition of the units
UNIT_SLIPS = (10.0, 25.4, 39.3701, 100.0, 1000.0, 60.0, 2.54, 393.701, 30.48, 3.28084)
#: [1] how near one of them a ratio must be for a file to be refused; judged: sensors agree as nearly; the wider, the
#: more honest files are refused
SLIP_NEAR = 0.02
#: [1] a larger difference of displacement and velocity draws a warning; judged: beyond what calibrations of two
#: sensors differ by
MOTION_AGREES = 0.03
#: [1] a larger difference of stated rate and time column draws a warning; judged: beyond what a dropped sample in
#: twenty makes
RATE_AGREES = 0.05
#: [1] nearer than that a rate that the user states is the time column's; judged: people write rates with four digits
RATE_SAME = 2e-4
#: [1] within it a rate is rounded to six digits; numerics: the sixth digit of a stamp
RATE_ROUNDING = 2e-6
#: [SI] more than any shock dyno gives: the column or unit is wrong; common practice, no source
MOST_FORCE, MOST_VELOCITY, MOST_DISPLACEMENT = 2e5, 25.0, 2.0
#: [1] how far the travel may be from the stated stroke: rigs state a nominal one; judged: beyond what play and a
#: crank's setting make
STROKE_AGREES = 0.1
#: [1] two stated strokes are one up to so much: 2 in are called 50 mm; common practice, no source
STROKES_SAME = 0.02
#: [1] a lone sample off the line of its neighbours by this share of the force's span is a spike; judged: forces of
#: neighbours differ by less even at a knee; what is smaller the fit bears
SPIKE_SHARE = 0.1
#: [1] more of them than this share of the samples are noise, which the fit measures; judged: one in a hundred is a
#: loose plug, more is the channel
SPIKES_FEW = 0.01
#: [1] a spike is at least so many times as far off its neighbours as samples usually are, in standard deviations;
#: judged: beyond what noise reaches once in a million samples
SPIKE_NOISE = 6.0
#: [1] standard deviation of normal noise over its median magnitude, by which spikes are counted; numerics: 1 / 0.6745
NORMAL_MAD = 1.4826
#: [1] share of rows that must hold a channel; judged: gaps are bridged, a channel that is mostly gaps is none
PRESENT_SHARE = 0.5
#: [rows] and how many at least; judged: of fewer nothing is known but their mean
PRESENT_ROWS = 5
#: [1] a channel that varies by less than this share of its size is stuck; numerics: rounding of numbers in a file
STUCK = 1e-9
#: [1] share of steps back in time from which a column is no time; judged: a clock's slips are fewer; a column that
#: often falls is another channel
BACKWARD_SHARE = 0.05
#: [°C] a larger drift of temperature draws a warning; judged: forces may change by some per cent over it, as much as
#: shocks of a pair differ by
TEMPERATURE_DRIFT = 10.0
#: [1] time between samples that varies by less is even; judged: stamps rounded to a twentieth of a step are those of
#: an even clock
EVEN_STEP = 0.05
#: [steps] a longer step is a gap of dropped samples; judged: nearer to two steps than to one
GAP_STEPS = 1.6
#: [1] steps up to so many times the quickest are taken for as quick; judged: shaking clocks stay below; rates that a
#: rig changes to are twice or more apart
RATE_ALIKE = 1.2
#: [steps] a block that ends so near where it began is whole cycles; judged: the motion's own step there, and one more
#: for noise
CLOSED_CYCLE = 2.0
#: [1] share of half a stroke beyond the middle from which a travel has crossed it, where turns are counted; judged:
#: above noise: a rest near the middle is no turn
CROSSED = 0.1
#: [1] stated frequency and stated speed that differ by more on the travel there are said; judged: rigs state both in
#: two digits
NOMINAL_AGREES = 0.1
#: [samples] so many, evenly spread, are looked at first to see whether it does; numerics: enough to see a change, far
#: fewer than a record
RATE_LOOK = 2000
#: [samples] evidence of a record whose rate changes is looked at on an even grid of no more; numerics: it bounds
#: memory; evidence needs no more
LONGEST_RETIMED = 2_000_000
#: [samples] a cycle with fewer does not hold its peaks; judged: between forty samples a sine's peak lies within 0.3 %
#: of the highest
CYCLE_SAMPLES = 40.0
#: [%] percentiles that stand for stroke and peak speed there, above noise; judged: one sample in two hundred and one
#: in five hundred may be noise
STROKE_PERCENTILES, SPEED_PERCENTILE = (0.5, 99.5), 99.8
#: [N] a smaller force at rest could be a load cell's zero and tells no sign; judged: zeros are set to about five
#: newtons, three times that is gas
GAS_FORCE = 15.0
#: [1] the same as a share of the largest force; judged: a load cell's zero and linearity are within one per cent of
#: what it is loaded with
GAS_SHARE = 0.01
#: [ticks] a clock that stands for several samples is even where they lie so near a line; judged: one tick for
#: rounding, half for the clock
COARSE_TICKS = 1.5
#: [1] gas force rises by at least so much of itself over a test's stroke; common practice, no source
GAS_RISE = 0.02
#: [samples] force at rest is judged from at least so many; judged: of fewer noise decides
GAS_SAMPLES = 4
#: [1] share of the largest speed below which a shock is at rest; judged: damping is small there, and a slow motion
#: still has samples; half leaves too few of short records
REST_SPEED = 0.05
#: [samples] with fewer at rest on a side, the turning points are interpolated; judged: of fewer the middle is noise
REST_SAMPLES = 5
#: [turns] with fewer turning points on a side, force at rest is not known; judged: one turn may be a stop of the rig
REST_TURNS = 2
#: [1] share of the largest speed below which friction and yield hold a shock; judged: as where a shock is at rest
HELD_SPEED = 0.05
#: [1] gas force stands above what they hold by more than this factor; judged: friction differs by less between one
#: stroke and the next
ABOVE_HELD = 1.4
#: [1] shares of the largest speed between which a line is drawn down to no speed; judged: below, noise turns the
#: direction; above, a digressive valve bends away from its line
DRAWN_FROM, DRAWN_TO = 0.01, 0.05
#: [samples] a direction has at least so many between them; judged: of fewer noise decides
DRAWN_SAMPLES = 12
#: [1] what the line leaves of the force between slow motion either way is trusted where gas is at least so much of it;
#: judged: friction that turns round over some way makes the line begin too low, by less than half
DRAWN_OF_HELD = 0.5
#: [stretches] into so many the record is cut to see whether the force at rest is the same throughout; judged: each
#: still has turning points; a change in the middle shows
REST_STRETCHES = 4
#: [1] gas force differs by less between them, as a share of its mean; judged: warming gas rises by a tenth or two; a
#: force that doubles is another cause
REST_ALIKE = 0.5
#: [1] a mean force below this share of the largest one was taken out of the record; judged: only taking it out makes a
#: mean so small; symmetric damping with no gas leaves more
MEAN_FREE = 0.0005
#: [1] force at rest against stated pressure times rod area lies between these; judged: pressure at another temperature
#: or length and a nominal rod are within half and twice
GAS_AGREES = (0.5, 2.0)
#: [1] less than this share of it is a cell zeroed with the gas in; judged: kilograms taken for newtons leave a tenth
GAS_ZEROED = 0.06
#: [m/s] faster than a shock dyno moves; common practice, no source
USUAL_VELOCITY = 6.0
#: [N] stronger than a race shock; common practice, no source
USUAL_FORCE = 3e4
#: [N] a record whose force stays below is told of: seals alone rub with more; common practice, no source
LEAST_FORCE = 5.0
#: [N·s/m] force over speed at the fastest row that no shock falls below, so that three decimals may be thousands;
#: judged: dampers of bicycles and karts have hundreds, of cars thousands
LEAST_DAMPING = 60.0
#: [1] force of one sign lost its signs where it rises the weaker way by this share of the stronger; judged: gas and
#: zero move signs by less
MAGNITUDES = 0.25
#: [1] a weaker correlation of force and velocity draws a warning; judged: a lag and gas leave more; of two unrelated
#: channels there is none
FORCE_FOLLOWS = 0.15
#: [1] of a force that does not follow velocity, a stronger correlation with displacement is gas and spring, which
#: grow inward; judged: friction and a bow of gas leave more, a force beyond velocity's turn a quarter cycle late less
FORCE_SPRINGS = 0.9
#: [1] of rows that say no direction in a column of directions; of more it is none; judged: rows at rest say none; a
#: column that is mostly silent is of something else
UNDIRECTED_SHARE = 0.25
#: [m/s] a test that is nowhere faster is quasi-static; common practice, no source
QUASI_STATIC = 0.005
#: [N] gas, friction and bump stops of a race shock give less at rest; common practice, no source
MOST_STATIC_FORCE = 1e4
#: [1] travel one way below this share of the other: the motion goes one way only; judged: noise and play make so much
#: the other way
ONE_WAY_SHARE = 0.05
#: [1] share of the largest speed below which a motion pauses or turns; judged: as where a shock is at rest
PAUSE_SHARE = 0.05
#: [strokes] of fewer nothing is said of their kind; judged: six cycles; of fewer any staircase looks random
KIND_HALVES = 12
#: [1] strokes that scatter by more, standard deviation over mean, are random; judged: strokes of a rig that was set
#: scatter by less, but for stairs and sweeps, which the next tell apart
RANDOM_SCATTER = 0.35
#: [1] nor are they where such a share of them lies within so much of their middle; judged: a rig that holds one stroke
#: most of the time is no random one
ALIKE_STROKES, ALIKE_WITHIN = 0.5, 0.1
#: [1] nor where such a share of them is alike with the one before or after; judged: of random strokes a fifth is
PAIRED_STROKES = 0.3
#: [1] degree of a polynomial through strokes' times, and the share of their spread a staircase is off it; judged on
#: made sweeps and staircases: stairs lie off a smooth line by a twentieth of their spread
SWEPT_DEGREE, SWEPT_STEPS = 5, 0.055
#: [1] correlation of a stroke's time and its order in a sweep; judged: a sweep only rises or falls; random strokes
#: have no order
SWEPT_ALIKE = 0.8
#: [1] longest stroke over shortest one from which a motion is swept; judged: a warming rig drifts by less
SWEPT_RATIO = 1.5
#: [rows] a peak table has no fewer; judged: one row of a direction is no curve
PEAK_ROWS = 2
#: [1] speeds of a peak table repeat where fewer than this share are distinct; judged: a trace rarely meets a speed
#: twice, repeats and directions in rows do so half the time
DISTINCT_SPEEDS = 0.8
#: [1] two rows are of one speed where they differ by no more than this share; judged: a rig comes to a set speed as
#: nearly; neighbours in a table are further apart
SAME_SPEED = 0.05
#: [1] repeats of a run lie closer together than this ratio of their forces, the two directions may not; judged:
#: repeats differ by a few per cent; directions of a shock that are as near are taken for them
DIRECTIONS_APART = 1.15
#: [1] up to this share of a peak table's forces missing ones are told; judged: where more are, rows are of one
#: direction each, or runs of several lengths stand side by side
LACKING_SHARE = 0.34
#: [1] a column that changes no more often than so many times the gaps of a record is what the rig was set to there;
#: judged: a measured one changes at most samples; a rig is set anew now and then without a pause
SET_CHANGES = 2
#: [1] rebound forces above zero that fall from row to row, to less than this share of the slowest, are gas less
#: damping; judged: no valve lets go from its first row to its last by as much
GAS_LEAVES = 0.9
