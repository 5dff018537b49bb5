"""The prompt as a program of its own: on a pseudo-terminal, and in tmux where that is there."""

from __future__ import annotations

import os
import pty
import shutil
import signal
import subprocess
import sys
import tempfile
import termios
import threading
import time
import uuid
from collections.abc import Callable, Iterator
from pathlib import Path
from types import TracebackType

import pyte
import pytest

from fractions_shop.prompt.between_prompts import TERMINATED, ended_by_signal, keys_wait

PATIENCE = 120.0
PROMPT = [
    sys.executable,
    "-c",
    "import sys; from fractions_shop.prompt import run; sys.exit(run(**eval(sys.argv[1])))",
]
ROOT = Path(__file__).parents[2]
#: A prompt that is killed leaves a draft, which is no business of the one who runs the tests.
_STATE = tempfile.TemporaryDirectory()


class Child:
    """A prompt on a pseudo-terminal; use it as a context."""

    def __init__(self, arguments: str = "{}", stderr: bool = False, **environment: str) -> None:
        self.arguments = arguments
        own = {"TERM": "xterm", "PYTHONPATH": str(ROOT), **environment}
        self.environment = {"XDG_STATE_HOME": _STATE.name, **os.environ, **own}
        self.apart = stderr
        self.screen = pyte.Screen(80, 40)
        self._stream = pyte.Stream(self.screen)
        self._lock = threading.Lock()
        self.raw = ""

    def __enter__(self) -> Child:
        self.master, slave = pty.openpty()
        termios.tcsetwinsize(slave, (40, 80))
        self.process = subprocess.Popen(
            [*PROMPT, self.arguments],
            stdin=slave, stdout=slave, stderr=subprocess.PIPE if self.apart else slave,
            env=self.environment, start_new_session=True,
        )  # fmt: skip
        self.slave = slave
        self._reader = threading.Thread(target=self._read, daemon=True)
        self._reader.start()
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        if self.process.poll() is None:
            self.process.kill()
        self.process.wait()
        if self.process.stderr is not None:
            self.process.stderr.close()
        os.close(self.slave)
        self._reader.join(5)
        os.close(self.master)

    def _read(self) -> None:
        while True:
            try:
                data = os.read(self.master, 65536).decode("utf-8", "replace")
            except OSError:
                return
            if not data:
                return
            with self._lock:
                self.raw += data
                self._stream.feed(data)

    def press(self, text: str) -> None:
        os.write(self.master, text.encode())

    def lines(self) -> list[str]:
        with self._lock:
            return [row.rstrip() for row in self.screen.display if row.strip()]

    def see(self, wanted: str | Callable[[list[str]], bool]) -> list[str]:
        """Wait until a row is as wanted; the rows then."""
        return _seen(self.lines, wanted)

    def ends(self) -> int:
        return self.process.wait(PATIENCE)

    def cooked(self) -> bool:
        """Whether the terminal takes whole lines and echoes them, as a shell expects it."""
        local = termios.tcgetattr(self.slave)[3]
        return bool(local & termios.ICANON) and bool(local & termios.ECHO)


def _seen(lines: Callable[[], list[str]], wanted: str | Callable[[list[str]], bool]) -> list[str]:
    end = time.monotonic() + PATIENCE
    rows: list[str] = []
    while time.monotonic() < end:
        rows = lines()
        if any(wanted in row for row in rows) if isinstance(wanted, str) else wanted(rows):
            return rows
        time.sleep(0.02)
    raise AssertionError(f"not seen: {wanted!r}\n" + "\n".join(rows))


def last(text: str) -> Callable[[list[str]], bool]:
    return lambda rows: bool(rows) and rows[-1] == text


def prompts(count: int) -> Callable[[list[str]], bool]:
    """Whether so many prompts stand on the screen."""
    return lambda rows: sum(row.startswith("64ths:") for row in rows) == count


def test_a_session_on_a_terminal_from_start_to_end() -> None:
    with Child() as child:
        child.see(prompts(1))
        child.press("2 1/32 in / 5")
        child.see("reads 13/32 in")
        assert not child.cooked()
        child.press("\r")
        child.see("13/32 in = 0.40625 in = 10.31875 mm exactly")
        child.see(prompts(2))
        child.press("\x04")
        assert child.ends() == 0
        assert child.cooked()
        assert "\x1b[6n" not in child.raw


def test_sigterm_ends_with_143_and_leaves_the_terminal_as_it_was() -> None:
    """Behaviour 16."""
    with Child() as child:
        child.see(prompts(1))
        child.press("2 in")
        child.see("reads 2 in")
        child.process.send_signal(signal.SIGTERM)
        assert child.ends() == 143
        assert child.cooked()


