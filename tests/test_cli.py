"""The command: what it reads, what it says, where it says it, and how it ends."""

from __future__ import annotations

import io
import json
import os
import re
import shutil
import signal
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from shlex import quote
from types import ModuleType

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from jsonschema import Draft202012Validator

from fractions_shop import Rule, __version__
from fractions_shop.__main__ import _open_prompt
from fractions_shop.command.cli import main
from fractions_shop.command.completion import SHELLS, script
from fractions_shop.command.options import parser
from fractions_shop.command.streams import LONGEST_LINE, statements_in
from fractions_shop.command.words import COMMANDS

HALF = "1/2 in = 0.5 in = 12.7 mm exactly\na mark of the 8ths\n"
COMMAND = [sys.executable, "-m", "fractions_shop"]

posix = pytest.mark.skipif(os.name != "posix", reason="of a POSIX shell")


@pytest.fixture
def typed(monkeypatch):
    """Put bytes on standard input."""

    def put(raw: bytes, encoding: str = "utf-8") -> None:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(raw), encoding=encoding))

    return put


def run(*arguments: str, stdin: bytes | None = b"", **environment: str) -> subprocess.CompletedProcess[bytes]:
    """The command in a process of its own."""
    return subprocess.run(
        [*COMMAND, *arguments],
        input=stdin,
        capture_output=True,
        env={**os.environ, **environment},
        timeout=60,
        check=False,
    )


# Statements as arguments


@pytest.mark.parametrize(
    ("arguments", "start"),
    [
        pytest.param(["2 1/32 in / 5"], "13/32 in = 0.40625 in = 10.31875 mm exactly", id="an-expression"),
        pytest.param(["-1/64 in"], "-1/64 in = ", id="a-minus-first"),
        pytest.param(["-.5 in"], "-1/2 in = ", id="a-minus-and-a-point"),
        pytest.param(["-(1 in + 2 in)"], "-3 in = ", id="a-minus-and-a-bracket"),
        pytest.param(["--", "-1 in"], "-1 in = ", id="after-two-dashes"),
        pytest.param(["--strict", "1 in"], "1 in = 25.4 mm exactly", id="an-option-first"),
        pytest.param(["1 in", "--strict"], "1 in = 25.4 mm exactly", id="an-option-last"),
        pytest.param(["snap 10.3 mm"], "13/32 in", id="a-request"),
        pytest.param(["--rule", "mm", "10.3 mm / 1"], "10.3 mm exactly", id="a-rule"),
        pytest.param(["  1 in"], "1 in = 25.4 mm exactly", id="blanks-first"),
    ],
)
def test_a_statement_is_answered(arguments, start, capsys):
    assert main(arguments) == 0
    said = capsys.readouterr()
    assert said.out.startswith(start)
    assert said.err == ""


def test_statements_share_their_names(capsys):
    assert main(["pitch = 1/2 in", "--rule=mm", "pitch * 2", "--", "-pitch"]) == 0
    answers = capsys.readouterr().out.split("\n\n")
    assert [a.split(" = ")[0] for a in answers] == ["pitch", "1 in", "-1/2 in"]


def test_the_rule_begins_as_asked(capsys):
    assert main(["--rule", "8ths", "1/16 in"]) == 0
    assert "not on the 8ths" in capsys.readouterr().out


@pytest.mark.parametrize(
    ("arguments", "message"),
    [
        (["--rule", "0ths", "1 in"], "--rule: '0ths' is not a rule: write 64ths"),
        (["--width", "3", "1 in"], "'3' is not a number of columns from 20 to 1000"),
        (["--width", "²", "1 in"], "is not a number of columns"),
        (["--completion", "dish"], "'dish'"),
        (["--nonsense"], "--nonsense"),
        (["-x", "1 in"], "-x"),
        (["--js", "1 in"], "--js"),
    ],
)
def test_wrong_use_ends_with_2(arguments, message, capsys):
    assert main(arguments) == 2
    said = capsys.readouterr()
    assert message in said.err
    assert said.out == ""


def test_a_fault_shows_its_place_and_ends_with_1(capsys):
    assert main(["2 in + x"]) == 1
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err == (
        "nothing is named x yet (column 8)\n  2 in + x\n         ^\ngive it a size first, such as x = 2 1/32 in\n"
    )


def test_a_fault_among_several_says_which(capsys):
    assert main(["1 in", "x", "2 in"]) == 1
    said = capsys.readouterr()
    assert said.err.startswith("statement 2: nothing is named x yet")
    assert said.out.count(" mm exactly") == 2


