"""Words and marks that drawings put beside a size: Ø, dia, full, the length of a screw, No. 43."""

from __future__ import annotations

import re

from fractions_shop.language.advice.fault_place import Said, Spot, is_bare, with_units
from fractions_shop.language.advice.offers import Advice, Offer, write
from fractions_shop.size import units
from fractions_shop.tables.patterns import GAUGE_REFUSED, GAUGE_WORDS

_BESIDE = """dia diam diameter od id bore bored long wide high deep tall thick thk dp lg brass steel bronze
copper aluminium alloy silver bar tube sheet flat square rad radius approx about nominal"""
_COUNTED = (
    """hole holes off pieces piece pcs part parts spaces space equal screws drawers shelves divisions gaps"""
)
#: Words beside a size that are no part of it.
BESIDE = frozenset(_BESIDE.split())
#: How many of a thing there are.
COUNTED = frozenset(_COUNTED.split())
#: A little over, and a little under: no figure.
VAGUE = {"full": "+", "strong": "+", "bare": "-", "scant": "-", "shy": "-"}
_SMALL = """a an and as by convert divide drill drills fit from gauge gauges half identify in into is mark of
on pack recover round rule size snap substitute swg tap the thread threads to what with"""
#: Words that would be read as names, and surely are not.
NO_NAMES = BESIDE | COUNTED | VAGUE.keys() | frozenset(_SMALL.split())

#: Wire and sheet gauges by their letters.
GAUGES = tuple(word for word in GAUGE_WORDS if word.isupper() and " " not in word)
#: All of them, with those of several words; wood screws are called with No before the number.
_GAUGES_WRITTEN = {
    word.lower(): word for word in (*GAUGE_WORDS, *GAUGE_REFUSED) if "screw" not in word and word != "US"
}
_PARTS_OF_THREAD = {
    "tapping": "tapping", "tap": "tapping", "clearance": "clearance", "clear": "clearance", "major": "major",
    "minor": "minor", "pitch": "pitch", "effective": "effective",
}  # fmt: skip
_ASKS_PART = rf"(?:{'|'.join(_PARTS_OF_THREAD)})(?: +(?:drill|size|hole|dia|diameter))?"


def is_thread(text: str) -> bool:
    """Whether `text` is written as a thread."""
    from fractions_shop.threads.names import looks_like_thread

    return looks_like_thread(text)


def vague_advice(size: str, word: str) -> Advice:
    """`write it like this: 3/8 in +2/-0 thou` for 3/8 full: how much is for the maker to say."""
    much, unit = ("0.05", "mm") if metric(size) else ("2", "thou")
    spread = f"+{much}/-0" if VAGUE[word] == "+" else f"+0/-{much}"
    text = f"{size + ' in' if is_bare(size) else size} {spread} {unit}"
    return write(Offer(text, completes=True), lead="say how much with limits, like this: ")


def metric(size: str) -> bool:
    """Whether a metric unit stands in the text of a size."""
    known = map(units.find, re.findall(r"[A-Za-zµ]+", size))
    return any(unit is not None and unit.metric for unit in known)


def vague(spot: Spot) -> Said | None:
    """`3/8 in full`: a little over, which no limits say."""
    match = re.fullmatch(rf"(?P<size>.+?) +(?P<at>{'|'.join(VAGUE)})\.?", spot.code, re.IGNORECASE)
    if not match or not spot.reads(match["size"]):
        return None
    word = match["at"].lower()
    message = f"{match['at']} is not a figure"
    return message, vague_advice(match["size"].strip(), word), match.start("at"), match.end("at")


def beside(spot: Spot) -> Said | None:
    """`3/8 in dia`, `Ø 3/8 in`, `R 12`: what is said of a size and is no part of it."""
    words = "|".join(sorted(BESIDE | COUNTED))
    for pattern in (
        rf"(?P<head>.+?) *(?P<at>(?<![A-Za-z])(?:{words})\b\.?|Ø|⌀)(?P<rest>)",
        rf"(?P<head>(?:.*? )?)(?P<at>[Øø⌀ΦφR]|(?:{words})\b\.?) *(?P<rest>[0-9.].*)",
    ):
        match = re.fullmatch(pattern, spot.code, re.IGNORECASE)
        if match and spot.reads(text := (match["head"] + match["rest"]).strip()):
            advice = with_units(text, "leave it out: write ")
            return f"{match['at']} is not part of a size", advice, match.start("at"), match.end("at")
    return None


