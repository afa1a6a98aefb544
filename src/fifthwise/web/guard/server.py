"""How the server itself is told to be careful: what stands before the first line of ours."""

from typing import Any

from fifthwise.web.guard.certificates import Certificates
from fifthwise.web.guard.logs import LOG_CONFIG

__all__ = ["LONGEST_HEAD", "server_options"]

# Bytes of a head that has not come whole, after which uvicorn answers 400; `heads` bounds the whole ones.
LONGEST_HEAD = 16 * 1024
MOST_CONNECTIONS = 256
IDLE_S = 5
# How long an answer or a form under way may still take once the server is to end.
END_S = 3


def server_options(certificates: Certificates | None = None) -> dict[str, Any]:
    """The options of ``uvicorn.Config`` that safety rests on.

    Parameters
    ----------
    certificates : Certificates or None
        For HTTPS; ``None`` for plain HTTP.
    """
    options: dict[str, Any] = {
        # Else the address and the scheme are what a header says.
        "proxy_headers": False,
        "server_header": False,
        "access_log": False,
        "log_config": LOG_CONFIG,
        # The one that LONGEST_HEAD holds for.
        "http": "h11",
        "h11_max_incomplete_event_size": LONGEST_HEAD,
        # There are no sockets: what is live comes by server-sent events.
        "ws": "none",
        "timeout_keep_alive": IDLE_S,
        "timeout_graceful_shutdown": END_S,
        "limit_concurrency": MOST_CONNECTIONS,
    }
    if certificates is not None:
        options["ssl_certfile"] = str(certificates.server_file)
    return options
