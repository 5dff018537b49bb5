"""Threads as they are written, without a table being loaded.

`read_name` takes a written designation apart; whether such a thread exists is for
`lookup` to say. `THREAD_PATTERN` spots a designation inside an expression and leaves
plain sizes and sums alone.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from fractions import Fraction
from functools import cache

from fractions_shop.errors import InputError, ShopError
from fractions_shop.size import units
from fractions_shop.size.frozen import Record
from fractions_shop.size.leads import lead
from fractions_shop.size.notation import GLYPHS, as_meant, number_value
from fractions_shop.threads.record import Series
from fractions_shop.threads.records import BORE_LETTERS, BY_KEY, FORM_WORDS, MM_LETTERS, SERIES, keys_by_word

#: Longer text is no thread's name.
MAX_LENGTH = 60

ADVICE = "write it like 6 BA, 1/4 BSW, 1/4-20 UNC, No 6-32, M3, M8 x 1, G 1/4 or 5/16 x 40 ME"

_CAPITALS = re.compile(r"[A-Z]{2,}[a-z]?|[A-Z]")


def _part(part: str) -> str:
    """A word without blanks: its capitals with dots or without, its own dots and apostrophes left out or not."""
    if _CAPITALS.fullmatch(part):
        return r"\.?".join(part) + (r"\.?" if part.isupper() else "")
    pieces = re.split("([A-Z]{2,})", part)
    return "".join(
        r"\.?".join(piece) + r"\.?" if piece.isupper() else re.sub(r"(\\\.|')", r"\1?", re.escape(piece))
        for piece in pieces
    )


@cache
def _spelled(word: str) -> str:
    """A regular expression for a record's word: dots in capitals, and blanks between them, may be left out."""
    spelled = [_part(part) for part in word.split()]
    between = "[ ]?" if word.isupper() else "[ ]"
    return between.join(spelled)


#: Words after a size, and the series they mean; those that stand alone are not spotted in an expression.
_KEYS = keys_by_word(lambda series: series.words)
_KEYS_ALONE = keys_by_word(lambda series: series.alone)
#: Words of one piece, each of one series, as a choice.
PLAIN_WORDS = "|".join(
    sorted((word for word, keys in _KEYS.items() if word.isalpha() and len(keys) == 1), key=len, reverse=True)
)
#: The same of several series: UN, BSP.
SHARED_WORDS = "|".join(word for word, keys in _KEYS.items() if word.isalpha() and len(keys) > 1)
#: Words of series that also mean something else (a metal, a trade), as a choice.
ORDINARY_WORDS = "|".join(re.escape(word) for word in _KEYS if word.islower())


_MM_LETTER, _BORE_LETTER = (
    "(?:" + "|".join(sorted(letters, key=len, reverse=True)) + ")" for letters in (MM_LETTERS, BORE_LETTERS)
)
_KINDS = tuple(dict.fromkeys(series.kind for series in SERIES if series.kind))


def _alternatives(test: Callable[[Series], bool]) -> str:
    """The words of the series that pass a test, as a choice; such as never matches where none does."""
    words = keys_by_word(lambda series: series.words if test(series) else ())
    spelled = map(_spelled, sorted(words, key=len, reverse=True))
    return "(?:" + ("|".join(spelled) or "(?!)") + ")"


#: Every word of every series behind a size.
ANY_SERIES = _alternatives(lambda series: True)
#: Words before a size (Thury 5), behind a metric designation (M5 x 0.9 old JIS), behind millimetres, and alone.
FIRST_WORD = _alternatives(lambda series: series.word_first and not series.sole)
_BEHIND_MM = _alternatives(lambda series: bool(series.letters) and series.size_is == "mm")
_OF_MM = _alternatives(lambda series: not series.letters and series.size_is == "mm")
SOLE = _alternatives(lambda series: series.sole)
_SOLE_NOUN = r"(?:[ ](?:objective|thread|objective[ ]thread))?"

