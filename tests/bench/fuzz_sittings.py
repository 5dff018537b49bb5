"""Sit at the prompt at random, a model beside it: `nice -n 15 python tests/bench/fuzz_sittings.py [SITTINGS] [SEED]`.

A sitting types real lines, bent or not, and the prompt's own words between them, by its replies (the screen is left
out: `fuzz_bent.py --prompts` types keys). After each, the sheet is held to what one believes one typed: a line
refused changes nothing, one accepted changes no row but its own, what `undo` takes back comes again by `redo`, the
draft on disk is the sheet, and a sheet that is saved and opened is the same, byte for byte and answer for answer.
"""

from __future__ import annotations

import io
import re
import sys
import tempfile
import traceback
from collections import Counter
from contextlib import suppress
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))

import bent_text

from fractions_shop.errors import ShopError
from fractions_shop.prompt.drafts import DraftStore
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import own_word
from fractions_shop.prompt.replies import Replies
from fractions_shop.show.sheet import Sheet

WORDS = ("undo", "undo", "redo", "drop {n}", "drop {name}", "rename {name} {other}", "sheet", "names", "why {name}", "show {n}", "more", "show {name}",
         "save", "save {file}", "open {file}", "clear sheet", "open draft", "help divide", "draw {name}", "readings in mm", "", "?", "settings")  # fmt: skip


class Wrong(Exception):
    """The sheet is not what one believes that one typed."""


def rows_of(data: bytes) -> list[str]:
    """The rows of a sheet."""
    return data.decode("utf-8", "surrogateescape").splitlines()


class Sitting:
    """One sitting at one prompt, in a folder of its own."""

    def __init__(self, folder: Path, r: Random, texts: bent_text.Texts) -> None:
        self.folder, self.r, self.texts = folder, r, texts
        self.model = PromptModel(drafts=DraftStore(folder / "drafts"))
        self.out = io.StringIO()
        self.replies = Replies(self.model, LineStore(folder / "history"), self.out)
        self.said: list[str] = []
        self.counts: Counter[str] = Counter()

    def run(self, many: int) -> None:
        """So many lines and words."""
        for n in range(many):
            line = self._next()
            self.said.append(line)
            before, homes, mode = self.model.file.data, self.model.state.homes, self.model.mode
            with suppress(ShopError):  # what cannot be read stays in its line, and is told by the screen
                self.replies.line(line, 80)
            self._hold(line, before, n, own=mode is not None or own_word(line, homes) is not None)

    def _next(self) -> str:
        r, texts = self.r, self.texts
        kind = r.randrange(8)
        if kind == 0:
            names = [*self.model.names, *self.model.parts, "nothing"]
            files = [
                *(str(path) for path in self.folder.glob("*.shop")),
                str(self.folder / f"s{r.randrange(4)}.shop"),
            ]
            return r.choice(WORDS).format(
                n=r.randrange(1, 30),
                name=r.choice(names),
                other=r.choice(bent_text.NAMES),
                file=r.choice(files),
            )
        line = r.choice(texts.hour) if kind < 3 else r.choice(r.choice(texts.sittings))
        if kind > 5:
            line = bent_text.spoilt(r, line, r.choice(r.choice(texts.sittings)), texts.sizes)
        return " ".join(line.splitlines()) if r.randrange(9) else line.encode("utf-8", "replace").decode()

    def _hold(self, line: str, before: bytes, n: int, own: bool) -> None:
        after = self.model.file.data
        self.counts["own word" if own else "changed" if after != before else "left as it was"] += 1
        if after != before and not own:
            self._one_row(line, rows_of(before), rows_of(after))
            self.replies.line("undo", 80)
            if self.model.file.data != before:
                raise Wrong("undo does not bring back what was")
            self.replies.line("redo", 80)
            if self.model.file.data != after:
                raise Wrong("redo does not bring back what was undone")
        if not n % 5:
            self._afresh()

    def _one_row(self, line: str, before: list[str], after: list[str]) -> None:
        gone = list((Counter(before) - Counter(after)).elements())
        come = list((Counter(after) - Counter(before)).elements())
        if len(gone) > 1 or len(come) > 1:
            raise Wrong(f"one line changed {gone!r} to {come!r}")
        if len(after) not in (len(before), len(before) + 1):
            raise Wrong(f"{len(before)} rows became {len(after)}")
        typed = re.sub(r"\s+", "", line)
        if come and "ans" not in line and typed and typed not in re.sub(r"\s+", "", come[0]):
            self.counts["written otherwise"] += 1

    def _afresh(self) -> None:
        data = self.model.file.data
        drafts = [
            draft for path in self.model.file.drafts._files() if (draft := path.read_bytes()).endswith(data)
        ]
        if data and not drafts:
            raise Wrong("no draft holds the sheet")
        sheet, fresh = (
            self.model.state.sheet,
            Sheet.from_text(data.decode("utf-8", "surrogateescape"), "Sheet"),
        )
        told = [(w.line.number, w.state, w.fault and str(w.fault), w.value) for w in sheet.worked]
        if told != [(w.line.number, w.state, w.fault and str(w.fault), w.value) for w in fresh.worked]:
            raise Wrong("the sheet is not what its text says")


def main(many: int, seed: int) -> int:
    """So many sittings; 1 when any was wrong."""
    texts, counts, wrong = bent_text.Texts.read(), Counter[str](), 0
    for n in range(many):
        with tempfile.TemporaryDirectory() as place:
            sitting = Sitting(Path(place), Random(seed * 10_000 + n), texts)
            try:
                sitting.run(60)
            except Exception as error:
                wrong += 1
                last = traceback.extract_tb(error.__traceback__)[-1]
                sys.stdout.write(
                    f"sitting {n}: {type(error).__name__} {last.name}:{last.lineno}: {str(error)[:300]}\n   {sitting.said[-3:]!r}\n"
                )
            counts += sitting.counts
    sys.stdout.write(f"{many} sittings, {dict(counts)}, {wrong} wrong\n")
    return int(wrong > 0)


if __name__ == "__main__":
    numbers = [int(word) for word in sys.argv[1:]]
    sys.exit(main(*numbers, *(100, 1931)[len(numbers) :]))
