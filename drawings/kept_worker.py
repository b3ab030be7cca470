"""The process in which a kept script is run and drawn, apart from the one that serves the page.

A script that never ends, or a kernel that crashes, then takes no page with it. Messages go out
as lines of JSON; each line that comes in asks for one drawing.
"""

from __future__ import annotations

import base64
import io
import json
import os
import queue
import sys
import threading
from pathlib import Path
from typing import BinaryIO

from drawings.kept_drawing import Drawer, Message


def encoded(message: Message) -> bytes:
    """A message as one line."""
    if "glb" in message:
        message = message | {"glb": base64.b64encode(message["glb"]).decode("ascii")}
    return json.dumps(message, ensure_ascii=True, allow_nan=False).encode("ascii") + b"\n"


def decoded(line: bytes) -> Message:
    """A message from its line."""
    message: Message = json.loads(line)
    if "glb" in message:
        message["glb"] = base64.b64decode(message["glb"])
    return message


def work(script: Path, asked: BinaryIO, told: BinaryIO) -> None:
    """Draw for each line that is asked, until there are no more; only the last that wait.

    Args:
        script: The script.
        asked: Where lines come in, each the number of a round.
        told: Where messages go, each with the number of its round.
    """
    waiting: queue.SimpleQueue[int | None] = queue.SimpleQueue()

    def listen() -> None:
        for line in asked:
            waiting.put(int(line))
        waiting.put(None)

    # A thread of its own: a drawing has to know that another was asked for meanwhile.
    threading.Thread(target=listen, daemon=True).start()
    number: int | None = 0

    def tell(message: Message) -> None:
        told.write(encoded(message | {"round": number}))
        told.flush()

    drawer = Drawer(script, tell, is_overtaken=lambda: not waiting.empty())
    while True:
        number = waiting.get()
        while number is not None and not waiting.empty():
            number = waiting.get()
        if number is None:
            return
        drawer.draw()


def main() -> None:
    """Begin; what the script prints goes to the error stream, and it has nothing to read."""
    script = Path(sys.argv[1])
    asked = os.fdopen(os.dup(sys.stdin.fileno()), "rb")
    told = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    sys.stdin = io.StringIO()
    sys.stdout = sys.stderr
    sys.argv = [str(script)]
    sys.path.insert(0, str(script.parent))
    # The stamp in compiled files is in whole seconds, too coarse for one who saves often.
    sys.dont_write_bytecode = True
    work(script, asked, told)
