"""From a design to dimensioned sheets and the job folder."""

# First, so that the other imports go without searches through the kernel.
from drawings import kernel_at_rest as kernel_at_rest
from drawings.job import Job, write_job
from drawings.kept_drawn import keep_drawn

__all__ = ["Job", "keep_drawn", "write_job"]
