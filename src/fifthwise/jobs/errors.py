"""What may go wrong with the work itself, whatever it is.

::

    Exception
     +-- JobsCancelled
     +-- WorkerDied

These are not the user's faults: the rooms above say what was not made, and how to mend it.
"""

__all__ = ["JobsCancelled", "WorkerDied"]


class JobsCancelled(Exception):
    """The caller wanted no more; what was under way was stopped."""


class WorkerDied(Exception):
    """The process that worked on an item ended without an answer: killed, or out of memory."""