_FRACTION = rf"(?:[0-9]+(?:[ ]+|-)[0-9]+/[0-9]+|[0-9]+/[0-9]+|(?:[0-9]+(?:[ ]|-)?)?[{GLYPHS}])"
_SIZE = rf"(?:{_FRACTION}|[0-9]*\.[0-9]+|[0-9]+)"
_INCH = r"(?:[ ]*(?:\"|in\b\.?|inch\b))?"
# A blank behind # makes it a comment.
_NUMBER = r"(?:(?:No\b\.?|Nr\b\.?|number\b)[ ]*|\#)"
_TPI = r"(?:1[26]0|[0-9]{1,2}(?:\.[0-9]{1,3}|[ ][0-9]/[0-9])?|\.[0-9]{1,3})"
_TPI_WORD = r"(?:t\.?p\.?i\b\.?|threads?[ ]per[ ]inch\b)"
_END = r"(?![A-Za-z0-9_])"

# Spotting one in an expression.

#: Threads to the inch that a bare `1/4-20` may have; anything else is a subtraction.
_USUAL_TPI = (
    "(?:80|72|64|60|56|48|44|40|36|32|28|27|26|24|22|20|19|18|16|14|13|12"
    r"|11\.5|11|10|9|8|7|6|5|4\.5|4)"
)
#: Of screws with a number and nothing else written, too: old ones, and those below No 0.
_NUMBERED_TPI = rf"(?:160|120|90|30|{_USUAL_TPI})"
#: A sum goes on after these: `1/4-20/3`, `3/4-5 in`, `1/2-20 mm`.
_NOT_A_SIZE = (
    rf"(?![0-9A-Za-z_./^*])(?![ ]*(?:{units.alternatives(letters=True, powers=(1, -1))}|deg)\b)"
    r"(?![ ]*[\"'°])"
)
_CLASS = r"(?:[ ]?-[ ]?[123][AB]\b)?"
_METRIC_CLASS = r"(?:[ ]?-[ ]?[3-9][a-hA-H](?:[3-9][a-hA-H])?\b)?"

#: A thread outside the tables by its major, its pitch and its form: 9 mm x 1.1 mm metric form.
_PER = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
_GIVEN = (
    rf"(?i:{_SIZE}[ ]*(?:mm|in|\")[ ]*[x×][ ]*{_PER}[ ]*(?:mm|tpi)[ ]+(?:{'|'.join(FORM_WORDS)})[ ]+form\b)"
)
BY_FORM = (
    rf"(?i)(?P<size>{_SIZE})[ ]*(?P<unit>mm|in|\")[ ]*[x×][ ]*(?P<pitch>{_PER})[ ]*(?P<per>mm|tpi)"
    rf"[ ]+(?P<form>{'|'.join(FORM_WORDS)})[ ]+form"
)


def _beginning(word: str) -> str:
    """What every spelling of a record's word begins with: two of its capitals, or three letters."""
    letters = word.replace(" ", "")
    return letters[:2] if letters[:2].isupper() else letters[:3].rstrip(".")


def _lead(test: Callable[[Series], bool]) -> tuple[tuple[str, ...], str]:
    """What is in every text that holds a word of the series that pass a test: words without dots and blanks, and an expression."""
    words = sorted({_beginning(word) for series in SERIES if test(series) for word in series.words})
    begun = [rf"{word[0]}[. ]{{0,2}}{word[1]}" if word.isupper() else re.escape(word) for word in words]
    return tuple(map(str.lower, words)), lead(begun, apart=True) or "(?!)"


_FIRST_LETTERS = "".join(sorted({letter[0] for letter in (*MM_LETTERS, *BORE_LETTERS)}))

