"""How a rig's file is understood, and why; nothing is kept.

In: files and what is told of them. Out: sweeps, evidence, doubts, questions. Read in this order: options, understanding
(many files at once), answering, look (before it is kept), layout (what made a file readable, as a card).
"""

from dynoan.jobs.read.answering import FileRead, ReadAnswer, ReadQuestion, SweepRead, answer

__all__ = ["FileRead", "ReadAnswer", "ReadQuestion", "SweepRead", "answer"]
