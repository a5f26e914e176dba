"""A job's answer for a car as it is beside the same with keys of its file changed, or for other cars.

In: a job's question and cases. Out: figures side by side, differences marked. Read in this order: compared, answering.
"""

from dynoan.jobs.what_if.answering import Asked, WhatCase, WhatIfAnswer, WhatIfQuestion, answer

__all__ = ["Asked", "WhatCase", "WhatIfAnswer", "WhatIfQuestion", "answer"]
