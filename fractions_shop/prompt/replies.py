"""What is said back to an entered line, on any kind of terminal."""

from __future__ import annotations

from typing import TextIO

from fractions_shop import __version__
from fractions_shop.command.streams import in_letters
from fractions_shop.errors import visible
from fractions_shop.figures.plain import folded
from fractions_shop.figures.wording import both
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.lines import joined
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import own_word
from fractions_shop.sheet.answer import Answer
from fractions_shop.show.ruler import picture, signs_for
from fractions_shop.size.quantity import Quantity

#: A rule is drawn only where it leaves room for the words.
_LEAST_WIDTH, _LEAST_ROWS = 30, 16
GREETING = f"fractions-shop {__version__}"
HINT = "type a size such as 2 1/32 in / 5, a request such as divide 2 in into 5, or help"


class Replies:
    """Answers lines and writes what there is to say to `out`."""

    def __init__(self, model: PromptModel, store: LineStore, out: TextIO, pictures: bool = True) -> None:
        self.model = model
        self.store = store
        self.out = out
        self.pictures = pictures

    @property
    def sign(self) -> str:
        """What stands before a line: the working rule."""
        return f"{self.model.rule}: "

    def line(self, text: str, width: int, rows: int = 24) -> bool:
        """Answer one line; True when it asks to leave. InputError for one that cannot be answered."""
        self.store.add(joined(text))
        own = own_word(text)
        if own is not None:
            return self._own_word(*own, width)
        answer = self.model.enter(text)
        if answer is not None:
            self._answer(answer, width, rows)
        return False

    def say(self, text: str = "") -> None:
        """Write a line; a sign that the terminal would act upon, or cannot show, gives way to a mark."""
        text = visible(text, keep="\t")
        try:
            self.out.write(f"{text}\n")
        except UnicodeEncodeError:
            self.out.write(f"{in_letters(text, self.out.encoding or 'ascii')}\n")
        self.out.flush()

    def _own_word(self, word: str, rest: str, width: int) -> bool:
        if word == "quit" and not rest:
            return True
        from fractions_shop.prompt import commands  # what help tells is loaded when it is asked

        try:
            if word == "quit":
                raise commands.Refused("quit stands alone; write quit")
            for shown in commands.run(self.model, word, rest, width - 2):
                self.say(f"  {shown}".rstrip())
        except commands.Refused as refusal:
            for shown in folded(str(refusal), width - 2):
                self.say(f"  {shown}")
        self.say()
        return False

    def _answer(self, answer: Answer, width: int, rows: int) -> None:
        for shown in answer.text(width - 2, self.model.digits, self.pictures).splitlines():
            self.say(f"  {shown}".rstrip())
        before = self.model.entries[-1].before
        if answer.name and before is not None and before != answer.value:
            was = both(before) if isinstance(before, Quantity) and before.power == 1 else "another size"
            for shown in folded(f"{answer.name} was {was} until now; undo brings it back", width - 2):
                self.say(f"  {shown}")
        if self.pictures and width >= _LEAST_WIDTH and rows >= _LEAST_ROWS:
            for drawn in picture(answer, width - 1, signs_for(self.out)):
                # The words beneath the rule may be longer than it.
                for shown in folded(drawn, width - 1):
                    self.say(shown)
        self.say()
