"""What is taken for granted of rows of numbers in text."""

from __future__ import annotations

#: [columns] a wider table is not one of a dyno; judged: loggers write some 200 channels; it bounds the time a hostile
#: file takes
WIDEST_TABLE = 400
#: [kinds] of lines that a letter tells apart; a file with more has names there; judged: loggers mark a handful of
#: kinds of line
RECORD_KINDS = 8
#: [rows] fewer lines of one letter are no rows of a record; judged: of fewer neither clock nor motion is told
RECORD_ROWS = 4
#: [tables] a file with more tables is refused; judged: a season of one shock is fewer; it bounds the time a hostile
#: file takes
MOST_TABLES = 300
#: [lines] a table lying on its side has no more; judged: rows of channels, of which nobody turns more; a table of more
#: lines stands upright
SIDEWAYS_LINES = 60
#: [cells] and no fewer values in each; judged: two values a line are a table of names with their facts
SIDEWAYS_VALUES = 3
#: [cells] a line of speeds or clicks across a table's top has no fewer, the one before them included; judged: of two,
#: the second may be a fact with its value
ACROSS_LEAST = 3
#: [lines] another table stands above the one most lines fit only from this line on; judged: the first lines are facts,
#: two numbers side by side among them
EARLIER_TABLE_LINE = 4
#: [rows] so many before the last, each with as many cells and as many digits behind the mark, show that it broke off;
#: judged: a program that leaves out zeros at the end leaves out some within so many
ALIKE_ROWS = 20
#: [lines] with more lines that are no rows, and a larger share of them, a body is no table; judged: remarks of a
#: logger of hours are fewer; it bounds memory
MOST_ODD_LINES = 40_000
#: [1] share of lines that are no rows, see above; judged: blocks with a header each stay below; a text with numbers in
#: it is above
ODD_SHARE = 0.2
#: [lines] in a shorter table no torn line is left out, unless it is the last; judged: of few rows each counts, and a
#: torn one is refused with its line
TORN_LEAST_ROWS = 50
#: [lines] torn lines that may always be left out of a longer one; judged: a logger's switching on and off tears as
#: many
TORN_ALWAYS = 3
#: [lines] beyond them one torn line in so many rows may be left out; judged: more than one row in a hundred lost
#: changes what the motion looks like
ROWS_PER_TORN = 100
#: [lines] of a head in which the names are looked for of a table whose rows may leave out last columns; judged: longer
#: than any preamble seen
NAMES_WITHIN = 200
#: [lines] so many that such a row may be are looked at one by one, others are taken as they are; judged: rows of one
#: program are alike; it bounds time
ROWS_SEEN = 2000
#: [lines] so many must show the same units behind their numbers, in a longer table; judged: rows enough to tell a unit
#: from a word, few enough to look at one by one
UNIT_CELL_LINES = 20
#: [lines] in longer tables nothing but numbers stands in the cells; judged: people write cells of tables of peaks by
#: hand, of records never; looking costs time
TIDY_LINES = 400
#: [lines] beside so many first rows of a long record notes are looked for; judged: a box of settings is shorter
BOX_LINES = 60
#: [1] rows of a state that says nothing was measured are left out below this share of all; judged: where most rows
#: were faulty it is the record that is in doubt, not rows of it
FAULTY_SHARE = 0.5
#: [words] a column of more different ones calls no rows targets; judged: more are names of runs or remarks
MOST_KINDS = 8
#: [1] of its step, the most by which the steps of a column called X may differ for it to be the time; judged: a clock's
#: printed digits make less; a displacement turns round
EVEN_X = 0.6
#: [lines] with words between their numbers that are rows of a table; judged: of fewer, a sentence said twice is none
WORDED_ROWS = 3
#: [1] bare numbers across a table's top are speeds where the last is so many times the first; judged: serial numbers
#: lie closer together
SPEEDS_APART = 1.5
#: [rows] that count by ones under names one fewer than their cells, for the first cell to be their number; judged:
#: fewer may be speeds by chance
NUMBERED_ROWS = 4
#: [lines] at a file's top in which rows of channels, their names, units and rates, are looked for; judged: loggers
#: write a dozen such rows under as many lines of the run
CHANNEL_LINES = 60
#: [bytes] a larger body is parsed in pieces, and its memory given back; judged: arrow parses a smaller one in some ms,
#: and of a larger one what a thread kept was a tenth of the peak
LARGE_BODY = 1 << 21
