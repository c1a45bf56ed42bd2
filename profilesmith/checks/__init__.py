"""Judges what settings do: (base profile, derived profile or none, facts) to findings, cautions and figures.

One subject a file, with a ``check(case)`` that returns its findings, or several (``check_liner``); ``judge.py`` lists
all of them in one literal tuple.
A check prints nothing, reads no file and knows no text. It never says more than the physics carry: a range where a
single number would be a guess, or "not judged, because ..." with the fact that would settle it.

To add a check: a file, or a function in that of its subject, with its limits and their source, and a line in
``judge.py``.
"""
