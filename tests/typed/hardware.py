"""Threads, drills, gauges, shims and what was meant."""

from fractions_shop import (
    Identified,
    Pack,
    Recovered,
    Substitutes,
    Thread,
    blocks,
    drills,
    gauges,
    identify,
    pack,
    reconcile,
    recover,
    substitute,
    thread,
)

screw: Thread = thread("6 BA")
found: Identified = identify("0.108 in", "1/48 in")
stand_ins: Substitutes = substitute(screw, "metric")
height: Pack = pack("5.0073 in", blocks(81))
meant: Recovered = recover(["51.5 mm", "66.7 mm"], within="0.05 mm")
tied = reconcile({"rack": "51.6 mm", "bay": "10.3 mm"}, ["rack = 5 * bay"])
print(screw.major, found[0].thread.name, [each.thread.name for each in stand_ins], height.names)
print(meant.candidates[0].size, {name: str(size) for name, size in tied.sizes.items()})
print(drills("5.2 mm").nearest.name, gauges("1.2 mm")["SWG"].nearest.size)
again = recover([["51.4 mm", "51.6 mm"], screw.major, "66.7 mm"], within=[None, None, "0.1 mm"], scale="1:2")
shims = [pack("5/8 in", "1/4 in"), pack("5/8 in", ["1/4 in", screw.major]), pack("1 in", {"thick": "1/4 in"})]
print(
    len(again.readings),
    [shim.names for shim in shims],
    pack("1 in", [("thin", "1/8 in")], each_once=True).exact,
)
