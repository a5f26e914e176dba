"""Whether shocks are alike: one against another, what to turn, and a batch sorted into pairs.

In: sweeps or shocks. Out: differences by direction and speed with bands, a verdict, advice. Read in this order: held
(one against the other), advice, answering, pairs.
"""

from dynoan.jobs.match.answering import MatchAnswer, MatchQuestion, answer

__all__ = ["MatchAnswer", "MatchQuestion", "answer"]
