"""What people write where the language has a form of its own: `25 mm in inches`, `divide 2 in by 7`.

Each phrase is offered as the statement that was meant, and only when that statement can be read.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable

from fractions_shop.language.advice.drawing_labels import metric
from fractions_shop.language.advice.fault_place import Said, Spot, compiled, is_bare
from fractions_shop.language.advice.gate import WHOLES, part_figures
from fractions_shop.language.advice.offers import Advice, Offer, write
from fractions_shop.language.grammar_tables import openers_or_names
from fractions_shop.size import units
from fractions_shop.size.rule import METRIC_RULES

_UNIT = units.alternatives(letters=True)
_PITCH = units.alternatives(letters=True, powers=(1, -1))
_METRIC_RULES = "|".join(METRIC_RULES)
_TARGET = rf"(?:{_UNIT}|[0-9]+(?:ths?|nds?))"
_ASKED = r"(?:what is|what's|what are|how much is|convert|change|turn|express|calculate|work out|show|let|set|size of|size)"
_COUNT = rf"(?:(?P<count>an?|[0-9]+|{'|'.join(WHOLES)})[ -]+)?"
_PART = r"(?P<part>half|halves|(?:third|quarter|eighth|tenth|sixteenth|thirty[ -]?second|sixty[ -]?fourth)s?)"

#: A pattern of the whole line, what is wrong with it, and what was meant, likeliest first. The
#: group `at` is what is marked.
_PHRASES: tuple[tuple[str, str, tuple[str, ...]], ...] = (
    (r"(?P<head>(?:divide|mark) .+? into [0-9]+) (?P<at>(?:(?:equal|even) )?(?:parts?|spaces?|pieces?|divisions?|gaps?))(?P<rest>.*)",
     "the spaces of divide and mark are always equal, and 'into' is followed by their number alone",
     ("{head}{rest}",)),
    (r"(?P<head>(?:divide|mark) .+?) (?P<at>equally|evenly)(?P<rest>.*)",
     "the spaces of divide and mark are always equal", ("{head}{rest}",)),
    (r"(?P<head>divide .+?) into (?P<at>(?:equal|even)(?: parts| spaces| pieces)?)", "the number of spaces comes after 'into'",
     ("{head} into 5",)),
    (r"divide (?P<size>.+?) *(?P<at>\bby|/) *(?P<n>[0-9]+)",
     "divide takes 'into' before the number of spaces", ("divide {size} into {n}", "{size} / {n}")),
    (r"(?P<head>(?:divide|mark) .+?) (?P<at>by|in|at|with|to) (?P<n>[0-9]+)(?P<rest>\b.*)",
     "'into' comes before the number of spaces", ("{head} into {n}{rest}",)),
    (r"(?P<at>split|cut|part|space|space out) (?P<rest>.+ into .+)", "that is asked with divide",
     ("divide {rest}",)),
    (r"(?P<size>.+?) (?P<at>into) (?P<n>[0-9]+)(?P<rest>.*)", "that is asked with divide",
     ("divide {size} into {n}{rest}",)),
    (r"(?P<size>.+?) (?P<at>(?P<n>[0-9]+) (?P<rest>up|down))", "that is asked with divide",
     ("divide {size} into {n} {rest}",)),
    (rf"(?P<head>(?:divide|mark|crown) .+?) (?P<at>to|in|at|with|by) (?P<rest>[0-9]+(?:ths|nds)|{_METRIC_RULES})",
     "the rule comes after 'on'", ("{head} on {rest}",)),
    (r"(?P<head>places .+ first at .+?) (?P<at>by|and) (?P<rest>.+)", "how far across and up the first stands is parted by a comma",
     ("{head}, {rest}",)),
    (r"(?P<head>snap .+?) (?P<at>in|by|at|into|with) (?P<rest>.+)", "the rule comes after 'to'",
     ("{head} to {rest}",)),
    (r"(?P<at>round(?: off)?|nearest) (?P<rest>.+)", "that is asked with snap", ("snap {rest}",)),
    (r"(?P<at>(?:the )?nearest) (?P<n>[0-9]+(?:th|nd))s? (?:to|of) (?P<size>.+)", "that is asked with snap",
     ("snap {size} to {n}s",)),
    (r"gauge (?P<at>No\.?|number|size) *(?P<n>[0-9]+)", "a gauge is called by its number and its series",
     ("gauge {n} SWG", "gauge {n} AWG")),
    (r"(?P<head>pack .+?) (?P<at>with|using|out of|of|by) (?P<rest>.+)", "the pieces of a pack stand behind 'from'",
     ("{head} from {rest}",)),
    (r"(?P<head>check .+?) ?(?P<at>>=|=>|>|≥|(?:is )?at least|is (?:no|not) less than|is (?:more|greater|larger) than) ?(?P<rest>[^=].*)",
     "a check of one side says is at least, which lets in the size itself", ("{head} is at least {rest}",)),
    (r"(?P<head>check .+?) ?(?P<at><=|=<|<|≤|(?:is )?at most|is (?:no|not) (?:more|greater|larger) than|is (?:less|smaller) than) ?(?P<rest>[^=].*)",
     "a check of one side says is at most, which lets in the size itself", ("{head} is at most {rest}",)),
    (r"(?P<size>(?!check ).+?) (?P<at>is at least|is at most|clears) (?P<rest>.+)", "that is asked with check",
     ("check {size} {at} {rest}",)),
    (r"(?P<head>check .+?) (?P<at>==|is|equals|against|with|and|to) (?P<rest>.+)",
     "the two sides of a check stand about '='", ("{head} = {rest}",)),
    (r"(?P<head>(?:recover|identify|.+? reads) .+?) (?P<at>(?:by|with|using) (?:a |the |my )?(?:(?:vernier|digital|dial|electronic|steel|tape|inside|outside) )*(?P<tool>[a-z]+))(?P<rest>\b.*)",
     "the instrument is one word behind 'by'", ("{head} by {tool}{rest}",)),
    (r"(?P<head>recover .+?) (?P<at>from|in|as|of) (?P<rest>(?:drill|gauge|thread|stock).*)",
     "the tables to look in stand behind 'among'", ("{head} among {rest}",)),
    (r"(?P<head>(?:snap|check|recover) .+?) (?P<at>to within|by|plus or minus|give or take) (?P<rest>.+)",
     "the error allowed comes after 'within'", ("{head} within {rest}",)),
    (r"(?P<head>.+?) (?P<at>plus or minus|give or take) (?P<rest>.+)", "limits are written with ±",
     ("{head} ± {rest}",)),
    (r"fit (?P<size>.+?) +(?P<at>(?:with |for |to )?(?P<a>[A-Z]{1,2}) *(?P<n>[0-9]{1,2}) *[/ -] *(?P<b>[A-Z]{1,2}) *(?P<m>[0-9]{1,2}))",
     "the zones of a fit are written without blanks", ("fit {size} {a}{n}/{b}{m}",)),
    (r"fit (?P<size>.+?) +(?P<at>(?:with |for |to )?(?P<a>[A-Z]{1,2}) *(?P<n>[0-9]{1,2}))",
     "the class of a fit is written without blanks", ("fit {size} {a}{n}",)),
    (r"(?P<whole>[0-9]+) (?P<at>and|&) (?P<rest>[0-9]+/[0-9]+.*)", "a mixed number is written without 'and'",
     ("{whole} {rest}",)),
    (r"(?P<whole>[0-9]+) (?P<at>and a half)(?P<rest>.*)", "a mixed number is written in figures",
     ("{whole} 1/2{rest}",)),
    (r"(?P<head>.+? (?:ft|feet|foot)) (?P<at>and|,) (?P<rest>.+)", "feet and inches stand without 'and'",
     ("{head} {rest}",)),
    (r"(?P<head>.+?) (?P<at>divided by|over) (?P<rest>.+)", "a division is written with /", ("{head} / {rest}",)),
    (r"(?P<head>.+?) (?P<at>times|multiplied by) (?P<rest>.+)", "a product is written with *",
     ("{head} * {rest}",)),
    (r"(?P<head>.+?) (?P<at>plus|and|add|added to) (?P<rest>.+)", "a sum is written with +", ("{head} + {rest}",)),
    (r"(?P<head>.+?) (?P<at>minus|less|take away) (?P<rest>.+)", "a difference is written with -",
     ("{head} - {rest}",)),
    (rf"(?P<at>{_ASKED}) (?P<rest>.+)", "a statement begins with its size or its request",
     ("{rest}",)),
)  # fmt: skip


def phrase(spot: Spot) -> Said | None:
    """Advice on a line that says in other words what the language can answer."""
    named = re.match(r" *(?:[A-Za-z_]\w* *=(?!=|>) *)?", spot.meant)
    front = named[0] if named else ""
    line = spot.code[len(front) :]
    if not line:
        return None
    for look in (
        _with_bodies,
        _part_of_unit,
        _part_of_size,
        _of_a_unit,
        _shown_in,
        _how_many,
        _identified,
        _in_a_table,
    ):
        advised = look(line, lambda text: spot.reads(front + text))
        if advised is not None:
            message, texts, start, end = advised
            return message, _written(front, texts), start + len(front), end + len(front)
    return None


#: What is wrong, what was meant, and the part of the line to mark.
Advised = tuple[str, list[str | Offer], int, int]
Reads = Callable[[str], bool]


def _written(front: str, texts: Iterable[str | Offer]) -> Advice:
    offers = [Offer(text) if isinstance(text, str) else text for text in texts]
    lead = "write it like this: " if any(offer.completes for offer in offers) else "write "
    return write(*(offer._replace(text=front.lstrip() + offer.text) for offer in offers), lead=lead)


def _with_bodies(line: str, reads: Reads) -> Advised | None:
    """`divide 12 in into 6 with bars of 1/4 in`: bodies between the spaces, one at each end or none."""
    match = re.fullmatch(
        r"(?P<word>divide|mark) (?P<size>.+?) into (?P<n>[0-9]{1,5})(?: [a-z]+)? (?P<at>with|between|and) (?:[0-9]+ )?"
        r"(?:(?P<kind>[a-z]+(?: [a-z]+)?) (?:of|at) (?P<each>.+?)|(?:an? )?(?P<first>[0-9.].*?) (?P<behind>(?:saw |wide )?"
        r"(?:gaps?|spaces?|cuts?|kerfs?|saws?|bars?|slats?|webs?|walls?|bodies|fins?|dividers?|partitions?)))"
        r"(?: (?:between|between them|each))?(?P<rest>(?: on .+)?)",
        line, re.IGNORECASE,
    )  # fmt: skip
    if match is None:
        return None
    word, size, count, rest = match.group("word", "size", "n", "rest")
    each = match["each"] or match["first"]
    outer = f"{word} {size} into {count} between {each}{rest}"
    inner = f"{word} {size} for {int(count) - 1} of {each}{rest}"
    offers = [Offer(outer, " for one at each end as well") if reads(outer) else None]
    offers.append(
        Offer(inner, " for those inside alone", worked=True) if int(count) > 1 and reads(inner) else None
    )
    kept: list[str | Offer] = [offer for offer in offers if offer is not None]
    if re.search(r"gap|cut|kerf|saw", f"{match['kind']} {match['behind']}", re.IGNORECASE):
        kept.reverse()  # what is cut away lies between the pieces
    message = "the bodies between the spaces stand behind 'between', or behind 'for'"
    return (message, kept, match.start("at"), max(match.end("kind"), match.end("behind"))) if kept else None


def _in_a_table(line: str, reads: Reads) -> Advised | None:
    for pattern, message, templates in _PHRASES:
        match = compiled(pattern).fullmatch(line)
        if not match:
            continue
        groups = {name: text or "" for name, text in match.groupdict().items()}
        texts = [text for form in templates if reads(text := form.format(**groups).strip())]
        if texts:
            # `into 5` for `into equal parts`: how many is for the maker to say.
            completes = any(form.endswith("into 5") for form in templates)
            offers: list[str | Offer] = [Offer(text, completes=completes) for text in texts]
            return message, offers, match.start("at"), match.end("at")
    return None


def _shown_in(line: str, reads: Reads) -> Advised | None:
    """`25 mm in inches`, `convert 3/8 in to mm`."""
    match = re.fullmatch(
        rf"(?:(?P<asked>{_ASKED}) +)?(?P<size>.+?)(?: *(?P<at>\b(?:in|into|to|as)|=>?|->|:))? *(?P<unit>(?<![A-Za-z]){_TARGET})\??",
        line, re.IGNORECASE,
    )  # fmt: skip
    if not match:
        return None
    unit, joint = _unit_name(match["unit"]), match["at"] or ""
    if not joint and not match["asked"] and _one_word(match["size"], match["unit"]):
        return None
    if not joint and match["size"].strip().lower() in openers_or_names().values():
        return None  # the beginning of a request
    sizes = [match["size"].strip(), f"{match['size'].strip()} {joint}"]
    if is_bare(sizes[0]) and not joint:  # what is 10 mm: the unit is the size's own
        alone = f"{sizes[0]} {match['unit']}"
        message = "a statement begins with its size or its request"
        return (message, [alone], match.start("asked"), match.end("asked")) if reads(alone) else None
    if is_bare(sizes[0]):
        if joint.lower() == unit == "in":
            return "the unit is given here twice", [f"{sizes[0]} in"], match.start("unit"), match.end("unit")
        sizes = [
            f"{sizes[0]} {'mm' if unit in ('in', 'ft', 'thou', 'yd') and joint.lower() != 'in' else 'in'}"
        ]
    for size in sizes:
        if reads(f"{size} as {unit}"):
            group = "asked" if match["asked"] else "at" if joint else "unit"
            if group == "at" and size != match["size"].strip() and not is_bare(match["size"]):
                group = "unit"
            text = _shown(size, unit)
            if not text:
                return None
            message = "a size is shown in another unit with 'as'"
            # The pitch of 8 tpi is 1 / 8 tpi, and a plain number becomes a length by 1 of its unit.
            offer = Offer(text, worked=text != f"{size} as {unit}")
            return message, [offer], match.start(group), match.end(group)
    return None


def _one_word(size: str, unit: str) -> bool:
    """`5 m` and `m`: a unit with a blank in it, far likelier than a size asked for in a unit."""
    last = re.search(r"[A-Za-zµ]+$", size)
    return last is not None and units.find(last[0] + unit) is not None


def _shown(size: str, unit: str) -> str:
    """`25 mm as in`; a plain number is made a length."""
    if not re.search(
        rf"(?<![A-Za-z])(?:{_UNIT})\b|[0-9]+(?:th|nd)s|[\"']|(?<![A-Za-z_])[A-Za-z_]\w*\b(?! *\()", size
    ):
        return f"{size} * 1 {unit}" if re.fullmatch(r"[A-Za-z_]+ *\(.*\)", size) else ""
    return f"{size} as {unit}"


def _unit_name(word: str) -> str:
    unit = units.find(word)
    if unit is not None:
        return unit.name
    return word if word.endswith("s") else f"{word}s"


def _how_many(line: str, reads: Reads) -> Advised | None:
    """`how many mm in 2 in`."""
    match = re.fullmatch(
        rf"(?P<at>how many) (?P<unit>{_TARGET}) (?:is|are|make|(?:are )?(?:there )?in) (?P<size>.+?)\??",
        line,
        re.IGNORECASE,
    )
    if not match or not reads(text := f"{match['size']} as {_unit_name(match['unit'])}"):
        return None
    return "a size is shown in another unit with 'as'", [text], match.start("at"), match.end("at")


def _identified(line: str, reads: Reads) -> Advised | None:
    """`identify 6 mm x 1 mm`: a diameter and a pitch without their comma."""
    match = re.fullmatch(
        rf"identify (?P<major>.+?)(?P<at> *(?:\bx|×|\bby\b|\band\b|\bwith\b|\bat\b| ) *)(?P<pitch>(?:[0-9]+ )?[0-9./]+ *(?:{_PITCH}))",
        line, re.IGNORECASE,
    )  # fmt: skip
    if not match:
        return None
    major, pitch = match["major"].rstrip(", "), match["pitch"]
    if is_bare(major):
        major += " mm" if metric(pitch) else " in"
    text = f"identify {major}, {pitch}"
    place = match.end("at") if match["at"].isspace() else match.start("at")
    message = "the diameter and the pitch are parted by a comma"
    return (message, [text], place, max(place + 1, match.end("at"))) if reads(text) else None


def _part_of_unit(line: str, reads: Reads) -> Advised | None:
    """`half an inch`, `three quarters of an inch`."""
    match = re.fullmatch(
        rf"(?P<at>{_COUNT}{_PART})(?:[ -]+of)?(?: +(?:an?|one))?[ -]+(?P<unit>{_UNIT})(?P<rest>\b.*)",
        line,
        re.IGNORECASE,
    )
    if not match:
        return None
    top, bottom = part_figures(match["count"], match["part"])
    text = f"{top}/{bottom} {_unit_name(match['unit'])}{match['rest']}"
    message = "a part of a unit is written in figures"
    return (message, [text], match.start("at"), match.end("at")) if reads(text) else None


def _part_of_size(line: str, reads: Reads) -> Advised | None:
    """`half of 3/8 in`."""
    match = re.fullmatch(rf"(?P<at>{_COUNT}{_PART}) of (?P<size>.+)", line, re.IGNORECASE)
    if not match:
        return None
    top, bottom = part_figures(match["count"], match["part"])
    text = f"{top}/{bottom} of {match['size']}"
    message = "a part of a size is written in figures"
    offer = Offer(text, worked=True)
    return (message, [offer], match.start("at"), match.end("at")) if reads(text) else None


def _of_a_unit(line: str, reads: Reads) -> Advised | None:
    """`3/8 of an inch`, `an inch and a half`."""
    match = re.fullmatch(rf"(?P<n>[0-9./ ]+?) *(?P<at>\bof(?: an?)?) +(?P<unit>{_UNIT})", line, re.IGNORECASE)
    word = re.fullmatch(rf"(?P<at>(?P<n>{'|'.join(WHOLES)})) +(?P<unit>{_UNIT})", line, re.IGNORECASE)
    if match:
        text = f"{match['n']} {_unit_name(match['unit'])}"
    elif word:
        text = f"{WHOLES[word['n'].lower()]} {_unit_name(word['unit'])}"
        return "a number is written in figures", [text], word.start("at"), word.end("at")
    else:
        match = re.fullmatch(
            rf"(?:an?|one) (?P<unit>{_UNIT})(?P<at> and (?:a |an )?{_PART})", line, re.IGNORECASE
        )
        if not match:
            return None
        text = f"1 1/{part_figures(None, match['part'])[1]} {_unit_name(match['unit'])}"
    message = "the unit comes right after its number"
    offer = Offer(text, worked=True)
    return (message, [offer], match.start("at"), match.end("at")) if reads(text) else None