#: The ways to write a thread's designation, the first that fits being meant: what is found in every line that holds one
#: written so, and its expression. For a grammar: not anchored, no capturing group. Letters are
#: in either case except M, G and R before a size, which in small letters are left to names.
#: R3 without a blank is a radius on any drawing, and a name here; the thread is R 3.
THREAD_SPELLINGS = (
    (("form",), lead(["form"]), _GIVEN),
    (
        *_lead(lambda series: True),
        rf"(?i:{_NUMBER}?{_SIZE}{_INCH}(?:(?:-|[ ]*[x×][ ]*){_TPI}(?:[ ]*{_TPI_WORD})?)?"
        rf"[ ]*-?{ANY_SERIES}{_CLASS}{_END})",
    ),
    (
        *_lead(lambda series: series.word_first),
        rf"(?i:{FIRST_WORD}[ ]?-?{_NUMBER}?{_SIZE}(?:[ ]?mm\b)?(?:[ ]*[x×][ ]*{_PER})?{_END})",
    ),
    (
        *_lead(lambda series: series.size_is == "mm"),
        rf"(?i:{_SIZE}[ ]?mm(?:[ ]*[x×][ ]*{_PER}(?:[ ]?mm)?)?[ ]{_OF_MM}{_END})",
    ),
    (*_lead(lambda series: series.sole), rf"{SOLE}(?i:{_SOLE_NOUN}){_END}(?![ ]?\()"),
    (
        (*_FIRST_LETTERS, "#", "no", "nr", "number", "-", "x", "×"),
        rf"[{_FIRST_LETTERS}]|\#|(?i:(?<![a-z])(?:n[or]\b|number))|[0-9{GLYPHS}]\"?(?:-| *[x×] *)[0-9]",
        rf"(?:(?i:{_NUMBER}(?:0{{2,4}}|[0-9]{{1,2}})(?:-|[ ]*x[ ]*){_NUMBERED_TPI})"
        rf"|{_FRACTION}\"?(?:-|[ ]*x[ ]*){_USUAL_TPI}"
        rf"|{_MM_LETTER}[ ]?[0-9]{{1,3}}(?:\.[0-9]{{1,2}})?(?:[ ]*[x×][ ]*(?:[0-9]+\.[0-9]+|\.[0-9]+|[0-9]+)"
        rf"|-[0-9]\.[0-9]+)?(?:[ ](?i:{_BEHIND_MM}))?{_METRIC_CLASS}"
        rf"|{_BORE_LETTER}(?:[ ]?{_FRACTION}|[ ][0-9])\"?(?:[ ]?[AB]\b)?){_NOT_A_SIZE}",
    ),
)
THREAD_PATTERN = f"(?:{'|'.join(expression for *_, expression in THREAD_SPELLINGS)})"


def looks_like_thread(text: str) -> bool:
    """Whether `text` as a whole is written as a thread; no table is looked at.

    >>> looks_like_thread("1/4-20"), looks_like_thread("1/4 - 20"), looks_like_thread("m3")
    (True, False, False)
    """
    return len(text) <= MAX_LENGTH and re.fullmatch(THREAD_PATTERN, as_meant(text).strip()) is not None


def series_called(word: str) -> tuple[Series, ...]:
    """The series that a word behind a size names: none for a word of no series.

    >>> [series.key for series in series_called("NPT")]
    ['NPT']
    """
    return tuple(BY_KEY[key] for key in _meant(word))


# Taking one apart.


class WrittenThread(Record):
    """A designation taken apart.

    `series` are those its words allow (empty: any inch series). `size` is in inches, or
    millimetres if `metric`, or a number of a numbered series. `numbered` says that No
    or # was written, `counted` that the size is figures alone, without a bar or a unit, as the number of a
    screw must be, `places` how many decimals a decimal size had (None: not decimal). `barred` are the two
    whole numbers of a size such as 8/32, behind which no pitch stands: bars are also written for the dash of No 8-32.
    `pitch` is threads per inch, or millimetres if `metric`, or None. `dashed` says that
    the pitch follows a dash, as in American writing. `sole` says that its word stands alone, of
    a series with one size. A number below 0 is No 00, No 000 ... `remarks` tell what was read past.
    """

    text: str
    series: tuple[str, ...]
    size: Fraction
    numbered: bool = False
    counted: bool = False
    barred: tuple[int, ...] = ()
    places: int | None = None
    pitch: Fraction | None = None
    metric: bool = False
    dashed: bool = False
    sole: bool = False
    remarks: tuple[str, ...] = ()


