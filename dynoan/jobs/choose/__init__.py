"""Packs and clicks for wanted damping ratios: what is wanted, what may be used, the ranking, and what would fit.

In: a car, wanted ratios and limits. Out: ranked settings with bands, and advice as data. Called by the doors, by the
report and by the phone page. Read in this order: aims, limits, ranking, advice, answering.
"""

from dynoan.jobs.choose.answering import ChooseAnswer, ChooseQuestion, answer, answer_for
from dynoan.jobs.choose.limits import Limits
from dynoan.jobs.choose.ranking import Chosen, best_settings

__all__ = ["ChooseAnswer", "ChooseQuestion", "Chosen", "Limits", "answer", "answer_for", "best_settings"]
