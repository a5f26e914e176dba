"""What is taken for granted of values in records, and how many are read."""

from __future__ import annotations

#: [levels] nested values are looked into so deep for columns; judged: a run within a day within a project within
#: wrappings; it bounds hostile nesting
RECORD_DEPTH = 6
#: [names] an object with more holds no columns, and is not looked into; judged: far more than channels and facts of a
#: run; it bounds time
MOST_NAMES = 50_000
#: [values] a file of records or a sheet that claims more is refused: some 500 MB as numbers; judged: an hour of 16
#: channels at 1 kHz is as many
MOST_VALUES = 60_000_000
#: [bytes] what is unpacked of one file at most; judged: memory that a laptop has to spare; packed bombs claim
#: thousands of times more
MOST_UNPACKED = 400_000_000
#: [bytes] a larger JSON file is refused: its values take some twenty times its size while it is read; judged: memory
#: that a laptop has to spare
LARGEST_JSON = 64_000_000
