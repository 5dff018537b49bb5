"""Kill what writes a file, at random moments, and look at what is left: `python tests/bench/kill_writers.py [KILLS]`.

Each kind of writing is begun KILLS times (100 by default) over a file that is there, and its
process is killed by SIGKILL after a random part of the time that it takes. Counted is
whether the file is then the old one, the new one or something else, which must never be,
and what else lies in the folder: nothing, where files without a name are to be had. The prompt's drafts and
a page that is made anew at every saving are killed by `kill_prompts.py`.
"""

from __future__ import annotations

import random
import subprocess
import sys
import tempfile
import time
from pathlib import Path

HERE = Path(__file__).parents[2]
COMMAND = [sys.executable, "-m", "fractions_shop"]
_SAVE = """
from fractions_shop.prompt import commands
from fractions_shop.prompt.model import PromptModel
model = PromptModel()
list(commands.run(model, "open", "out", 80))
model.enter("last = 1 in")
list(commands.run(model, "save", "", 80))
"""
_HISTORY = """
from pathlib import Path
from fractions_shop.prompt import history
history.MOST, history._ROOM = 300, 5
store = history.LineStore(Path("out"))
for n in range(60):
    store.add(f"{n} in")
"""
_AGAIN = """
import os, sys
{without}
from fractions_shop.files.whole import write_whole
for n in range(60):
    write_whole("out", bytes([65 + n % 2]) * 2_000_000)
"""
WRITERS = {
    "over and over": [sys.executable, "-c", _AGAIN.format(without="")],
    "with a name": [sys.executable, "-c", _AGAIN.format(without="vars(os).pop('O_TMPFILE', None)")],
    "sheet --out": [*COMMAND, "sheet", "rows.shop", "--out", "out", "--to", "html"],
    "column --out": [*COMMAND, "column", "rows.csv", "--size", "width", "--out", "out"],
    "save": [sys.executable, "-c", _SAVE],
    "history": [sys.executable, "-c", _HISTORY],
}


def main(kills: int) -> int:
    """Every kind of writing, killed so many times; 1 when a file was neither old nor new."""
    torn = 0
    for name, command in WRITERS.items():
        torn += _killed(name, command, kills)
    return int(torn > 0)


def _killed(name: str, command: list[str], kills: int) -> int:
    counts = {"old": 0, "new": 0, "torn": 0, "left behind": 0}
    with tempfile.TemporaryDirectory() as place:
        folder = Path(place)
        _prepare(folder)
        begun = time.monotonic()
        subprocess.run(command, cwd=folder, check=True, capture_output=True)
        whole = time.monotonic() - begun
        new = (folder / "out").read_bytes()
        if name == "save":
            new = _older(name, new) + b"last = 1 in\n"
        usual = {path.name for path in folder.iterdir()}
        for _ in range(kills):
            old = _older(name, new)
            (folder / "out").write_bytes(old)
            with subprocess.Popen(
                command, cwd=folder, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
            ) as process:
                time.sleep(whole * random.uniform(0.4, 1.05))
                process.kill()
            found = (folder / "out").read_bytes()
            good = _is_whole(name, found, new)
            counts["old" if found == old else "new" if good else "torn"] += 1
            left = [path for path in folder.iterdir() if path.name not in usual]
            counts["left behind"] += len(left)
            for path in left:
                path.unlink()
    sys.stdout.write(f"{name:14}" + ", ".join(f"{count} {word}" for word, count in counts.items()) + "\n")
    return counts["torn"]


def _prepare(folder: Path) -> None:
    rows = [f"size_{n} = {n} 1/32 in" for n in range(400)]
    (folder / "rows.shop").write_text("## Rows\n" + "\n".join(rows) + "\n")
    (folder / "rows.csv").write_text("row,width\n" + "".join(f"{n},{n} 1/32 in\n" for n in range(40_000)))
    (folder / "out").write_text("")


def _older(name: str, new: bytes) -> bytes:
    """A longer file of the same making, as the one before."""
    if name == "save":
        return b"a = 1 in\n" * 4_000
    if name == "history":
        return b"".join(f"{n} mm\n".encode() for n in range(299))
    return new + b"\n" * 5_000


def _is_whole(name: str, found: bytes, new: bytes) -> bool:
    if name == "history":
        return _is_history(found)
    if name.endswith("--out") or name == "save":
        return found == new
    return found in (b"A" * len(new), b"B" * len(new))


def _is_history(data: bytes) -> bool:
    """Whether every line is whole, and the older ones have gone from the front only."""
    lines = data.decode().splitlines(keepends=True)
    known = [f"{n} mm\n" for n in range(299)] + [f"{n} in\n" for n in range(60)]
    starts = [n for n in range(len(known)) if known[n : n + len(lines)] == lines]
    return bool(starts) and len(lines) > 200


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else 100))
