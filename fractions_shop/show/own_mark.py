"""How what we write is known again: a mark in its first lines, where a reader is not disturbed.

A page and a picture carry the usual word for what made them, Markdown a comment, a print
its creator; a list of sizes and an object are known by their own beginning. Plain text has
no such place: a file of it gets one short line beneath the title.
"""

from __future__ import annotations

#: What the marks say.
MAKER = "fractions-shop"
#: In the head of a page, before anything that a sheet says.
HTML = f'<meta name="generator" content="{MAKER}">\n'
#: Above the picture, and beneath the title of Markdown.
COMMENT = f"<!-- {MAKER} -->"
#: Beneath the title of a text.
TEXT = f"worked out by {MAKER}"
#: Beneath the title of a list of coordinates.
COORDINATES = f"coordinates by {MAKER}"
#: At the head of a file for a machine: a remark, which readers pass over.
DXF = f"999\n{MAKER}\n"
