"""What is offered where, with a few words on each; and how a line is coloured."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fractions_shop import Session
from fractions_shop.language.grammar import terminals
from fractions_shop.meant.catalogue import TABLES
from fractions_shop.meant.priors import NO_TABLES
from fractions_shop.prompt.colours import pieces
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.own_words import WORDS
from fractions_shop.prompt.thread_names import at_end, beginning, from_the_bench_up, known
from fractions_shop.prompt.word_offers import names_begun, word_offers
from fractions_shop.requests import words as request_words
from fractions_shop.threads.lookup import threads_named
from fractions_shop.threads.names import looks_like_thread


def names(text: str, asked: bool = True, model: PromptModel | None = None) -> list[str]:
    return [offer.text for offer in word_offers(text, model.names if model else {}, asked)]


def taken(text: str, offer_text: str) -> str:
    """The line once that offer is taken."""
    offer = next(o for o in word_offers(text, {}, True) if o.text == offer_text)
    return text[: offer.start] + offer.text


@pytest.mark.parametrize("line", ["gauge 18 SWG", "gauge 7/0 SWG", "drill No 43 drill", "drill letter F drill",
                                  "drill 13/64 in drill", "drill 5.1 mm drill", "recover 3 mm among drills, 128ths",
                                  "recover 325 mm among drills, old inches"])  # fmt: skip
def test_what_is_offered_behind_these_words_can_be_answered(line: str) -> None:
    word = re.split("among |, ", line)[-1] if "among" in line else line.partition(" ")[2]
    typed = line[: len(line) - len(word) + 2]
    assert taken(typed, word) == line
    assert PromptModel().settled(line).error is None


def test_every_table_to_look_among_is_offered_with_its_meaning() -> None:
    found = word_offers("recover 3 mm among ", {})
    assert [offer.text for offer in found] == [*TABLES, *NO_TABLES]
    assert all(offer.meaning for offer in found)


@pytest.mark.parametrize("word", [*request_words(), *WORDS])
def test_every_request_and_every_word_of_the_prompt_is_offered_with_its_meaning(word: str) -> None:
    before = "rack " if word == "reads" else ""  # which stands behind a name
    offer = next(o for o in word_offers(before + word[:2], {}, True) if o.text == word)
    assert offer.meaning
    assert offer.start == len(before)


@pytest.mark.parametrize(
    ("text", "some", "none"),
    [
        pytest.param("2 ", ["in", "mm", "thou"], ["sqrt("], id="units-behind-a-number"),
        pytest.param("2 in ", ["as"], ["in", "mm", "sqrt("], id="no-unit-behind-a-size"),
        pytest.param("2 in + ", ["sqrt(", "hypot("], ["in", "as", "divide"], id="what-begins-a-size"),
        pytest.param("divide 2 in ", ["into"], ["in", "divide"], id="small-words"),
        pytest.param("divide 2 in into 5 o", ["on"], ["into"], id="small-words-begun"),
        pytest.param("snap 2 in to ", ["64ths", "half mm"], ["in"], id="rules"),
        pytest.param("snap 2 in to 3", ["32nds"], ["64ths"], id="rules-begun"),
        pytest.param("rule ha", ["half mm"], ["64ths"], id="rule-of-two-words"),
        pytest.param("2 in as ", ["64ths", "mm", "ft"], ["into"], id="rules-and-units-behind-as"),
        pytest.param("help di", ["divide"], ["names"], id="help"),
        pytest.param("substitute 6 BA from m", ["M", "metric"], ["UNC"], id="series"),
        pytest.param("thread 1/4", ["1/4-20 UNC", "1/4 BSW", "G 1/4"], ["mm"], id="behind-thread"),
        pytest.param("a = di", ["divide"], ["help"], id="behind-a-name"),
        pytest.param("2 in 3 4 ", [], ["in", "as"], id="behind-what-cannot-be-read"),
        pytest.param("2 in / 0/0 + ", [], ["sqrt("], id="behind-a-faulty-number"),
        pytest.param("x" * 2000, [], ["in"], id="too-long"),
        pytest.param("gauge 18 ", ["18 SWG", "18 AWG", "18 zinc", "mm"], ["17 SWG"], id="gauges"),
        pytest.param("gauge 18 s", ["18 SWG", "18 Stubs steel"], ["18 AWG"], id="gauges-begun"),
        pytest.param(
            "gauge ",
            ["18 SWG", "US No 18 wood screw", "British No 18 wood screw"],
            ["17 SWG"],
            id="gauges-of-a-middling-number",
        ),
        pytest.param("wire = gauge 7/0", ["7/0 SWG"], ["7 SWG"], id="gauges-of-noughts"),
        pytest.param("drill 43", ["No 43 drill"], ["No 42 drill"], id="drills"),
        pytest.param("drill No 4", ["No 43 drill"], ["4 mm drill"], id="drills-by-number"),
        pytest.param("drill #43", ["No 43 drill"], ["4 mm drill"], id="drills-by-number-sign"),
        pytest.param("drill f", ["letter F drill"], ["letter G drill"], id="drills-by-letter"),
        pytest.param("drill letter ", ["letter F drill"], ["No 43 drill"], id="drills-by-the-word"),
        pytest.param("drill 13/6", ["13/64 in drill"], ["13/32 in drill"], id="drills-in-inches"),
        pytest.param("drill 2 in + ", ["sqrt("], ["No 43 drill"], id="no-drill-in-a-sum"),
        pytest.param(
            "recover 3 mm among ",
            ["drills", "gauges", "threads", "stock", "128ths", "old inches"],
            ["in"],
            id="tables",
        ),
        pytest.param("recover 3 mm among drills, ", ["gauges"], ["drills"], id="further-tables"),
        pytest.param("a = recover 3 mm among th", ["threads"], ["drills"], id="tables-begun"),
        pytest.param("recover 3 mm among old i", ["old inches"], ["drills"], id="tables-of-two-words"),
        pytest.param("recover 3 mm among old inches, ", ["drills"], ["old inches"], id="behind-two-words"),
    ],
)
def test_what_is_offered(text: str, some: list[str], none: list[str]) -> None:
    found = names(text)
    assert set(some) <= set(found)
    assert not set(none) & set(found)


def test_names_are_offered_first_and_with_their_size() -> None:
    model = PromptModel()
    model.enter("runner_pitch = 13/32 in")
    first = word_offers("2 in + ru", model.names)[0]
    assert (first.text, first.start) == ("runner_pitch", 7)
    assert first.meaning.startswith("13/32 in = 0.40625 in")


def test_letters_here_and_there_find_words_only_when_asked() -> None:
    assert "hypot(" in names("hpt")
    assert names("hpt", asked=False) == []
    assert "pitch(" in names("itc", asked=False)


@pytest.mark.parametrize(
    ("text", "offered"),
    [
        ("1/4-2", ["1/4-20 UNC", "1/4-26 BSC", "1/4-28 UNF"]),
        ("1/4 U", ["1/4-20 UNC", "1/4-28 UNF", "1/4-32 UNEF"]),
        ("1 in + 1/4 x 4", ["1/4 x 40 ME"]),
        ("(6 B", ["6 BA", "6 BSW"]),
        ("No 6", ["No 6-32 UNC", "No 6-40 UNF", "No 6-36 UNS"]),
        ("#6", ["No 6-32 UNC", "No 6-40 UNF", "No 6-36 UNS"]),
        ("M3", ["M3 x 0.35", "M3 x 0.6 old JIS"]),
        ("m3", []),
        ("2 in", []),
        ("5 mm", []),
        ("2 in / 5", []),
        ("1/1", []),
        ("2-1/32", []),
    ],
)
def test_threads_are_offered_by_the_beginning_of_their_name(text: str, offered: list[str]) -> None:
    assert [o.text for o in word_offers(text, {}) if looks_like_thread(o.text)] == offered


def test_a_size_alone_offers_threads_at_the_start_of_a_line_and_elsewhere_when_asked() -> None:
    assert "1/4-20 UNC" in names("1/4", asked=False)
    assert names("2 in + 1/4", asked=False) == []
    assert "1/4-20 UNC" in names("2 in + 1/4", asked=True)
    assert "in" in names("2 in + 1/4", asked=True)


@pytest.mark.parametrize(
    "text", ["1/4", "1/4-2", "1/4 UN", "1/4  -", "1/4x4", "3 mm + 1 1/4", "-1/4-20 U", "2*1/4"]
)
def test_taking_an_offer_replaces_the_whole_designation(text: str) -> None:
    before = next((n for n in reversed(range(len(text))) if text[n] in "+*"), -1) + 1
    before = 1 if text[0] == "-" else before
    threads = [o for o in word_offers(text, {}, True) if looks_like_thread(o.text)]
    assert threads
    for offer in threads:
        line = text[: offer.start] + offer.text
        assert line[before:].strip() == offer.text


def test_every_thread_is_found_by_its_own_name_and_read_by_the_library() -> None:
    for one in known():
        assert one in beginning(one.name), one.name
        assert one.name in [thread.name for thread in threads_named(one.name)]
        assert one.meaning


@given(st.text(alphabet="0123456789/ -.xMGRBAUNC#'\"inm", max_size=20))
def test_a_designation_starts_within_the_text(text: str) -> None:
    start, found = at_end(text)
    assert 0 <= start <= len(text)
    assert found or start == len(text)


@given(st.text(max_size=40))
def test_whatever_is_typed_offers_are_made_without_a_fault(text: str) -> None:
    for offer in word_offers(text, {}, True):
        assert 0 <= offer.start <= len(text)
        assert offer.text


def test_files_are_offered_behind_open(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "trays").mkdir()
    (tmp_path / "trays" / "top.txt").write_text("")
    (tmp_path / ".hidden").write_text("")
    monkeypatch.chdir(tmp_path)
    assert names("open ") == ["trays/"]
    assert taken("open trays/t", "trays/top.txt") == "open trays/top.txt"
    assert names("open nowhere/") == []


# Colours


@given(st.text(alphabet=st.characters(exclude_characters="\n"), max_size=60))
def test_the_pieces_of_a_line_are_the_line(text: str) -> None:
    assert "".join(piece for _, piece in pieces(text)) == text


@pytest.mark.parametrize(
    ("text", "kinds"),
    [
        ("divide 2 in into 5", ["word", "number", "unit", "word", "number"]),
        ("pitch = 1/4-20 UNC", ["name", "sign", "hardware"]),
        ("sqrt(2) # why", ["function", "sign", "number", "sign", "note"]),
        ("2 in $ é", ["number", "unit", "odd", "name"]),
        ("names", ["word"]),
        ("3' 4\"", ["number", "unit", "number", "unit"]),
        ("18 SWG + No 43 drill", ["hardware", "sign", "hardware"]),
    ],
)
def test_each_piece_is_told_by_its_kind(text: str, kinds: list[str]) -> None:
    assert [kind for kind, piece in pieces(text) if piece.strip()] == kinds


def test_every_word_of_the_grammar_is_coloured_as_one() -> None:
    for word in request_words():
        assert pieces(f"{word} 2")[0] == ("word", word)
    assert {"SNAP", "INTO"} <= terminals()


def test_of_is_offered_behind_a_plain_number_alone() -> None:
    for text, offered in (("4 ", True), ("3/4 ", True), ("2 in ", False), ("slat ", False)):
        assert ("of" in [offer.text for offer in word_offers(text, {}, asked=True)]) is offered


@pytest.mark.parametrize("text", ["tapping(", "tapping(6 b", "clearance( ", "2 in + minor(M3"])
def test_threads_are_offered_in_the_bracket_of_a_function_of_a_thread(text: str) -> None:
    offers = word_offers(text, {}, asked=True)
    assert offers
    for offer in offers[:5]:
        assert Session().answer(f"{text[: offer.start]}{offer.text})") is not None


@pytest.mark.parametrize(
    ("text", "right"),
    [("devide", "divide"), ("devide 2 in", "divide 2 in"), ("x = recovr ", "recover "), ("thred 6 BA", "thread 6 BA"),
     ("prat front: 1 of oak", "part front: 1 of oak")],
)  # fmt: skip
def test_tab_behind_a_slip_offers_the_right_word_with_the_line_behind_it(text: str, right: str) -> None:
    offer = word_offers(text, {}, asked=True)[0]
    assert f"{text[: offer.start]}{offer.text}" == f"{text[: text.index(text.split(' = ')[-1])]}{right}"
    assert all(other.text != right for other in word_offers(text, {}))


@pytest.mark.parametrize(
    ("text", "name"),
    [("taper M", "Morse 2"), ("taper ", "Morse 0"), ("taper Jar", "Jarno 5"), ("taper pin No", "pin No 4")],
)
def test_tapers_are_offered_behind_their_word(text: str, name: str) -> None:
    offers = [offer for offer in word_offers(text, {}, asked=True) if text[: offer.start].strip() == "taper"]
    assert name in [offer.text for offer in offers]
    for offer in offers[:8]:
        if offer.text[:1].isupper() or offer.text.startswith("pin"):
            assert Session().answer(f"{text[: offer.start]}{offer.text}") is not None


@pytest.mark.parametrize("text", ["spanner 3/8", "substitute 2 B", "thread Thu"])
def test_threads_are_offered_behind_every_word_that_takes_one(text: str) -> None:
    offers = word_offers(text, {}, asked=True)
    assert offers
    assert Session().answer(f"{text[: offers[0].start]}{offers[0].text}") is not None


def test_a_line_of_figures_is_offered_the_names_that_were_read_and_no_request() -> None:
    names = PromptModel()
    names.enter("holder reads 3 in by rule")
    assert [offer.text for offer in names_begun("hol", names.names)] == ["holder"]
    assert names_begun("holder 3", names.names) == []
    assert names_begun("div", names.names) == []


def test_the_threads_offered_in_an_empty_bracket_begin_with_those_of_the_bench() -> None:
    """Every one of them is offered; 25 BA, of a quarter of a millimetre, is the first by its size."""
    offered = [thread.name for thread in from_the_bench_up()]
    assert offered[0] == "10 BA"
    assert sorted(offered) == sorted(thread.name for thread in known())
    assert word_offers("tapping(", {}, True)[0].text == "10 BA"
