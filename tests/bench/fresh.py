"""How long a piece of code takes in new interpreters."""

from __future__ import annotations

import subprocess
import sys
from statistics import median


def fresh(code: str) -> float:
    """The median of what `code` prints in five new interpreters."""
    runs = [
        subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
        for _ in range(5)
    ]
    return median(float(run.stdout) for run in runs)