@pytest.mark.parametrize(
    ("arguments", "environment"),
    [
        pytest.param("{}", {"TERM": "dumb"}, id="TERM-dumb"),
        pytest.param("{}", {"TERM": ""}, id="TERM-empty"),
        pytest.param("{}", {"TERM": "unknown"}, id="TERM-unknown"),
        pytest.param("{'plain': True}", {}, id="option"),
        pytest.param("{}", {"FRACTIONS_SHOP_PLAIN": "1"}, id="variable"),
    ],
)
def test_the_plain_prompt_shows_the_true_line(arguments: str, environment: dict[str, str]) -> None:
    """Behaviour 21."""
    with Child(arguments, **environment) as child:
        child.see(last("64ths:"))
        child.press("2 1/32 in / 55")
        child.see(last("64ths: 2 1/32 in / 55"))
        child.press("\x7f")
        child.see(last("64ths: 2 1/32 in / 5"))
        child.press("\r")
        rows = child.see(last("64ths:"))
        assert rows[-4:] == [
            "64ths: 2 1/32 in / 5",
            "  13/32 in = 0.40625 in = 10.31875 mm exactly",
            "  a mark of the 32nds",
            "64ths:",
        ]
        child.press("2 in + foo\r")
        rows = child.see("nothing is named foo yet (column 8)")
        child.press("(1 in +\r")
        child.see(last("  ...:"))
        child.press("2 in)\r")
        child.see("76.2 mm")
        child.see(last("64ths:"))  # between two prompts it would be lost
        child.press("\x04")
        assert child.ends() == 0


def test_the_caret_of_the_plain_prompt_stands_under_the_place() -> None:
    with Child(TERM="dumb") as child:
        child.see(last("64ths:"))
        child.press("2 in + foo * 3\r")
        rows = child.see(lambda rows: any(row.strip() == "^^^" for row in rows))
        caret = next(n for n, row in enumerate(rows) if row.strip() == "^^^")
        assert rows[caret - 1].index("foo") == rows[caret].index("^")
        child.press("\x03")
        child.press("quit\r")
        assert child.ends() == 0


def test_sigterm_ends_the_plain_prompt_with_143_too() -> None:
    with Child(TERM="dumb") as child:
        child.see(last("64ths:"))
        child.press("2 in")
        child.see(last("64ths: 2 in"))
        child.process.send_signal(signal.SIGTERM)
        assert child.ends() == 143
        assert child.cooked()


def test_what_is_wrong_with_settings_and_history_is_said_once_on_standard_error(home: Path) -> None:
    """Behaviour 13, with a file where the state folder should be."""
    (home / "config" / "fractions-shop").mkdir(parents=True)
    (home / "config" / "fractions-shop" / "settings.toml").write_text('rule = "mm"\ndigits = many\n')
    (home / "state").write_text("")
    with Child(stderr=True) as child:
        child.see(prompts(1))
        child.press("2 in\r")
        child.see("50.8 mm exactly")
        child.see(prompts(2))
        child.press("\x04")
        assert child.ends() == 0
        assert child.process.stderr is not None
        told = child.process.stderr.read().decode().splitlines()
    assert len(told) == 2
    assert "settings.toml, line 2: " in told[0]
    assert told[1].startswith("earlier lines are not kept: ")


def test_the_settings_serve_and_an_option_goes_before_them(home: Path) -> None:
    (home / "config" / "fractions-shop").mkdir(parents=True)
    (home / "config" / "fractions-shop" / "settings.toml").write_text(
        'rule = "mm"\ndigits = 3\npicture = false\n'
    )
    with Child() as child:
        child.see(lambda rows: any(row.startswith("mm:") for row in rows))
        child.press("10.3 mm\r")
        child.see("about 0.406 in")
        child.see(lambda rows: sum(row.startswith("mm:") for row in rows) == 2)
        assert "each tick" not in child.raw
    with Child("{'rule': '32nds'}") as child:
        child.see(lambda rows: any(row.startswith("32nds:") for row in rows))


def test_a_rule_that_is_none_ends_with_2() -> None:
    with Child("{'rule': 'yards'}") as child:
        assert child.ends() == 2
        child.see("'yards' is not a rule")


@pytest.mark.parametrize("encoding", ["ascii", "latin-1"])
def test_a_terminal_without_our_signs_gets_plain_ones(encoding: str) -> None:
    with Child(PYTHONIOENCODING=encoding) as child:
        child.see(prompts(1))
        child.press("2 in +- 1 thou\r")
        child.see("upper limit")
        child.see(prompts(2))
        child.press("mark 13/32 in into 2\r")
        child.see("each tick is")
        child.see(prompts(3))
        child.press("\x04")
        assert child.ends() == 0


# tmux

needs_tmux = pytest.mark.skipif(shutil.which("tmux") is None, reason="tmux is not there")


