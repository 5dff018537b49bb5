"""What a reader says besides a size (shrunk, not set to nought, plated, made, what work, again) is told at every exit."""

from __future__ import annotations

import json
import re

import pytest

from fractions_shop import Session, Sheet

#: What is said of all readings, four that bear it, and what the answer must tell of it.
LISTS = {
    "shrunk": (
        "recover 38.0 mm, 25.3 mm, 12.6 mm, 50.5 mm shrunk up to 3 %",
        "all have shrunk by about",
        "common",
    ),
    "unzeroed": (
        "recover 38.4 mm, 25.7 mm, 13.0 mm, 51.1 mm by caliper unzeroed",
        "not set to zero: it read about 0.29 mm too large",
        "common",
    ),
    "plated": (
        "recover 38.14 mm, 25.44 mm, 12.73 mm, 50.83 mm plated 0.05 mm",
        "allowed for: plated by up to 0.05 mm",
        "plated",
    ),
    "made": (
        "recover 38.0 mm, 25.5 mm, 12.6 mm, 50.9 mm made 0.1 mm",
        "allowed for: made within 0.1 mm",
        "made",
    ),
    "worn": ("recover 38.0 mm, 25.2 mm, 12.5 mm worn 0.3 mm", "allowed for: worn by up to 0.3 mm", "worn"),
    "inch": (
        "recover 9.5 mm, 19.1 mm in inch work",
        "said to be inch work, 200 to 1 before measuring",
        "belief",
    ),
    "metric": (
        "recover 9.5 mm, 19.1 mm in metric work",
        "said to be metric work, 200 to 1 before measuring",
        "belief",
    ),
    "either": (
        "recover 9.5 mm, 19.1 mm in either work",
        "held of the work: inch and metric alike",
        "belief",
    ),
    "again": (
        "recover 51.4 mm again 51.6 mm again 51.5 mm, 66.7 mm",
        "51.4 mm, 51.6 mm, 51.5 mm",
        "figures",
    ),
    "old": (
        "recover 26.2 mm, 13.1 mm, 39.2 mm, 6.5 mm among old inches",
        "Danish may as well be Norwegian, Rhenish or Rijnland",
        "explanations",
    ),
}
RACK = "reconcile rack = 5 of bay + 6 of slat"
#: The same of names that are tied: what is said behind each reading, the figures, and what must be told.
TIED = {
    "shrunk": (
        "shrunk up to 4 %",
        ("73.0", "10.0", "3.85"),
        "all have shrunk by about 3.3 %",
        "common",
    ),
    "unzeroed": (
        "by caliper unzeroed",
        ("75.7", "10.6", "4.25"),
        "not set to zero: it read about 0.28 mm",
        "common",
    ),
    "plated": (
        "plated 0.05 mm",
        ("75.4", "10.3", "4.0"),
        "allowed for: plated by up to 0.05 mm",
        "readings",
    ),
    "made": ("made 0.1 mm", ("75.4", "10.3", "4.0"), "allowed for: made within 0.1 mm", "readings"),
    "inch": ("in inch work", ("75.4", "10.3", "4.0"), "said to be inch work", "belief"),
    "metric": ("in metric work", ("75.5", "10.5", "4.0"), "said to be metric work", "belief"),
    "either": ("in either work", ("75.4", "10.3", "4.0"), "held of the work", "belief"),
}


def exits(lines):
    """Every form of a sheet that tells answers."""
    sheet = Sheet.from_text("\n".join(lines))
    assert sheet.ok, sheet.to_text()
    page = re.sub(r"<[^>]+>", "", sheet.to_html()).replace("&#x27;", "'")
    return {"text": sheet.to_text(300), "markdown": sheet.to_markdown().replace("\\", ""), "page": page}


@pytest.mark.parametrize("word", LISTS)
def test_of_a_list(word):
    line, told, key = LISTS[word]
    answer = Session().answer(line)
    assert told in answer.text(300)
    assert told in answer.text(60).replace("\n    ", " ") or word == "again"
    found = json.loads(json.dumps(answer.data()))
    rows = found["readings"]
    assert key in found or all(key in row for row in rows)
    for way, said in exits([line]).items():
        assert told in said, way


@pytest.mark.parametrize("word", TIED)
def test_of_names_that_are_tied(word):
    said, figures, told, key = TIED[word]
    lines = [
        f"{name} reads {figure} mm {said}"
        for name, figure in zip(("rack", "bay", "slat"), figures, strict=True)
    ]
    bench = Session()
    *_, last = [bench.answer(line) for line in (*lines, RACK)]
    assert told in last.text(300)
    assert json.loads(json.dumps(last.data()))[key]
    for way, written in exits([*lines, RACK]).items():
        assert told in written, way
    # A name of the set says it as well, wherever it stands.
    assert told in bench.answer("rack reads " + figures[0] + " mm " + said).text(300)


def test_what_is_allowed_for_of_one_name_alone_is_told_of_that_one():
    bench = Session()
    for line in ("rack reads 75.4 mm", "bay reads 10.2 mm worn 0.2 mm", "slat reads 4.0 mm"):
        bench.answer(line)
    assert "bay: allowed for: worn by up to 0.2 mm" in bench.answer(RACK).text(300)


def test_that_nothing_befell_a_part_can_be_said():
    """66.7 mm may be 2 11/16 in of shrunk wood, unless somebody knows better."""
    first = Session().answer("recover 66.7 mm").text(300).splitlines()[0]
    assert first == "Take 2 5/8 in, if it has kept its size; check one neighbour"
    said = Session().answer("recover 66.7 mm worn 0 mm").text(300).splitlines()[0]
    assert said == "Take 2 5/8 in; check one neighbour"


class TestHowFarEachWasTrusted:
    def test_stands_in_one_line_where_they_share_it(self):
        told = Session().answer("recover 12.7 mm, 55.55 mm, 19.1 mm by rule").text(300)
        assert "read within 0.25 mm\n" in told
        assert "  within" not in told

    def test_names_one_that_is_trusted_otherwise(self):
        told = Session().answer("recover 12.7 mm by rule, 55.5 mm by caliper, 19.1 mm by caliper").text(300)
        assert "read within 0.05 mm; 12.7 mm within 0.25 mm" in told

    def test_stands_in_each_row_where_they_differ(self):
        line = "recover 22.2 mm by rule, 14.3 mm by caliper, 31.75 mm within 0.01 mm"
        rows = Session().answer(line).text(300).splitlines()
        assert any(re.match(r"  22\.2 mm +0\.25 mm +7/8 in", row) for row in rows)
        assert any(re.match(r"  14\.3 mm +0\.05 mm +9/16 in", row) for row in rows)
        assert any(re.match(r"  31\.75 mm +0\.01 mm +1 1/4 in", row) for row in rows)
        # Where there is no room for columns every row still says of which reading it is.
        narrow = Session().answer(line).text(60)
        assert narrow.count("read 14.3 mm; within 0.05 mm; meant") == 2

    def test_of_a_name_is_what_its_list_shows(self):
        bench = Session()
        for line in ("a reads 38.0 mm", "b reads 25.5 mm", "c reads 12.5 mm"):
            last = bench.answer(line)
        assert "12.5 mm read within 0.25 mm: 1/2 in" in last.text(300)
        assert last.data()["reading"]["within"]["mm"] == "1/4"
