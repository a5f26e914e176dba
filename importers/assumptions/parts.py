"""What is taken for granted of which rows are one sweep."""

from __future__ import annotations

#: [rows] time that starts again after fewer restarts no runs; judged: the least rows of a trace; fewer are glitches of
#: a clock
SHORTEST_RUN = 8
#: [1] how far time must fall back to start again, as a share of the run before; judged: a clock set back by less goes
#: on with its run
RESTART_FALL = 0.5
#: [1] and how near its first value it must come, as a share of the run before; judged: a restart begins where the
#: first run did, but for its first sample
RESTART_NEAR = 0.01
#: [samples] or within how many samples of its first value; judged: a run may begin a sample late
RESTART_STEPS = 2
#: [steps] a motion goes on, or ends where it began, within so many of its own steps; judged: a logger that writes
#: cycle by cycle loses a sample at most between them; another run begins anywhere
CYCLE_STEPS = 2.5
#: [1] a motion that goes the other way from one sample to the next, by more than this share of its steps there, is
#: another run; judged: at a turn of its own its steps are small
TURN_STEP = 0.5
#: [1] of a motion's stroke, how far off its middle it is on one side; judged: between noise and the turning points
CYCLE_SIDE = 0.25
#: [samples] a piece of fewer is no cycle; judged: its turning points would be guessed
CYCLE_LEAST_SAMPLES = 8
#: [cycles] without a column that counts them, fewer pieces of one cycle each are runs; judged: two runs of a cycle,
#: before and after, are common, three cycles are one record
CYCLES_LEAST = 3
#: [1] a column with more distinct values than this share of its rows counts rows, and names no run; judged: a name of
#: runs stands on two rows at least
COUNTER_SHARE = 0.5
#: [rows] in fewer rows every column may name a run; judged: of three rows each may be a run of its own
COUNTER_ROWS = 3
#: [texts] a column of clicks in words holds no more different texts; judged: more settings than anybody tests in one
#: file; it bounds time
CLICK_TEXTS = 500
#: [1] share of them that must state clicks; judged: some settings may be told in words, most must be clicks
CLICK_TEXT_SHARE = 0.8
#: [rows] in longer tables an unnamed column of words groups no runs; judged: what groups rows without a name is
#: written by hand, for tables of peaks
GROUPED_ROWS = 2000
#: [clicks] numbers of a column are clicks below this; judged: adjusters have fewer; numbers above are speeds or counts
CLICKS_BELOW = 100
#: [1] two columns hold one quantity in two units where they agree within this share of the largest; judged: three
#: digits printed agree as nearly; two channels of one motion do not
SAME_QUANTITY = 0.01
#: [1] of the largest, columns of one unit that hold the same numbers differ by less, as rounding makes; judged: four
#: digits printed agree as nearly; two sensors do not
SAME_NUMBERS = 0.001
#: [1] of its range, a force and the same one filtered lie no further apart than this in the median; judged: a filter
#: takes peaks and noise; two forces of one shock lie further apart
FILTERED_APART = 0.1
#: [rows] a column of the highest and one of the lowest force hold at least so many; judged: of two rows signs agree by
#: chance
EXTREMES_ROWS = 3
#: [1] share of them in which the highest is above and the lowest below zero; judged: gas lifts some of the lowest
#: above zero at slow rows; of one direction's none lies below
EXTREMES_APART = 0.6
#: [1] from this share of rows whose signs turn with the speed's on a column holds both directions; judged: halfway
#: between all rows and what chance gives of a magnitude, with room for slow rows
SIGNS_AGREE = 0.7
#: [1] rank correlation with speed from which a force beside one of known direction is the other's; judged:
#: damping rises with speed but for a rounded row; a preload or a temperature does not
OTHER_RISES = 0.8
#: [1] and its largest is at most so many times the other's largest, and the other way round; judged:
#: rebound of dampers is one to four times compression
OTHER_WITHIN = 10.0
#: [1] the middle of both, drawn down to no speed, is gas from this share of the span of force; judged: a load cell's
#: zero is set more closely; softer gas tells nothing
GAS_OF_SPAN = 0.03
#: [1] and pulls, so that rebound is positive, where it is so much of the middle at the slowest row; judged: where
#: damping is uneven it makes up the rest, and then the middle tells no direction
GAS_MOSTLY = 0.6
#: [1] nines alone are no measurement beyond so many times the largest of the others; judged: a real peak is not three
#: times the next largest value
PLACEHOLDER_BEYOND = 3.0
#: [1] or, in a trace, beyond the others by this share of their span, where it leaps there by that share; judged: a
#: motion comes to its peak in steps, a word for nothing is there at once
PLACEHOLDER_APART, PLACEHOLDER_LEAP = 0.1, 0.25
#: [1] and at most so large a share of a column; judged: a channel that is missing more often is measured in nines, or
#: not at all
PLACEHOLDER_SHARE = 0.2
#: [days] numbers between these in a column of time are days of a spreadsheet: 1954 to 2119; judged: as many seconds
#: are a record of five hours and more, which nobody runs
DAY_NUMBERS = (20_000, 80_000)
#: [1] share of rows in which just one of two half-filled columns speaks; judged: one row in twenty may hold both or
#: none where a direction turns
HALVES_APART = 0.95
#: [rows] fewer tell nothing of a speed that stands still, or of directions row by row; judged: half a second of a slow
#: logger, beyond what a stop of a motion takes
STILL_ROWS = 50
#: [rows] a speed that keeps each value over so many rows on average is what the rig was set to; judged: a measured
#: speed changes at every sample or two, a set one once a stroke
HELD_SAMPLES = 20
#: [1] share of the steps one way that must go the other way before a displacement goes there and back; judged: a record
#: of one direction holds its return at times, of two directions neither takes three times as long on a rig
THERE_AND_BACK = 0.3
#: [rows] a channel saved in one row of so many at most is one of a slower rate; judged: loggers go from 1000 to 10 Hz
SLOWEST_OF = 100
#: [1] share of the slower channel's steps that must be alike; judged: a logger drops a sample now and then
SLOWER_EVEN = 0.95
#: [rows] a table without names that rises in its first column and has no more may be one of speeds; judged: samples of
#: a record are hundreds, speeds of a table two dozen
FEW_PEAKS = 60
#: [1] the mean of a column of deviations is at most so large a share of its force's mean; judged: repeats scatter by a
#: few per cent, by more at the slowest speed alone; a force beside another is seldom so much smaller
DEVIATION_SHARE = 0.5
#: [words] a column of no more different words names shocks or runs; judged: a batch of shocks in one table is fewer, a
#: column of remarks or of times of day holds more
FEW_WORDS = 60
