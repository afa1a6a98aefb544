"""The cautions' figures."""

from fifthwise.web.cautions import LONGEST_A_DAY

MINUTES = {"8 hours": 480, "4 hours": 240, "2 hours": 120, "1 hour": 60, "30 minutes": 30, "15 minutes": 15}


def test_the_longest_times_follow_the_published_rule():
    """Source: NIOSH 98-126 (1998), 1.1.2: T = 480 / 2**((L - 85) / 3) minutes."""
    for level, time in LONGEST_A_DAY:
        assert MINUTES[time] == 480 / 2 ** ((level - 85) / 3)
    assert [level for level, _ in LONGEST_A_DAY] == [85, 88, 91, 94, 97, 100]
