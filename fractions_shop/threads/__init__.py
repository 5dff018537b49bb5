"""Screw threads: every series by its standard's formula, and what can stand in for what.

forms.py       thread forms: angle, depth, rounding, by the constants that are printed
ba.py          the British Association formula, in whole numbers
records.py     the series: one record each of all that is particular to it
series.py      every thread of every series
thread.py      Thread: one thread and its figures
holes.py       tapping drills
clearance.py   clearance holes
wires.py       measuring over three wires
heads.py       sizes of heads, nuts and washers, where a table of them was read
spanners.py    `spanner`: which spanner goes on a hexagon, and how loose
names.py       threads as they are written; loads no table
lookup.py      `thread`: from a written name to its figures
by_form.py     a thread that no table has, by its major, pitch and form
identify.py    `identify`: from worn readings to the threads they may be
substitute.py  `substitute`: what can be fitted instead, and what happens

Nothing is loaded until a thread is asked for; `names` can be imported for its pattern alone.
"""
