"""A script that is drawn again on a page whenever it is saved, for as long as one designs."""

from __future__ import annotations

import sys
import threading
import time
from collections.abc import Mapping
from pathlib import Path
from types import TracebackType
from typing import Any, Self, TextIO

from cabinet.errors import FolderError
from cabinet.quantity import whole
from drawings.job_input import path_of
from drawings.kept_drawing import Message, key_of
from drawings.kept_files import Stamp, stamps
from drawings.kept_news import News
from drawings.kept_process import DrawingProcess
from drawings.kept_server import KeptServer

# Seconds between two looks at the files. A save counts when two looks find the same.
_LOOK = 0.03
# Seconds after a save in which the drawing before may still come to its end.
_PATIENCE = 15.0
_MOST_PORT = 65535
# What a page is told of a model.
_SHOWN = ("name", "summary", "data", "html", "sheets", "round")
# Of each of these the page tells how long after the save it stood.
_STAGES = ("model", "checks", "sheets", "plans")


def keep_drawn(script: str | Path, *, port: int = 0, tell: TextIO | None = sys.stderr) -> None:
    """Show a script's unit on a page and draw it again whenever the script is saved.

    The page is served on this machine only, until the program is interrupted. A script calls
    it with its own name, at its end: ``keep_drawn(__file__)``. The script, and every module of
    its folder that it imports, is then run again at each save; ``write_job`` writes nothing
    meanwhile. A mistake is told on the page, which keeps the last good view.

    Args:
        script: The script; it makes one ``Design`` by name, or calls ``write_job``.
        port: Port of the page, 0 to let the system choose.
        tell: Where the page's address and the result of each save are told; None for silence.

    Raises:
        KindError: the script is no path.
        SizeError: the port is no port.
        FolderError: there is no such script, or the port is taken.
    """
    with KeptDrawn(script, port=port, tell=tell) as kept:
        try:
            kept.wait()
        except KeyboardInterrupt:
            kept.say("stopped")


