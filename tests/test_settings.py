"""The settings: what is good in the file serves, what is bad is named with its line."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from fractions_shop.command.settings import Settings, history_path, read_settings, settings_path


def written(tmp_path: Path, text: str | bytes) -> Path:
    path = tmp_path / "settings.toml"
    path.write_bytes(text if isinstance(text, bytes) else text.encode())
    return path


def test_no_file_is_no_fault(tmp_path: Path) -> None:
    assert read_settings(tmp_path / "none.toml") == (Settings("64ths", 6, True), ())


def test_what_is_set_serves(tmp_path: Path) -> None:
    path = written(tmp_path, '# mine\nrule = "half mm"\ndigits = 4\npicture = false\nunits = "mm first"\n')
    assert read_settings(path) == (Settings("half mm", 4, False, "mm first"), ())


def test_the_file_lies_in_the_config_folder() -> None:
    path = settings_path()
    path.parent.mkdir(parents=True)
    path.write_text('rule = "mm"\n')
    assert read_settings() == (Settings(rule="mm"), ())


def test_a_file_from_windows_serves(tmp_path: Path) -> None:
    path = written(tmp_path, b'\xef\xbb\xbfrule = "32nds"\r\ndigits = 3\r\n')
    assert read_settings(path) == (Settings("32nds", 3), ())


@pytest.mark.parametrize(
    ("text", "line", "said", "kept"),
    [
        pytest.param('rule = "64ths"\ndigits = \n', 2, "invalid value", Settings(), id="syntax"),
        pytest.param('rule = "64ths\n', 1, "(write it as:", Settings(), id="open-quote"),
        pytest.param("rule = 64ths\n", 1, "(write it as:", Settings(), id="no-quotes"),
        pytest.param('digits = 3\nrule = "63rdths"\n', 2, "rule cannot be '63rdths'", Settings(digits=3), id="rule"),
        pytest.param("\n\ndigits = 99\n", 3, "digits must be a whole number from 1 to 12", Settings(), id="digits"),
        pytest.param("digits = true\n", 1, "not True", Settings(), id="digits-true"),
        pytest.param("picture = 1\ndigits = 2", 1, "picture must be true or false", Settings(digits=2), id="picture"),
        pytest.param('digits = 2\nunits = "cm first"', 2, 'units cannot be \'cm first\': write units = "mm first"', Settings(digits=2), id="units"),
        pytest.param("colour = 1\n", 1, "colour is not a setting: there are rule, digits, picture, units", Settings(), id="other"),
        pytest.param("# x\n[rule]\nname = 1\n", 2, "rule cannot be", Settings(), id="table"),
        pytest.param(b"rule = '\xff'\n", 1, "not UTF-8 text", Settings(), id="bytes"),
        pytest.param("digits = 1\ndigits = 2\n", 2, "cannot overwrite a value", Settings(), id="twice"),
    ],
)  # fmt: skip
def test_a_bad_file_is_named_with_its_line(
    text: str | bytes, line: int, said: str, kept: Settings, tmp_path: Path
) -> None:
    path = written(tmp_path, text)
    settings, complaints = read_settings(path)
    assert settings == kept
    assert len(complaints) == 1
    assert complaints[0].startswith(f"settings file {path}, line {line}: ")
    assert said in complaints[0]
    assert "serve" in complaints[0] or "is not a setting" in complaints[0]


def test_every_bad_setting_is_named(tmp_path: Path) -> None:
    path = written(tmp_path, 'rule = "x"\ndigits = 0\npicture = "no"\n')
    settings, complaints = read_settings(path)
    assert settings == Settings()
    assert [c.split(": ")[0].rpartition(" ")[2] for c in complaints] == ["1", "2", "3"]


def test_a_folder_or_a_flood_in_its_place_is_told_of(tmp_path: Path) -> None:
    assert "cannot be read" in read_settings(tmp_path)[1][0]
    path = written(tmp_path, "#" * 100_000)
    assert "too long" in read_settings(path)[1][0]


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the XDG Base Directory rules")
@pytest.mark.parametrize("named", [None, "", "relative"], ids=["unset", "empty", "relative"])
def test_settings_and_history_lie_where_xdg_puts_them(
    named: str | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """XDG Base Directory 0.8: settings under config, history under state; a relative folder is no folder."""
    monkeypatch.setenv("HOME", str(tmp_path))
    for variable in ("XDG_CONFIG_HOME", "XDG_STATE_HOME"):
        monkeypatch.delenv(variable, raising=False)
        if named is not None:
            monkeypatch.setenv(variable, named)
    assert settings_path() == tmp_path / ".config/fractions-shop/settings.toml"
    assert history_path() == tmp_path / ".local/state/fractions-shop/history"
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path / "c"))
    monkeypatch.setenv("XDG_STATE_HOME", str(tmp_path / "s"))
    assert settings_path() == tmp_path / "c/fractions-shop/settings.toml"
    assert history_path() == tmp_path / "s/fractions-shop/history"


def test_settings_load_no_reader_of_toml_when_there_is_no_file() -> None:
    code = (
        "import sys; from fractions_shop.command.settings import read_settings; read_settings();"
        "print([m for m in ('tomllib', 'prompt_toolkit', 'lark') if m in sys.modules])"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert done.stdout == "[]\n"
