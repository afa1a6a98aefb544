import pytest


@pytest.fixture(autouse=True)
def verovio_warns_of_nothing(capfd):
    """What Verovio warns of is a fault of what was written for it; it tells the error stream alone."""
    yield
    assert capfd.readouterr().err == ""
