"""The plain forms in which things are asked at the bench: one table, each form with the statements that it may mean.

Patterns only: language/advice/bench_words.py says how a line is held against them.
"""

from __future__ import annotations

import re
from typing import NamedTuple

from fractions_shop.size import units
from fractions_shop.size.notation import GLYPHS
from fractions_shop.tables.patterns import GAUGE_WORDS
from fractions_shop.threads.records import BY_KEY, GROUPS


class BenchForm(NamedTuple):
    """A plain form: a pattern of the whole line, what is said of it, and the statements that it may mean.

    Of a statement that goes on from the last size, `ans` is that size. A statement with a figure of its own
    is worked out of those typed. With `example` it is not yet the statement that is meant: a figure is another's, or
    the rest is told behind it. `of_thread` says that it is meant only where a thread stands under `thread`, `joined`
    that figures typed apart are one.
    """

    pattern: str
    said: str
    statements: tuple[tuple[str, str], ...]
    of_thread: bool = False
    example: bool = False
    joined: bool = False


_ASK = r"(?:(?:what(?:'s)?|which|find|give(?: me)?|show(?: me)?|convert|the|a|size|of|is)\s+)*"
_HOLE = r"(?:drill|hole|size)?\s*(?:size\s+)?(?:for|of)?(?:\s+(?:an?|the))?"

_SHIMS = r"(?:shims?|packings?|packers?|strips?)\s+(?:are\s+)?(?:in|for|to make|make)"
_NUMBER = rf"(?:[0-9]+[ -])?[0-9]+/[0-9]+|[0-9]*\.?[0-9]+|[0-9]*[ -]?[{GLYPHS}]"
#: A letter and a grade of ISO 286-2.
_ZONE = r"(?:[A-HJ-NPR-Za-hj-npr-z]|[Jj][Ss]|[Zz][A-Ca-c])(?:[4-9]|1[0-8])"
_FITTED = r"(?:(?:square|hexagon|plain)\s+)?(?:lock-?nuts?|nuts?|washers?|(?:(?:cheese|round|pan|countersunk|csk|hexagon|hex|flat|oval)\s+)?heads?)"
_HEADS_SAID = "heads, nuts and washers are told with the thread that they are for"
_HEADS_MEANT = (("thread {thread}", " for all of them"), ("{thread}", " for the thread alone"))
#: A thing that is counted, with the size of each behind it: `slots of 1 1/4 in`.
_COUNTED_OF = r"(?!(?:in|mm|ft|inch(?:es)?)\s)[a-z]+\s+(?:of|at)\s+(?:about\s+)?"
_ENDS = "both ends are left alike; one of its own is taken off the total"
_UNIT = rf"(?:{units.alternatives('in', 'ft', 'mm', 'cm')})"
#: `width = ` before what is asked.
NAMED = re.compile(r"[A-Za-z_]\w* *=(?!=|>) *")
#: A size as it is usually written, with its unit: taken whole or not at all, so that a long list is looked through once.
A_SIZE = rf"(?>(?:[0-9]{{1,9}}[ -])?[0-9]{{1,9}}/[0-9]{{1,9}}|[0-9]{{0,9}}\.?[0-9]{{1,9}})(?>\s*(?:{units.alternatives('in', 'ft', 'mm', 'cm', 'thou')}))"
_A_SERIES = rf"(?:{'|'.join(sorted(map(re.escape, {*GROUPS, *BY_KEY}), key=len, reverse=True))})"
_SERIES = rf"(?P<series>{_A_SERIES})"
_GAUGES = "|".join(map(re.escape, GAUGE_WORDS))
_INSTEAD = "what stands in for a thread is asked with substitute"
_OTHER_UNITS = (
    "a size is shown in other units with as, and what stands in for a thread is asked with substitute"
)
_IN = r"\s+(?:in|into|to|as)\s+"
_BY_FORM = "a thread of no list is told by its major, its pitch and its form"
_SLOPE = "a taper of no table is told by its two ends and its length"

