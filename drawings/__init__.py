"""From a design to dimensioned sheets and the job folder."""

from drawings.job import Job, write_job
from drawings.kept_drawn import keep_drawn

__all__ = ["Job", "keep_drawn", "write_job"]
