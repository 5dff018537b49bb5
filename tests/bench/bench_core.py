"""How quick the core is, as ratios in one run: one answer, one statement, a column of sizes.

Run it by itself: python tests/bench/bench_core.py
"""

from __future__ import annotations

import random
import subprocess
import sys
from statistics import median
from time import perf_counter, process_time

from fractions_shop.sheet.session import Session

PINT = (
    "from fractions import Fraction as F; import pint; u = pint.UnitRegistry(non_int_type=F); "
    "print((u.Quantity(F(65, 32), 'inch') / 5).to('millimeter'))"
)
PINT_FLOAT = "import pint; u = pint.UnitRegistry(); print((u.Quantity(2.03125, 'inch') / 5).to('millimeter'))"
OURS = "import sys; from fractions_shop.command.cli import main; sys.exit(main(sys.argv[1:]))"


def process(*arguments: str) -> float:
    """Seconds that a whole python process takes."""
    started = perf_counter()
    subprocess.run([sys.executable, *arguments], check=True, capture_output=True)
    return perf_counter() - started


def in_turn(commands: dict[str, tuple[str, ...]], rounds: int = 15) -> dict[str, float]:
    """The median of each command, taken in turn so that a busy moment falls on all alike."""
    times: dict[str, list[float]] = {name: [] for name in commands}
    for number in range(rounds + 1):
        for name, arguments in commands.items():
            took = process(*arguments)
            if number:  # the first round warms the caches
                times[name].append(took)
    return {name: median(found) for name, found in times.items()}


def one_shot() -> list[str]:
    """Rows: one answer from the command, against pint doing the same and a bare Python."""
    found = in_turn(
        {
            "bare": ("-c", "pass"),
            "pint": ("-c", PINT),
            "pint, floats": ("-c", PINT_FLOAT),
            "2 1/32 in / 5": ("-c", OURS, "2 1/32 in / 5"),
            "divide 2 in into 5 up": ("-c", OURS, "divide 2 in into 5 up"),
        }
    )
    return [
        f"| one answer, `{name}` | {1000 * found[name]:.0f} ms | {found[name] / found['pint']:.2f} of exact pint, "
        f"{found[name] / found['pint, floats']:.2f} of pint in floats, {found[name] / found['bare']:.1f} bare Pythons |"
        for name in ("2 1/32 in / 5", "divide 2 in into 5 up")
    ]


def statements(count: int = 3000) -> list[str]:
    """Rows: reading and working out one statement, warm, against pint's own parsing of one."""
    from fractions import Fraction

    import pint

    from fractions_shop.language import grammar, parser

    registry = pint.UnitRegistry(non_int_type=Fraction)
    theirs = _each(lambda: registry.parse_expression("2.03125 inch / 5"), count // 10)
    rows = []
    for text in ("2 1/32 in / 5", "(3 1/2 in - 2 * 1/8 in) / 7 + 0.5 mm", "divide 2 in into 5 up"):
        bench = Session()
        took = _each(lambda text=text, bench=bench: bench.answer(text), count)
        rows.append(
            f"| statement, `{text}` | {1e6 * took:.0f} µs | {took / theirs:.2f} of one pint expression |"
        )
    full = _each(lambda: grammar.statement("2 1/32 in / 5", "2 1/32 in / 5"), count)
    quick = _each(lambda: parser.parse("2 1/32 in / 5"), count)
    rows.append(
        f"| reading alone, by the grammar | {1e6 * full:.0f} µs | {full / quick:.1f} of the quick reader |"
    )
    return rows


def _each(work: object, count: int) -> float:
    for _ in range(20):
        work()  # type: ignore[operator]
    started = perf_counter()
    for _ in range(count):
        work()  # type: ignore[operator]
    return (perf_counter() - started) / count


def bulk(count: int = 20_000) -> list[str]:
    """Rows: plain sizes read in bulk, against pint's parse of sizes that it reads rightly."""
    from fractions import Fraction

    import pint

    from fractions_shop.layout.bulk import plain_pair
    from fractions_shop.size.notation import read_plain

    rng = random.Random(1959)
    texts = [
        rng.choice(
            (
                f"{rng.randrange(1, 99)} {rng.randrange(1, 32)}/32 in",
                f"{rng.randrange(1, 9999) / 100} mm",
                f"{rng.randrange(1, 9999) / 1000} in",
                f"{rng.randrange(1, 200)} thou",
            )
        )
        for _ in range(count)
    ]
    rates = {}
    for name, reader in (
        ("`read_plain`, each a Quantity", read_plain),
        ("in bulk, as whole numbers", plain_pair),
    ):
        started = process_time()
        for text in texts:
            reader(text)
        rates[name] = count / (process_time() - started)
    registry = pint.UnitRegistry(non_int_type=Fraction)
    sample = [f"{rng.randrange(1, 9999) / 100} mm" for _ in range(500)]
    started = process_time()
    for text in sample:
        registry.parse_expression(text)
    theirs = len(sample) / (process_time() - started)
    return [
        f"| plain sizes, {name} | {rate:,.0f} a second | {rate / theirs:.0f} times pint's parse |"
        for name, rate in rates.items()
    ]


def table() -> str:
    """The whole as a Markdown table."""
    rows = [*one_shot(), *statements(), *bulk()]
    return "\n".join(["| what | took | as a ratio |", "| --- | --- | --- |", *rows])


if __name__ == "__main__":
    print(table())
