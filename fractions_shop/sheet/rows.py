"""The rows of a sheet's file, kept byte for byte: what is not changed is written as it was read."""

from __future__ import annotations

import codecs
import re
from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass, replace

from fractions_shop.size.cached import cached_property

_ROW = re.compile(r"([^\r\n]*)(\r\n|\r|\n|\Z)")


@dataclass(frozen=True)
class Rows:
    r"""The rows of a text, each with what ends it; `marked` says that a byte order mark stands before them.

    Only the last row may have no end. Changing rows leaves all others as they are, and what is
    added ends as most of the rows do.

    >>> rows = Rows.of(b"a = 2 in\r\nb = 3 in")
    >>> rows.with_row(0, "a = 4 in").added("c = a").data()
    b'a = 4 in\r\nb = 3 in\r\nc = a'
    """

    rows: tuple[tuple[str, str], ...] = ()
    marked: bool = False

    @classmethod
    def of(cls, data: bytes) -> Rows:
        """The rows of a file in UTF-8; UnicodeDecodeError for anything else."""
        marked = data.startswith(codecs.BOM_UTF8)
        text = data.removeprefix(codecs.BOM_UTF8).decode("utf-8")
        rows = [(match[1], match[2]) for match in _ROW.finditer(text)]
        # Behind a last line end there is an empty match, which is no row.
        return cls(tuple(rows[:-1]), marked)

    def data(self) -> bytes:
        """The file's bytes."""
        mark = codecs.BOM_UTF8 if self.marked else b""
        return mark + "".join(text + end for text, end in self.rows).encode("utf-8")

    @cached_property
    def texts(self) -> tuple[str, ...]:
        """The rows without their ends."""
        return tuple(text for text, _ in self.rows)

    @cached_property
    def text(self) -> str:
        """The rows as one text, one line end behind each."""
        return "".join(f"{text}\n" for text in self.texts)

    @property
    def end(self) -> str:
        """What ends most rows."""
        ends = Counter(end for _, end in self.rows if end)
        return ends.most_common(1)[0][0] if ends else "\n"

    def with_row(self, n: int, text: str) -> Rows:
        """The same with another text in row `n`."""
        return self._but((*self.rows[:n], (text, self.rows[n][1]), *self.rows[n + 1 :]))

    def without(self, n: int) -> Rows:
        """The same without row `n`; a file that lacked its last line end lacks it still."""
        left = [*self.rows[:n], *self.rows[n + 1 :]]
        if n == len(self.rows) - 1 and left and not self.rows[n][1]:
            left[-1] = (left[-1][0], "")
        return self._but(left)

    def added(self, text: str) -> Rows:
        """The same with a row more at the end; a file that lacked its last line end lacks it still."""
        if self.rows and not self.rows[-1][1]:
            return self._but((*self.rows[:-1], (self.rows[-1][0], self.end), (text, "")))
        return self._but((*self.rows, (text, self.end)))

    def _but(self, rows: Iterable[tuple[str, str]]) -> Rows:
        return replace(self, rows=tuple(rows))
