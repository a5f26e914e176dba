"""How the car leaves the line.

In: a car, surfaces, a drive. Out: figures of each case with bands, what happened on the way, what to measure first.
Read in this order: asked, drive, settings, figures, not_in_file, measure_first, firsts, levers (what decides where
wheels spin), near_over, answering; then what compares launches: differences, best (clicks), holes (of the links).
"""

from dynoan.jobs.launch.answering import LaunchAnswer, LaunchVerdict, Watch, answer, answer_for, unwatched

__all__ = ["LaunchAnswer", "LaunchVerdict", "Watch", "answer", "answer_for", "unwatched"]