def test_a_failed_check_ends_with_1(capsys):
    assert main(["check 1 in = 25 mm"]) == 1
    assert capsys.readouterr().out.startswith("FAILS")
    assert main(["check 1 in = 25.4 mm"]) == 0


def test_the_version(capsys):
    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"fractions-shop {__version__}\n"


def test_the_help_is_whole(capsys):
    assert main(["--help"]) == 0
    text = capsys.readouterr().out
    for word, meaning in COMMANDS.items():
        assert re.search(rf"^  {word} +{re.escape(meaning)}$", text, re.MULTILINE)
    examples = re.findall(r"^  fractions-shop (?!column|sheet|compare|find)(.*'[^']+')  ", text, re.MULTILINE)
    assert len(examples) >= 3
    for example in examples:
        options, statement = re.fullmatch(r"(.*?) ?'([^']+)'", example).groups()  # type: ignore[union-attr]
        assert main([*options.split(), statement]) == 0, example


def test_the_word_help_is_a_plea_for_help(capsys):
    assert main(["help"]) == 0
    assert capsys.readouterr().out.startswith("usage: fractions-shop")
    assert main(["--", "help"]) == 1


def test_the_schema_is_printed(capsys):
    assert main(["--schema"]) == 0
    assert json.loads(capsys.readouterr().out)["$id"].startswith("urn:fractions-shop:answer:")


def test_the_schema_of_a_sheet_holds_all_that_it_refers_to(capsys, tmp_path):
    assert main(["--schema", "sheet"]) == 0
    made = json.loads(capsys.readouterr().out)
    sheet = tmp_path / "frame.shop"
    sheet.write_text(
        "## Frame\nbay = 2 in / 5\npart slat: 2 of oak, bay by 1/4 in\nnothing / 2\n", encoding="utf-8"
    )
    main(["sheet", str(sheet), "--to", "json"])
    written = json.loads(capsys.readouterr().out)
    valid = Draft202012Validator(made)
    assert list(valid.iter_errors(written)) == []
    written["lines"][0].pop("line")
    assert list(valid.iter_errors(written))


# Statements on standard input


def test_each_line_is_answered_in_turn(typed, capsys):
    typed("\ufeff1/2 in\r\n\r\n# a comment\nx\n1/2 in + 0 in\rans\n51,5 mm\n1/2 in".encode())
    assert main([]) == 1
    said = capsys.readouterr()
    assert said.out == "\n".join([HALF] * 4)
    assert re.findall(r"^line (\d+): (.*) \(column (\d+)\)$", said.err, re.MULTILINE) == [
        ("4", "nothing is named x yet", "1"),
        ("7", "51,5 has a comma, which may mark decimals, thousands or two figures", "1"),
    ]


def test_strict_stops_at_the_first_fault(typed, capsys):
    typed(b"1/2 in\nx\n1/2 in\n")
    assert main(["--strict"]) == 1
    assert capsys.readouterr().out == HALF


def test_strict_stops_at_a_failed_check(typed, capsys):
    typed(b"check 1 in = 1 mm\n1/2 in\n")
    assert main(["--strict"]) == 1
    assert HALF not in capsys.readouterr().out


def test_json_is_one_object_a_line_faults_among_them(typed, capsys):
    typed("½ in\nx +\n\nnonsense\ncheck 1 in = 1 mm\n1 in ± 1 thou\n".encode())
    assert main(["--json"]) == 1
    said = capsys.readouterr()
    assert said.err == ""
    assert said.out.endswith("\n")
    found = [json.loads(line) for line in said.out.splitlines()]
    assert [(f["statement"], f["ok"], f.get("line"), f.get("column")) for f in found] == [
        ("½ in", True, None, None),
        ("x +", False, 2, 4),
        ("nonsense", False, 4, 1),
        ("check 1 in = 1 mm", False, None, None),
        ("1 in ± 1 thou", True, None, None),
    ]
    assert "½" in said.out


def test_nothing_on_standard_input_is_nothing_to_say(typed, capsys):
    typed(b"")
    assert main([]) == 0
    assert capsys.readouterr() == ("", "")


