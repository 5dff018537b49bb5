"""Kill prompts and watchers at random moments: `python tests/bench/kill_prompts.py [KILLS] [SEED]`.

A prompt (its replies, its file and its drafts; the screen is left out) brings back the draft that the one killed before it
left, goes on writing, saves now and then, begins empty sheets, and says of each line when it is done with it. It
is killed by SIGKILL after a random time, and so is the next. Nothing that it was done with may be missing then from
the drafts and the file together, and no file may be torn. A watcher (`sheet FILE --out PAGE --watch`) is killed
while its sheet is saved over and over; the page must be one of the pages, whole.
"""

from __future__ import annotations

import os
import random
import re
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).parents[2]
_PROMPT = """
import io, random, sys
from pathlib import Path
from fractions_shop.prompt.drafts import DraftStore
from fractions_shop.prompt.history import LineStore
from fractions_shop.prompt.model import PromptModel
from fractions_shop.prompt.replies import Replies
folder, first, dice = Path(sys.argv[1]), int(sys.argv[2]), random.Random(int(sys.argv[3]))
model = PromptModel(drafts=DraftStore(folder / "drafts"))
replies = Replies(model, LineStore(folder / "history"), io.StringIO())
waiting = model.file.drafts.waiting()
if waiting:
    replies.line("open draft", 80)
elif (folder / "trays.shop").exists():
    replies.line(f"open {folder / 'trays.shop'}", 80)
print("began", flush=True)
for n in range(first, first + 400):
    replies.line(f"size_{n} = {n} 1/32 in", 80)
    kind = dice.randrange(12)
    if kind == 0:
        replies.line("save" if model.file.path else f"save {folder / 'trays.shop'}", 80)
    elif kind == 1:
        replies.line("drop 999", 80)
    elif kind == 2:
        unsaved = model.file.unsaved  # a line that is typed again after a kill may be saved already
        replies.line("clear sheet", 80)
        replies.line("open draft" if unsaved else f"open {folder / 'trays.shop'}", 80)
    elif kind == 3:
        replies.line("undo", 80)
        replies.line("redo", 80)
    print(n, flush=True)
"""


def prompts(kills: int, dice: random.Random) -> int:
    """So many prompts one after another, each killed; how often something was lost or torn."""
    wrong, last, counts = 0, 0, {"in the file": 0, "in a draft": 0}
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        for kill in range(kills):
            command = [sys.executable, "-c", _PROMPT, place, str(last + 1), str(dice.randrange(10**6))]
            with subprocess.Popen(command, cwd=HERE, stdout=subprocess.PIPE, text=True) as process:
                assert process.stdout is not None
                if dice.randrange(3):
                    process.stdout.readline()  # until it has begun; else it may be killed while it opens the draft
                    time.sleep(dice.uniform(0.0, 0.5))
                else:
                    time.sleep(dice.uniform(0.3, 1.2))
                process.kill()
                done = [int(row) for row in process.stdout.read().split("\n") if row.isdecimal()]
            last = max([last, *done])
            saved = _sizes((folder / "trays.shop").read_bytes() if (folder / "trays.shop").exists() else b"")
            kept = [_sizes(_draft(path)) for path in (folder / "drafts").glob("*.draft")]
            whole = [sizes for sizes in (saved, *kept) if set(range(1, last + 1)) <= sizes]
            counts["in the file"] += saved in whole
            counts["in a draft"] += any(sizes in whole for sizes in kept)
            if not whole:
                wrong += 1
                sys.stdout.write(
                    f"kill {kill}: of {last} lines, {sorted(set(range(1, last + 1)) - max([saved, *kept], key=len))} are lost\n"
                )
                last = max([0, *saved, *(n for sizes in kept for n in sizes)])
    told = ", ".join(f"{n} {word}" for word, n in counts.items())
    sys.stdout.write(f"prompts: {kills} kills, {last} lines, {wrong} lost something; whole: {told}\n")
    return wrong


def _draft(path: Path) -> bytes:
    """The sheet in a draft, behind its head and what was saved."""
    head, _, rest = path.read_bytes().partition(b"\n")
    count = re.search(rb'"saved": ([0-9]+)', head)
    return rest[int(count[1]) :] if count else b""


def _sizes(data: bytes) -> set[int]:
    """The numbers of the sizes that a sheet sets, each by a whole line."""
    rows = re.findall(rb"^size_([0-9]+) = ([0-9]+) 1/32 in$", data, re.MULTILINE)
    return {int(one) for one, other in rows if one == other}


def watchers(kills: int, dice: random.Random) -> int:
    """So many watchers, each killed while its sheet is saved over and over; how many pages were torn."""
    counts = {"whole": 0, "torn": 0, "left behind": 0}
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        command = [
            sys.executable,
            "-m",
            "fractions_shop",
            "sheet",
            "rows.shop",
            "--out",
            "page.html",
            "--watch",
        ]
        _save(folder, 0)
        subprocess.run([*command[:-1]], cwd=folder, env=_env(), check=True, capture_output=True)
        for kill in range(kills):
            with subprocess.Popen(
                command, cwd=folder, env=_env(), stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
            ) as process:
                until = time.monotonic() + dice.uniform(0.3, 2.5)
                while time.monotonic() < until:
                    _save(folder, kill)
                    time.sleep(dice.uniform(0.0, 1.2))
                process.kill()
            page = (folder / "page.html").read_text("utf-8")
            saids = set(re.findall(r"round_([0-9]+)_", page))
            counts["whole" if page.rstrip().endswith("</html>") and len(saids) == 1 else "torn"] += 1
            for path in folder.iterdir():
                if path.name not in ("rows.shop", "page.html"):
                    counts["left behind"] += 1
                    path.unlink()
    sys.stdout.write("watchers: " + ", ".join(f"{count} {word}" for word, count in counts.items()) + "\n")
    return counts["torn"]


def _env() -> dict[str, str]:
    return {**os.environ, "PYTHONPATH": str(HERE)}


def _save(folder: Path, number: int) -> None:
    (folder / "rows.shop").write_text("".join(f"round_{number}_{n} = {n} 1/32 in\n" for n in range(1, 200)))


def main(kills: int, seed: int) -> int:
    """Both, and 1 when anything was lost."""
    wrong = prompts(kills, random.Random(seed)) + watchers(kills // 4, random.Random(seed + 1))
    return int(wrong > 0)


if __name__ == "__main__":
    numbers = [int(word) for word in sys.argv[1:]]
    sys.exit(main(*numbers, *(200, 1951)[len(numbers) :]))
