"""A column of frame widths, each on the rule and in millimetres."""

from fractions_shop import Quantity, Rule, Snap, read_size, snap


def on_rule(width: str, rule: Rule) -> Snap:
    return snap(read_size(width), rule)


def table(widths: list[str]) -> list[tuple[str, str, str]]:
    rule = Rule(32)
    rows: list[tuple[str, str, str]] = []
    for width in widths:
        found = on_rule(width, rule)
        rows.append((str(found.size), f"{found.size:mm.2}", f"{found.error:in.4}"))
    return rows


def total(widths: list[str]) -> Quantity:
    return sum((read_size(width) for width in widths), Quantity(0))


print(table(["51.5 mm", "66.7 mm"]), total(["2 1/32 in", "5/32 in"]).inch)