class Pane:
    """A shell in tmux, on a server of its own."""

    def __init__(self, home: Path) -> None:
        self.name = f"fractions-shop-{uuid.uuid4().hex[:8]}"
        environment = {**os.environ, "PYTHONPATH": str(ROOT), "PS1": "shell> ", "HOME": str(home)}
        environment.pop("TMUX", None)
        self._run("-f", "/dev/null", "new", "-d", "-x", "80", "-y", "30", "sh", "-i", environment=environment)

    def _run(self, *arguments: str, environment: dict[str, str] | None = None) -> str:
        command = ["tmux", "-L", self.name, *arguments]
        return subprocess.run(
            command, capture_output=True, text=True, env=environment, timeout=PATIENCE, check=True
        ).stdout

    def type(self, text: str) -> None:
        self._run("send-keys", "-l", "--", text)

    def key(self, name: str) -> None:
        self._run("send-keys", name)

    def lines(self) -> list[str]:
        return [row.rstrip() for row in self._run("capture-pane", "-p").splitlines() if row.strip()]

    def see(self, wanted: str | Callable[[list[str]], bool]) -> list[str]:
        return _seen(self.lines, wanted)

    def resize(self, columns: int) -> None:
        self._run("resize-window", "-x", str(columns), "-y", "30")

    def start(self) -> None:
        """Start the prompt, far enough down the screen that folded rows do not reach its top."""
        script = (
            f"{' '.join(PROMPT[:1])} -c 'import sys; from fractions_shop.prompt import run; sys.exit(run())'"
        )
        self.see(lambda rows: bool(rows))
        self.type(f"for n in 1 2 3 4 5 6 7 8 9 0 1 2 3 4 5 6 7 8 9 0; do echo; done; {script}; echo left $?")
        self.key("Enter")
        self.see(prompts(1))


@pytest.fixture
def pane(home: Path) -> Iterator[Pane]:
    pane = Pane(home)
    yield pane
    pane._run("kill-server")


@needs_tmux
def test_in_tmux_a_line_is_read_and_answered(pane: Pane) -> None:
    pane.start()
    pane.type("divide 2 in into 5 up")
    pane.see("reads 2 1/32 in (51.59375 mm) falls into 5 spaces")
    pane.key("Enter")
    pane.see("each tick is 1/32 in")
    pane.see(prompts(2))
    pane.key("C-d")
    pane.see("left 0")


@needs_tmux
def test_ctrl_z_and_fg_keep_the_line(pane: Pane) -> None:
    """Behaviour 17."""
    pane.start()
    pane.type("2 in + 3 m")
    pane.see("reads")
    pane.key("C-z")
    pane.see(lambda rows: "topped" in "".join(rows) and rows[-1].startswith("shell>"))
    pane.type("fg")
    pane.key("Enter")
    pane.see("64ths: 2 in + 3 m")
    pane.type("m")
    pane.see("reads 53.8 mm exactly")
    pane.key("C-c")
    pane.see(lambda rows: "64ths:" in rows)
    pane.key("C-d")
    pane.see(last("shell>"))


@needs_tmux
def test_resizing_a_terminal_that_folds_rows_leaves_one_clean_prompt(pane: Pane) -> None:
    """Behaviour 19."""
    pane.start()
    line = "2 in + 1/4 in + 3 mm * 2 + 1/8 in + 3 thou"
    pane.type(line)
    pane.see("reads 66.4012 mm exactly")
    for columns in (30, 80):
        pane.resize(columns)
        pane.see(lambda rows, columns=columns: _cleanly(rows, line, columns))  # type: ignore[misc]


def _cleanly(rows: list[str], line: str, columns: int) -> bool:
    """Whether the prompt stands there once, with its line whole and the reading beneath."""
    starts = [n for n, row in enumerate(rows) if row.startswith("64ths:")]
    if len(starts) != 1 or not rows[-1].startswith("  reads 66.4012"):
        return False
    shown = "".join(row.ljust(columns) for row in rows[starts[0] : -1])
    return shown.strip() == f"64ths: {line}" and "reads" not in shown


def test_what_is_typed_while_an_answer_is_worked_out_waits_unseen_and_ctrl_c_still_stops() -> None:
    """Else a terminal shows it twice, and takes Ctrl-D away."""
    master, slave = os.openpty()
    try:
        before = termios.tcgetattr(slave)
        with keys_wait(slave):
            local = termios.tcgetattr(slave)[3]
            assert not local & (termios.ECHO | termios.ICANON)
            assert local & termios.ISIG
        assert termios.tcgetattr(slave) == before
    finally:
        os.close(master)
        os.close(slave)


def test_what_is_no_terminal_is_left_alone(tmp_path: Path) -> None:
    with (tmp_path / "keys").open("w") as file, keys_wait(file.fileno()):
        file.write("2 in")


def test_sigterm_while_an_answer_is_worked_out_ends_as_at_the_prompt() -> None:
    before = signal.getsignal(signal.SIGTERM)
    with pytest.raises(SystemExit) as end, ended_by_signal():
        signal.raise_signal(signal.SIGTERM)
    assert end.value.code == TERMINATED
    assert signal.getsignal(signal.SIGTERM) is before
