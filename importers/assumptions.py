"""What the importers take for granted: every threshold and tolerance that decides how a file is understood.

Each line above a value says, in this order: unit in brackets, what the value decides, and where it comes from:
`our judgement` (tuned on the files in fixtures/layouts), or `common practice, no source`. Sizes that only cost time
or memory stay where they are used.
"""

from __future__ import annotations

# --- decoding: bytes -> text -----------------------------------------------------------------------------------------

#: [bytes] with more than one control byte in so many, a file is no text; our judgement
BYTES_PER_CONTROL_BYTE = 400
#: [1] share of zeros in every second byte from which bytes without a mark are UTF-16; our judgement
UTF16_ZERO_SHARE = 0.9
#: [bytes] how far zeros are counted to know UTF-16; our judgement
UTF16_LOOK = 2000

# --- grid: text -> cells ---------------------------------------------------------------------------------------------

#: [lines] of a longer head only the last ones are judged: the first may be preamble; our judgement
SHORT_HEAD = 120
#: [lines] how many of them are judged; our judgement
GRID_SAMPLE = 40
#: [lines] a delimiter stands at least once in so many lines; our judgement
LINES_PER_DELIMITER = 10
#: [lines] more lines than these ask no more delimiters; our judgement
DELIMITER_LINES = 20
#: [cells] a row of a table holds at least so many numbers; our judgement
ROW_NUMBERS = 2
#: [cells] a row holds a number or a missing value in at least one of so many cells; our judgement
CELLS_PER_NUMBER = 3
#: [1] what a missing value counts against a number in judging a delimiter; our judgement
MISSING_WORTH = 0.7
#: [1] what a number grouped by a blank between commas loses: commas may be its decimal marks; our judgement
GROUPED_DOUBT = 0.5
#: [tenths] what blanks count as a delimiter against an explicit mark: they also stand within cells; our judgement
BLANKS_TENTHS = 9
#: [1] a marked number is one of thousands where the largest unmarked one lies between these; our judgement
UNMARKED_LEAST, UNMARKED_MOST = 100, 1000
#: [cells] and where at least one in so many is unmarked; our judgement
CELLS_PER_UNMARKED = 10
#: [lines] so few lines cannot show the character columns of fixed-width text; our judgement
FIXED_WIDTH_LINES = 3
#: [characters] width of a tab in fixed-width text; common practice, no source
TAB_STOP = 8

# --- header: lines above the rows -> columns -------------------------------------------------------------------------

#: [characters] a longer cell names no column; our judgement
LONGEST_NAME = 300
#: [lines] how far above the rows the names of the columns may stand; our judgement
HEADER_REACH = 6
#: [lines] how far from the names the line of units may stand; our judgement
UNITS_REACH = 2
#: [lines] how far above the names the groups of a wide table may stand; our judgement
GROUPS_REACH = 2
#: [1] what a measured channel adds to a known word in choosing the line of names; our judgement
MEASURE_WORTH = 0.5
#: [1] what each known name adds beside their share, so that the longer of two lines wins; our judgement
NAME_WORTH = 0.05
#: [lines] how far a team's own layout looks for its header; our judgement
LAYOUT_REACH = 200
#: [lines] how far the names of columns are looked for in a file without rows; our judgement
NAMES_REACH = 100

# --- tables: text -> arrays ------------------------------------------------------------------------------------------

#: [columns] a wider table is not one of a dyno; our judgement
WIDEST_TABLE = 400
#: [kinds] of lines that a letter tells apart; a file with more has names there; our judgement
RECORD_KINDS = 8
#: [rows] fewer lines of one letter are no rows of a record; our judgement
RECORD_ROWS = 4
#: [tables] a file with more tables is refused; our judgement
MOST_TABLES = 300
#: [lines] a table lying on its side has no more; our judgement
SIDEWAYS_LINES = 60
#: [cells] and no fewer values in each; our judgement
SIDEWAYS_VALUES = 3
#: [cells] a line of speeds or clicks across a table's top has no fewer, the one before them included; our judgement
ACROSS_LEAST = 3
#: [lines] another table stands above the one most lines fit only from this line on; our judgement
EARLIER_TABLE_LINE = 4
#: [lines] with more lines that are no rows, and a larger share of them, a body is no table; our judgement
MOST_ODD_LINES = 40_000
#: [1] share of lines that are no rows, see above; our judgement
ODD_SHARE = 0.2
#: [lines] in a shorter table no torn line is left out, unless it is the last; our judgement
TORN_LEAST_ROWS = 50
#: [lines] torn lines that may always be left out of a longer one; our judgement
TORN_ALWAYS = 3
#: [lines] beyond them one torn line in so many rows may be left out; our judgement
ROWS_PER_TORN = 100

