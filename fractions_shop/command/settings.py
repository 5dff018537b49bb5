"""What a maker sets once: the working rule, what leads, the digits shown, and the drawn rule on or off.

The settings lie in one small TOML file in the user's config folder:

    rule = "32nds"
    units = "mm first"
    digits = 5
    picture = false

A missing file is no fault. A bad one is named with its line, and the defaults serve.
"""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

from fractions_shop.errors import ShopError, visible
from fractions_shop.files.bounded import first_bytes
from fractions_shop.size.notation import LEADS
from fractions_shop.size.rule import Rule

FOLDER = "fractions-shop"
#: A longer file is not a file of settings.
MAX_BYTES = 64_000
MOST_DIGITS = 12


class Settings(NamedTuple):
    """The settings, as they serve when nothing is set.

    `digits` is how many decimal places an answer shows at most; `picture` whether a
    rule is drawn under an answer; `units` says what leads, as the request does, if anything is to.
    """

    rule: str = "64ths"
    digits: int = 6
    picture: bool = True
    units: str = ""


def read_settings(path: Path | None = None) -> tuple[Settings, tuple[str, ...]]:
    """The user's settings, and a sentence for each thing in the file that cannot serve.

    Reads settings.toml in the config folder unless told another `path`. Never raises
    for what the file holds: the default takes the place of what is bad.
    """
    try:
        path = settings_path() if path is None else path
        data = first_bytes(path, MAX_BYTES + 1, waits=False)
    except FileNotFoundError:
        return Settings(), ()
    except (OSError, RuntimeError) as error:
        reason = getattr(error, "strerror", None) or error
        return Settings(), (
            f"the settings file {_shown(path)} cannot be read ({reason}): the usual settings serve",
        )
    if len(data) > MAX_BYTES:
        return Settings(), (
            f"the settings file {_shown(path)} is too long to be one: the usual settings serve",
        )
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = data[: error.start].count(b"\n") + 1
        return Settings(), (_complaint(path, line, "this is not UTF-8 text", "the usual settings serve"),)
    return _read(path, text)


def _read(path: Path, text: str) -> tuple[Settings, tuple[str, ...]]:
    import tomllib  # only when there is a file: most people have none, and it costs a start

    try:
        table = tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        message, line = _toml_fault(str(error), text)
        return Settings(), (_complaint(path, line, message, "the usual settings serve"),)
    kept: dict[str, Any] = {}
    complaints: list[str] = []
    for key, value in table.items():
        check = _CHECKS.get(key)
        problem = (
            f"{visible(key)} is not a setting: there are {', '.join(_CHECKS)}"
            if check is None
            else check(value)
        )
        if problem is None:
            kept[key] = value
            continue
        usual = "" if check is None else getattr(Settings(), key) or "the usual order"
        instead = f"{usual} serves".replace("True", "true") if usual else ""
        complaints.append(_complaint(path, _line_of(key, text), problem, instead))
    return Settings(**kept), tuple(complaints)


def _complaint(path: Path, line: int, problem: str, instead: str) -> str:
    return f"settings file {_shown(path)}, line {line}: {problem}{f'; {instead}' if instead else ''}"


def _shown(path: Path | None) -> str:
    return visible(str(path))


def _toml_fault(message: str, text: str) -> tuple[str, int]:
    """What is wrong and in which line, from the reader's message."""
    place = re.search(r" \(at (?:line ([0-9]+), column [0-9]+|end of document)\)", message)
    if place is None:
        return message.lower(), 1
    line = int(place[1]) if place[1] else len(text.splitlines()) or 1
    reason = message[: place.start()]
    return f'{reason[:1].lower()}{reason[1:]} (write it as: rule = "32nds")', line


def _line_of(key: str, text: str) -> int:
    pattern = re.compile(rf"\s*\[?\s*[\"']?{re.escape(key)}[\"']?\s*[=.\]]")
    return next((n for n, line in enumerate(text.splitlines(), 1) if pattern.match(line)), 1)


def _check_rule(value: Any) -> str | None:
    try:
        Rule(value)
    except (ShopError, TypeError):
        return f'rule cannot be {value!r}: write rule = "64ths", "32nds", "mm" or another rule'
    return None


def _check_digits(value: Any) -> str | None:
    if isinstance(value, int) and not isinstance(value, bool) and 1 <= value <= MOST_DIGITS:
        return None
    return f"digits must be a whole number from 1 to {MOST_DIGITS}, not {value!r}"


def _check_picture(value: Any) -> str | None:
    return None if isinstance(value, bool) else f"picture must be true or false, not {value!r}"


def _check_units(value: Any) -> str | None:
    if isinstance(value, str) and " ".join(value.lower().split()) in ("", *LEADS):
        return None
    return f'units cannot be {value!r}: write units = "mm first", or another of {", ".join(LEADS)}'


_CHECKS: dict[str, Callable[[Any], str | None]] = {
    "rule": _check_rule,
    "digits": _check_digits,
    "picture": _check_picture,
    "units": _check_units,
}


# Where things lie


def settings_path() -> Path:
    """Where the settings file of this user is, whether or not there is one."""
    from platformdirs import user_config_path  # only the prompt asks, and it can wait that long

    return user_config_path(FOLDER, appauthor=False) / "settings.toml"


def history_path() -> Path:
    """Where the prompt keeps what was entered, whether or not it is there yet."""
    from platformdirs import user_state_path

    return user_state_path(FOLDER, appauthor=False) / "history"
