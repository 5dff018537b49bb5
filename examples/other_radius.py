"""What a beam compass set to 36 in would do to the tube rack: two sheets compared."""

from pathlib import Path

from fractions_shop import Sheet, crown

HERE = Path(__file__).parent

as_found = Sheet.read(HERE / "tube-rack.shop").run()
changed = Sheet.from_text(as_found.written.replace("radius = 40 in", "radius = 36 in"))

for change in as_found.changes(changed):
    print(f"{change.name}: {change.old} becomes {change.new}")

for check in changed.checks:
    if not check.holds:
        print(f"line {check.line} fails: {check.statement}")
        for feed in check.feeds:
            alone = f"; about {feed.closes:in.4} on it alone would mend that" if feed.closes else ""
            print(f"    {feed.name} on line {feed.line} feeds it{alone}")

# The pegs for both arcs, as read on 32nds.
for radius in ("40 in", "36 in"):
    pegs = crown(9, across="1 5/8 in", radius=radius, tallest="1 1/4 in", rule="32nds")
    print(radius, "pegs", ", ".join(map(str, pegs.read)))
