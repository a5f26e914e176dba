"""What is taken for granted of the lines above the rows."""

from __future__ import annotations

#: [characters] a longer cell names no column; judged: longer than any name with its unit and remark; it bounds the
#: time that patterns take
LONGEST_NAME = 300
#: [lines] how far above the rows the names of the columns may stand; judged: names, units, channels' numbers and rules
#: between; further up names are those of another table
HEADER_REACH = 6
#: [lines] how far from the names the line of units may stand; judged: a blank line or a rule may stand between;
#: further off units belong to facts
UNITS_REACH = 2
#: [lines] how far above the names the groups of a wide table may stand; judged: as for units
GROUPS_REACH = 2
#: [1] what a measured channel adds to a known word in choosing the line of names; judged: a line of names beats one of
#: kinds, yet a kind counts as half a word known
MEASURE_WORTH = 0.5
#: [1] what each known name adds beside their share, so that the longer of two lines wins; judged: it breaks ties and
#: outvotes no share
NAME_WORTH = 0.05
#: [lines] how far a team's own layout looks for its header; judged: a team names its header in full, so nothing is
#: mistaken for it however far it is looked for
LAYOUT_REACH = 200
#: [lines] how far the names of columns are looked for in a file without rows; judged: such a file is refused anyway;
#: it decides what the refusal can name
NAMES_REACH = 100