# Most answers ask for none of these, and few for more than one: each is compiled at its first use.
_TAIL = r"(?:[ ]*-?[ ]*(?P<hand>LH|left[ -]hand))?"
_INCH_NAME = rf"""(?xi)(?P<no>{_NUMBER})? (?P<size>{_SIZE}) (?:(?P<mm>[ ]*mm\b)|(?P<inches>{_INCH}))
    (?: (?P<join>[ ]*[-x×*][ ]*|[ ]+(?=[0-9. /]+[ ]?t)) (?P<tpi>{_TPI}) (?:[ ]*{_TPI_WORD}|(?P<per_mm>[ ]*mm\b))? )?
    (?: [ ]*-?[ ]*(?P<word>[^\W\d_].*?) )??
    (?: [ ]+[x×]?[ ]*(?P<after>{_TPI})[ ]*{_TPI_WORD} )?
    (?: [ ]*-?[ ]*(?P<class>[123][AB]) )? {_TAIL}"""
_METRIC_NAME = rf"""(?xi)(?P<letter>{_MM_LETTER})[ ]*(?P<size>[0-9]+(?:\.[0-9]+)?)
    (?: [ ]*[-x×*][ ]*(?P<pitch>[0-9]*\.?[0-9]+)(?:[ ]*mm)? )?
    (?: [ ]+(?P<kind>{"|".join(_KINDS)}) )? (?: [ ]+(?P<system>{_BEHIND_MM}) )?
    (?: [ ]*-?[ ]*(?P<class>[3-9][A-H](?:[3-9][A-H])?) )? {_TAIL}"""
_PIPE_NAME = rf"""(?xi)(?P<letter>{_BORE_LETTER})[ ]*(?P<size>{_FRACTION}|[0-9]+) {_INCH}
    (?: [ ]*-[ ]*(?P<tpi>{_TPI}) )? (?: [ ]*(?P<class>[AB]) )? {_TAIL}"""
_WORD_FIRST = rf"(?i)(?P<word>{ANY_SERIES})[ -]+(?P<rest>[0-9#NM.].*)"
#: Without a blank only a word that belongs before its size: Thury5.
_JOINED_FIRST = rf"(?i)(?P<word>{FIRST_WORD})[ -]*(?P<rest>[0-9#NM.].*)"
#: What it is the thread of, behind its name; a wood screw has none of these.
_NOUNS = ("screw", "screws", "thread", "threads", "bolt", "bolts")
_NOUN = r"(?i)(?<!wood)[ ](?:machine[ ])?(?:screws?|threads?|bolts?)$"
_ALONE = rf"(?i)(?P<word>{SOLE}){_SOLE_NOUN}"
_Reader = Callable[[str, re.Match[str]], WrittenThread]


def read_name(text: str) -> WrittenThread:
    """A written designation taken apart; case and blanks are free.

    InputError for text that is not written as a thread.

    >>> read_name("No. 6 B.A.").series, read_name("1/4-20").pitch
    (('BA',), Fraction(20, 1))
    """
    plain = " ".join(as_meant(text).split())
    if plain.lower().endswith(_NOUNS):
        plain = re.sub(_NOUN, "", plain)
    if not 0 < len(plain) <= MAX_LENGTH:
        raise _unread(text)
    lettered = plain[0].isalpha()
    worded = lettered and not plain[1:2].isdigit()
    if worded and (alone := re.fullmatch(_ALONE, plain)):
        return WrittenThread(text, _meant(alone["word"]), Fraction(1), sole=True)
    if worded and (first := re.fullmatch(_WORD_FIRST, plain) or re.fullmatch(_JOINED_FIRST, plain)):
        plain = f"{first['rest']} {first['word']}"
        lettered = plain[0].isalpha()
    by_letter = ((_METRIC_NAME, _metric), (_PIPE_NAME, _pipe)) if lettered else ()
    readers: tuple[tuple[str, _Reader], ...] = (*by_letter, (_INCH_NAME, _inch))
    for pattern, reader in readers:
        match = re.fullmatch(pattern, plain)
        if match is not None and (reader is not _inch or not match["word"] or _meant(match["word"])):
            try:
                return reader(text, match)
            except (ShopError, ValueError, ZeroDivisionError) as fault:
                raise _unread(text, str(fault)) from None
    raise _unread(text)


def _meant(word: str) -> tuple[str, ...]:
    """The series that a written word means; none for a word of no series."""
    able = _by_letters().get(_letters(word), ())
    return next((keys for spelled, keys in able if re.fullmatch(spelled, word, re.IGNORECASE)), ())


