"""How a line that stops too soon may go on."""

from __future__ import annotations

import re
from collections.abc import Callable

from fractions_shop.language.advice.drawing_labels import metric
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.threads.names import looks_like_thread

Reads = Callable[[str], bool]

#: What may follow the last sign of a line: after what, of sizes with units, and of plain numbers.
_NEXT = (
    (r"±|\+-|\+/-", "2 thou", "0.1"),
    (r"\^", "2", "2"),
    (r"[*/×÷]", "3", "3"),
    (r"=", "2 1/32 in", "2 1/32 in"),
    (r"[-+]", "3/4 in", "3"),
)  # fmt: skip


def alone_is_no_rule(code: str) -> tuple[str, str, int] | None:
    """`rule 64` and `rule 1/32`: message, advice and where the number begins."""
    match = re.search(r"\b(?:to|on|rule|as) +(?:1/)?([0-9]{1,5}) *$", code, re.IGNORECASE)
    if not match or not int(match[1]):
        return None
    from fractions_shop.size.rule import nths

    start = match.start(1) - 2 if code[match.start(1) - 1] == "/" else match.start(1)
    message = f"{code[start:].rstrip()} alone is not a rule"
    offer = Offer(nths(int(match[1])), " for parts of an inch, or mm or half mm", worked=True)
    return message, write(offer), start


#: What may follow one of the smaller words of a reading that ends a line.
_BEHIND = (
    (r"shrunk", "up to 3 %"),
    (r"shrunk +up", "to 3 %"),
    (r"shrunk +up +to", "3 %"),
    (r"within|made", "0.05 mm"),
    (r"worn|plated", "0.1 mm"),
    (r"by", "caliper"),
    (r"among", "drills"),
    (r"scale", "1:2"),
    (r"again", "51.5 mm"),
)


def of_a_reading(code: str, reads: Reads) -> str:
    """`recover 25.4 mm shrunk`: the line with what its last word still needs, as an example."""
    if re.match(r" *(?:recover|identify|snap|check|[^\W\d]\w* +reads)\b", code, re.IGNORECASE) is None:
        return ""
    for words, further in _BEHIND:
        if re.search(rf" (?:{words}) *$", code, re.IGNORECASE) and reads(text := f"{code.strip()} {further}"):
            return write(Offer(text, completes=True), lead="write it like this: ")
    return ""


def example(code: str, reads: Reads) -> str:
    """The line with a likely end, where it can be read so."""
    if _opens_a_bracket(code) and reads(text := f"{code})"):
        return write(text.strip())
    for sign, size, number in _NEXT:
        if not re.search(rf"[\w\"'°).] *(?:{sign}) *$", code):
            continue
        has_unit = re.search(r"[A-Za-z\"'°]", code)
        blank = "" if code.endswith(" ") else " "
        text = f"{code}{blank}{size if has_unit else number}"
        text += ")" * (code.count("(") - code.count(")"))
        return write(Offer(text.strip(), completes=True), lead="write it like this: ") if reads(text) else ""
    return ""


def only_a_diameter(code: str, reads: Reads) -> str:
    """`identify 3.9 mm`: advice to give the pitch too."""
    match = re.fullmatch(r" *identify +(?P<size>.+)", code, re.IGNORECASE)
    if not match or not reads(match["size"]):
        return ""
    pitch = "0.7 mm" if metric(match["size"]) else "26 tpi"
    other = "26 tpi" if pitch == "0.7 mm" else "1 mm"
    size = match["size"].strip()
    if looks_like_thread(size):
        return write(Offer(f"thread {size}", " for its figures"), lead=f"{size} has its name: write ")
    offers = (Offer(f"identify {size}, {asked}", completes=True) for asked in (pitch, other))
    return write(*offers, lead="give the pitch too, such as ")


def divided_by_a_sign(code: str, reads: Reads) -> str:
    """`divide 2 in / 5`."""
    match = re.fullmatch(r" *(?P<word>divide|mark) (?P<size>.+?) */ *(?P<n>[0-9]+)", code, re.IGNORECASE)
    if not match:
        return ""
    text = f"{match['word']} {match['size']} into {match['n']}"
    return write(text, f"{match['size']} / {match['n']}") if reads(text) else ""


def _opens_a_bracket(code: str) -> bool:
    return code.count("(") == code.count(")") + 1
