"""The grammar's copies of the thread, gauge and drill patterns."""

from renew_named import HOME, named_grammar


def test_named_lark_is_current():
    assert HOME.read_text(encoding="utf-8") == named_grammar(), "run python tests/renew_named.py"
