"""One function per user goal. They load, call the rooms in order and raise ``Refused``; they hold no rules of their
own.
"""
