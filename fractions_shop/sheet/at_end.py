"""A session that knows what a sheet knows at its end, for a line that is to follow."""

from __future__ import annotations

from fractions_shop.sheet.session import Session, places_of
from fractions_shop.sheet.solve import Working


def session_at_end(working: Working, last: int | None) -> Session:
    """The names of a sheet with their sizes, what was read, and as `ans` the size of line `last`."""
    session = Session(working.rules[-1] if working.rules else "64ths")
    if working.units:
        session.units = working.units[-1]
    for n, line in enumerate(working.lines):
        name, worked = line.sets, working.done.get(n)
        if not name or name in session.known or worked is None or worked.answer is None:
            continue
        placed = places_of(worked.answer.result)
        if placed is not None:
            session.placed[name] = placed
        elif worked.value is not None:
            session.known[name] = worked.value
            _keep_doubts(session, working, n, name)
    if last is not None:
        value = working.done[last].value
        if value is not None:
            session.known["ans"] = value
            _keep_doubts(session, working, last, "ans")
    session.heap = working.heap_of_all()
    return session


def _keep_doubts(session: Session, working: Working, n: int, name: str) -> None:
    for kept, roots in ((session.doubtful, working.doubtful), (session.moved, working.moved)):
        if n in roots:
            kept[name] = roots[n]
