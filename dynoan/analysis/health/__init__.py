"""A shock against its own earlier tests: what changed, since when, and what that usually means.

In: records of two dates. Out: changes with intervals, named. Called by the jobs.
Read in this order: records, session, bodies, forces, step, words, change; what is taken for granted stands in
assumptions.
"""
