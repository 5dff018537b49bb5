"""From a written name to a thread, or to the nearest that exist."""

from __future__ import annotations

from fractions import Fraction
from functools import cache, lru_cache

from fractions_shop.errors import ArgumentError, NoAnswer, ShopError
from fractions_shop.size.notation import decimal, mixed, number_value
from fractions_shop.size.units import INCH, in_inches
from fractions_shop.threads.by_form import by_form
from fractions_shop.threads.names import WrittenThread, read_name
from fractions_shop.threads.record import by_number
from fractions_shop.threads.records import BY_KEY, FORM_WORDS, keys_of
from fractions_shop.threads.series import Listed, all_threads, listed, of_series, threads_of
from fractions_shop.threads.thread import Thread

_NAMED = 4  # how many near ones a refusal lists
_TOLD = 6  # how many of one size, next to the pitch that is written
#: The series that a size and its threads to the inch with a dash are of by custom.
_DASHED = keys_of(lambda series: series.dashed)
#: The series that a size in inches without a word may belong to, the customary ones first.
_INCH_SERIES = (
    *_DASHED,
    *keys_of(lambda series: not series.dashed and series.size_is in ("inch", "bore")),
)
#: Series of today that a seldom one is told against: those that a size alone means.
_OF_TODAY = (*_DASHED, *keys_of(lambda series: series.size_is == "mm" and not series.rare))
#: Of these the nearest are told for a size that none has.
_GENERAL = tuple(key for key in _INCH_SERIES if BY_KEY[key].general)


class UnknownThread(NoAnswer):
    """A name of the right form for a size or pitch that does not exist; those in `nearest` do."""

    def __init__(self, message: str, nearest: tuple[str, ...]) -> None:
        super().__init__(message, nearest)
        self.message, self.nearest = message, nearest

    def __str__(self) -> str:
        return self.message


class SharedName(ShopError):
    """A name that several threads share and custom does not decide; `names` are theirs."""

    def __init__(self, message: str, names: tuple[str, ...]) -> None:
        super().__init__(message, names)
        self.message, self.names = message, names

    def __str__(self) -> str:
        return self.message


def thread(name: str | Thread) -> Thread:
    """The thread called `name`, with its figures.

    One that no table has is given by major, pitch and form: `9 mm x 1.1 mm metric form`.
    Where several share the name, custom decides if it can (`1/4-20` with a dash is
    unified, `1/4 BSP` is parallel) and the others stand in `notes`. InputError for text
    that is not written as a thread, UnknownThread (with the nearest that exist) for a
    size that is not made, SharedName where the writer must say which.

    >>> thread("6 BA").major.mm, thread("1/4-20").name
    (Fraction(14, 5), '1/4-20 UNC')
    """
    if isinstance(name, Thread):
        return name
    if not isinstance(name, str):
        raise ArgumentError(f"a thread is named by text such as '6 BA', not by {type(name).__name__}")
    made = by_form(name)
    if made is not None:
        return made
    written = read_name(name)
    matches = _matches(written)
    chosen = matches[0] if len(matches) == 1 or _one_screw(matches) else _by_custom(written, matches)
    if chosen is None:
        names = tuple(match.name for match in matches)
        raise SharedName(f"{name.strip()!r} may be {_listed(names, 'or')}: write which", names)
    others = tuple(match for match in matches if match != chosen)
    bar = (f"its bar is read as a dash: {chosen.name}",) if written.barred and by_number(chosen.size) else ()
    notes = (*bar, *(_shared_note(chosen, other) for other in others), *_usual_note(chosen), *written.remarks)
    return chosen.but(notes=(*chosen.notes, *notes)) if notes else chosen


def threads_named(name: str) -> tuple[Thread, ...]:
    """Every thread that `name` may mean, the customary one first; errors as for `thread`.

    >>> [one.name for one in threads_named("1/4-20")]
    ['1/4-20 UNC', '1/4 BSW']
    """
    made = by_form(name)
    return _matches(read_name(name)) if made is None else (made,)


def matching(name: str) -> tuple[Thread, ...]:
    """As `threads_named`, but nothing, quickly, where no thread has the name or it is no thread's name at all.

    Running text is full of what only looks like one: no words about the nearest are made for it.

    >>> matching("1/4-21"), matching("slat")
    ((), ())
    """
    try:
        return _sized_and_matches(read_name(name))[1]
    except ShopError:
        return ()


def exists(name: str) -> bool:
    """Whether there is a thread of that name, and custom tells which if it is shared.

    >>> exists("6 BA"), exists("60 BA"), exists("slat")
    (True, False, False)
    """
    try:
        thread(name)
    except ShopError:
        return False
    return True


def _by_custom(written: WrittenThread, matches: tuple[Thread, ...]) -> Thread | None:
    likely = [
        match
        for match in matches
        if (not match.taper if written.series else written.dashed and match.series in _DASHED)
    ]
    return likely[0] if len(likely) == 1 else None


