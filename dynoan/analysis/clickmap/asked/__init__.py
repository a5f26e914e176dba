"""What is asked of a click map once it is there.

In: click maps, and a curve or nothing. Out: what a click is worth, the setting that stands in for another, which pack
and clicks an unknown curve is and what run would tell, which runs to pay for next. Called by the jobs. Read in this
order: authority, equivalent, likelihood, identify, telling; plan_model, plan.
"""
