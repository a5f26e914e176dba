"""Everything about cars, packs or shocks, to read, print and send: gathered from the other jobs' answers.

In: names, or none for the whole library. Out: runs, packs, shocks, pairs and cars as data; what fails on the way is a
warning, as the rest is still worth reading. Called by the doors. Read in this order: scope, parts, gathering,
answering.
"""

from dynoan.jobs.report.answering import ReportAnswer, ReportQuestion, answer

__all__ = ["ReportAnswer", "ReportQuestion", "answer"]