def _shared_note(chosen: Thread, other: Thread) -> str:
    if chosen.angle == other.angle:
        return f"the same name may mean {other.name}"
    angle = decimal(other.angle.degrees)[0]
    return f"the same name may mean {other.name}, whose angle is {angle} degrees: do not mix them"


def _one_screw(matches: tuple[Thread, ...]) -> bool:
    """Whether all are one screw by major, pitch and form."""
    return len({(match.major, match.pitch, match.form) for match in matches}) == 1


def _usual_note(chosen: Thread) -> tuple[str, ...]:
    """What today's threads of its size have to do with one that is met with seldom."""
    if not chosen.record.rare:
        return ()
    same = [
        other
        for key in _OF_TODAY
        for other in of_series(key)
        if other.major == chosen.major and _size_is(other, BY_KEY[chosen.series].size_is)
    ]
    like = next((other for other in same if other.pitch == chosen.pitch), None)
    if like is not None and like.series in chosen.record.same_as:
        return (f"it is the {like.name} of today",)
    if like is not None:
        angle = "" if like.angle == chosen.angle else ", and another angle"
        return (f"the {like.name} of today has the same pitch{angle}",)
    if not same:
        return ()
    if _size_is(same[0], "mm"):
        pitch = decimal(same[0].pitch.mm)[0]
        return (f"{same[0].name} of today has a pitch of {pitch} mm: neither its nut nor its tap will do",)
    named = _listed(tuple(other.name for other in same), "or")
    return (f"of this size there is today {named}: neither nut nor tap of it will do",)


def _listed(names: tuple[str, ...], word: str) -> str:
    return f"{', '.join(names[:-1])} {word} {names[-1]}" if len(names) > 1 else names[0]


# Matching


def _matches(written: WrittenThread) -> tuple[Thread, ...]:
    sized, matches = _sized_and_matches(written)
    if not matches:
        raise _unknown(written, sized)
    return matches


@lru_cache(maxsize=1024)
def _sized_and_matches(written: WrittenThread) -> tuple[tuple[Thread, ...], tuple[Thread, ...]]:
    """The threads of the size written, and those of them whose pitch is the one written too."""
    keys = written.series or _INCH_SERIES
    sized = [each.thread for key in keys for each in listed(key) if _same_size(written, each)]
    matches = [thread for thread in sized if _same_pitch(written, thread)]
    # What is met with seldom is meant where nothing else can be, and of one screw the first that has it.
    said = written.series or written.numbered or written.pitch is not None
    usual = [match for match in matches if not match.record.rare]
    matches = usual or (_not_stood_for(matches) if said else [])
    sized = [thread for thread in sized if not thread.record.rare] or _not_stood_for(sized)
    if written.pitch is None and matches and all(_size_is(match, "mm") for match in matches):
        matches = [
            match for match in matches if match.series == matches[0].series
        ]  # M8 alone is the coarse one
    return tuple(sized), (*_screws_with_a_bar(written), *matches)


def _screws_with_a_bar(written: WrittenThread) -> tuple[Thread, ...]:
    """No 8-32 of 8/32 UNC: the bar stands for its dash, as many write it, or it is 1/4 in."""
    if not written.barred:
        return ()
    number, tpi = written.barred
    screw = written.but(size=Fraction(number), numbered=True, counted=True, barred=(), pitch=Fraction(tpi))
    return tuple(match for match in _sized_and_matches(screw)[1] if not match.record.rare)


def _not_stood_for(threads: list[Thread]) -> list[Thread]:
    """Those of several for which none of the others stands: see `same_as` of a record."""
    return [
        thread
        for thread in threads
        if not any(
            other.series in thread.record.same_as
            and (other.major, other.pitch) == (thread.major, thread.pitch)
            for other in threads
        )
    ]


@cache
def _size_of(size: str) -> Fraction | None:
    return None if by_number(size) else number_value(size)


def _same_size(written: WrittenThread, entry: Listed) -> bool:
    if written.sole:
        return True
    if written.numbered or by_number(entry.size):
        if _size_is(entry, "number"):
            return written.counted and int(entry.size) == written.size
        if written.counted:
            return entry.size == _number(int(written.size))
        if written.numbered:
            return False  # No 1/4 is no number of a screw
    if written.places is not None and _size_is(entry, "inch"):
        # One place fits too many: 1.4 would be 1 3/8, and 1. anything from 1/2 on.
        # A half may have been rounded either way: 5/16 is 0.312 on one chart and 0.313 on another.
        off = abs(in_inches(entry.major) - written.size)
        return off == 0 or (written.places > 1 and off <= Fraction(1, 2 * 10**written.places))
    if _size_is(entry, "mm"):
        return entry.major == written.size
    return _size_of(entry.size) == written.size


def _number(number: int) -> str:
    """A screw's number as the tables have it; below No 0 there are No 00, No 000 and No 0000."""
    return f"No {number}" if number > 0 else f"No {'0' * (1 - number)}"


