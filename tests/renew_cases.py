"""Writes the answers in tests/cases anew after a wording changed. Read every change before it is kept.

Only what the program says is renewed; a statement, its place and the comments stay. The
sizes in sizes.txt are written by hand and are never renewed.
"""

from __future__ import annotations

import sys

from case_files import HERE, answered


def main() -> None:
    """Renew every file of statements."""
    for path in sorted(HERE.glob("*.txt")):
        if path.name == "sizes.txt":
            continue
        out: list[str] = []
        block: list[str] = []
        for line in [*path.read_text(encoding="utf-8").splitlines(), ""]:
            if line and not line.startswith("##"):
                block.append(line)
                continue
            out += answered(tuple(block))
            block = []
            out.append(line)
        path.write_text("\n".join(out).rstrip("\n") + "\n", encoding="utf-8")
        sys.stdout.write(f"{path.name} renewed: read the difference\n")


if __name__ == "__main__":
    main()