_DIVISION = r"(?:1/(?P<of>4|8|16|32|64|128)(?:th|nd)?|(?P<parts>(?:4|8|16|32|64|128)(?:th|nd)))"
_HOLES_IN = (
    r"(?:space|mark|drill|places|set out|lay out)?\s*(?P<count>[2-9]|[1-9][0-9])\s+(?:(?:[a-z]+\s+)?holes\s+(?:equally\s+|evenly\s+)?(?:spaced\s+)?"
    rf"(?:across|in|over|along|on)|across|along)\s+(?P<size>{A_SIZE}|[A-Za-z_]\w*)"
)
_HOLES_MARKED = "places along a length are asked with mark, by the spaces between them"
_CIRCLE = r"(?:PCD|P\.C\.D\.|pitch circle|bolt[ -]circle|circle)"
_ON_A_CIRCLE = "holes on a circle are a function of how many and the diameter"
_BOLT_CIRCLE = ("bolt_circle({count}, {size})", "")
_IN_BRACKETS = "what a function takes goes in brackets"
#: Sizes with no more than blanks, commas or `and` between them.
_A_LIST = rf"(?P<list>{A_SIZE}(?:(?:\s*[,;]\s*|\s+and\s+|\s+){A_SIZE})+)"
_BESIDE = r"(?:\s+(?:dia(?:meter|\.)?|major|od|x|by|and|with))*[,]?\s+(?:pitch\s+(?:of\s+)?)?"
_BY_MAJOR = "a thread is found by its major and pitch"
_AMONG = "the tables to look in stand behind 'among'"
_MEANT = "what a worn size was meant to be is asked with recover"

#: What may stand behind the sizes of a request, and is no size.
SMALLER_WORDS = r"scale|off|within|by|worn|made|shrunk|plated|among|in\s+(?:inch|metric|either)\s+work|on|to|from|leaving|between|up|down|along|saw"