def _same_pitch(written: WrittenThread, thread: Thread) -> bool:
    if written.pitch is None:
        return True
    return _pitch_as_written(thread) == written.pitch


def _size_is(thread: Thread | Listed, sort: str) -> bool:
    return BY_KEY[thread.series].size_is == sort


def _pitch_as_written(thread: Thread) -> Fraction:
    """Millimetres where the size is in millimetres, else threads to the inch."""
    return thread.pitch.mm if _size_is(thread, "mm") else thread.tpi


def _by_screw_number(written: WrittenThread) -> bool:
    """Whether what is written can only be of the series that have sizes such as No 6."""
    numbered = {thread.series for thread in all_threads() if by_number(thread.size)}
    return set(written.series or numbered) <= numbered


# The nearest of what is not made


def _unknown(written: WrittenThread, sized: tuple[Thread, ...]) -> UnknownThread:
    asked = " ".join(written.text.split())
    if sized:
        names = tuple(thread.name for thread in sized)
        near_in_pitch = _nearest_in_pitch(written, sized)
        if all(_size_is(thread, "mm") for thread in sized):
            pitches = _listed(tuple(f"{decimal(thread.pitch.mm)[0]} mm" for thread in sized), "or")
            longer = written.pitch is not None and written.pitch > max(thread.pitch.mm for thread in sized)
            hint = "; leave out the length of a screw" if longer else ""
            # The coarse one of them is called by its size alone.
            what = f"{min(names, key=len)} has a pitch of {pitches}{hint}"
        else:
            what = _listed(
                tuple(
                    f"{thread.name} has {decimal(thread.tpi, 3)[0]} threads per inch"
                    for thread in near_in_pitch
                ),
                "and",
            )
            what += _by_its_form(written, near_in_pitch)
        return UnknownThread(f"there is no {asked}: {what}", names)
    near = tuple(thread.name for thread in _nearest(written))
    # Series of their own numbers go further; 12 is the last of the American screws.
    older = "" if written.series else ", and on old lists from 0000 to 30"
    if written.numbered and written.size > 12 and _by_screw_number(written):
        return UnknownThread(f"there is no {asked}: numbered screws run from 0 to 12{older}", near)
    verb = "is" if len(near) == 1 else "are"
    what = f"the nearest {verb} {_listed(near, 'and')}{_by_its_form(written, [])}"
    return UnknownThread(f"there is no {asked}: {what}", near)


def _nearest_in_pitch(written: WrittenThread, sized: tuple[Thread, ...]) -> list[Thread]:
    """Those of one size whose pitch is next to what is written, few enough to read, in their own order."""
    if written.pitch is None:
        return list(sized)
    pitch = written.pitch
    near = sorted(sized, key=lambda thread: (_size_is(thread, "bore"), abs(thread.tpi - pitch)))[:_TOLD]
    return [thread for thread in sized if thread in near]


def _by_its_form(written: WrittenThread, near_in_pitch: list[Thread]) -> str:
    """How a thread of an odd pitch is given, where its size is in inches: by the form of its series, or of either."""
    keys = written.series or _GENERAL
    forms = dict.fromkeys(
        word for key in keys for word, form in FORM_WORDS.items() if form == BY_KEY[key].form
    )
    if written.pitch is None or written.numbered or not forms or BY_KEY[keys[0]].size_is != "inch":
        return ""
    if by_number(near_in_pitch[0].size) if near_in_pitch else written.counted and _by_screw_number(written):
        return ""
    size = mixed(written.size) if written.places is None else decimal(written.size)[0]
    given = f"{size} in x {decimal(written.pitch, 3)[0]} tpi"
    return f"; one of no list is given like this: {', or '.join(f'{given} {form} form' for form in forms)}"


def _nearest(written: WrittenThread) -> list[Thread]:
    keys = written.series or (_DASHED if written.numbered else _GENERAL)
    usual = [key for key in keys if not BY_KEY[key].rare] or keys
    known = threads_of(usual)
    if BY_KEY[keys[0]].size_is in ("number", "bore"):
        return sorted(known, key=lambda thread: abs((_size_of(thread.size) or 0) - written.size))[:_NAMED]
    wanted = _wanted_major(written)
    pitch = written.pitch or Fraction(0)

    def distance(thread: Thread) -> tuple[Fraction, Fraction]:
        return abs(thread.major.mm - wanted), abs(_pitch_as_written(thread) - pitch)

    return sorted(known, key=distance)[:_NAMED]


def _wanted_major(written: WrittenThread) -> Fraction:
    if written.metric or (written.series and BY_KEY[written.series[0]].size_is == "mm"):
        return written.size
    number = written.numbered or (written.counted and written.size > 1 and _by_screw_number(written))
    return (Fraction("0.06") + Fraction("0.013") * written.size if number else written.size) * INCH


def title(thread: Thread) -> str:
    """What a thread's series is called in full, with its standard."""
    series = BY_KEY[thread.series]
    return f"{series.title} ({series.standard})"