@cache
def _by_letters() -> dict[str, list[tuple[str, tuple[str, ...]]]]:
    """The words of all series, each as it is spelled and with the series that it means, by their letters and figures."""
    words: dict[str, list[tuple[str, tuple[str, ...]]]] = {}
    for known in (_KEYS, _KEYS_ALONE):
        for word, keys in known.items():
            words.setdefault(_letters(word), []).append((_spelled(word), keys))
    return words


def _letters(word: str) -> str:
    return "".join(filter(str.isalnum, word.casefold()))


def _unread(text: str, why: str = "") -> InputError:
    message = "expected the name of a thread" + (f": {why}" if why else "")
    return InputError(message, text, 0, len(text), ADVICE)


def _inch(text: str, match: re.Match[str]) -> WrittenThread:
    series = _meant(match["word"]) if match["word"] else ()
    tpi = match["tpi"] or match["after"]
    size = match["size"].strip()
    places = len(size.partition(".")[2]) if "." in size else None
    by_number = series and all(BY_KEY[key].size_is == "number" for key in series)
    counted = size.isdecimal() and not match["inches"] and not match["mm"]
    if by_number and (tpi or not counted):
        key = series[0]
        rule = BY_KEY[key].numbers
        example = BY_KEY[key].style.format(size=min(6, rule.last if rule else 6))
        raise ShopError(f"a {key} thread is a whole number and {key}, such as {example}")
    of_mm = [key for key in series if BY_KEY[key].size_is == "mm"]
    if (match["mm"] or match["per_mm"]) and not of_mm:
        raise ShopError(
            "its size is not in millimetres"
            if series
            else f"millimetres want the name of a series, or M before them{_with_its_form(match)}"
        )
    bar = None if match["no"] or match["inches"] or tpi else re.fullmatch("([0-9]{1,2})/([0-9]{1,2})", size)
    return WrittenThread(
        text,
        series,
        Fraction(1 - len(size)) if set(size) == {"0"} else number_value(size),
        match["no"] is not None,
        counted,
        (int(bar[1]), int(bar[2])) if bar else (),
        places,
        number_value(tpi) if tpi else None,
        dashed=bool(match["join"]) and "-" in match["join"],
        remarks=_remarks(match),
    )


def _with_its_form(match: re.Match[str]) -> str:
    """How a thread of no list is given, where its size and pitch are written in millimetres; else nothing."""
    if not (match["mm"] and match["tpi"]):
        return ""
    return f"; one of no list is given like this: {match['size']} mm x {match['tpi']} mm metric form"


def _metric(text: str, match: re.Match[str]) -> WrittenThread:
    series = MM_LETTERS[_as_listed(match["letter"], MM_LETTERS)]
    if match["kind"]:
        kind = match["kind"].lower()
        series = tuple(key for key in series if BY_KEY[key].kind == kind)
    if match["system"]:
        series = tuple(key for key in series if key in _meant(match["system"]))
    pitch = Fraction(match["pitch"]) if match["pitch"] else None
    return WrittenThread(
        text, series, Fraction(match["size"]), pitch=pitch, metric=True, remarks=_remarks(match)
    )


def _pipe(text: str, match: re.Match[str]) -> WrittenThread:
    letter = _as_listed(match["letter"], BORE_LETTERS)
    series = BORE_LETTERS[letter]
    own = tuple(filter(None, (dict(BY_KEY[key].letters)[letter] for key in series)))
    tpi = Fraction(match["tpi"]) if match["tpi"] else None
    return WrittenThread(
        text, series, number_value(match["size"].strip()), pitch=tpi, remarks=(*own, *_remarks(match)),
    )  # fmt: skip


def _as_listed(letter: str, letters: dict[str, tuple[str, ...]]) -> str:
    """A letter before a size as the records write it, whatever its case."""
    return next(known for known in letters if known.lower() == letter.lower())


def _remarks(match: re.Match[str]) -> tuple[str, ...]:
    remarks = []
    if match["class"]:
        remarks.append(f"the tolerance class {match['class']} was read past: figures are basic sizes")
    if match["hand"]:
        remarks.append("left hand")
    return tuple(remarks)
