"""`fractions-shop help places`: what help tells of one word, with its example answered."""

from __future__ import annotations

from fractions_shop.command.streams import DONE, MISUSED, Stop, put, width
from fractions_shop.command.words import COMMANDS
from fractions_shop.errors import visible
from fractions_shop.figures.plain import folded
from fractions_shop.language.advice.near_words import advice
from fractions_shop.language.advice.unknown_words import PROMPT_WORDS
from fractions_shop.requests import help as request_help
from fractions_shop.sheet.line_words import line_forms, line_words
from fractions_shop.sheet.line_words import topic as line_topic
from fractions_shop.sheet.session import Session


def tell(word: str) -> int:
    """Write what there is to tell of a word; Stop for one that help does not know."""
    topic = request_help.topic(word) or line_topic(word)
    if topic is None:
        raise Stop(f"there is no help on {visible(word)}; {_instead(word)}", MISUSED)
    rows = folded(f"{topic.word}: {topic.meaning}", width())
    rows += [row for said in (*topic.forms, *topic.more) for row in folded(f"  {said}", width())]
    if topic.example:
        session = Session()
        for line in topic.before:
            session.ask(line)
        answer = session.answer(topic.example)
        rows += ["", *topic.before, topic.example]
        rows += (
            [] if answer is None else [f"  {row}".rstrip() for row in answer.text(width() - 2).splitlines()]
        )
    put("\n".join(rows))
    return DONE


def _instead(word: str) -> str:
    """What tells of a word that help does not know by itself."""
    if word.lower() in COMMANDS:
        return f"it is a command: write fractions-shop {word.lower()} --help"
    smaller = request_help.smaller_word(word, "write fractions-shop help ", line_forms())
    if not smaller and word.lower() in PROMPT_WORDS:
        return f"it is a word of the prompt: open that with fractions-shop alone, and type help {word.lower()} there"
    known = [*request_help.topics(), *(each for each in line_words() if each.isalpha())]
    return (
        smaller or advice(word, known, lead="write fractions-shop help ") or f"it tells of {', '.join(known)}"
    )
