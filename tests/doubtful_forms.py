"""Written sizes that may be read in two ways, and such as may not."""

from __future__ import annotations

#: Forms with a second sensible meaning that the language reads: the size read, and another that was meant.
#: Each is such that a column with inches for its plain numbers would take it.
TWO_MEANINGS = {
    "5' - 3\"": ("57 in", "63 in"),
    "R1/4": ("13.157 mm", "1/4 in"),  # ISO 7-1: R 1/4 has a gauge diameter of 13.157 mm
    "R 1/4": ("13.157 mm", "1/4 in"),
    "0.5 in +0.001 in -0.002 in": ("0.499 in", "1/2 in +0.001/-0.002 in"),
    "0.5 in -0.002 in +0.001 in": ("0.499 in", "1/2 in +0.001/-0.002 in"),
    ".500/.498": ("(1/2) / (0.498)", "0.498 in +0.002/-0 in"),
    "1.500 in/1.498 in": ("(1.5) / (1.498)", "1.498 in +0.002/-0 in"),
    "10-32": ("10 - (32)", "No 10-32"),
    "1/4 - 20": ("1/4 - (20)", "1/4-20"),
    "2 - 1/32": ("2 - (1/32)", "2 1/32"),
    "2 -½": ("2 - (1/2)", "2 1/2"),
    ".500-.498": ("1/2 - (0.498)", "0.498 in +0.002/-0 in"),
    "10.1-10.3": ("10.1 - (10.3)", "10.1 mm +0.2/-0 mm"),
    "2×4": ("8", ""),
    "2 × 4 in": ("8 in", ""),
    "2 in × 4": ("8 in", ""),
    "1/2 x 12": ("1/2 in", ""),
    "1/2/24": ("1/48", ""),
    "12/11/2024": ("(12/11) / (2024)", ""),
    "2024-01-02": ("2021", ""),
    "1 / 2 in": ("1 / (2 in)", "1/2 in"),
    "1.5/2 in": ("3/4 / (1 in)", "3/4 in"),
    "2 in^2": ("(2 in)^2", "2 in * 1 in"),
}
ONE_MEANING = [
    '2-1/32"',
    "5'-3 1/2\"",
    "M3",
    "18 SWG",
    "5 ft - 3 in",
    "5 1/2' - 3\"",
    "1.5/24",
    "2 - 0.5",
    "2 - (1/2)",
    "2 - 2/3",
    "9.5 - 9.25",
    "2 * 4",
    "2 in",
]
