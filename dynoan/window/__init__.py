"""The window: everything of the command line in the browser, on the user's own machine.

``dynoan open`` starts it. A request comes in through `guarding` (who may ask), goes to a screen (`files`, `packs`,
`curves`, `car`, `logbook`) or to `api`, which asks the `Desk` for the library at hand and a job for the answer, and is
shown by a template. What takes long is a `Work` beside the requests. What changes the library can be taken back.
Nothing here computes: it asks `dynoan.jobs` and shows what they answer.
"""
