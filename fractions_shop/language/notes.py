"""What is said beside an answer: a form said back, a doubt, or anything else that belongs there."""

from __future__ import annotations

from fractions import Fraction

from fractions_shop.size.drafts import Drafted
from fractions_shop.size.frozen import Record
from fractions_shop.size.notation import decimal, mixed
from fractions_shop.size.slips import lost_blank, slip


class Note(Record, metaclass=Drafted):
    """A sentence beside an answer, and its `kind`.

    An `echo` says a form back that has one meaning (`2-1/32"` read as 2 1/32 in). A
    `doubt` says how a form was read that has a second sensible meaning (`5' - 3"`).
    An `offer` is how to ask for the other form of what was asked, which is told in the
    answer's first line. A `standing` says that a figure of a table that went into it is not to be
    trusted without more. Anything else is a `remark`. `meanings` are a doubt's meanings as statements, the one
    that was taken first, each so written that no doubt is left; empty where they cannot
    all be so written.

    >>> doubt("read as 10 less 32", "10 - (32)", "No 10-32").advice
    'write 10 - (32) or No 10-32'
    """

    kind: str
    text: str
    meanings: tuple[str, ...] = ()

    def __str__(self) -> str:
        return self.text

    @property
    def advice(self) -> str:
        """How to write each meaning; empty where that is not known."""
        if not self.meanings:
            return ""
        *first, last = self.meanings
        return f"write {', '.join(first)} or {last}" if first else f"write {last}"


def echo(text: str) -> Note:
    """A form of one meaning, said back."""
    return Note("echo", text)


def doubt(text: str, *meanings: str) -> Note:
    """A form of two meanings, with the statements that say each; the one that was taken first."""
    return Note("doubt", text, meanings)


def misprint(number: str, value: Fraction, unit: str) -> Note | None:
    """The doubt that a number of `unit` is a slip of the pen or of print (see `slip`); None for any other."""
    match slip(number, unit):
        case "blank":
            other = lost_blank(number)
            assert other is not None
            taken, meant = f"{mixed(value)} {unit}", f"{mixed(other)} {unit}"
            return doubt(
                f"{number} is {taken} as it stands; {mixed(other)} may have lost its blank", taken, meant
            )
        case "unit":
            said = f"no rule of millimetres has {number} mm; for inches write {mixed(value)} in"
            return doubt(said, f"{decimal(value, 12)[0]} mm", f"{mixed(value)} in")
        case "mark":
            said = f"read as {mixed(value)} of a foot; for inches write {mixed(value)} in"
            return doubt(said, f"{mixed(value)} ft", f"{mixed(value)} in")
        case "figure":
            taken = f"{mixed(value)} {unit}"
            return doubt(f"{number} is {taken} as it stands; a figure at its bar may be lost", taken)
        case "letter":
            said = f"read as {mixed(value)} metres; for millimetres write {mixed(value)} mm"
            return doubt(said, f"{decimal(value, 12)[0]} metres", f"{decimal(value, 12)[0]} mm")
        case "point":
            taken = f"{decimal(value, 12)[0]} {unit}"
            said = f"{number} is {taken} as it stands; its point may be lost"
            return doubt(
                said, taken, *([] if "." in number.rstrip(".") else [f"0.{number[1:].rstrip('.')} {unit}"])
            )
    return None


def remark(text: str) -> Note:
    """Anything else that is said beside an answer."""
    return Note("remark", text)


def standing(text: str) -> Note:
    """That a figure which went into an answer may be trusted only so far."""
    return Note("standing", text)


def offer(text: str) -> Note:
    """How to ask for the other form of what was asked."""
    return Note("offer", text)


def doubts_of(notes: tuple[Note, ...]) -> tuple[Note, ...]:
    """The doubts among notes."""
    return tuple(note for note in notes if note.kind == "doubt")


def on_the_reading(notes: tuple[Note, ...]) -> tuple[Note, ...]:
    """The echoes and doubts among notes: how a size was read, which goes wherever the size goes."""
    return tuple(note for note in notes if note.kind in ("echo", "doubt"))