class KeptDrawn:
    """One script kept drawn while the block lasts; arguments and errors as ``keep_drawn``."""

    def __init__(
        self, script: str | Path, *, port: int = 0, tell: TextIO | None = sys.stderr
    ) -> None:
        whole("page", "port", port, 0, _MOST_PORT)
        self._script = path_of("page", "script", script).resolve()
        if not self._script.is_file():
            raise FolderError(f"{script}: there is no such script", part=str(script))
        self._tell = tell
        self.news = News()
        try:
            self._server = KeptServer(self.news, port)
        except OSError as error:
            raise FolderError(
                f"port {port}: it cannot be used ({error.strerror}); give another, or 0",
                part="page",
                value=port,
            ) from error
        self._lock = threading.RLock()
        self._ended = threading.Event()
        self._process: DrawingProcess | None = None
        self._round = 0
        self._noticed: dict[int, float] = {}
        self._is_busy = False
        self._drawn: tuple[str, bytes] = ("", b"")
        self._good: Mapping[str, Any] | None = None
        self._sheets_left: set[int] = set()
        self._files: set[Path] = {self._script}
        self._is_refused = False
        self._drawn_from: Mapping[Path, Stamp] = stamps(self._watched())
        self._threads = (
            threading.Thread(target=self._server.serve_forever, args=(_LOOK,), daemon=True),
            threading.Thread(target=self._look, daemon=True),
        )

    @property
    def address(self) -> str:
        """Where the page is."""
        return self._server.address

    def __enter__(self) -> Self:
        self._ask(time.monotonic())
        for thread in self._threads:
            thread.start()
        self.say(f"{self._script.name} is kept drawn at {self.address} (Ctrl-C ends it)")
        return self

    def __exit__(
        self,
        _kind: type[BaseException] | None,
        _error: BaseException | None,
        _trace: TracebackType | None,
    ) -> None:
        self._ended.set()
        self.news.end()
        self._server.shutdown()
        self._server.server_close()
        self._threads[1].join()
        with self._lock:
            if self._process is not None:
                self._process.end()

    def wait(self) -> None:
        """Wait until it is ended from elsewhere."""
        while not self._ended.wait(1.0):
            pass

    def say(self, text: str) -> None:
        """One line where the maker reads it."""
        if self._tell is not None:
            self._tell.write(text + "\n")
            self._tell.flush()

    # Saves

    def _watched(self) -> set[Path]:
        """The files that are looked at; after a mistake, whatever may mend it."""
        if self._is_refused:
            return self._files | set(self._script.parent.glob("*.py"))
        return self._files

    def _look(self) -> None:
        waiting: Mapping[Path, Stamp] | None = None
        noticed = 0.0
        while not self._ended.wait(_LOOK):
            with self._lock:
                found = stamps(self._watched())
                if found == self._drawn_from:
                    waiting = None
                elif waiting is None:
                    waiting, noticed = found, time.monotonic()
                elif found != waiting:
                    waiting = found
                else:
                    self._drawn_from, waiting = found, None
                    self._ask(noticed)
                self._lose_patience()

    def _ask(self, noticed: float) -> None:
        """Have the script drawn as it now is."""
        with self._lock:
            self._round += 1
            self._noticed[self._round] = noticed
            if not self._script.is_file():
                self._refuse("The script is gone", f"There is no {self._script} any more.")
                return
            self._show("drawing" if self._process else "starting")
            self._is_busy = True
            if self._process is None or not self._process.ask(self._round):
                self._process = DrawingProcess(self._script, self._hear)
                self._process.ask(self._round)

    def _lose_patience(self) -> None:
        """Give up a drawing that keeps the one after it waiting, such as a script without end."""
        begun = min(self._noticed, default=self._round)
        is_waiting = self._is_busy and begun < self._round
        if not is_waiting:
            return
        noticed = self._noticed[self._round]
        if time.monotonic() - noticed < _PATIENCE:
            return
        if self._process is not None:
            process, self._process = self._process, None
            process.end()
        self._noticed = {}
        self._ask(noticed)

    # What the drawing process tells

    def _hear(self, process: DrawingProcess, message: Message) -> None:
        with self._lock:
            if process is not self._process or self._ended.is_set():
                return
            getattr(self, f"_hear_{message['kind']}")(message)

    def _hear_read(self, message: Message) -> None:
        self._noticed = {n: t for n, t in self._noticed.items() if n >= message["round"]}
        self._files |= {Path(file) for file in message["files"]}
        self._is_refused = message["is_refused"]
        known = dict(stamps(self._watched()))
        self._drawn_from = known | {
            file: stamp for file, stamp in self._drawn_from.items() if file in known
        }

    def _hear_model(self, message: Message) -> None:
        name = f"{message['key']}.glb"
        self.news.shelve("model", name, message["glb"])
        self._drawn = (name, message["glb"])
        self.news.put(
            "model", {k: message[k] for k in _SHOWN} | {"file": name, "is_checked": False}
        )
        self._show("checks", model=self._seconds(message))

    def _hear_checked(self, message: Message) -> None:
        name, glb = self._drawn
        shown = {k: message[k] for k in _SHOWN} | {"file": name, "is_checked": True}
        if not message["is_good"]:
            self.news.shelve("faulty", name, glb)
            self.news.put("faulty", shown)
            # Back to the last good one; where there is none, the faulty one is better than none.
            self.news.put("model", self._good or shown)
            return
        self.news.shelve("good", name, glb)
        self._good = shown
        for slot, content in (("model", shown), ("faulty", None), ("mistake", None)):
            self.news.put(slot, content)
        self._sheets_left = {number for number, _ in message["sheets"]}
        for old in self.news.slots():
            if old.startswith("sheet ") and int(old.split()[1]) not in self._sheets_left:
                self.news.put(old, None)
        self._show("sheets", checks=self._seconds(message))

    def _hear_sheet(self, message: Message) -> None:
        slot = f"sheet {message['number']}"
        file = (self.news.get(slot) or {}).get("file")
        if "svg" in message:
            svg = message["svg"].encode("utf-8")
            file = f"{key_of(svg)}.svg"
            self.news.shelve(slot, file, svg)
        shown = {k: message[k] for k in ("number", "title", "paper", "round")}
        self.news.put(slot, shown | {"file": file})
        self._sheets_left.discard(message["number"])
        self._show("sheets")

    def _hear_sheeted(self, message: Message) -> None:
        self._show("plans", sheets=self._seconds(message))

    def _hear_planned(self, message: Message) -> None:
        name, _ = self._drawn
        self._good = {k: message[k] for k in _SHOWN} | {"file": name, "is_checked": True}
        self.news.put("model", self._good)

    def _hear_mistake(self, message: Message) -> None:
        faulty = self.news.get("faulty")
        is_drawn = faulty is not None and faulty["round"] == message["round"]
        if not is_drawn:
            self.news.put("faulty", None)
        # A fault that came up between model and findings leaves a model that is not good.
        if self._good is not None and self.news.get("model") != self._good:
            self.news.put("model", self._good)
        told = {k: message[k] for k in ("title", "sentences", "place", "code")}
        good = {"is_kept": self._good is not None, "is_this": False}
        if self._good is not None:
            # What comes up after the checks is about the save that is in view.
            good["is_this"] = self._good["round"] == message["round"]
        self.news.put("mistake", told | good | {"is_drawn": is_drawn})
        self._show("refused")
        self.say("  ".join((message["place"], message["title"], *message["sentences"])).strip())

    def _hear_end(self, message: Message) -> None:
        if message["round"] < self._round:
            return
        self._is_busy = False
        if self.news.get("mistake") is None:
            self._show("drawn", plans=self._seconds(message))
            state = self.news.get("state") or {}
            told = (f"{name} {state[name]:.2f} s" for name in _STAGES)
            self.say(f"drawn: {', '.join(told)} after the save")

    def _hear_lost(self, message: Message) -> None:
        self._process = None
        self._is_busy = False
        self._refuse(
            "The drawing broke off",
            f"The process that ran the script ended with code {message['code']}. Save the script "
            "once more to begin again.",
        )

    def _refuse(self, title: str, sentence: str) -> None:
        told = {"title": title, "sentences": [sentence], "place": "", "code": ""}
        self.news.put("faulty", None)
        is_kept = self._good is not None
        self.news.put("mistake", told | {"is_drawn": False, "is_kept": is_kept, "is_this": False})
        if is_kept:
            self.news.put("model", self._good)
        self._show("refused")
        self.say(f"{title}. {sentence}")

    def _seconds(self, message: Message) -> float:
        noticed = self._noticed.get(message["round"], time.monotonic())
        return round(time.monotonic() - noticed, 3)

    def _show(self, phase: str, **seconds: float) -> None:
        """Put into the page how far the drawing is, with the seconds known so far."""
        before = self.news.get("state") or {}
        known: dict[str, Any] = {
            k: before.get(k) for k in _STAGES if before.get("round") == self._round
        }
        self.news.put(
            "state",
            dict.fromkeys(_STAGES)
            | known
            | seconds
            | {
                "phase": phase,
                "round": self._round,
                "script": self._script.name,
                "sheets_left": len(self._sheets_left),
            },
        )
