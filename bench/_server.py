"""The workbench served from a process of its own on one core, and what it costs, as the kernel counts it."""

import http.client
import multiprocessing
import os
import sys
import time
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlencode, urlsplit

__all__ = ["Answer", "Server", "serving"]

FRAGMENT = {"HX-Request": "true"}


@dataclass(frozen=True)
class Answer:
    """One answer: what it took by the clock and of the server's processor, and what came."""

    clock_ms: float
    processor_ms: float
    status: int
    sent: bytes


class Server:
    """A browser's one connection to the server, and a look at the server's process."""

    def __init__(self, address, process):
        self.host, self.process = urlsplit(address).netloc, process
        self.connection = http.client.HTTPConnection(self.host, timeout=60)

    def ask(self, path, *, fragment=False, form=None):
        """Ask for a page or a part of one, as a browser does; gzip as sent."""
        headers = {"Accept-Encoding": "gzip", "Origin": f"http://{self.host}"} | (
            FRAGMENT if fragment else {}
        )
        body = None
        if form is not None:
            headers["Content-Type"] = "application/x-www-form-urlencoded"
            body = urlencode(form)
        before, start = self.processor_ms(), time.perf_counter()
        self.connection.request("GET" if form is None else "POST", path, body, headers)
        response = self.connection.getresponse()
        sent = response.read()
        clock_ms = 1000 * (time.perf_counter() - start)
        return Answer(clock_ms, self.processor_ms() - before, response.status, sent)

    def processor_ms(self):
        """What all threads of the server have had of the processor."""
        tasks = Path(f"/proc/{self.process.pid}/task").iterdir()
        return sum(int((task / "schedstat").read_text().split()[0]) for task in tasks) / 1e6

    def memory_mb(self, name="VmRSS"):
        """What the server holds in memory, or (``VmHWM``) has held at most."""
        lines = Path(f"/proc/{self.process.pid}/status").read_text().splitlines()
        return next(int(line.split()[1]) / 1024 for line in lines if line.startswith(f"{name}:"))


@contextmanager
def serving(place):
    """Serve a book on the last core; whoever asks has the others. Its log of requests is not shown."""
    context = multiprocessing.get_context("spawn")
    here, there = context.Pipe()
    cores = sorted(os.sched_getaffinity(0))
    process = context.Process(target=_serve, args=(str(place), cores[-1], there), daemon=True)
    process.start()
    if cores[:-1]:
        os.sched_setaffinity(0, cores[:-1])
    try:
        yield Server(here.recv(), process)
    finally:
        process.terminate()
        process.join()
        os.sched_setaffinity(0, cores)


def _serve(place, core, told):
    from fifthwise.web import open_workbench, serve

    os.sched_setaffinity(0, {core})
    sys.stderr = open(os.devnull, "w")  # noqa: SIM115 - to the end of the process
    with open_workbench(place, on_notice=print) as app:
        serve(app, 0, on_open=told.send)