#: Likeliest first. What is said in a statement's second half follows it in the advice.
FORMS = (
    BenchForm(rf"{_ASK}(?:tap(?:ping)?\s+)?drill\s+(?:size\s+)?(?:for|to tap)\s+(?:an?\s+)?(?P<thread>.+)",
              "the drill for a thread is one of two", (("tapping({thread})", " to tap it"), ("clearance({thread})", " to clear it"))),
    BenchForm(rf"{_ASK}tap(?:ping)?\s+{_HOLE}\s*(?P<thread>.+)", "the hole to tap is a function of the thread", (("tapping({thread})", ""),)),
    BenchForm(rf"{_ASK}clear(?:ance|ing)?\s+{_HOLE}\s*(?P<thread>.+)", "the hole to clear is a function of the thread", (("clearance({thread})", ""),)),
    BenchForm(r"(?:clearance\s*\(?\s*)?(?P<room>close|free|medium)(?:\s+(?:clearance|fit|hole))*(?:\s+for)?\s*[( ]\s*(?P<thread>[^()]+?)\)?|clearance\s*\(?\s*(?P<other>[^,()]+?)\)?\s*,?\s*(?:close|free|medium)\)?", "a clearance hole is the medium one, and the thread tells all three",
              (("thread {thread}{other}", " for all three"), ("clearance({thread}{other})", " for the medium one"))),
    BenchForm(rf"{_ASK}(?P<part>pitch|major|minor|effective)(?:\s+dia(?:meter|\.)?)?\s+(?:of|for)?\s*(?P<thread>.+)",
              "a part of a thread is a function of it", (("{part}({thread})", ""),)),
    BenchForm(rf"{_ASK}(?:nearest|closest|what)\s+drill\s+(?:to|is|for|at)\s+(?P<size>.+)", "the drills about a size are asked with drill", (("drill {size}", ""),)),
    BenchForm(rf"{_ASK}(?:nearest|closest|what)\s+gauge\s+(?:to|is|for|at)\s+(?P<size>.+)", "the gauges about a size are asked with gauge", (("gauge {size}", ""),)),
    BenchForm(rf"{_ASK}(?:what\s+)?thread\s+(?:is|has)\s+(?P<size>.+)", _BY_MAJOR, (("identify {size}", ""),)),
    BenchForm(rf"{_ASK}(?:spanner|wrench)(?:\s+size)?\s+(?:(?:to\s+)?fits?|for|do i need for)?\s*(?:(?:an?|the)\s+)?(?P<thread>.+)",
              "the spanner for a hexagon is asked with spanner", (("spanner {thread}", ""),)),
    BenchForm(r"(?P<thread>.+?)\s+(?:spanner|wrench)", "the spanner for a hexagon is asked with spanner", (("spanner {thread}", ""),)),
    BenchForm(rf"{_ASK}{_FITTED}\s+(?:size\s+)?(?:(?:for|of|to fit)\s+)?(?:(?:an?|the)\s+)?(?P<thread>.+)", _HEADS_SAID, _HEADS_MEANT),
    BenchForm(rf"{_ASK}(?P<thread>.+?)\s+(?:size\s+)?{_FITTED}(?:\s+sizes?)?", _HEADS_SAID, _HEADS_MEANT),
    BenchForm(rf"{_ASK}(?P<thread>.+?){_IN}(?:metric|mm)(?:\s+(?:threads?|screws?|sizes?))?", _OTHER_UNITS,
              (("{thread} as mm", " for its size"), ("substitute {thread} from metric", " for a metric thread in its place")), True),
    BenchForm(rf"{_ASK}(?P<size>.+?){_IN}metric(?:\s+(?:units|sizes?))?", "a size is shown in other units with as", (("{size} as mm", ""),)),
    BenchForm(rf"{_ASK}(?P<size>.+?){_IN}imperial(?:\s+(?:units|sizes?))?", "a size is shown in other units with as", (("{size} as in", ""),)),
    BenchForm(rf"{_ASK}(?P<thread>.+?)\s+{_SERIES}\s+(?:equivalents?|replacements?|substitutes?)", _INSTEAD, (("substitute {thread} from {series}", ""),), True),
    BenchForm(rf"{_ASK}(?:(?:nearest|closest|equivalent)\s+)*{_SERIES}(?:\s+(?:threads?|screws?|bolts?|sizes?|equivalents?|equals?|replacements?|substitutes?|stand-?ins?|is|nearest))*"
              r"\s+(?:for|to|of|like|instead of|in place of)\s+(?:(?:an?|the)\s+)?(?P<thread>.+)", _INSTEAD, (("substitute {thread} from {series}", ""),), True),
    BenchForm(rf"{_ASK}(?P<thread>.+?)\s+(?:in|to|as)\s+{_SERIES}(?:\s+(?:threads?|equivalents?))?", _INSTEAD, (("substitute {thread} from {series}", ""),), True),
    BenchForm(rf"{_ASK}(?:taper|slope)\s+(?:of\s+)?(?P<rise>{_NUMBER})\s*(?:in|:|to)\s*(?P<run>{_NUMBER})", _SLOPE,
              (("taper_angle({rise} in, 0 in, {run} in)", " for its angle"), ("taper_per_foot({rise} in, 0 in, {run} in)", " for the taper in a foot"))),
    BenchForm(r"(?:taper|slope)\s+(?:of\s+)?(?P<rise>.+?)\s+(?:per|in a|a|to the)\s+(?:ft|foot)\.?", _SLOPE,
              (("{rise} per ft", " for the slope"), ("taper_angle({rise}, 0 in, 1 ft)", " for its angle"))),
    BenchForm(rf"(?P<call>[a-z_]+)\(\s*(?P<size>{_NUMBER})\s*mm\s*[x×]\s*(?P<pitch>{_NUMBER})(?:\s*mm)?\s*\)", _BY_FORM,
              (("{call}({size} mm x {pitch} mm metric form)", " for the metric form"),)),
    BenchForm(rf"(?P<call>[a-z_]+)\(\s*(?P<size>{_NUMBER})\s*(?:in|\")?\s*[x×]\s*(?P<pitch>{_NUMBER})\s*tpi\s*\)", _BY_FORM,
              (("{call}({size} in x {pitch} tpi unified form)", " for the unified form"), ("{call}({size} in x {pitch} tpi Whitworth form)", " for Whitworth's"))),
    BenchForm(rf"(?:taper(?:s|ed|ing)?\s+)?(?:from\s+)?(?P<large>{A_SIZE})\s+(?:taper(?:s|ed|ing)?\s+)?(?:down\s+)?to\s+(?P<small>{A_SIZE})\s+(?:over|in|on|along)\s+(?P<run>{A_SIZE})(?:\s+long)?", _SLOPE,
              (("taper_per_foot({large}, {small}, {run})", " for the taper in a foot"), ("taper_angle({large}, {small}, {run})", " for its angle"))),
    BenchForm(rf"{_ASK}(?:rise|slope|gradient|incline|taper)s?\s+(?:of\s+)?(?P<rise>{A_SIZE})\s+(?:over|in|on|for|to)\s+(?P<run>{A_SIZE})", "what rises over a length may be straight or an arc",
              (("taper_per_foot({rise}, 0 in, {run})", " for a straight slope"), ("radius_from({run}, {rise})", " for the radius of an arc"))),
    BenchForm(rf"{_ASK}(?:radius|arc|curve|crown|bow)\s+(?:(?:of|from|for|an?|the|arc|curve|chord|width|span)\s+)*(?P<chord>{A_SIZE})(?:\s+(?:wide|across|chord|long|span))?[,]?\s+(?:(?:and|with|an?|by|rise|height|sagitta|of)\s+)*(?P<high>{A_SIZE})(?:\s+(?:high|rise|deep|tall|sagitta))?",
              "the radius of an arc is a function of its chord and height", (("radius_from({chord}, {high})", ""),)),
    BenchForm(rf"{_ASK}reamer\s+for\s+(?:(?:an?|the)\s+)?(?P<taper>.+)", "a reamer cuts the taper of its pin", (("{taper}", ""),)),
    BenchForm(rf"how many\s+(?P<shim>.+?)\s+{_SHIMS}\s+(?P<size>.+)", "shims for a height are asked with pack", (("pack {size} from {shim}", ""),)),
    BenchForm(rf"how many\s+(?P<shim>[0-9]+/[0-9]+)\s+{_SHIMS}\s+(?P<size>.+)", "shims for a height are asked with pack",
              (("pack {size} from {shim} in", ""),)),
    BenchForm(rf"how many\s+{_COUNTED_OF}(?P<each>.+?)\s+(?:are\s+)?(?:there\s+)?(?:(?:(?:can|will|do)\s+(?:i|we|you)\s+)?(?:go|fit|get)\s+)?(?:out of|in|into|to|from|on|along)\s+(?P<size>(?!in\b).+)",
              "how often one size goes into another is a division, and spaces of about a size are asked with divide",
              (("{size} / ({each})", " for how often"), ("divide {size} into spaces of about {each}", " for spaces"))),
    BenchForm(r"how many\s+(?P<each>.+?)\s+(?:are\s+)?(?:there\s+)?(?:(?:go|fit)\s+)?(?:in|into|to)\s+(?P<size>(?!in\b).+)",
              "how often one size goes into another is a division", (("{size} / ({each})", ""),)),
    BenchForm(r"(?P<count>[0-9]+)\s*@\s*(?P<size>.+)", "@ may stand for so many pieces, or for a product",
              (("{count} of {size}", " for so many pieces"), ("{count} * {size}", " for a product"))),
    BenchForm(r"(?P<count>[0-9]+)\s*[x×]\s*(?P<size>[0-9]+.*)", "x may stand for so many pieces, a product or two sides",
              (("{count} of {size}", " for so many pieces"), ("{count} * {size}", " for a product"))),
    BenchForm(r"(?P<name>(?![MG][0-9])[^\W\d]\w*)\s+[x×]\s*(?P<rest>[^\s=].*)", "x stands between the sides of a thing, and a product is written with *",
              (("{name} * {rest}", ""),)),
    BenchForm(rf"{_HOLES_IN}(?:,|\s+with|\s+and)?\s+(?:the\s+)?(?:ends?\s+(?:of\s+|at\s+)?(?P<end>{A_SIZE})|(?:(?:first(?: and last)?|outer(?: ones)?)\s+)?(?:at\s+)?(?P<also>{A_SIZE})\s+(?:(?:in\s+)?(?:from|at|off)\s+)?(?:each|the|both|either)\s+ends?)", _HOLES_MARKED,
              (("mark {size} into {between} leaving {end}{also} each end", " for the first and the last so far from the ends"),)),
    BenchForm(_HOLES_IN, _HOLES_MARKED,
              (("mark {size} into {between}", " for one at each end"), ("mark {size} into {with_ends}", " for none at the ends"))),
    BenchForm(rf"{_ASK}(?P<count>[0-9]+)\s+(?:[a-z]+\s+)?holes\s+(?:equally\s+spaced\s+)?(?:on|in|round|around)\s+(?:an?\s+)?(?P<size>{A_SIZE})\s*(?:dia(?:meter|\.)?\s*)?{_CIRCLE}", _ON_A_CIRCLE, (_BOLT_CIRCLE,)),
    BenchForm(rf"{_CIRCLE}\s+(?:of\s+)?(?P<size>{A_SIZE})(?:\s+dia(?:meter|\.)?)?[,]?\s+(?:with\s+)?(?P<count>[0-9]+)\s+holes", _ON_A_CIRCLE, (_BOLT_CIRCLE,)),
    BenchForm(rf"(?P<size>{A_SIZE})\s+(?:in|into|by)?\s*(?P<count>[0-9]+)\s+(?:equal\s+|even\s+)?(?:parts|spaces|pieces|divisions|gaps)", "that is asked with divide",
              (("divide {size} into {count}", ""),)),
    BenchForm(r"(?P<size>.+?)\s*/\s*(?P<count>[0-9]+)\s+on\s+(?P<rule>[0-9]+(?:ths|nds)|mm|half mm)", "spaces on a rule are asked with divide",
              (("divide {size} into {count} on {rule}", ""), ("snap {size} / {count} to {rule}", " for the size alone"))),
    BenchForm(rf"(?:what(?:'s|\s+is)|how\s+much\s+is)\s+(?P<size>{A_SIZE})", "a statement begins with its size or its request", (("{size}", ""),)),
    BenchForm(r"(?:the\s+)?(?P<name>(?!(?:what|which|who|how|where|when|why|this|that|it|there|he|here)\b)[A-Za-z_]\w*)(?:\s+(?:is|equals)\s+|\s*(?::=|==)\s*)(?P<size>.+)", "a size is given its name with =", (("{name} = {size}", ""),)),
    BenchForm(rf"(?P<size>.+?)\s+(?:in|to|on)\s+(?:the\s+)?(?:nearest|closest)\s+{_DIVISION}s?", "that is asked with snap",
              (("snap {size} to {division}s", ""),)),
    BenchForm(rf"{_ASK}(?:nearest|closest)\s+{_DIVISION}s?\s+(?:to|of|for)\s+(?P<size>.+)", "that is asked with snap",
              (("snap {size} to {division}s", ""),)),
    BenchForm(rf"{_ASK}(?:nearest|closest)\s+(?:mark|fraction|size|division)\s+(?:to|of|for)\s+(?P<size>.+)", "that is asked with snap",
              (("snap {size}", ""),)),
    BenchForm(rf"(?P<size>{A_SIZE})\s+(?:(?:to|as)\s+)?(?:an?\s+|the\s+)?(?:nearest\s+)?fraction", "that is asked with snap",
              (("snap {size}", ""),)),
    BenchForm(rf"{_ASK}(?:nearest|closest)\s+(?P<what>drill|gauge)\s+(?P<size>[0-9.].*)", "what stands about a size is asked by its table's word",
              (("{what} {size}", ""),)),
    BenchForm(r"letter\s+drill\s+(?P<letter>[A-Z])", "a drill is called by its letter", (("letter {letter} drill", ""),)),
    BenchForm(rf"fit\s+(?P<zone>{_ZONE}(?:\s*/\s*{_ZONE})?)\s+(?:at|on|for|of)?\s*(?P<size>[0-9.].*)", "the size of a fit stands before its zones",
              (("fit {size} {zone}", ""),)),
    BenchForm(rf"(?:what\s+(?:was|is|were)\s+)?(?P<size>{A_SIZE}(?:\s*,\s*{A_SIZE})*)\s+(?:was\s+|were\s+)?(?:meant|intended)(?:\s+(?:to be|for))?", _MEANT, (("recover {size}", ""),)),
    BenchForm(rf"{_ASK}(?:was|worn|(?:i\s+)?measured?|measures|measuring|calipers? says?|caliper reads)\s+(?P<size>{A_SIZE}(?:\s*,\s*{A_SIZE})*)(?:\s+(?:worn|measured|now))?", _MEANT, (("recover {size}", ""),)),
    BenchForm(rf"recover\s+(?P<size>{A_SIZE})\s+(?:threads?|screws?|bolts?|among\s+(?:the\s+)?{_A_SERIES})", _AMONG, (("recover {size} among threads", ""),)),
    BenchForm(rf"recover\s+(?P<size>{A_SIZE})\s+(?:gauges?|wires?|sheets?|among\s+(?:the\s+)?(?:{_GAUGES}))", _AMONG, (("recover {size} among gauges", ""),)),
    BenchForm(rf"recover\s+(?P<size>{A_SIZE})\s+(?:outside|inside|internal|external|shaft|pin|spindle|overall|od|id)(?:\s+dia(?:meter|\.)?)?", "what is said of the size is left out", (("recover {size}", ""),)),
    BenchForm(rf"identify\s+(?:thread\s+|screw\s+)?(?P<size>{A_SIZE})\s*(?:[x×]|\s)\s*(?P<tpi>[1-9][0-9])", _BY_MAJOR, (("identify {size}, {tpi} tpi", ""),)),
    BenchForm(r"(?P<lead>(?:mm|millimet(?:re|er)s?|inch(?:es)?|metric|imperial)\s+first)", "which figures stand first is said with units", (("units {lead}", ""),)),
    BenchForm(rf"recover\s+(?P<list>{A_SIZE}(?:(?:\s+|\s*;\s*|\s+and\s+){A_SIZE})+)(?P<rest>(?:\s+(?:by|within|among|worn|off)\s.*)?)", "the sizes of a list are parted by commas",
              (("recover {commas} {rest}", ""),)),
    BenchForm(rf"(?P<line>.+?),\s*(?P<smaller>(?:{SMALLER_WORDS})\b.*)", "the smaller words of a request stand behind it without a comma",
              (("{line} {smaller}", ""),)),
    BenchForm(rf"{_ASK}(?:identify|thread|screw)\s+(?:(?:thread|screw|with|is|major)\s+)*(?P<size>{A_SIZE}){_BESIDE}(?P<pitch>[0-9.]+\s*(?:tpi|mm|t\.p\.i\.?))(?:\s+pitch)?", _BY_MAJOR,
              (("identify {size}, {pitch}", ""),)),
    BenchForm(rf"{_ASK}(?P<size>{A_SIZE}){_BESIDE}(?P<pitch>[0-9.]+\s*(?:tpi|t\.p\.i\.?|mm\s+(?=pitch)))(?:\s*pitch)?", _BY_MAJOR,
              (("identify {size}, {pitch}", ""),)),
    BenchForm(r"(?P<number>[0-9]+)\s*(?:g|ga|gauge)\s+(?:brass|copper|steel|tin|tinplate|iron|zinc|sheet|wire|nickel silver|german silver)(?P<rest>\s+as\s+\w+)?", "a gauge number means a size only with its series",
              (("{number} SWG{rest}", " for the British gauge"), ("{number} AWG{rest}", " for the American"))),
    BenchForm(r"(?P<size>.+?)\s+\+\s+or\s+-\s+(?P<by>.+)", "limits are written with ±", (("{size} ± {by}", ""),)),
    BenchForm(r"check\s+(?P<size>.+?)\s+(?:is\s+)?(?:between|from)\s+(?P<low>.+?)\s+(?:and|to)\s+(?P<high>.+)", "a check between two sizes is two checks",
              (("check {size} is at least {low}", " on one line, and check {size} is at most {high} on the next"),), example=True),
    BenchForm(r"check\s+(?P<size>.+?)\s+(?:is\s+)?(?:fits?(?:\s+in(?:side|to)?)?|goes in(?:to|side)?|(?:is\s+)?(?:under|below))\s+(?P<over>[^\s].*)", "a check of one side says is at most, which lets in the size itself",
              (("check {size} is at most {over}", ""),)),
    BenchForm(r"check\s+(?P<size>.+?)\s*(?:(?:is\s+)?(?:about|around|nearly|roughly|approximately)|~|≈)\s*(?P<other>.+)", "how near the two sides are to be stands behind within",
              (("check {size} = {other} within 1/64 in", ""),), example=True),
    BenchForm(r"(?P<name>[A-Za-z_]\w*)\s*=\s*(?P<size>.+?)\s+within\s+(?P<by>.+)", "limits of a size are written with ±, and check asks whether it is one",
              (("{name} = {size} ± {by}", " to give it limits"), ("check {name} = {size} within {by}", " to ask"))),
    BenchForm(r"(?:is|does)\s+(?:the\s+)?(?P<name>[A-Za-z_]\w*)\s+clear\s+(?P<size>.+)", "that is asked with check", (("check {name} clears {size}", ""),)),
    BenchForm(rf"(?:is|does)\s+(?:the\s+)?(?P<name>[A-Za-z_]\w*)\s+(?:equal\s+|make\s+|=\s*)?(?P<size>{A_SIZE})", "that is asked with check", (("check {name} = {size}", ""),)),
    BenchForm(r"(?:check\s+)?(?:that\s+)?(?P<size>.+?)\s+(?:is\s+)?within\s+(?P<near>.+?)\s+of\s+(?P<other>.+)", "how near two sizes are is asked with check",
              (("check {size} = {other} within {near}", ""),)),
    BenchForm(r"(?P<size>.+?)\s+round(?:ed)?(?:\s+off)?(?:\s+(?P<way>up|down))?\s+to\s+(?:the\s+)?(?:nearest\s+)?(?P<on>[0-9]+(?:ths|nds)|half mm|mm)", "that is asked with snap",
              (("snap {size} to {on} {way}", ""),)),
    BenchForm(r"round\s+(?P<way>up|down)\s+(?P<size>.+?)\s+to\s+(?:the\s+)?(?:nearest\s+)?(?P<on>[0-9]+(?:ths|nds)|half mm|mm)", "that is asked with snap",
              (("snap {size} to {on} {way}", ""),)),
    BenchForm(r"snap\s+(?P<size>.+?)\s+(?P<on>[0-9]+(?:ths|nds)|half mm|mm)", "the rule comes after 'to'", (("snap {size} to {on}", ""),)),
    BenchForm(rf"(?P<count>{_NUMBER})\s*[x×]\s*(?P<size>[A-Za-z_]\w*)", "a product is written with *", (("{count} * {size}", ""),)),
    BenchForm(rf"(?P<size>(?![MG][0-9])[A-Za-z_]\w*)\s+(?:[x×]|times)\s*(?P<count>{_NUMBER})", "a product is written with *", (("{size} * {count}", ""),)),
    BenchForm(r"(?:twice|double)\s+(?:(?:of|the)\s+)*(?P<size>[A-Za-z_]\w*)", "a product is written with *", (("2 * {size}", ""),)),
    BenchForm(r"half\s+(?:(?:of|the)\s+)*(?P<size>[A-Za-z_]\w*)", "a part of a size is written in figures", (("{size} / 2", ""),)),
    BenchForm(rf"(?P<word>divide|mark)\s+(?P<size>.+?)\s+into\s+(?P<n>[0-9]+)(?:\s+[a-z]+)?,?\s+(?:with\s+)?(?P<each>{A_SIZE})\s+(?:in\s+)?between(?:\s+(?:each|them))?", "the bodies between the spaces stand behind 'between'",
              (("{word} {size} into {n} between {each}", " for one at each end as well"), ("{word} {size} for {inside} of {each}", " for those inside alone"))),
    BenchForm(r"(?:an?\s+)?(?P<off>[0-9]+/[0-9]+)\s+(?:short of|shy of|under|below|less than)\s+(?:an?\s+)?(?P<size>(?:[0-9]+[ -])?[0-9]+/[0-9]+)", "a difference is written with -, each size with its unit",
              (("{size} in - {off} in", ""),)),
    BenchForm(rf"{_ASK}(?:circumference|girth|perimeter|distance round)\s+(?:(?:of|a|an|the|circle|round)\s+)*(?P<size>{A_SIZE})(?:\s+(?:circle|dia(?:meter|\.)?|round))*", "the way round a circle is a function of its diameter",
              (("girth({size})", ""),)),
    BenchForm(rf"{_ASK}(?:diagonal|hypotenuse|long side)\s+(?:(?:of|a|an|the)\s+)*(?P<size>{A_SIZE})[,]?\s+(?:(?:by|and|x)\s+)?(?P<other>{A_SIZE})", "the long side of a right angle is a function of the others",
              (("hypot({size}, {other})", ""),)),
    BenchForm(rf"{_ASK}(?:max(?:imum)?|largest|greatest)\s+(?:of\s+)?{_A_LIST}", _IN_BRACKETS, (("max({commas})", ""),)),
    BenchForm(rf"{_ASK}(?:min(?:imum)?|smallest|least)\s+(?:of\s+)?{_A_LIST}", _IN_BRACKETS, (("min({commas})", ""),)),
    BenchForm(rf"{_ASK}(?:sum|total)\s+(?:of\s+)?{_A_LIST}", "a sum is written with +", (("{added}", ""),)),
    BenchForm(rf"{_ASK}(?:average|mean)\s+(?:of\s+)?{_A_LIST}", "an average is a sum divided by how many there are", (("({added}) / {many}", ""),)),
    BenchForm(r"(?P<call>sin|cos|tan)\s*(?P<angle>[0-9.]+)\s*(?:deg(?:rees)?|°)?(?P<rest>\s*[*/x×].+)?", _IN_BRACKETS, (("{call}({angle} deg) {rest}", ""),)),
    BenchForm(rf"(?P<size>{A_SIZE})\s*(?P<sign>[*/x×])\s*(?P<call>sin|cos|tan)\s*(?P<angle>[0-9.]+)\s*(?:deg(?:rees)?|°)?", _IN_BRACKETS, (("{size} {sign} {call}({angle} deg)", ""),)),
    BenchForm(r"(?P<size>[0-9.]+\s*m)\s*(?P<other>[0-9.]+\s*(?:cm|mm))", "only feet and inches may stand side by side without a sign", (("{size} + {other}", ""),)),
    BenchForm(r"(?P<front>(?:[0-9]+[ -])?)(?P<size>[0-9]+)\\(?P<other>[0-9]+)(?P<rest>\s*(?:in|\")?)", "a fraction is written with /", (("{front} {size}/{other} {rest}", ""),), joined=True),
    BenchForm(r"(?P<size>[0-9]{1,3}) (?P<other>[0-9]{3})(?P<rest>\s*mm)", "thousands are written without a blank", (("{size}{other} {rest}", ""),), joined=True),
    BenchForm(r"(?P<size>(?:[0-9]+[ -])?[0-9]+/[0-9]+)\s*[Øø⌀R]", "a size has its unit behind it",
              (("{size} in", ""),)),
    BenchForm(rf"(?P<first>{_NUMBER})\s+plus\s+(?P<second>[0-9]+/[0-9]+)", "a sum is written with +, each size with its unit",
              (("{first} in + {second} in", ""),)),
    BenchForm(r"mark\s+(?P<size>.+?)\s+(?:every|at every|each)\s+(?P<each>.+)", "spaces of about a size are asked with divide",
              (("divide {size} into spaces of about {each}", ""),)),
    BenchForm(r"(?:space|spaces|holes?|pitch)\s+(?P<size>.+?)\s+(?:every|at every)\s+(?P<each>.+)", "spaces of about a size are asked with divide",
              (("divide {size} into spaces of about {each}", ""),)),
    BenchForm(r"divide\s+(?P<size>.+?)\s+(?P<into>(?:into|for)\s.+?)\s+leaving\s+(?P<left>[^,]+?)(?:,|,?\s+and)\s+(?P<right>[^,]+)", _ENDS,
              (("divide {size} - ({left}) - ({right}) {into}", ""),)),
    BenchForm(r"mark\s+(?P<size>.+?)\s+(?P<into>(?:into|for)\s.+?)\s+leaving\s+(?P<left>[^,]+?)(?:,|,?\s+and)\s+(?P<right>[^,]+)", _ENDS,
              (("mark {size} - ({left}) - ({right}) {into}", " with from and the first end behind it"),)),
    BenchForm(r"(?P<word>divide|mark)\s+(?P<size>.+?)\s+(?P<into>(?:into|for)\s.+?)\s+leaving\s+(?P<left>[^,]+?)(?:\s+(?:at\s+)?(?P<where>one|either|both)\s+ends?)?", _ENDS,
              (("{word} {size} {into} leaving {left} each end", " for as much at each"), ("{word} {size} - ({left}) {into}", " for one end alone"))),
    BenchForm(rf"[Øø⌀]?\s*(?P<size>[0-9]+(?:\.[0-9]+)?)\s*(?P<zone>{_ZONE}(?:/{_ZONE})?)",
              "the limits of a zone are asked with fit", (("fit {size} mm {zone}", ""),)),
)  # fmt: skip

