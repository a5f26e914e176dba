"""Did a change help, told apart from the day's drift: a module a job.

judged (what all share), changed, new, results (from a table: results_table), run, show, listing.
"""
