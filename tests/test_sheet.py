"""A sheet as a whole: order, names, rules, `ans`, faults that stay where they are, parts, bounds."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from room_examples import answered_example

from fractions_shop import Quantity, Session, ShopError
from fractions_shop.requests import room
from fractions_shop.requests import words as request_words
from fractions_shop.sheet import order
from fractions_shop.sheet.lines import MAX_LINES
from fractions_shop.sheet.part_lines import Part
from fractions_shop.show.sheet import Sheet


def sheet(*lines: str) -> Sheet:
    return Sheet.from_text("\n".join(lines))


def states(*lines: str) -> list[str]:
    return [w.state for w in sheet(*lines).worked]


def inch(made: Sheet, name: str) -> Fraction:
    value = made.sizes[name]
    assert isinstance(value, Quantity)
    return value.inch


# Order


def test_a_name_may_be_used_above_the_line_that_sets_it():
    made = sheet("bay = total / 5", "total = ends + 2 in", "ends = 1/32 in")
    assert inch(made, "bay") == Fraction(13, 32)
    assert made.ok


def test_the_sizes_keep_the_order_of_the_file():
    assert list(sheet("c = b", "b = a", "a = 1 in").sizes) == ["c", "b", "a"]


@st.composite
def chains(draw: st.DrawFn) -> list[str]:
    """Statements that each draw on names set by earlier ones, so that their order works at the prompt."""
    lines = ["n0 = 1 in"]
    for k in range(1, draw(st.integers(2, 12))):
        one, two = (draw(st.integers(0, k - 1)) for _ in range(2))
        lines.append(draw(st.sampled_from([
            f"n{k} = n{one} + n{two}",
            f"n{k} = n{one} / 3 + 1/64 in",
            f"n{k} = divide n{one} into {k} up on 32nds",
            f"n{k} = snap n{one} * 1.1 to mm",
            f"n{k} = max(n{one}, n{two}) + 2 mm ± 1 thou - 1 mm",
        ])))  # fmt: skip
    return lines


def _written(text: str) -> object:
    session = Session()
    try:
        return [getattr(session.answer(line), "value", None) for line in text.splitlines()]
    except ShopError:
        return None


@given(chains(), st.randoms(use_true_random=False))
def test_the_order_of_the_lines_changes_no_size(lines, random):
    shuffled = lines[:]
    random.shuffle(shuffled)
    one, two = sheet(*lines), sheet(*shuffled)
    assert {n: repr(v) for n, v in one.sizes.items()} == {n: repr(v) for n, v in two.sizes.items()}
    assert len(one.faults) == len(two.faults)


@given(chains())
def test_a_sheet_in_order_answers_as_the_prompt_does(lines):
    expected = _written("\n".join(lines))
    made = sheet(*lines)
    if expected is None:
        assert made.faults
    else:
        assert [w.value for w in made.worked] == expected


# Rings and names set twice


def test_a_ring_is_named_with_its_way_round():
    made = sheet("a = b", "b = c + 1 in", "c = a * 2", "d = c", "e = 1 in")
    assert [str(f).splitlines()[0] for f in made.faults] == [
        "a depends on itself: a (line 1) needs b (line 2), which needs c (line 3), which needs a (column 5)",
        "b depends on itself: b (line 2) needs c (line 3), which needs a (line 1), which needs b (column 5)",
        "c depends on itself: c (line 3) needs a (line 1), which needs b (line 2), which needs c (column 5)",
    ]
    assert [w.state for w in made.worked] == ["fault", "fault", "fault", "waits", "answered"]
    assert made.waiting[0].waits[0].name == "c"


def test_a_long_ring_costs_each_of_its_lines_the_same(monkeypatch):
    """All of the ring was told once for every line in it, of which the ends were kept."""
    called: list[int] = []
    usual = order._called
    monkeypatch.setattr(order, "_called", lambda line: called.append(line.number) or usual(line))
    count = 300
    made = sheet(*(f"a{n} = a{(n + 1) % count} + 1 in" for n in range(count)))
    assert len(made.faults) == count
    assert len(called) <= 8 * count
    assert made.faults[5].message == (
        "a5 depends on itself: a5 (line 6) needs a6 (line 7), which needs a7 (line 8), which needs a8 (line 9), "
        "which needs 293 more, which needs a2 (line 3), which needs a3 (line 4), which needs a4 (line 5), which needs a5"
    )


def test_a_size_that_needs_itself_is_a_ring_of_one():
    (fault,) = sheet("a = a + 1 in").faults
    assert fault.message == "a depends on itself: a (line 1) needs a"


def test_a_long_ring_is_named_by_its_ends():
    lines = [f"n{k} = n{(k + 1) % 5000}" for k in range(5000)]
    fault = sheet(*lines).faults[0]
    assert len(fault.message) < 400
    assert "4993 more" in fault.message


def test_two_rings_are_told_apart():
    assert [f.message for f in sheet("a = b", "b = a", "c = d", "d = c").faults] == [
        "a depends on itself: a (line 1) needs b (line 2), which needs a",
        "b depends on itself: b (line 2) needs a (line 1), which needs b",
        "c depends on itself: c (line 3) needs d (line 4), which needs c",
        "d depends on itself: d (line 4) needs c (line 3), which needs d",
    ]


def test_a_line_that_waits_for_a_ring_through_another_is_not_called_part_of_it():
    assert states("a = a", "b = a + d", "c = b", "d = 1 in") == ["fault", "waits", "waits", "answered"]


def test_a_name_set_twice_is_a_fault_at_the_second_and_the_first_stands():
    made = sheet("a = 1 in", "b = a * 2", "a = 3 in")
    (fault,) = made.faults
    assert (fault.line, fault.message, fault.advice) == (
        3,
        "a is already set on line 1",
        "choose another name",
    )
    assert inch(made, "b") == 2


def test_a_part_named_twice_is_a_fault_at_the_second():
    (fault,) = sheet("part peg: 2", "part Peg: 3").faults
    assert (fault.line, fault.message) == (2, "the part Peg is already on line 1")


@pytest.mark.parametrize("name", ["Peg", "art", "label  frame", "8 of"])
def test_the_place_of_a_part_named_twice_is_that_of_its_name(name):
    text = f"  part {name} : 3"
    (fault,) = sheet(f"part {name}: 2", text).faults
    assert text[fault.start : fault.end] == name


# Faults


def test_a_fault_marks_its_line_and_what_depends_on_it_and_the_rest_answers():
    made = sheet("a = 2 in +", "b = a * 2", "c = b + 1 in", "d = 1 in", "check b = 1 in", "part x: a * 2")
    assert [w.state for w in made.worked] == ["fault", "waits", "waits", "answered", "waits", "waits"]
    assert (made.worked[2].waits[0].name, made.worked[2].waits[0].line) == ("b", 2)
    assert not made.ok


def test_a_line_that_cannot_be_read_keeps_the_name_it_would_set():
    made = sheet("a = 51,5 mm", "b = a")
    assert [f.line for f in made.faults] == [1]
    assert made.waiting[0].waits[0].line == 1


def test_a_fault_has_the_line_and_column_of_the_file():
    (fault,) = sheet("", "# note", "  x = 1 in + 2").faults
    assert (fault.line, fault.column, fault.text) == (3, 14, "  x = 1 in + 2")


def test_a_word_that_is_no_name_gets_advice_from_the_whole_sheet():
    (fault,) = sheet("a = runner_deap * 2", "runner_deep = 1/4 in").faults
    assert fault.message == "nothing is named runner_deap yet"
    assert fault.advice == "write runner_deep, if that was meant"


def test_a_thread_without_its_quotes_is_no_name_that_is_missing():
    assert sheet("screw = major(m3)").ok


# The rule


def test_rule_serves_the_lines_below_it_whatever_the_order_of_working():
    made = sheet("a = snap x", "rule 16ths", "b = snap x", "x = 10.3 mm", "rule mm", "c = snap x")
    assert (inch(made, "a"), inch(made, "b")) == (Fraction(13, 32), Fraction(3, 8))
    assert made.sizes["c"].mm == 10  # type: ignore[union-attr]


def test_a_rule_at_fault_holds_up_only_what_reads_a_rule():
    made = states(
        "rule 33 xx", "a = 1 in", "b = snap a", "c = snap a to mm", "fit 6 mm H7/g6", "rule mm", "snap a"
    )
    assert made == ["fault", "answered", "waits", "answered", "answered", "answered", "answered"]


@pytest.mark.parametrize("word", request_words())
def test_a_request_says_rightly_whether_the_rule_makes_a_difference(word):
    """Its example, without a rule of its own, on two rules: other figures or the same."""
    statement = re.sub(r" (?:to|on) (?:[0-9]+\w+|mm)", "", room(word).example)
    told = [answered_example(word, rule, statement).data() for rule in ("10ths", "mm")]
    assert (told[0] != told[1]) == room(word).reads_rule


def test_a_request_that_reads_the_rule_waits_for_one_at_fault_and_no_other_does():
    reading = {word for word in request_words() if room(word).reads_rule}
    assert reading == {"snap", "divide", "share", "mark", "places", "crown"}
    waiting = {
        word for word in request_words()
        if word != "rule" and sheet("rule 7 whole", room(word).example).worked[1].waits
    }  # fmt: skip
    assert waiting == {
        word for word in reading if not {" to ", " on "} & set(re.findall(" (?:to|on) ", room(word).example))
    }


# ans


def test_ans_is_the_nearest_statement_above_with_a_size():
    made = sheet(
        "2 in", "# a note", "check 1 in = 1 in", "rule mm", "part x: 1", "b = ans * 2", "c = ans * 2"
    )
    assert (inch(made, "b"), inch(made, "c")) == (4, 8)


def test_ans_goes_by_the_file_not_by_the_order_of_working():
    made = sheet("a = b", "c = ans + 1 in", "b = 5 in")
    assert inch(made, "c") == 6


def test_ans_never_reaches_past_a_statement_without_a_size():
    made = sheet("1 in", "mark 2 in into 5", "ans * 2")
    (fault,) = made.faults
    assert (fault.line, fault.message) == (3, "line 2 above has no one size for ans to stand for")


def test_ans_waits_for_a_faulty_statement_above():
    assert states("1 in", "2 in +", "ans * 2") == ["answered", "fault", "waits"]


def test_ans_at_the_top_has_nothing_to_stand_for():
    (fault,) = sheet("ans * 2").faults
    assert fault.message == "there is no last size yet"


def test_ans_can_be_part_of_a_ring():
    (one, two) = sheet("b * 2", "b = ans").faults
    assert one.message == "this depends on itself: the size (line 1) needs b (line 2), which needs it"
    assert two.message == "b depends on itself: b (line 2) needs the size (line 1), which needs b"


# Parts


def length(text: str) -> Quantity:
    value = Sheet.from_text(f"x = {text}").sizes["x"]
    assert isinstance(value, Quantity)
    return value


@pytest.mark.parametrize(
    ("line", "part"),
    [
        pytest.param("part peg: 9", Part("peg", 9, "", (), ""), id="how many alone"),
        pytest.param("part peg: 3 * n of box wood", Part("peg", 12, "box wood", (), ""), id="material"),
        pytest.param("PART peg: 1; as it was", Part("peg", 1, "", (), "as it was"), id="note"),
        pytest.param("part peg: 1, 2 in; a; b", Part("peg", 1, "", (length("2 in"),), "a; b"), id="note with semicolon"),
        pytest.param(
            "part tray side: 2 of oak, 1/4 in by min(3 in, 4 in) by (1 in + 2 in)",
            Part("tray side", 2, "oak", (length("1/4 in"), length("3 in"), length("3 in")), ""),
            id="sizes with commas in brackets",
        ),
        pytest.param("part a: 1 of tin # by hand", Part("a", 1, "tin", (), ""), id="comment"),
    ],
)  # fmt: skip
def test_part_lines(line, part):
    made = sheet("n = 4", line)
    assert made.faults == ()
    assert list(made.parts.values()) == [part]


@pytest.mark.parametrize(
    ("line", "message", "place"),
    [
        pytest.param("part peg 9", "a part line needs a colon after the part's name", (4, 10), id="no colon"),
        pytest.param("part x" + "x" * 80 + ": 9", "the part's name is too long", (4, 86), id="long name"),
        pytest.param("part peg:", "a part line says how many after its colon", (9, 10), id="no count"),
        pytest.param(
            "part peg: of tin", "a part line says how many after its colon", (9, 16), id="no count, material"
        ),
        pytest.param("part peg: 2 of", "'of' is followed by the material", (12, 14), id="no material"),
        pytest.param(
            "part peg: 2.5", "how many must be a whole number without a unit", (10, 13), id="half a part"
        ),
        pytest.param(
            "part peg: 2 in", "how many must be a whole number without a unit", (10, 14), id="a length"
        ),
        pytest.param("part : 3 of oak", "a part needs a name, before its colon", (5, 6), id="no name"),
        pytest.param(
            "part: 3 of oak", "a part needs a name, before its colon", (4, 5), id="no name, no blank"
        ),
        pytest.param("parts knob: 3", "a line of the parts list begins with part", (0, 5), id="parts"),
        pytest.param(
            "part screws: 8 4 BA brass screws",
            "the count is a plain number, and 'of' comes before the material",
            (13, 32),
            id="no of, a designation",
        ),
        pytest.param(
            "part screws: 8 brass, 1 in",
            "the count is a plain number, and 'of' comes before the material",
            (13, 20),
            id="no of",
        ),
        pytest.param("part peg: 0", "how many goes from 1 to 1,000,000", (10, 11), id="none"),
        pytest.param("part peg: 2, 3", "a part's size is a length", (13, 14), id="no unit"),
        pytest.param("part peg: 2, 0 in", "a part's size must be above zero", (13, 17), id="nought"),
        pytest.param("part peg: 2, 1 in by", "a size is missing here", (20, 21), id="size missing"),
        pytest.param(
            "part a: 1, 1 in by 1 in by 1 in by 1 in", "a part has at most 3 sizes", (35, 39), id="four"
        ),
        pytest.param("part a: 1, snap 3 mm", "a size is a size or a sum here", (10, 20), id="a request"),
        pytest.param("part a: 1, 2 inn", "inn is not a unit known here", (13, 16), id="inside an expression"),
    ],
)
def test_part_lines_at_fault(line, message, place):
    (fault,) = sheet(line).faults
    assert (fault.message, (fault.start, fault.end)) == (message, place)
    assert fault.text == line


@pytest.mark.parametrize(
    ("line", "advice"),
    [
        ("parts knob: 3 of oak", "write part"),
        ("part screws: 8 4 BA brass screws",
         "write of before the material, and the rest after a semicolon: part screws: 8 of brass; 4 BA"),
    ],
)  # fmt: skip
def test_the_advice_on_a_part_line(line, advice):
    (fault,) = sheet(line).faults
    assert fault.advice == advice


def test_parts_may_be_a_name():
    made = sheet("parts = 4", "parts * 2 # twice: both sides")
    assert made.faults == ()
    assert made.sizes["parts"].value == 4


@pytest.mark.parametrize("line", ["part = 2 in", "part=2 in"])
def test_part_may_be_a_name_too(line):
    made = sheet(line, "part / 2", "part as 64ths", "x = part * 3")
    assert made.faults == ()
    assert inch(made, "x") == 6


# Titles and notes


def test_titles_and_notes():
    made = sheet("## A", "# one", "# two", "", "# three", "## B", "x = 1 in # said", "#6-32")
    kinds = [(w.line.kind, w.line.words) for w in made.worked]
    assert kinds[:6] == [
        ("title", "A"),
        ("note", "one"),
        ("note", "two"),
        ("blank", ""),
        ("note", "three"),
        ("title", "B"),
    ]
    assert kinds[6] == ("statement", "said")
    assert made.worked[7].line.kind == "statement"
    assert made.title == "A"


@pytest.mark.parametrize(
    ("lines", "title", "notes", "sections"),
    [
        pytest.param(["## A", "x = 1 in", "## B"], "A", (), ["", "B"], id="heads statements"),
        pytest.param(["## A", "# why", "x = 1 in"], "A", (), [""], id="heads a note and statements"),
        pytest.param(["## A", "# why", "## B", "x = 1 in"], "A", ("why",), ["B"], id="heads notes"),
        pytest.param(["# old", "", "## A", "# why", "## B"], "A", ("old", "why"), ["B"], id="notes above it"),
        pytest.param(["# old", "## A", "x = 1 in"], "A", (), ["", "A"], id="notes above, statements below"),
        pytest.param(["## A"], "A", (), [], id="nothing else"),
        pytest.param(["x = 1 in", "## A"], "Sheet", (), ["", "A"], id="a statement above it"),
        pytest.param(["part a: 1", "## A"], "Sheet", (), ["", "A"], id="a part above it"),
        pytest.param(["rule mm", "## A", "## B"], "Sheet", (), ["", "A", "B"], id="a rule above it"),
        pytest.param(["x = 1 in"], "Sheet", (), [""], id="none"),
    ],
)
def test_the_first_title_above_any_statement_is_the_title_of_the_sheet(lines, title, notes, sections):
    document = sheet(*lines)._document(False)
    assert (document.title, document.notes) == (title, notes)
    assert [section.title for section in document.sections] == sections


# Reading and bounds


@pytest.mark.parametrize("ending", ["\n", "\r\n", "\r"], ids=["unix", "windows", "old mac"])
def test_any_line_ending_reads(ending):
    made = Sheet.from_text(ending.join(["\ufeffa = 1 in", "b = a * 2", ""]))
    assert inch(made, "b") == 2
    assert len(made.worked) == 2


@pytest.mark.parametrize(
    "fact", ["ok", "verdict", "title", "sizes", "parts", "checks", "to_csv", "to_data", "to_json"]
)
def test_facts_of_a_sheet_its_rows_and_its_object_make_no_document(fact, monkeypatch):
    def refuse(*_):
        raise AssertionError("a document was made")

    monkeypatch.setattr("fractions_shop.show.document.document", refuse)
    made = sheet("## Tray", "# Dry.", "", "## Ends", "a = 1 in", "check a = 2 in", "part peg: 2, a")
    value = getattr(made, fact)
    assert value() if callable(value) else value is not None


@given(
    st.lists(
        st.sampled_from(
            ["", "## A", "## B", "# n", "a = 1 in", "check 1 in = 1 in", "part p: 2, 1 in", "1/0 in", "b"]
        )
    )
)
def test_the_title_of_a_sheet_is_that_of_its_document(lines):
    made = sheet(*lines)
    assert made.title == made._document(False).title == made.to_data()["title"]


def test_a_file_is_read_with_its_name_for_a_title(tmp_path):
    path = tmp_path / "left-door.shop"
    path.write_text("x = 1 in", encoding="utf-8")
    assert Sheet.read(path).run().title == "left door"


@pytest.mark.parametrize(
    ("raw", "message"),
    [
        pytest.param(b"x = 1 in\n\xff\n", "is not text in UTF-8 (line 2): save it in UTF-8", id="latin"),
        pytest.param("x".encode("utf-16"), "is in UTF-16: save it in UTF-8", id="utf-16"),
    ],
)
def test_a_file_that_is_no_text_is_refused(tmp_path, raw, message):
    path = tmp_path / "a.shop"
    path.write_bytes(raw)
    with pytest.raises(ShopError) as caught:
        Sheet.read(path)
    assert str(caught.value) == f"{path} {message}"


def test_a_file_that_is_not_there_is_refused(tmp_path):
    with pytest.raises(ShopError, match="cannot be read: No such file"):
        Sheet.read(tmp_path / "none.shop")


def test_a_sheet_without_end_is_refused():
    with pytest.raises(ShopError, match="200,001 lines"):
        Sheet.from_text("\n" * (MAX_LINES + 1)).run()


def test_a_long_chain_set_bottom_up_is_no_deeper_than_a_short_one():
    count = 3000
    made = sheet(*(f"n{k} = n{k + 1} + 1 in" for k in range(count)), f"n{count} = 1 in")
    assert inch(made, "n0") == count + 1


def test_figures_that_grow_without_end_are_stopped_on_their_line():
    made = sheet("a0 = 7/9", *(f"a{k} = a{k - 1} * a{k - 1}" for k in range(1, 30)))
    assert made.faults[0].message == "the figures of this grow past all bounds"
    assert len(made.waiting) > 5


def test_more_toleranced_sizes_than_anyone_stacks_are_stopped():
    made = sheet("s0 = 1 in ± 1 thou", *(f"s{k} = s{k - 1} + (1 in ± 1 thou)" for k in range(1, 520)))
    assert made.faults[0].message == "more than 500 toleranced sizes feed this"
    assert made.faults[0].line == 501


def test_a_part_line_without_end_is_refused():
    (fault,) = sheet("part a: 1; " + "x" * 2000).faults
    assert fault.message == "the line is 2,011 characters long, and 1,000 is the most that is read"


@given(st.lists(st.text(st.characters(codec="utf-8"), max_size=40), max_size=12))
def test_no_text_makes_a_sheet_fail_otherwise_than_by_its_faults(lines):
    made = Sheet.from_text("\n".join(lines)).run()
    assert all(
        w.state in ("answered", "holds", "fails", "fault", "waits", "blank", "note", "title")
        for w in made.worked
    )
    made.to_text(), made.to_markdown(), made.to_html(), made.to_csv(), made.to_json()


def test_a_name_in_a_sheet_reaches_no_file_and_runs_nothing():
    made = sheet("x = __import__('os')", "y = open(1)", "z = (1).real", "import os", "load a.shop")
    assert [w.state for w in made.worked] == ["fault"] * 5
