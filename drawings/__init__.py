"""From a design to dimensioned sheets and the job folder."""

from drawings.job import Job, write_job

__all__ = ["Job", "write_job"]