def feet_run_together(spot: Spot) -> Said | None:
    """`2ft3`, `5ft3 1/2in`."""
    match = re.search(r"([0-9]+) ?(?:ft|feet|foot)([0-9][0-9 ./]*)(?:in\b|\")?", spot.meant, re.IGNORECASE)
    if not match or not match.start() <= spot.start <= match.end():
        return None
    text = f"{match[1]} ft {match[2].strip()} in"
    return "feet and inches need a blank between them", write(text), match.start(), match.end()


def two_units(spot: Spot) -> Said | None:
    """`3/8 in (9.5 mm)`: one size in two units."""
    match = re.fullmatch(r"(?P<one>[^()\[\]]+?) *(?P<at>[(\[](?P<two>[^()\[\]]+)[)\]])", spot.code)
    if not match or not spot.reads(text := f"check {match['one']} = {match['two']}"):
        return None
    message = "one size in two units is two sizes here"
    offer = Offer(match["one"], worked=True)  # the other unit of one size is left out
    return message, write(offer, text), match.start("at"), match.end("at")


def part_of_thread(spot: Spot) -> Said | None:
    """`tapping 4 BA`, `tap drill for M6`, `6 BA clearance`, `drill for M6`, `6 BA drill`."""
    line = spot.code.strip()
    for pattern in (
        rf"(?P<at>{_ASKS_PART})(?: +(?:for|of))? +(?P<name>.+)",
        rf"(?P<name>.+?) +(?P<at>{_ASKS_PART})",
        r"(?P<at>drill) +(?:for|of) +(?P<name>.+)",
        r"(?P<name>.+?) +(?P<at>drill)",
    ):
        match = re.fullmatch(pattern, line, re.IGNORECASE)
        if match and is_thread(match["name"]):
            start = spot.meant.index(line) + match.start("at")
            word = match["at"].split()[0].lower()
            parts = [_PARTS_OF_THREAD[word]] if word in _PARTS_OF_THREAD else ["tapping", "clearance"]
            message = "a part of a thread is asked for with its name in brackets"
            texts = [f"{part}({match['name']})" for part in parts]
            return message, write(*texts), start, start + len(match["at"])
    return None


def called(spot: Spot) -> Said | None:
    """`sqrt 4`, `sin 30`: a function without its brackets."""
    from fractions_shop.language.functions import FUNCTIONS, more_functions

    match = re.fullmatch(r" *(?P<at>[A-Za-z_]+)(?: +of)? +(?P<rest>.+)", spot.code)
    function = match and (FUNCTIONS.get(match["at"].lower()) or more_functions().get(match["at"].lower()))
    if not match or not function:
        return None
    rest = (
        f"{match['rest']} deg"
        if function.name in ("sin", "cos", "tan") and is_bare(match["rest"])
        else match["rest"]
    )
    text = f"{function.name}({rest})"
    advice = write(text) if spot.reads(text) else f"write it like this: {function.example}"
    message = f"what {function.name} takes goes in brackets"
    return message, advice, match.start("at"), match.end("at")


