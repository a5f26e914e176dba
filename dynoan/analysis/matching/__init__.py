"""Two curves held against each other: a pair or not, what to turn, where they cross.

In: curves with their bands. Out: verdicts by direction and speed, advice. Called by the jobs.
Read in this order: match, points, advice, compare.
"""
