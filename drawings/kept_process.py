"""The process that draws, as the one that serves holds it."""

from __future__ import annotations

import contextlib
import os
import subprocess
import sys
import threading
from collections.abc import Callable
from pathlib import Path
from typing import BinaryIO, cast

from drawings.kept_drawing import Message
from drawings.kept_worker import decoded

_BEGIN = "from drawings.kept_worker import main; main()"


class DrawingProcess:
    """A process that draws one script whenever it is asked.

    Args:
        script: The script.
        hear: What is done with each message, in a thread of its own; the last, of the kind
            ``lost``, has the process's exit code.
    """

    def __init__(self, script: Path, hear: Callable[[DrawingProcess, Message], None]) -> None:
        self._hear = hear
        here = str(Path(__file__).parents[1])
        paths = [here, *filter(None, [os.environ.get("PYTHONPATH")])]
        self._process = subprocess.Popen(  # noqa: S603 - our own program and the maker's script
            [sys.executable, "-P", "-c", _BEGIN, str(script)],
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            env=os.environ | {"PYTHONPATH": os.pathsep.join(paths)},
        )
        self._listener = threading.Thread(target=self._listen, daemon=True)
        self._listener.start()

    def ask(self, number: int) -> bool:
        """Ask for a drawing, under the number of its round; False if the process is gone."""
        try:
            asked = cast("BinaryIO", self._process.stdin)
            asked.write(b"%d\n" % number)
            asked.flush()
        except (OSError, ValueError):
            return False
        return True

    def end(self) -> None:
        """End the process, whatever it is doing."""
        self._process.kill()
        self._process.wait()
        self._close_asked()

    def _listen(self) -> None:
        told = cast("BinaryIO", self._process.stdout)
        with told:
            for line in told:
                # A process that is killed may leave half a line.
                if line.endswith(b"\n"):
                    self._hear(self, decoded(line))
        code = self._process.wait()
        self._close_asked()
        self._hear(self, {"kind": "lost", "code": code})

    def _close_asked(self) -> None:
        # What could not be sent to a process that is gone is let go.
        with contextlib.suppress(OSError):
            cast("BinaryIO", self._process.stdin).close()
