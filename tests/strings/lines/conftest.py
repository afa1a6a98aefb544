"""A clock for the tests."""

import contextlib
import time

import pytest


@pytest.fixture
def timed():
    """A block that must be done within seconds of processor time."""

    @contextlib.contextmanager
    def within(seconds):
        start = time.process_time()
        yield
        assert time.process_time() - start < seconds

    return within
