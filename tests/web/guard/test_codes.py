"""The join code."""

import hmac

from hypothesis import given
from hypothesis import strategies as st

from fifthwise.web.guard.codes import SIGNS, is_code, new_code


def test_a_code_is_six_signs_that_are_easily_told_apart():
    """Thirty-two of them, without 0 and O, 1 and I."""
    codes = {new_code() for _ in range(500)}
    assert {len(code) for code in codes} == {6}
    assert set("".join(codes)) == set(SIGNS)
    assert len(set(SIGNS)) == 32
    assert not set(SIGNS) & set("0O1I")
    assert len(codes) == 500


def test_a_code_may_be_typed_as_people_type():
    """Small letters, spaces and hyphens are taken."""
    assert is_code(" abc-def ", "ABCDEF")
    assert is_code("ab c\u00a0DEF", "ABCDEF")


@given(st.text())
def test_whatever_is_typed_only_the_code_is_the_code(text):
    """Other text, of any length and script, is refused without a fault."""
    assert is_code(text, "WXYZ23") == ("".join(text.replace("-", " ").split()).upper() == "WXYZ23")


def test_codes_are_compared_in_constant_time(monkeypatch):
    """The comparison is the library's, which does not tell how much was right."""
    compared = []

    def spy(one, other):
        compared.append((one, other))
        return False

    monkeypatch.setattr(hmac, "compare_digest", spy)
    assert not is_code("ABCDEF", "ABCDEF")
    assert compared == [(b"ABCDEF", b"ABCDEF")]