#: The part line that two sides may be.
PIECE = "part piece: 1, {across} {unit} by {up} {shared}"
#: Sides of a piece, told at the prompt alone: elsewhere they are several sizes, and none is offered for them.
SIDES = (
    BenchForm(rf"(?P<across>{_NUMBER})\s*(?P<unit>{_UNIT})?\s*(?:x|×|by)\s*(?P<up>{_NUMBER})\s*(?P<shared>{_UNIT})\.?", "two sides are two sizes",
              (("{across} {unit} * {up} {shared}", " for the area"),)),
)  # fmt: skip

#: Lines that go on from the last size; a line that begins with + or - and a blank does so too.
GOES_ON = (
    BenchForm(r"(?P<sign>[*/×÷^])\s*(?P<rest>.+)", "this goes on from the last size", (("ans {sign} {rest}", ""),)),
    BenchForm(r"(?P<sign>[-+])\s+(?P<rest>.+)", "this goes on from the last size", (("ans {sign} {rest}", ""),)),
    BenchForm(r"(?:in|as|to)\s+(?P<rest>[0-9A-Za-z. ]+?)", "this goes on from the last size", (("ans as {rest}", ""),)),
    BenchForm(r"(?P<word>snap)(?:\s+(?P<rest>(?:to|up|down|within)\b.*))?", "this goes on from the last size", (("snap ans {rest}", ""),)),
    BenchForm(r"(?P<word>divide|mark)\s+(?P<rest>into\b.+)", "this goes on from the last size", (("{word} ans {rest}", ""),)),
)  # fmt: skip

#: How a few of them begin, for a line that is still being typed.
EXAMPLES = (
    "what drill for 6 BA", "which drill for 6 BA", "how many 1/8 shims in 1 in", "how many 13/32 in in 2 in", "mark 2 in every 13/32 in",
    "what gauge is 0.048 in", "what thread is 0.108 in, 48 tpi", "nearest drill to 2.36 mm", "clearance hole for 6 BA",
    "tapping drill for 6 BA", "which spanner for M10", "12 @ 13/32 in",
)  # fmt: skip
