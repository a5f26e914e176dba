"""What a user asks, a module a job, a folder where a subject needs several: a typed question in, a typed answer out.

``answer(workbench, question)`` of each module is the job. It prints nothing, draws nothing and knows no door: the
command line, the window and Python ask the same questions and show the same answers. ``Question.asked(...)`` takes
values as people give them ("2 in/s"); the fields of a question are SI.
"""