def turned_about(spot: Spot) -> Said | None:
    """`SWG 22`, `BA 2`, `size 43 drill`: the word before its number."""
    from fractions_shop.threads.records import CAPITALS, WORDS

    gauges, series = (
        "|".join(map(re.escape, sorted(words, key=len, reverse=True))) for words in (_GAUGES_WRITTEN, WORDS)
    )
    for pattern, form in (
        (
            rf"(?P<head>gauge +|)(?P<at>(?P<word>{gauges}))\.? *(?:No\.? *)?(?P<n>[0-9/]+)",
            "{head}{n} {word}",
        ),
        (rf"(?P<head>)(?P<at>(?P<word>{series}))\.? *(?:No\.? *)?(?P<n>[0-9][0-9/ .-]*)", "{n} {word}"),
        (
            r"(?P<head>)(?P<at>(?:drill +)?(?:size|no|number)\.?) *(?P<n>[0-9]{1,2})(?P<word>(?: +drill)?)",
            "No {n} drill",
        ),
    ):
        match = re.fullmatch(pattern, spot.code.strip(), re.IGNORECASE)
        if not match or (form == "No {n} drill" and "drill" not in spot.code.lower()):
            continue
        word = match["word"].upper() if match["word"].upper() in CAPITALS else match["word"]
        word = _GAUGES_WRITTEN.get(word.lower(), word)
        text = form.format(head=match["head"], n=match["n"].strip(), word=word)
        offset = len(spot.code) - len(spot.code.lstrip())
        if word in GAUGE_REFUSED:
            return GAUGE_REFUSED[word], "", match.start("at") + offset, match.end("at") + offset
        if spot.reads(text):
            message = (
                "the number comes first"
                if match["word"].strip().lower() != "drill"
                else "a drill of a number is called No"
            )
            return message, write(text), match.start("at") + offset, match.end("at") + offset
    return None


def screw_length(spot: Spot) -> Said | None:
    """`1/4-20 x 1`, `M6 x 1 x 20`, `No. 6 x 1 in`: a screw with its length."""
    match = re.fullmatch(
        rf"(?P<head>thread +|)(?P<name>.+?) *(?P<at>[x×] *[0-9][0-9 ./]*(?:{units.alternatives()})?)(?: *long)?",
        spot.code.strip(),
        re.IGNORECASE,
    )
    if not match:
        return None
    from fractions_shop.language.named import numbered

    number = re.fullmatch(r"(?:No\.?|number|#) *([0-9]+)", match["name"], re.IGNORECASE)
    names = (
        list(numbered(number[1], screws_only=True))
        if number
        else [match["name"]]
        if is_thread(match["name"])
        else []
    )
    if not names:
        return None
    offset = len(spot.code) - len(spot.code.lstrip())
    message = "the length of a screw is not part of its thread's name"
    # The length is left out, and a number is given its threads: no figures of the thread are lost.
    offers = (Offer(match["head"] + name, worked=True) for name in names)
    advice = write(*offers, lead="leave it out: write ")
    return message, advice, match.start("at") + offset, match.end("at") + offset


#: What has a number of its own: cabinet No 5.
_NUMBERED_THING = re.compile(
    r"\b(cabinet|tray|drawer|case|box|shelf|frame|rack|item|piece|part|sheet|page|plate|fig(?:ure)?|drawing|job|lot|order|revision)\.? *$",
    re.IGNORECASE,
)


def number_alone(spot: Spot) -> Said | None:
    """`No. 43`: a drill, a screw or a gauge, as far as there is one of that number."""
    match = re.search(r"\b(?:no|number|nr)\b\.? *([0-9]+)(?![0-9./])", spot.meant, re.IGNORECASE)
    if not match or not match.start() <= spot.start <= match.end() or "gauge" in spot.meant.lower():
        return None
    from fractions_shop.language.named import numbered

    numbers = _NUMBERED_THING.search(spot.meant[: match.start()])
    if numbers is not None:
        said = f"{match[0]} is the number of a {numbers[1].lower()}, and no size"
        return (
            said,
            f"as a note it stands behind a #: write # {spot.code.strip()}",
            match.start(),
            match.end(),
        )
    screw = re.search(
        r"\b(?:(wood|cabinet|joiners?'?s?|countersunk|csk) +)?(?:screws?|bolts?)\b", spot.meant, re.IGNORECASE
    )
    names = list(numbered(match[1], screws_only=screw is not None))
    if screw is not None:
        # A screw is said, and in wood the one that is told by its shank comes first.
        names.sort(key=lambda name: "wood" not in name if screw[1] else False)
    message = (
        f"{match[0]} may be {'one of these screws' if screw and names else 'a drill, a screw or a gauge'}"
    )
    if not names:
        return message, "no drill, screw or gauge has that number", match.start(), match.end()
    return message, write(*(Offer(name, worked=True) for name in names)), match.start(), match.end()