#: [lines] so many must show the same units behind their numbers, in a longer table; our judgement
UNIT_CELL_LINES = 20
#: [lines] in longer tables nothing but numbers stands in the cells; our judgement
TIDY_LINES = 400
#: [levels] nested values are looked into so deep for columns; our judgement
RECORD_DEPTH = 6
#: [names] an object with more holds no columns, and is not looked into; our judgement
MOST_NAMES = 50_000
#: [values] a file of records or a sheet that claims more is refused: some 500 MB as numbers; our judgement
MOST_VALUES = 60_000_000
#: [cells] a sheet that is read has no more, empty ones among others included; our judgement
MOST_CELLS = 20_000_000
#: [bytes] what is unpacked of one file at most; our judgement
MOST_UNPACKED = 400_000_000
#: [bytes] a workbook that unpacks to more is read in a process of its own, bounded in time and memory; our judgement
LARGE_WORKBOOK = 8_000_000
#: [rows] a sheet of an .xlsx has no more, by the programs that write them (from memory); common practice, no source
MOST_ROWS = 1_048_576
#: [s] of computing that such a process may take, whatever it reads; our judgement
SHEET_SECONDS = 10.0
#: [s] and for each cell, ten times what python-calamine and openpyxl took (0.5 and 6 microseconds); our judgement
SHEET_SECONDS_PER_CELL, SHEET_SECONDS_PER_CELL_SLOW = 5e-6, 50e-6
#: [bytes] a larger JSON file is refused: its values take some twenty times its size while it is read; our judgement
LARGEST_JSON = 64_000_000

# --- words -----------------------------------------------------------------------------------------------------------

#: [clicks] more clicks than any adjuster has: a number above is something else; common practice, no source
MOST_CLICKS = 99
#: [years] a date outside is none of a run; our judgement
FIRST_YEAR, LAST_YEAR = 1950, 2100
#: [1] share of cells that must be clock times for a column to be one; our judgement
CLOCK_SHARE = 0.5
#: [1] time that falls back by more than this share of a clock's range started anew there; our judgement
WRAP_SHARE = 0.9

# --- parts: tables -> rows of one sweep ------------------------------------------------------------------------------

#: [runs] more in one file are a column of measurements read as a key; our judgement
MOST_PARTS = 2000
#: [rows] time that starts again after fewer restarts no runs; our judgement
SHORTEST_RUN = 8
#: [1] how far time must fall back to start again, as a share of the run before; our judgement
RESTART_FALL = 0.5
#: [1] and how near its first value it must come, as a share of the run before; our judgement
RESTART_NEAR = 0.01
#: [samples] or within how many samples of its first value; our judgement
RESTART_STEPS = 2
#: [1] a column with more distinct values than this share of its rows counts rows, and names no run; our judgement
COUNTER_SHARE = 0.5
#: [rows] in fewer rows every column may name a run; our judgement
COUNTER_ROWS = 3
#: [texts] a column of clicks in words holds no more different texts; our judgement
CLICK_TEXTS = 500
#: [1] share of them that must state clicks; our judgement
CLICK_TEXT_SHARE = 0.8
#: [rows] in longer tables an unnamed column of words groups no runs; our judgement
GROUPED_ROWS = 2000
#: [clicks] numbers of a column are clicks below this; our judgement
CLICKS_BELOW = 100
#: [1] two columns hold one quantity in two units where they agree within this share of the largest; our judgement
SAME_QUANTITY = 0.01
#: [1] of the largest, columns of one unit that hold the same numbers differ by less, as rounding makes; our judgement
SAME_NUMBERS = 0.001
#: [1] of its range, a force and the same one filtered lie no further apart than this in the median; our judgement
FILTERED_APART = 0.1

# --- channels: numbers -> SI, positive in compression ----------------------------------------------------------------

