"""Continuous broken lines with up to three free knees: the exact least-squares optimum and how sure it is.

In: points of speed and force. Out: knees, values and slopes, with their errors. Called by `fitting`.
Read in this order: assumptions, moments, search, polish, broken_line, errors.
"""
