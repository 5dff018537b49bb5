"""A column of a table as it was written down, made exact: pandas in, exact sizes and floats out."""

import pandas as pd

from fractions_shop import read_column, snap

frames = pd.DataFrame(
    {
        "frame": ["A", "B", "C", "D", "E"],
        "width": ["2 1/32 in", '2-1/16"', "51.5 mm", "about two", "52"],
    }
)

# A number alone is in millimetres here; what is no size leaves its row empty, and says why.
widths = read_column(frames["width"], unit="mm")
for row, reason in widths.faults.items():
    print(f"frame {frames['frame'][row]}: {reason}")

frames["mm"] = widths.floats("mm")  # for numpy and for plots: the nearest float
frames["exact"] = widths.exact("in")  # Fractions of an inch, for sums that close
frames["on the rule"] = [None if size is None else str(snap(size, "32nds").size) for size in widths.sizes]
print(frames.to_string(index=False))

total = sum(value for value in frames["exact"] if value is not None)
print(f"together {total} in, exactly")
