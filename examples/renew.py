"""Write every output beside the examples anew: `python examples/renew.py`.

A test compares what lies in `written/` with what is made now.
"""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

from fractions_shop.errors import ShopError
from fractions_shop.show.sheet import Sheet

HERE = Path(__file__).parent
WRITTEN = HERE / "written"
SHEETS = ("trays-and-runners", "label-frames", "tube-rack")
SCRIPTS = ("worn_side", "other_radius")


def outputs(name: str) -> dict[str, str]:
    """Every output of a sheet that is text, by the name of its file."""
    sheet = Sheet.read(HERE / f"{name}.shop")
    return {
        f"{name}.txt": sheet.to_text(),
        f"{name}.md": sheet.to_markdown(),
        f"{name}.csv": sheet.to_csv(),
        f"{name}.json": sheet.to_json(),
        f"{name}.html": sheet.to_html(),
        f"{name}.svg": sheet.to_svg(),
    }


def script_output(name: str) -> str:
    """What a script prints."""
    command = [sys.executable, str(HERE / f"{name}.py")]
    return subprocess.run(command, capture_output=True, text=True, encoding="utf-8", check=True).stdout


def main() -> None:
    """Write everything; a PDF is written too, though printers' libraries differ in its bytes."""
    WRITTEN.mkdir(exist_ok=True)
    for name in SHEETS:
        for file, text in outputs(name).items():
            (WRITTEN / file).write_text(text, encoding="utf-8", newline="")
        try:
            Sheet.read(HERE / f"{name}.shop").to_pdf(WRITTEN / f"{name}.pdf")
        except ShopError as error:
            print(f"{name}.pdf is left as it was: {error}")
    for name in SCRIPTS:
        (WRITTEN / f"{name}.txt").write_text(script_output(name), encoding="utf-8", newline="")


if __name__ == "__main__":
    main()
