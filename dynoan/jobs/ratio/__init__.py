"""Damping ratios of a car's corners as it stands.

In: a car, speeds. Out: figures of every corner and direction, declared once each. Read in this order: asked, figures,
answering.
"""

from dynoan.jobs.ratio.answering import RatioAnswer, answer, answer_for, answer_with
from dynoan.jobs.ratio.asked import RatioQuestion

__all__ = ["RatioAnswer", "RatioQuestion", "answer", "answer_for", "answer_with"]
