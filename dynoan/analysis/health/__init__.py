"""A shock against its own earlier tests: what changed, since when, and what that usually means.

In: curves of two dates. Out: changes with intervals, named. Called by the jobs.
Read in this order: change, step, words.
"""