@pytest.mark.parametrize(
    ("raw", "message"),
    [
        pytest.param(b"2 \xbd in", "line 2: this is not UTF-8 text: it holds the byte bd (column 3)", id="latin-1"),
        pytest.param(b"\xff\xfe2\0", "line 2: this is not UTF-8 text: it holds the byte ff (column 1)", id="utf-16"),
        pytest.param("2 in ½".encode()[:-1], "line 2: this is not UTF-8 text: it holds the byte c2 (column 6)", id="cut-short"),
        pytest.param(b"2 in\0", "line 2: ", id="nul"),
        pytest.param(b"\x1b[31m2 in", "line 2: ", id="escape"),
        pytest.param(b"(" * 5000, "line 2: the line is 5,000 characters long", id="long"),
        pytest.param(b"1" * 300_000, "line 2: the line is longer than 100,000 bytes (column 1001)", id="huge"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("form", ["sentence", "json"])
def test_bytes_that_are_no_statement_cost_one_line(raw, message, form, typed, capsys):
    typed(b"1/2 in\n" + raw + b"\n1/2 in\n")
    assert main(["--json"] if form == "json" else []) == 1
    said = capsys.readouterr()
    assert "\x1b" not in said.out + said.err
    assert "\0" not in said.out + said.err
    if form == "sentence":
        assert said.out == f"{HALF}\n{HALF}"
        assert said.err.startswith(message)
    else:
        found = [json.loads(line) for line in said.out.splitlines()]
        assert [f["ok"] for f in found] == [True, False, True]
        assert found[1]["line"] == 2
        assert len(found[1]["statement"]) <= LONGEST_LINE


def test_a_line_in_the_encoding_of_the_stream_is_read(typed, capsys):
    typed("2½ in\n".encode("latin-1"), "latin-1")
    assert main([]) == 0
    assert capsys.readouterr().out.startswith("2 1/2 in")


@given(st.binary(max_size=60))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_every_byte_on_standard_input_is_given_back_as_text_or_as_a_fault(raw):
    stream = io.TextIOWrapper(io.BytesIO(raw), encoding="ascii")
    found = list(statements_in(stream))
    assert len(found) >= raw.rstrip(b"\r\n").count(b"\n")
    joined = "\n".join(f for f in found if isinstance(f, str))
    assert "\r" not in joined
    if all(isinstance(f, str) for f in found):
        plain = raw.removeprefix(b"\xef\xbb\xbf").decode().replace("\r", "\n")
        assert [line for line in joined.split("\n") if line] == [line for line in plain.split("\n") if line]


@given(st.text(max_size=30))
@settings(suppress_health_check=[HealthCheck.function_scoped_fixture], max_examples=40)
def test_whatever_is_asked_ends_with_a_status_and_a_sentence(text):
    out = io.TextIOWrapper(io.BytesIO(), encoding="ascii")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("sys.stdout", out)
        patch.setattr("sys.stderr", io.TextIOWrapper(io.BytesIO(), encoding="ascii"))
        assert main(["--", text]) in (0, 1)


# The prompt


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def prompt(monkeypatch):
    """A prompt that only says with what it was opened."""
    opened: list[dict[str, object]] = []
    module = ModuleType("fractions_shop.prompt")
    module.run = lambda **options: opened.append(options) or 7  # type: ignore[attr-defined]
    monkeypatch.setitem(sys.modules, "fractions_shop.prompt", module)
    return opened


def test_the_prompt_opens_on_a_terminal(prompt, monkeypatch):
    monkeypatch.setattr("sys.stdin", Terminal())
    monkeypatch.setattr("sys.stdout", Terminal())
    assert main([], _open_prompt) == 7
    assert main(["--rule", "32nds", "--plain"], _open_prompt) == 7
    assert prompt == [{"plain": False}, {"rule": "32nds", "plain": True}]


def test_without_a_prompt_handed_in_a_terminal_is_read_line_by_line(prompt, monkeypatch):
    monkeypatch.setattr("sys.stdin", Terminal("1/2 in\n"))
    monkeypatch.setattr("sys.stdout", out := Terminal())
    assert main([]) == 0
    assert prompt == []
    assert out.getvalue() == HALF


@pytest.mark.parametrize("which", ["sys.stdin", "sys.stdout"])
def test_half_a_terminal_is_a_stream(which, prompt, monkeypatch):
    monkeypatch.setattr("sys.stdin", io.StringIO("1/2 in\n"))
    monkeypatch.setattr("sys.stdout", out := io.StringIO())
    monkeypatch.setattr(which, half := Terminal("1/2 in\n" if which == "sys.stdin" else ""))
    assert main([], _open_prompt) == 0
    assert prompt == []
    assert (half if which == "sys.stdout" else out).getvalue() == HALF


# Streams and terminals of every kind


@pytest.mark.parametrize("width", ["40", "80", "200"])
def test_answers_keep_to_the_width(width, capsys):
    assert main(["--width", width, "snap 10.3 mm", "1/2 in ± 2 thou", "51.37 mm / 3"]) == 0
    lines = capsys.readouterr().out.splitlines()
    assert max(map(len, lines)) <= int(width)
    assert len(lines) > 8


@pytest.mark.parametrize(("columns", "widest"), [("40", 40), ("nonsense", 80), ("0", 80), ("", 80)])
def test_the_width_is_that_of_the_terminal(columns, widest, capsys, monkeypatch):
    monkeypatch.setenv("COLUMNS", columns)
    assert main(["51.37 mm / 3"]) == 0
    assert max(map(len, capsys.readouterr().out.splitlines())) <= widest


@pytest.mark.parametrize(
    "environment",
    [
        {"PYTHONIOENCODING": "ascii"},
        {"PYTHONIOENCODING": "ascii:strict"},
        {"PYTHONIOENCODING": "latin-1"},
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
        {"LC_ALL": "POSIX", "PYTHONUTF8": "0"},
        {"TERM": "dumb", "NO_COLOR": "1"},
        {"TERM": ""},
    ],
    ids=lambda e: " ".join(f"{k}={v}" for k, v in e.items()),
)
@pytest.mark.parametrize("form", [(), ("--json",)], ids=["sentence", "json"])
def test_no_locale_or_terminal_is_too_poor(environment, form):
    done = run(*form, stdin="2½ in ± 2 thou\n12.5°\nÄ + ½\n".encode(), **environment)
    assert done.returncode == 1
    assert b"Traceback" not in done.stderr
    assert b"\x1b" not in done.stdout + done.stderr
    if form:
        found = [json.loads(line) for line in done.stdout.decode().splitlines()]
        assert [f["statement"] for f in found] == ["2½ in ± 2 thou", "12.5°", "Ä + ½"]
    else:
        text = done.stdout.decode("latin-1" if environment.get("PYTHONIOENCODING") == "latin-1" else "utf-8")
        assert re.match(r"2 1/2 in \(63\.5 mm\) (±|\+-) 0\.002 in", text)
        assert re.search(r"12\.5(°| deg)", text)
        assert b"line 3: " in done.stderr


@posix
def test_an_argument_that_is_no_text_is_a_fault():
    done = subprocess.run(
        [*map(os.fsencode, COMMAND), b"--json", b"2 \xbd in"], capture_output=True, check=False
    )
    assert done.returncode == 1
    assert json.loads(done.stdout)["error"] == "this is not UTF-8 text"


@posix
def test_answers_come_as_the_lines_do():
    with subprocess.Popen(COMMAND, stdin=subprocess.PIPE, stdout=subprocess.PIPE) as process:
        assert process.stdin is not None
        assert process.stdout is not None
        for _ in range(2):
            process.stdin.write(b"1/2 in\n")
            process.stdin.flush()
            # Would wait for ever if the answer were held back.
            while b"8ths" not in process.stdout.readline():
                pass
        process.stdin.close()
        assert process.wait() == 0


@posix
def test_ctrl_c_ends_quietly_with_130():
    with subprocess.Popen(
        COMMAND, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
        # Whoever runs the tests in the background has them ignore it.
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.SIG_DFL),
    ) as process:  # fmt: skip
        assert process.stdin is not None
        assert process.stdout is not None
        process.stdin.write(b"1/2 in\n")
        process.stdin.flush()
        process.stdout.readline()
        process.send_signal(signal.SIGINT)
        assert process.wait() == 130
        assert process.stderr is not None
        assert process.stderr.read() == b""


def shell(line: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        ["sh", "-c", line.replace("CMD", " ".join(map(quote, COMMAND)))],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
    )


@posix
@pytest.mark.parametrize(
    ("line", "status", "said"),
    [
        pytest.param("CMD '1/2 in' <&-", "0", "", id="no-standard-input-needed"),
        pytest.param("CMD <&-", "2", "fractions-shop: there is no statement to answer and standard input is closed; try --help\n", id="no-standard-input"),
        pytest.param("CMD '1/2 in' >&-", "1", "fractions-shop: standard output is closed, so there is nowhere to answer\n", id="no-standard-output"),
        pytest.param("CMD 'x' 2>&-", "1", "", id="no-standard-error"),
        pytest.param("CMD '1/2 in' >/dev/full", "1", "fractions-shop: the answer cannot be written: No space left on device\n", id="full"),
        pytest.param("CMD --help >/dev/full", "1", "fractions-shop: the answer cannot be written: No space left on device\n", id="full-help"),
        pytest.param("CMD x 2>/dev/full", "1", "", id="full-standard-error"),
    ],
)  # fmt: skip
def test_streams_that_are_not_there(line, status, said):
    if "/dev/full" in line and not Path("/dev/full").exists():
        pytest.skip("there is no /dev/full here")
    done = shell(f"({line}); echo status $?")
    assert done.stdout.splitlines()[-1] == f"status {status}"
    assert done.stderr == said


@posix
@pytest.mark.parametrize("what", ["", "--json", "column - --size width"])
def test_a_closed_pipe_ends_quietly_with_141(what, tmp_path):
    lines = "width\n" if "column" in what else ""
    (tmp_path / "many").write_text(lines + "1/2 in\n" * 60_000)
    with (
        (tmp_path / "many").open("rb") as many,
        subprocess.Popen(
            [*COMMAND, *what.split()], stdin=many, stdout=subprocess.PIPE, stderr=subprocess.PIPE
        ) as process,
    ):
        assert process.stdout is not None
        assert process.stderr is not None
        assert process.stdout.readline()
        process.stdout.close()  # with far more to come than a pipe holds
        assert process.stderr.read() == b""
        assert process.wait() == 141


# Starting


def test_one_answer_loads_nothing_that_it_does_not_need():
    code = (
        "import sys\nfrom fractions_shop.command.cli import main\nmain(['2 1/32 in / 5'])\n"
        "print(*sorted(sys.modules), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    loaded = set(done.stderr.split())
    unwanted = {
        "pint", "prompt_toolkit", "platformdirs", "lark", "argparse", "json", "csv", "shutil", "tempfile",
        "importlib.metadata", "logging",
    } | {
        f"fractions_shop.{name}" for name in (
            "command.options", "command.column", "requests.data", "requests.inputs", "size.products", "language.grammar",
            "language.lalr", "language.parse_tables", "language.functions", "language.written", "language.advice.dashes",
            "tables", "threads", "meant", "show", "prompt", "figures.html", "figures.drawing",
        )
    }  # fmt: skip
    assert loaded & unwanted == set()
    # Each costs its opening and reading: what a plain size does not need is imported where it is needed.
    assert len([name for name in loaded if name.startswith("fractions_shop")]) <= 60


def ours(*names: str) -> set[str]:
    return {f"fractions_shop.{name}" for name in names}


@pytest.mark.parametrize(
    ("line", "unwanted"),
    [
        # The results of a request are records: a dataclass writes and compiles its methods in every process.
        pytest.param("recover 51.5 mm", {"csv", *ours("threads", "meant.quantogram", "meant.closing")}, id="recover"),
        pytest.param("identify 2.75 mm, 0.53 mm", ours("meant", "threads.lookup", "threads.substitute"), id="identify"),
        pytest.param("thread M3", ours("meant", "threads.identify", "threads.retapping"), id="thread"),
        pytest.param("substitute 6 BA", ours("meant", "threads.identify"), id="substitute"),
    ],
)  # fmt: skip
def test_a_request_loads_its_own_and_makes_no_dataclass(line, unwanted):
    code = (
        "import dataclasses, sys\nfrom fractions_shop.command.cli import main\nmain(['2 1/32 in / 5'])\n"
        "made, work = [], dataclasses.dataclass\n"
        "dataclasses.dataclass = lambda *kind, **how: made.append(kind) or work(*kind, **how)\n"
        f"main([{line!r}])\nprint(*sorted(sys.modules), file=sys.stderr)\nprint('MADE', len(made))"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert set(done.stderr.split()) & unwanted == set()
    assert done.stdout.splitlines()[-1] == "MADE 0"


def test_a_column_loads_no_grammar_while_sizes_are_plain(tmp_path):
    (tmp_path / "a.csv").write_text("width\n2 1/32 in\n5' 3\"\n")
    code = (
        "import sys\nfrom fractions_shop.command.cli import main\n"
        f"main(['column', {str(tmp_path / 'a.csv')!r}, '--size', 'width'])\n"
        "print(*sorted(sys.modules), file=sys.stderr)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert {"pint", "prompt_toolkit", "platformdirs", "lark"} & set(done.stderr.split()) == set()


# Completion


def long_options(made) -> set[str]:
    return set(re.findall(r"^  (?:-h, )?(--[a-z]+)", made.format_help(), re.MULTILINE))


def command_parser(word: str):
    return import_module(f"fractions_shop.command.words.{word}").parser()


@pytest.mark.parametrize("name", SHELLS)
def test_a_script_is_printed(name, capsys):
    assert main(["--completion", name]) == 0
    assert capsys.readouterr().out == script(name)


@pytest.mark.parametrize("name", SHELLS)
def test_a_script_knows_every_command_and_option(name):
    text = script(name)
    sign = "-l " if name == "fish" else "--"
    for made in (parser(), *map(command_parser, COMMANDS)):
        missing = {o for o in long_options(made) if not re.search(rf"{sign}{o[2:]}\b", text)}
        assert missing == set()
    assert [word for word in COMMANDS if not re.search(rf"\b{word}\b", text)] == []
    known = {o for made in (parser(), *map(command_parser, COMMANDS)) for o in long_options(made)}
    named = {f"--{o}" for o in re.findall(rf"(?<![a-z-])(?<!set ){sign}([a-z]+)\b", text)}
    assert named - known == set(), "the script offers what is no option"


def offered(shell_name: str, *words: str) -> set[str]:
    """What the shell itself would offer behind these words."""
    if shutil.which(shell_name) is None:
        pytest.skip(f"{shell_name} is not here")
    if shell_name == "fish":
        line = " ".join(words).replace("'", "\\'")
        code = f"{script('fish')}\ncomplete -C '{line}'"
        done = subprocess.run(["fish", "--no-config", "-c", code], capture_output=True, text=True, check=True)
        return {row.split("\t")[0] for row in done.stdout.splitlines()}
    listed = " ".join(map(quote, words))
    code = (
        f"{script('bash')}\nCOMP_WORDS=({listed}); COMP_CWORD={len(words) - 1}\n_fractions_shop 2>/dev/null\n"
    )
    code += 'printf "%s\\n" "${COMPREPLY[@]}"'
    done = subprocess.run(["bash", "--norc", "-c", code], capture_output=True, text=True, check=True)
    return set(done.stdout.split())


@pytest.mark.parametrize("shell_name", ["bash", "fish"])
@pytest.mark.parametrize(
    ("words", "some", "none"),
    [
        (["fractions-shop", ""], set(COMMANDS), {"--size"}),
        (["fractions-shop", "--"], {"--json", "--rule", "--help"}, {"--size"}),
        (["fractions-shop", "--rule", ""], {"64ths", "mm", "half-mm"}, {"--json"}),
        (["fractions-shop", "--rule", "3"], {"32nds"}, {"64ths"}),
        (["fractions-shop", "--completion", ""], set(SHELLS), {"--json"}),
        (
            ["fractions-shop", "column", "--"],
            {"--size", "--out", "--rule", "--help"},
            {"--json", "--completion"},
        ),
        (["fractions-shop", "column", "x.csv", "--unit", ""], {"in", "mm", "thou"}, {"--size"}),
        (["fractions-shop", "sheet", "--"], {"--to", "--out"}, {"--size", "--rule", "--strict"}),
        (["fractions-shop", "sheet", "x.shop", "--to", ""], {"html", "pdf", "csv"}, {"--size"}),
        (["fractions-shop", "compare", "--"], {"--json"}, {"--size", "--rule", "--strict"}),
        (["fractions-shop", "column", "--delimiter", "s"], {"semicolon"}, {"tab"}),
    ],
    ids=lambda v: " ".join(v) if isinstance(v, list) else "",
)
def test_a_shell_offers_our_words(shell_name, words, some, none):
    found = offered(shell_name, *words)
    assert some <= found
    assert none & found == set()


def test_the_rules_offered_are_rules():
    assert all(Rule(name).division.value > 0 for name in offered("bash", "fractions-shop", "--rule", ""))


def test_zsh_takes_its_script():
    if shutil.which("zsh") is None:
        pytest.skip("zsh is not here")
    code = f"autoload -Uz compinit; compinit -u -D\n{script('zsh')}\nprint $_comps[fractions-shop]"
    done = subprocess.run(["zsh", "-f", "-c", code], capture_output=True, text=True, check=True)
    assert (done.stdout, done.stderr) == ("_fractions_shop\n", "")
