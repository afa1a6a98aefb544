"""Work spread over the processes of one machine."""

from fifthwise.jobs.errors import JobsCancelled, WorkerDied
from fifthwise.jobs.map_jobs import Outcome, map_jobs, usable_cores
from fifthwise.jobs.workers import Workers

__all__ = [
    "JobsCancelled",
    "Outcome",
    "WorkerDied",
    "Workers",
    "map_jobs",
    "usable_cores",
]