#: [samples] of a longer record stretches of so many samples are looked at; our judgement
PROBE_SAMPLES = 1 << 16
#: [stretches] into how many they are cut; our judgement
PROBE_STRETCHES = 8
#: [1] correlation from which displacement and velocity belong together, to find a unit; our judgement
UNIT_FIT = 0.97
#: [1] to find the sample rate; our judgement
RATE_FIT = 0.95
#: [1] to judge their units at all; our judgement
CHECK_FIT = 0.9
#: [1] how near the motion must come to a unit to find it; our judgement
UNIT_NEAR = 0.04
#: [m/s] peak shaft speeds a dyno reaches, which tell s from ms and µs; common practice, no source
RIG_SPEEDS = (0.008, 6.0)
#: [Hz] sample rates of rigs, which tell s from ms and µs; common practice, no source
RIG_RATES = (40.0, 3e4)
#: [Hz] sample rates that are possible where the speed has told already; our judgement
POSSIBLE_RATES = (5.0, 1e6)
#: [%] percentile of speed that stands for the peak there, above noise; our judgement
REACH_PERCENTILE = 98.0
#: [1] factors by which a wrong unit shows in displacement against velocity; by definition of the units
UNIT_SLIPS = (10.0, 25.4, 39.3701, 100.0, 1000.0, 60.0, 2.54, 393.701, 30.48, 3.28084)
#: [1] how near one of them a ratio must be for a file to be refused; our judgement
SLIP_NEAR = 0.02
#: [1] a larger difference of displacement and velocity draws a warning; our judgement
MOTION_AGREES = 0.03
#: [1] a larger difference of stated rate and time column draws a warning; our judgement
RATE_AGREES = 0.05
#: [1] within it a rate is rounded to six digits; our judgement
RATE_ROUNDING = 2e-6
#: [SI] more than any shock dyno gives: the column or unit is wrong; common practice, no source
MOST_FORCE, MOST_VELOCITY, MOST_DISPLACEMENT = 2e5, 25.0, 2.0
#: [rows] a column of the highest and one of the lowest force hold at least so many; our judgement
EXTREMES_ROWS = 3
#: [1] share of them in which the highest is above and the lowest below zero; our judgement
EXTREMES_APART = 0.6
#: [1] from this share of rows whose signs turn with the speed's on a column holds both directions; our judgement
SIGNS_AGREE = 0.7
#: [1] the middle of both, drawn down to no speed, is gas from this share of the span of force; our judgement
GAS_OF_SPAN = 0.03
#: [1] and pulls, so that rebound is positive, where it is so much of the middle at the slowest row; our judgement
GAS_MOSTLY = 0.6
#: [1] nines alone are no measurement beyond so many times the largest of the others; our judgement
PLACEHOLDER_BEYOND = 3.0
#: [1] or, in a trace, beyond the others by this share of their span, where it leaps there by that share; our judgement
PLACEHOLDER_APART, PLACEHOLDER_LEAP = 0.1, 0.25
#: [1] and at most so large a share of a column; our judgement
PLACEHOLDER_SHARE = 0.2
#: [days] numbers between these in a column of time are days of a spreadsheet: 1954 to 2119; our judgement
DAY_NUMBERS = (20_000, 80_000)
#: [1] how far the travel may be from the stated stroke: rigs state a nominal one; our judgement
STROKE_AGREES = 0.1
#: [1] a lone sample off the line of its neighbours by this share of the force's span is a spike; our judgement
SPIKE_SHARE = 0.1
#: [1] more of them than this share of the samples are noise, which the fit measures; our judgement
SPIKES_FEW = 0.01
#: [1] rows of a state that says nothing was measured are left out below this share of all; our judgement
FAULTY_SHARE = 0.5
#: [1] share of rows that must hold a channel; our judgement
PRESENT_SHARE = 0.5
#: [rows] and how many at least; our judgement
PRESENT_ROWS = 5
#: [1] a channel that varies by less than this share of its size is stuck; our judgement
STUCK = 1e-9
#: [1] share of steps back in time from which a column is no time; our judgement
BACKWARD_SHARE = 0.05
#: [°C] a larger drift of temperature draws a warning; our judgement
TEMPERATURE_DRIFT = 10.0
#: [samples] force held at its extreme so long in all, and so long at once, is clipped; our judgement
CLIPPED_SAMPLES, CLIPPED_RUN = 6, 5
#: [1] what counts as held at the extreme, and as near it, as shares of the force's span; our judgement
CLIPPED_HELD, CLIPPED_NEAR = 1e-6, 0.02
#: [1] share of the samples near the extreme that must be held there; our judgement
CLIPPED_SHARE = 0.5
#: [1] time between samples that varies by less is even; our judgement
EVEN_STEP = 0.05
#: [steps] a longer step is a gap of dropped samples; our judgement
GAP_STEPS = 1.6
#: [1] steps up to so many times the quickest are taken for as quick; our judgement
RATE_ALIKE = 1.2
#: [steps] a block that ends so near where it began is whole cycles; our judgement
CLOSED_CYCLE = 2.0
#: [1] stated frequency and stated speed that differ by more on the travel there are said; our judgement
NOMINAL_AGREES = 0.1
#: [samples] so many, evenly spread, are looked at first to see whether it does; our judgement
RATE_LOOK = 2000
#: [samples] evidence of a record whose rate changes is looked at on an even grid of no more; our judgement
LONGEST_RETIMED = 2_000_000
#: [samples] a cycle with fewer does not hold its peaks; our judgement
CYCLE_SAMPLES = 40.0
#: [%] percentiles that stand for stroke and peak speed there, above noise; our judgement
STROKE_PERCENTILES, SPEED_PERCENTILE = (0.5, 99.5), 99.8
#: [N] a smaller force at rest could be a load cell's zero and tells no sign; our judgement
GAS_FORCE = 15.0
#: [1] the same as a share of the largest force; our judgement
GAS_SHARE = 0.01
#: [ticks] a clock that stands for several samples is even where they lie so near a line; our judgement
COARSE_TICKS = 1.5
#: [1] gas force rises by at least so much of itself over a test's stroke; common practice, no source
GAS_RISE = 0.02
#: [samples] force at rest is judged from at least so many; our judgement
GAS_SAMPLES = 4
#: [1] share of the largest speed below which a shock is at rest; our judgement
REST_SPEED = 0.05
#: [samples] with fewer at rest on a side, the turning points are interpolated; our judgement
REST_SAMPLES = 5
#: [turns] with fewer turning points on a side, force at rest is not known; our judgement
REST_TURNS = 2
#: [1] share of the largest speed below which friction and yield hold a shock; our judgement
HELD_SPEED = 0.05
#: [1] gas force stands above what they hold by more than this factor; our judgement
ABOVE_HELD = 1.4
#: [stretches] into so many the record is cut to see whether the force at rest is the same throughout; our judgement
REST_STRETCHES = 4
#: [1] gas force differs by less between them, as a share of its mean; our judgement
REST_ALIKE = 0.5
#: [1] a mean force below this share of the largest one was taken out of the record; our judgement
MEAN_FREE = 0.0005
#: [1] force at rest against stated pressure times rod area lies between these; our judgement
GAS_AGREES = (0.5, 2.0)
#: [m/s] faster than a shock dyno moves; common practice, no source
USUAL_VELOCITY = 6.0
#: [N] stronger than a race shock; common practice, no source
USUAL_FORCE = 3e4
#: [N] a record whose force stays below is told of: seals alone rub with more; common practice, no source
LEAST_FORCE = 5.0
#: [1] force of one sign lost its signs where it rises the weaker way by this share of the stronger; our judgement
MAGNITUDES = 0.25
#: [1] a weaker correlation of force and velocity draws a warning; our judgement
FORCE_FOLLOWS = 0.15

