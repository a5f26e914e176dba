"""What is taken for granted of how cells stand in lines."""

from __future__ import annotations

#: [lines] of a longer head only the last ones are judged: the first may be preamble; judged: longer than the preambles
#: of rigs, so that rows are what is judged
SHORT_HEAD = 120
#: [lines] how many of them are judged; judged: with a quarter one odd line outvotes rows, with more only time is lost
GRID_SAMPLE = 40
#: [lines] a delimiter stands at least once in so many lines; judged: what stands more seldom is punctuation of words
LINES_PER_DELIMITER = 10
#: [lines] more lines than these ask no more delimiters; judged: rows enough to outvote any preamble that is left
DELIMITER_LINES = 20
#: [cells] a row of a table holds at least so many numbers; judged: speed and force is the least a table can say
ROW_NUMBERS = 2
#: [cells] a row holds a number or a missing value in at least one of so many cells; judged: rows with names, dates and
#: remarks beside two numbers are let in, sentences are not
CELLS_PER_NUMBER = 3
#: [1] what a missing value counts against a number in judging a delimiter; judged: below 1, as a delimiter too many
#: makes empty cells; above half, as sensors drop out
MISSING_WORTH = 0.7
#: [1] what a number grouped by a blank between commas loses: commas may be its decimal marks; judged: as likely as not
GROUPED_DOUBT = 0.5
#: [tenths] what blanks count as a delimiter against an explicit mark: they also stand within cells; judged: just below
#: equal, so that an explicit mark wins a tie and nothing else
BLANKS_TENTHS = 9
#: [1] a marked number is one of thousands where the largest unmarked one lies between these; judged: thousands carry a
#: mark, so what carries none lies below; of tens alone nothing is told
UNMARKED_LEAST, UNMARKED_MOST = 100, 1000
#: [cells] and where at least one in so many is unmarked; judged: one slip of a pen in a long column is no evidence
CELLS_PER_UNMARKED = 10
#: [lines] so few lines cannot show the character columns of fixed-width text; judged: of two rows gaps line up by
#: chance
FIXED_WIDTH_LINES = 3
#: [characters] width of a tab in fixed-width text; common practice, no source
TAB_STOP = 8
