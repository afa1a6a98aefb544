"""The authority of this machine, and what it signs."""

import datetime
import hashlib
import os
import socket
import ssl
import stat
import threading

import pytest
import trustme
from cryptography import x509

from fifthwise.web.guard import BrokenFile, ExposedFile, certificates, is_inside

NAMES = ("192.168.1.20", "fd00::20", "stage-laptop.local", "localhost")
NOW = datetime.datetime.now(datetime.UTC)
DAY = datetime.timedelta(days=1)


def leaf_of(made):
    """The server's certificate."""
    return x509.load_pem_x509_certificate(made.server_file.read_bytes())


def handshake(server_pem, authority, name):
    """Let a client that trusts the authority meet the server under a name; fails as the client would."""
    server = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    server.load_cert_chain(server_pem)
    client = ssl.create_default_context(cadata=authority.decode())
    ours, theirs = socket.socketpair()

    def answer():
        try:
            server.wrap_socket(theirs, server_side=True).close()
        except OSError:
            theirs.close()

    thread = threading.Thread(target=answer)
    thread.start()
    try:
        with client.wrap_socket(ours, server_hostname=name) as talk:
            return talk.version()
    finally:
        ours.close()
        thread.join()


@pytest.mark.parametrize("name", NAMES)
def test_whoever_trusts_the_authority_trusts_the_server(tmp_path, name):
    """Under each of its names and addresses."""
    made = certificates(tmp_path, NAMES, NOW)
    assert handshake(made.server_file, made.authority, name) in ("TLSv1.2", "TLSv1.3")


def test_the_server_is_not_trusted_under_another_name(tmp_path):
    """A name that it was not made for fails."""
    made = certificates(tmp_path, NAMES, NOW)
    with pytest.raises(ssl.SSLCertVerificationError, match="mismatch"):
        handshake(made.server_file, made.authority, "192.168.1.21")


@pytest.mark.parametrize("name", ["bank.example", "203.0.113.9", "2001:db8::1", "local.example"])
def test_the_authority_is_worth_nothing_outside(tmp_path, name):
    """Whoever stole its key could not pass for a site of the world.

    Source: RFC 5280, 4.2.1.10.
    """
    made = certificates(tmp_path, NAMES, NOW)
    key, mark, rest = (tmp_path / "authority.pem").read_bytes().partition(b"-----BEGIN CERTIFICATE-----")
    thief = trustme.CA.from_pem(mark + rest, key)
    stolen = tmp_path / "stolen.pem"
    stolen.write_bytes(thief.issue_cert(name).private_key_and_cert_chain_pem.bytes())
    with pytest.raises(ssl.SSLCertVerificationError, match="permitted subtree violation"):
        handshake(stolen, made.authority, name)


def test_the_authority_is_made_once(tmp_path):
    """Devices trust it once, whatever becomes of the addresses."""
    first = certificates(tmp_path, NAMES, NOW)
    second = certificates(tmp_path, ("10.0.0.9",), NOW + 100 * DAY)
    assert (first.authority, first.fingerprint) == (second.authority, second.fingerprint)


def test_the_certificate_stays_while_it_fits(tmp_path):
    """The same names in any order, with time left, keep it."""
    certificates(tmp_path, NAMES, NOW)
    before = (tmp_path / "server.pem").read_bytes()
    certificates(tmp_path, reversed(NAMES), NOW + 160 * DAY)
    assert (tmp_path / "server.pem").read_bytes() == before


@pytest.mark.parametrize(("names", "days"), [((*NAMES, "10.0.0.9"), 0), (NAMES[1:], 0), (NAMES, 171)])
def test_the_certificate_is_renewed_when_it_no_longer_fits(tmp_path, names, days):
    """A new address, one gone, or its end near."""
    before = leaf_of(certificates(tmp_path, NAMES, NOW))
    after = leaf_of(certificates(tmp_path, names, NOW + days * DAY))
    assert before.serial_number != after.serial_number


def test_a_damaged_certificate_or_another_authoritys_is_renewed(tmp_path):
    """Nobody has to mend it by hand."""
    made = certificates(tmp_path, NAMES, NOW)
    made.server_file.write_bytes(b"damaged")
    leaf_of(certificates(tmp_path, NAMES, NOW))
    (tmp_path / "authority.pem").unlink()
    made = certificates(tmp_path, NAMES, NOW)
    assert handshake(made.server_file, made.authority, "localhost")


def test_a_certificate_lasts_as_long_as_devices_allow(tmp_path):
    """At most 825 days from beginning to end, and it has begun.

    Source: CA/Browser Forum, ballot 193.
    """
    leaf = leaf_of(certificates(tmp_path, NAMES, NOW))
    assert leaf.not_valid_after_utc - leaf.not_valid_before_utc <= 825 * DAY
    assert leaf.not_valid_before_utc < NOW


def test_the_fingerprint_is_that_of_the_certificate_given_out(tmp_path):
    """SHA-256 over its DER, in pairs; no key goes with it."""
    made = certificates(tmp_path, NAMES, NOW)
    der = ssl.PEM_cert_to_DER_cert(made.authority.decode())
    assert made.fingerprint.replace(":", "").lower() == hashlib.sha256(der).hexdigest()
    assert made.fingerprint.count(":") == 31
    assert b"KEY" not in made.authority


@pytest.mark.skipif(os.name != "posix", reason="modes say nothing here")
def test_keys_are_private(tmp_path):
    """0600, and not used when others may read them."""
    certificates(tmp_path, NAMES, NOW)
    assert {stat.S_IMODE(path.stat().st_mode) for path in tmp_path.iterdir()} == {0o600}
    (tmp_path / "authority.pem").chmod(0o644)
    with pytest.raises(ExposedFile, match="others on this machine"):
        certificates(tmp_path, NAMES, NOW)


@pytest.mark.parametrize(
    "damage", [b"", b"damaged", b"-----BEGIN CERTIFICATE-----\nAAAA\n-----END CERTIFICATE-----\n"]
)
def test_a_damaged_authority_is_told(tmp_path, damage):
    """It is not made anew behind the devices' backs."""
    (tmp_path / "authority.pem").write_bytes(damage)
    (tmp_path / "authority.pem").chmod(0o600)
    with pytest.raises(BrokenFile, match="no certificate authority"):
        certificates(tmp_path, NAMES, NOW)


@pytest.mark.parametrize(
    ("name", "inside"),
    [
        ("10.1.2.3", True),
        ("172.31.0.1", True),
        ("172.32.0.1", False),
        ("192.168.255.255", True),
        ("203.0.113.9", False),
        ("fd12::1", True),
        ("2001:db8::1", False),
        ("stage.local", True),
        ("stage.home.arpa", True),
        ("stage", False),
        ("stage.example", False),
        ("local.example", False),
    ],
)
def test_only_what_is_inside_is_vouched_for(tmp_path, name, inside):
    """Sources: RFC 1918, RFC 4193, RFC 6762, RFC 8375."""
    assert is_inside(name) == inside
    assert certificates(tmp_path, ("localhost", name), NOW).names == tuple(
        sorted({"localhost", name} if inside else {"localhost"})
    )
