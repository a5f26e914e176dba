"""What was on the car and how it went: a module a job.

plain (what all share), record, listing, recall, compare, edit, season (what was changed when, and what followed).
"""
