"""What goes wrong in the browser while a test looks at pages: none of it may."""

import re

from playwright.sync_api import BrowserContext

# A page's own script can tell of what the policy stopped; the browser's message alone may lack the place.
TELL_POLICY = """addEventListener("securitypolicyviolation", event =>
  console.error(`policy: ${event.violatedDirective} stopped ${event.blockedURI} ${event.sourceFile}`))"""


class Troubles:
    """Errors in the console and in scripts, refusals by the policy, and requests that leave the server."""

    def __init__(self, context: BrowserContext, address: str) -> None:
        self.found: list[str] = []
        self.expected: list[str] = []
        context.add_init_script(TELL_POLICY)
        context.on("console", self._console)
        context.on("weberror", lambda error: self.found.append(f"script: {error.error}"))
        context.on("request", lambda request: self._request(request.url, address))

    def _console(self, message) -> None:
        if message.type == "error":
            self.found.append(f"console: {message.text} ({message.location.get('url')})")

    def _request(self, url: str, address: str) -> None:
        if not url.startswith((f"{address}/", "data:", "blob:")):
            self.found.append(f"request to elsewhere: {url}")

    def expect(self, pattern: str) -> None:
        """Say which trouble has to come, such as ``status of 422`` where a fault is answered."""
        self.expected.append(pattern)

    def left(self) -> list[str]:
        """What came and was not expected, and what was expected and did not come."""
        missing = [
            f"expected: {pattern}"
            for pattern in self.expected
            if not any(re.search(pattern, trouble) for trouble in self.found)
        ]
        unexpected = [
            trouble
            for trouble in self.found
            if not any(re.search(pattern, trouble) for pattern in self.expected)
        ]
        return unexpected + missing
