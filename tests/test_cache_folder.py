"""The grammar's cache lies where platformdirs says, though one answer does not load it to be told."""

from __future__ import annotations

import sys
from pathlib import Path

import platformdirs
import pytest

from fractions_shop.language.grammar import cache_home


@pytest.mark.skipif(not sys.platform.startswith("linux"), reason="the XDG Base Directory rules")
@pytest.mark.parametrize("named", [None, "", "relative", "absolute"])
def test_the_cache_folder_is_the_one_platformdirs_names(
    named: str | None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.delenv("XDG_CACHE_HOME", raising=False)
    if named is not None:
        monkeypatch.setenv("XDG_CACHE_HOME", str(tmp_path / "x") if named == "absolute" else named)
    assert cache_home() / "fractions-shop" == platformdirs.user_cache_path("fractions-shop", appauthor=False)
