"""A certificate authority of this machine's own, and the server's certificate that it signs.

Other devices trust the authority once. It is bound by name constraints (RFC 5280, 4.2.1.10) to names and
addresses that only mean something inside a house, so that its key, if stolen, is worth nothing against the
sites of the world. A server's certificate lasts well under the 825 days (CA/Browser Forum, ballot 193) to
which some systems hold a house's own authority too.
"""

import datetime
import hashlib
import ipaddress
from collections.abc import Iterable
from dataclasses import dataclass
from pathlib import Path

import trustme
from cryptography import x509
from cryptography.exceptions import InvalidSignature
from cryptography.hazmat.primitives.hashes import SHA256
from cryptography.hazmat.primitives.serialization import Encoding, load_pem_private_key

from fifthwise.web.guard.errors import BrokenFile
from fifthwise.web.guard.private_files import make_once, read_private, replace_private

__all__ = ["AUTHORITY_FILE", "SERVER_FILE", "Certificates", "certificates", "is_inside"]

AUTHORITY_FILE, SERVER_FILE = "authority.pem", "server.pem"
# RFC 1918, RFC 3927, RFC 6598, RFC 1122; RFC 4193 and RFC 4291.
INSIDE_V4 = (
    "10.0.0.0/8",
    "172.16.0.0/12",
    "192.168.0.0/16",
    "169.254.0.0/16",
    "100.64.0.0/10",
    "127.0.0.0/8",
)
INSIDE_V6 = ("fc00::/7", "fe80::/10", "::1/128")
INSIDE_NETWORKS = tuple(map(ipaddress.ip_network, (*INSIDE_V4, *INSIDE_V6)))
# RFC 6761, RFC 6762, RFC 8375; .lan is what home routers say.
INSIDE_DOMAINS = ("localhost", "local", "home.arpa", "internal", "lan")
AUTHORITY_DAYS, SERVER_DAYS, RENEW_DAYS = 3650, 200, 30
BEGIN_CERTIFICATE = b"-----BEGIN CERTIFICATE-----"
DAY = datetime.timedelta(days=1)


@dataclass(frozen=True, slots=True)
class Certificates:
    """What a server needs for HTTPS, and what others need to trust it.

    Parameters
    ----------
    server_file : Path
        The server's key and certificate in one file: uvicorn's ``ssl_certfile``.
    authority : bytes
        The authority's certificate, PEM: what other devices install. It holds no key.
    fingerprint : str
        SHA-256 of the authority's certificate, in pairs, for comparing by eye.
    names : tuple of str
        What the server's certificate is good for.
    """

    server_file: Path
    authority: bytes
    fingerprint: str
    names: tuple[str, ...]


def certificates(folder: Path, names: Iterable[str], now: datetime.datetime | None = None) -> Certificates:
    """The certificates of this machine, made or made anew where they do not fit.

    Parameters
    ----------
    folder : Path
        Where they are kept, in private files. The authority is made once, the server's certificate again
        when the names change, when it has ``RENEW_DAYS`` left, or when another authority signed it.
    names : iterable of str
        Names and addresses; those that are not inside (`is_inside`) are left out.
    now : datetime, optional
        In UTC.

    Raises
    ------
    ExposedFile
        Others on this machine may read one of the files.
    BrokenFile
        The authority's file does not hold one.
    """
    now = now or datetime.datetime.now(datetime.UTC)
    path = folder / AUTHORITY_FILE
    pem = make_once(path, lambda: _new_authority(now))
    authority, certificate = _read_authority(path, pem)
    wanted = tuple(sorted({name.lower() for name in names if is_inside(name)}))
    server = folder / SERVER_FILE
    if not _still_fits(read_private(server), certificate, wanted, now):
        leaf = authority.issue_cert(*wanted, not_before=now - DAY, not_after=now + SERVER_DAYS * DAY)
        replace_private(server, leaf.private_key_and_cert_chain_pem.bytes())
    digest = hashlib.sha256(certificate.public_bytes(Encoding.DER)).digest()
    return Certificates(server, certificate.public_bytes(Encoding.PEM), digest.hex(":").upper(), wanted)


def is_inside(name: str) -> bool:
    """Tell whether the authority may vouch for a name or address: one without meaning outside the house."""
    try:
        address = ipaddress.ip_address(name)
    except ValueError:
        domain = name.lower().rpartition(".")[2]
        return domain in INSIDE_DOMAINS or name.lower().endswith(".home.arpa")
    return any(address in network for network in INSIDE_NETWORKS)


def _new_authority(now: datetime.datetime) -> bytes:
    """Key and certificate, PEM. The library's own has neither constraints nor a beginning of our choice."""
    plain = trustme.CA(path_length=0, organization_name="fifthwise", organization_unit_name="this machine")
    pem = plain.private_key_pem.bytes()
    model = x509.load_pem_x509_certificate(plain.cert_pem.bytes())
    key = load_pem_private_key(pem, password=None)
    builder = x509.CertificateBuilder(
        issuer_name=model.subject,
        subject_name=model.subject,
        public_key=model.public_key(),
        serial_number=model.serial_number,
        not_valid_before=now - DAY,
        not_valid_after=now + AUTHORITY_DAYS * DAY,
    )
    for extension in model.extensions:
        builder = builder.add_extension(extension.value, critical=extension.critical)
    builder = builder.add_extension(_constraints(), critical=True)
    return pem + builder.sign(key, SHA256()).public_bytes(Encoding.PEM)  # type: ignore[arg-type] # an EC key


def _constraints() -> x509.NameConstraints:
    inside = [x509.DNSName(domain) for domain in INSIDE_DOMAINS]
    return x509.NameConstraints([*inside, *map(x509.IPAddress, INSIDE_NETWORKS)], None)


def _read_authority(path: Path, pem: bytes) -> tuple[trustme.CA, x509.Certificate]:
    key, mark, rest = pem.partition(BEGIN_CERTIFICATE)
    try:
        certificate = x509.load_pem_x509_certificate(mark + rest)
        return trustme.CA.from_pem(mark + rest, key), certificate
    except (ValueError, TypeError) as error:
        fix = "Delete it and start again; every device then has to trust the new one"
        raise BrokenFile("this holds no certificate authority", str(path), fix) from error


def _still_fits(
    pem: bytes | None, authority: x509.Certificate, names: tuple[str, ...], now: datetime.datetime
) -> bool:
    try:
        leaf = x509.load_pem_x509_certificate(pem or b"")
        leaf.verify_directly_issued_by(authority)
        given = leaf.extensions.get_extension_for_class(x509.SubjectAlternativeName).value
    except (ValueError, TypeError, InvalidSignature, x509.ExtensionNotFound):
        return False
    held = {str(name.value) for name in given}
    return held == set(names) and leaf.not_valid_after_utc - now > RENEW_DAYS * DAY
