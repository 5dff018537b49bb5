"""One thread that works statements out, so that a key never waits for a long one.

The newest text wins: one that was asked for and not begun is dropped for a later one.
"""

from __future__ import annotations

import threading
from collections.abc import Callable
from typing import Generic, TypeVar

T = TypeVar("T")


class Task(Generic[T]):
    """Something to be worked out, and its answer once it is."""

    def __init__(self, work: Callable[[], T], pause: float = 0.0) -> None:
        self._work = work
        #: It is begun only when nothing newer has come for so many seconds.
        self.pause = pause
        self._done = threading.Event()
        self._answer: T | None = None
        self.dropped = False
        #: Set when somebody has stopped waiting, and must be told.
        self.late = False

    def run(self) -> None:
        """Work it out; whoever waits is told."""
        try:
            self._answer = self._work()
        finally:
            self._done.set()

    def wait(self, seconds: float) -> T | None:
        """The answer, or None if it is not there within that many seconds."""
        if not self._done.wait(seconds):
            self.late = True
            # It may have come between the two lines above, when nobody was to be told.
            return self._answer if self._done.is_set() else None
        return self._answer


class Worker:
    """The thread, begun with the first task; it ends with the program, whatever it is at."""

    def __init__(self) -> None:
        self._changed = threading.Condition()
        self._waiting: tuple[Task[object], Callable[[], None]] | None = None
        self._thread: threading.Thread | None = None

    def submit(self, task: Task[T], after: Callable[[], None]) -> None:
        """Take a task, in place of one that has not begun; `after` is called when it is done late."""
        with self._changed:
            if self._waiting is not None:
                self._waiting[0].dropped = True
            self._waiting = (task, after)  # type: ignore[assignment]
            if self._thread is None:
                self._thread = threading.Thread(target=self._serve, daemon=True, name="readings")
                self._thread.start()
            self._changed.notify()

    def _serve(self) -> None:
        me = threading.current_thread()
        while True:
            with self._changed:
                while self._waiting is None:
                    self._changed.wait()
                if self._thread is not me:
                    self._changed.notify()
                    return
                task, after = self._waiting
                if task.pause and self._changed.wait_for(self._changes_from(task), task.pause):
                    continue
                self._waiting = None
            task.run()
            if task.late:
                after()

    def _changes_from(self, task: Task[object]) -> Callable[[], bool]:
        """Whether a newer task has come, or this one is not to wait any longer."""
        return lambda: self._waiting is None or self._waiting[0] is not task or not task.pause

    def hurry(self) -> None:
        """Begin what waits for a pause."""
        with self._changed:
            if self._waiting is not None:
                self._waiting[0].pause = 0.0
            self._changed.notify()

    def abandon(self) -> None:
        """Leave what the thread is at; the next task gets a thread of its own."""
        with self._changed:
            self._waiting = None
            self._thread = None