#: [1] share of rows in which just one of two half-filled columns speaks; our judgement
HALVES_APART = 0.95
#: [1] of rows that say no direction in a column of directions; of more it is none; our judgement
UNDIRECTED_SHARE = 0.25
#: [m/s] a test that is nowhere faster is quasi-static; common practice, no source
QUASI_STATIC = 0.005
#: [N] gas, friction and bump stops of a race shock give less at rest; common practice, no source
MOST_STATIC_FORCE = 1e4
#: [1] travel one way below this share of the other: the motion goes one way only; our judgement
ONE_WAY_SHARE = 0.05
#: [1] share of the largest speed below which a motion pauses or turns; our judgement
PAUSE_SHARE = 0.05
#: [strokes] of fewer nothing is said of their kind; our judgement
KIND_HALVES = 12
#: [1] strokes that scatter by more, standard deviation over mean, are random; our judgement
RANDOM_SCATTER = 0.35
#: [1] nor are they where such a share of them lies within so much of their middle; our judgement
ALIKE_STROKES, ALIKE_WITHIN = 0.5, 0.1
#: [1] degree of a polynomial through strokes' times, and the share of their spread a staircase is off it; our judgement
SWEPT_DEGREE, SWEPT_STEPS = 5, 0.055
#: [1] correlation of a stroke's time and its order in a sweep; our judgement
SWEPT_ALIKE = 0.8
#: [1] longest stroke over shortest one from which a motion is swept; our judgement
SWEPT_RATIO = 1.5

# --- sweeps ----------------------------------------------------------------------------------------------------------

#: [rows] a trace has no fewer; our judgement
TRACE_ROWS = 8
#: [rows] a peak table has no fewer; our judgement
PEAK_ROWS = 2
#: [rows] and no more, unless its columns name directions; our judgement
MOST_PEAK_ROWS = 600
#: [1] speeds of a peak table repeat where fewer than this share are distinct; our judgement
DISTINCT_SPEEDS = 0.8
#: [1] two rows are of one speed where they differ by no more than this share; our judgement
SAME_SPEED = 0.05
#: [1] repeats of a run lie closer together than this ratio of their forces, the two directions may not; our judgement
DIRECTIONS_APART = 1.15
#: [rows] fewer tell nothing of a speed that stands still, or of directions row by row; our judgement
STILL_ROWS = 50
#: [rows] a speed that keeps each value over so many rows on average is what the rig was set to; our judgement
HELD_SAMPLES = 20
#: [sheets] beside one called an average hold so many runs at least, or it is a run itself; our judgement
FEWEST_AVERAGED = 2
#: [1] sheets whose travel differs by less of the stroke, sample by sample, hold one motion; our judgement
ONE_MOTION = 0.02
#: [words] a column of more different ones calls no rows targets; our judgement
MOST_KINDS = 8
