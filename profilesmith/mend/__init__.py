"""After the print: what can be wrong, what may have caused it, and what to change next. Knows no texts, files or words
of doors.
"""
