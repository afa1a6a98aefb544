"""A clock that goes when it is told to."""


class Clock:
    """Seconds, as a clock of the system gives them."""

    def __init__(self, now_s=1_000_000.0):
        self.now_s = now_s

    def __call__(self):
        """The time now."""
        return self.now_s

    def wait(self, seconds):
        """Let time pass."""
        self.now_s += seconds
