"""What there is to show of a kept script, as news that pages take up one after another."""

from __future__ import annotations

import threading
from collections import deque
from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

# Files of one slot that are kept: the last, and the one before for a page about to ask for it.
_SHELF = 2


@dataclass(frozen=True, slots=True)
class Item:
    """One piece of news: a slot of the page and what is now in it; None empties the slot."""

    number: int
    slot: str
    content: Mapping[str, Any] | None


@dataclass(slots=True)
class News:
    """The state of the page by slots, and the files that it asks for; safe between threads."""

    _items: dict[str, Item] = field(default_factory=dict)
    _files: dict[str, deque[tuple[str, bytes]]] = field(default_factory=dict)
    _count: int = 0
    _is_over: bool = False
    _changed: threading.Condition = field(default_factory=threading.Condition)

    def put(self, slot: str, content: Mapping[str, Any] | None) -> None:
        """Put something in a slot, or None to empty it."""
        with self._changed:
            self._count += 1
            self._items[slot] = Item(self._count, slot, content)
            self._changed.notify_all()

    def slots(self) -> tuple[str, ...]:
        """The slots that hold something."""
        with self._changed:
            return tuple(s for s, item in self._items.items() if item.content is not None)

    def get(self, slot: str) -> Mapping[str, Any] | None:
        """What is in a slot."""
        with self._changed:
            item = self._items.get(slot)
            return None if item is None else item.content

    def since(self, number: int, wait: float) -> tuple[Item, ...]:
        """The items after a number in their order, () if there are none in ``wait`` seconds."""
        with self._changed:
            self._changed.wait_for(lambda: self._count > number or self._is_over, wait)
            fresh = [item for item in self._items.values() if item.number > number]
            return tuple(sorted(fresh, key=lambda item: item.number))

    def shelve(self, slot: str, name: str, content: bytes) -> None:
        """Keep a file for what will be in a slot."""
        with self._changed:
            shelf = self._files.setdefault(slot, deque(maxlen=_SHELF))
            if (name, content) not in shelf:
                shelf.append((name, content))

    def file(self, name: str) -> bytes | None:
        """A file for the page; None if there is none of that name."""
        with self._changed:
            shelves = (kept for shelf in self._files.values() for kept in shelf)
            return next((content for own, content in shelves if own == name), None)

    def end(self) -> None:
        """Let everyone who waits go."""
        with self._changed:
            self._is_over = True
            self._changed.notify_all()

    @property
    def is_over(self) -> bool:
        """Whether there will be no more."""
        with self._changed:
            return self._is_over
