"""How others open the workbench, and how their devices come to trust it."""

import ssl

from starlette.exceptions import HTTPException
from starlette.requests import Request
from starlette.responses import Response
from starlette.routing import Route

from fifthwise.web.answers import show
from fifthwise.web.sharing import sharing_of, visitor_of

__all__ = ["routes"]


def share(request: Request) -> Response:
    """What to tell people: the address, the code, and what works without either."""
    return show(request, "share.html", {"sharing": sharing_of(request), "visitor": visitor_of(request)})


def devices(request: Request) -> Response:
    """How each kind of device trusts the certificate authority."""
    return show(request, "devices.html", {"sharing": sharing_of(request), "visitor": visitor_of(request)})


def authority(request: Request) -> Response:
    """The authority's certificate, in the binary form that every kind of device takes."""
    sharing = sharing_of(request)
    if sharing is None or sharing.certificates is None:
        raise HTTPException(404)
    der = ssl.PEM_cert_to_DER_cert(sharing.certificates.authority.decode())
    return Response(der, media_type="application/x-x509-ca-cert")


routes = [
    Route("/share", share, name="share"),
    Route("/share/devices", devices, name="devices"),
    Route("/share/ca.crt", authority, name="authority"),
]
