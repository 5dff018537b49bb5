"""How drills and gauges are written: regular expressions that load no table.

They are for a grammar, so they are not anchored, hold no capturing group and look
ahead to leave threads (`#6-32`) and plain sums alone. Whether the size exists is for
`find_drill` and `find_gauge` to say.
"""

from __future__ import annotations

_NUMBER = r"(?:(?:No\b\.?|number\b|\#)[ ]*)"

#: The words that name a gauge series; a bare `gauge` or `ga` is read so that it can be refused.
_GAUGE_WORDS = (
    r"(?:S\.?W\.?G\b\.?|A\.?W\.?G\b\.?|B\.?W\.?G\b\.?|B[ ]?&[ ]?S\b|M\.?S\.?G\b\.?"
    r"|U\.?S\.?S?\.?W\.?G\b\.?|W[ ]?&[ ]?M\b|U\.?S\.?S?\.?G\b\.?"
    r"|(?:manufacturers?'?|mfrs?'?)(?:[ ]standard)?\b"
    r"|US[ ]standard\b(?:[ ]1893\b)?|US[ ]1893\b|steel[ ]wire\b"
    r"|galvani[sz]ed\b|Stubs'?[ ](?:steel|iron)(?:[ ]wire)?\b|zinc\b|wood[ ]?screw\b"
    r"|(?:sheet[ ])?(?:gauge|gage|ga)\b\.?)"
)
_GAUGE_TAIL = r"(?:[ ](?:sheet[ ])?(?:gauge|gage)\b)?"

#: `18 SWG`, `No 8 BWG`, `4/0 AWG`, `22AWG`, `No 8 wood screw`, `18 gauge` (to be refused).
GAUGE_PATTERN = (
    rf"(?i:{_NUMBER}?(?:[0-9]{{1,2}}/0|[0-9]{{1,7}})[ ]*{_GAUGE_WORDS}{_GAUGE_TAIL}(?![A-Za-z0-9]))"
)

_SIZE = (
    r"(?:[0-9]+/[0-9]+(?:[ ]*(?:in\b|inch\b|\"))?"
    r"|[0-9]+[ ]*(?:in\b|inch\b|\")"
    r"|(?:[0-9]+(?:\.[0-9]*)?|\.[0-9]+)(?:[ ]*mm\b)?)"
)
#: After `#43` these make it something else than a drill: a thread or a gauge.
_NOT_A_DRILL = rf"(?![0-9A-Za-z./]|-[0-9]|[ ]*(?:[x×](?![A-Za-z])|UN[A-Z]*\b|thread\b|tap\b|{_GAUGE_WORDS}))"

#: `No 43 drill`, `#43 drill`, `letter F drill`, `F drill`, `13/64 drill`, `5.1 mm drill`, `#43`.
DRILL_PATTERN = (
    rf"(?i:(?:{_NUMBER}[0-9]{{1,3}}|(?:letter[ ]+)?[A-Z]|{_SIZE})[ ]+drill\b"
    rf"|\#[0-9]{{1,3}}{_NOT_A_DRILL})"
)
