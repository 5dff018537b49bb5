"""The marks of a runner drawn to scale, exact ones above and those on the rule below, with matplotlib."""

import sys
from pathlib import Path

import matplotlib

from fractions_shop import mark

matplotlib.use("agg")
import matplotlib.pyplot as plt

marks = mark("2 in", 5, rule="32nds")
# A float is the caller's own choice, for a picture only.
exact = [float(place.inch) for place in marks.exact]
read = [float(place.inch) for place in marks.read]

figure, axes = plt.subplots(figsize=(6, 1.9), layout="constrained")
axes.vlines(exact, 0, 1, label="exact")
axes.vlines(read, -1, 0, color="tab:red", label="on the 32nds")
for place, mark_read in zip(read, marks.read, strict=True):
    axes.annotate(str(mark_read), (place, -1), ha="center", va="top", fontsize=7)
axes.set(xlabel="from the left end, in", yticks=[], ylim=(-1.4, 1.1))
figure.legend(loc="outside upper center", ncols=2, fontsize=7)

for place, (true, on_rule) in enumerate(zip(marks.exact, marks.read, strict=True)):
    print(f"mark {place}: {true:in} exactly, {on_rule} on the rule, {on_rule - true:thou.2} off")
print(f"worst {abs(marks.worst):thou.2}")
if len(sys.argv) > 1:
    figure.savefig(Path(sys.argv[1]), metadata={"Date": None})
