"""The shape of the house: imports point one way, modules stay small, heavy libraries stay out."""

from __future__ import annotations

import ast
import os
import re
import subprocess
import sys
from collections.abc import Iterator
from graphlib import TopologicalSorter
from pathlib import Path

import pytest
from over_all import over
from package_source import nodes

ROOT = Path(__file__).parent.parent
PACKAGE = ROOT / "fractions_shop"

#: The layers, lowest first. A module may import from its own layer and from those above it in
#: this list, inside functions too. A package stands for all that is in it.
LAYERS = (
    ("errors",),
    ("files",),
    ("size.frozen", "size.drafts", "size.cached", "size.told", "size.leads", "size.digits"),
    (
        "size.slips",
        "size.units",
        "size.approx",
        "size.standing",
        "size.ratios",
    ),
    (
        "size.borrowed",
        "size.numberlike",
        "size.other_lengths",
        "size.quantity",
    ),
    (
        "size.pieces",
        "size.notation",
        "size.pint_bridge",
    ),
    ("size.made",),
    ("size.sums",),
    (
        "size.limits",
        "size.products",
    ),
    (
        "size.arguments",
        "size.value",
    ),
    ("size.rule",),
    ("size.writing",),
    ("figures",),
    ("tables",),
    ("layout",),
    ("threads",),
    ("meant",),
    (
        "language.notes",
        "language.fault",
        "language.scanner",
        "language.lalr",
        "language.parse_tables",
        "language.grammar_tables",
        "language.nodes",
        "language.advice.offers",
        "language.lark_tables",
        "language.trial",
    ),
    (
        "language.arithmetic",
        "language.named",
        "language.old_units",
        "language.quick",
        "language.build",
        "language.build_sizes",
        "language.deviations",
    ),
    (
        "language.thread_functions",
        "language.functions",
    ),
    ("language.advice",),
    (
        "language.kinds",
        "language.evaluate",
        "language.applied",
        "language.grammar",
    ),
    ("language.written",),
    ("language.parser",),
    (
        "requests.data",
        "requests.odds",
        "requests.place_data",
        "requests.spacing_words",
        "requests.pictures",
        "requests.stock_rows",
        "requests.size_data",
        "requests.thread_figures",
        "requests.inputs",
        "requests.measured",
        "requests.read_name",
        "requests.heap",
        "requests.linear",
        "requests.meant_words",
        "requests.meant_pictures",
        "requests.expression",
    ),
    (
        "requests.rooms",
        "requests.gists",
    ),
    ("requests",),
    (
        "requests.answering",
        "requests.help",
    ),
    (
        "sheet.prose",
        "sheet.proposed_part",
        "sheet.side_words",
        "sheet.part_losses",
        "sheet.sides_in_words",
        "sheet.whole_lines",
    ),
    (
        "sheet.part_habits",
        "sheet.cut_habits",
        "sheet.stock_habits",
        "sheet.statement_habits",
        "sheet.line_habits",
        "sheet.habits",
    ),
    (
        "sheet.answer",
        "sheet.line_words",
        "sheet.part_lines",
        "sheet.revisions",
        "sheet.sides",
        "sheet.feature_lines",
        "sheet.notch_edges",
        "sheet.source",
        "sheet.stock_lines",
    ),
    ("sheet.stale_names", "sheet.roots"),
    (
        "sheet.session",
        "sheet.lines",
        "sheet.line_nodes",
    ),
    (
        "sheet.read",
        "sheet.order",
        "sheet.worked_parts",
        "sheet.worked_features",
        "sheet.cut_parts",
        "sheet.worked_stock",
    ),
    ("sheet.column_cells",),
    ("sheet.read_column",),
    ("sheet.read_together",),
    ("sheet.kept", "sheet.advised"),
    ("sheet.solve",),
    (
        "sheet.at_end",
        "sheet.check_causes",
        "sheet.doubts",
        "sheet.undone_lines",
        "sheet.changes",
        "sheet.cut_changes",
        "sheet.list_changes",
        "sheet.side_by_side",
        "sheet.front",
        "sheet.lacking",
        "sheet.to_buy",
        "sheet.tools",
    ),
    ("sheet.verdict",),
    ("sheet.worked_sheet",),
    (
        "sheet.rows",
        "sheet.last_size",
        "sheet.self_reference",
        "sheet.renaming",
        "sheet.moved",
    ),
    ("sheet.states",),
    (
        "sheet.entering",
        "sheet.going_on",
        "sheet.living",
    ),
    (
        "show.doubt_marks",
        "show.ruler",
        "show.svg",
        "show.verdict",
        "show.answer_changes",
        "show.fonts",
        "show.own_mark",
    ),
    ("show.size_table", "show.place_table", "show.revision_table"),
    ("show.part_table", "show.dimension"),
    ("show.feature_table", "show.feature_data"),
    ("show.running_dimensions", "show.title_block"),
    ("show.hole_table", "show.notched_outline"),
    ("show.cut_shapes", "show.drawing_sheets"),
    ("show.part_views", "show.crown_drawing"),
    ("show.part_drawing", "show.stock_table", "show.tool_table", "show.bar_picture"),
    ("show.line_pictures",),
    (
        "show.moved_words",
        "show.document",
        "show.columns",
        "show.changes",
        "show.changed_lines",
        "show.side_by_side",
        "show.sheet_data",
        "show.comparison_data",
        "show.stock_data",
        "show.machine_plan",
        "show.machine_text",
        "show.dxf",
    ),
    ("show",),
    ("testing",),
    ("show.sheet",),
    ("command",),
    ("prompt",),
    ("__main__",),
)

#: The layers that are the numeric library: they run on Python alone.
NUMERIC = LAYERS[: LAYERS.index(("meant",)) + 1]

#: Who may import what is not Python's own.
OUTSIDERS = {
    "lark": ("language.lark_tables",),
    "pint": ("size.pint_bridge",),
    "openpyxl": ("command.spreadsheet",),
    "prompt_toolkit": ("prompt",),
    "platformdirs": ("command.settings", "prompt"),
    "numpy": ("sheet.read_column",),
    "hypothesis": ("testing",),
    "reportlab": ("show.pdf", "show.pdf_picture", "show.fonts"),
    "ezdxf": ("show.dxf",),
}


def _name(path: Path) -> str:
    return ".".join(path.relative_to(PACKAGE).with_suffix("").parts).removesuffix(".__init__")


#: Every module but the package's own contents page, which names the public face from everywhere.
MODULES = {_name(path): path for path in sorted(PACKAGE.rglob("*.py")) if path != PACKAGE / "__init__.py"}


def _within(module: str, home: str) -> bool:
    return module == home or module.startswith(f"{home}.")


def _layer(module: str) -> int:
    """The layer of the closest home; a package that is cut into floors has nothing of its own to import."""
    found = [(len(home), n) for n, layer in enumerate(LAYERS) for home in layer if _within(module, home)]
    floors = [n for n, layer in enumerate(LAYERS) for home in layer if home.startswith(f"{module}.")]
    assert found or floors, f"{module} has no layer: put it into LAYERS"
    return max(found)[1] if found else min(floors)


def _imports(path: Path) -> Iterator[tuple[str, int]]:
    """Every module that a file imports, wherever in it, with the line."""
    for node in nodes(path):
        if isinstance(node, ast.Import):
            for alias in node.names:
                yield alias.name, node.lineno
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path}:{node.lineno} imports relatively"
            for alias in node.names:
                yield f"{node.module}.{alias.name}", node.lineno


def _ours(imported: str) -> str | None:
    """The module of ours that is meant, or None; names inside a module are cut off."""
    if not _within(imported, "fractions_shop"):
        return None
    inside = imported.removeprefix("fractions_shop").removeprefix(".")
    while inside and inside not in MODULES:
        inside = inside.rpartition(".")[0]
    return inside or None


def test_every_module_has_one_layer() -> None:
    for module in MODULES:
        _layer(module)


def test_every_layer_has_a_module() -> None:
    for layer in LAYERS:
        for home in layer:
            assert any(_within(module, home) for module in MODULES), f"nothing is in {home}"


@over(MODULES)
def test_imports_point_one_way(module: str) -> None:
    own = _layer(module)
    for imported, line in _imports(MODULES[module]):
        other = _ours(imported)
        assert other is None or _layer(other) <= own, f"{MODULES[module]}:{line} imports {other} from above"


#: Where a lower room calls on higher ones, by name: how a size is read, written and shown, an answer told.
BY_NAME = {
    ("size.borrowed", name)
    for name in (
        "figures.size_html",
        "size.writing",
        "size.rule",
        "size.notation",
        "sheet.read",
        "size.pint_bridge",
        "requests.data",
    )
} | {("size.told", "show.telling"), ("size.borrowed", "show.telling")}


def _named(path: Path) -> Iterator[str]:
    """The modules of ours that a file names in its strings, which it may load by name."""
    for node in nodes(path):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            found = re.fullmatch(r"fractions_shop\.([a-z_.]+[a-z_])\.?", node.value)
            if found:
                yield found[1]


@over(MODULES)
def test_modules_loaded_by_name_lie_below_too(module: str) -> None:
    for name in _named(MODULES[module]):
        other = _ours(f"fractions_shop.{name}")
        if other is not None and (module, other) not in BY_NAME:
            assert _layer(other) <= _layer(module), f"{MODULES[module]} names {other} from above"


def test_a_room_is_loaded_by_its_row_in_the_table_alone() -> None:
    from fractions_shop import requests

    for row in requests.TABLE:
        assert f"requests.{row.module}" in MODULES
        assert requests.room(row.word).word == row.word


def test_no_two_modules_need_each_other_even_inside_functions() -> None:
    """But for two that stand in one row by name: the signs of a type may be worked in a module of their own."""
    graph = {
        module: {
            other
            for other in map(_ours, (name for name, _ in _imports(path)))
            if other not in (None, module) and not _stand_together(module, other)
        }
        for module, path in MODULES.items()
    }
    assert list(TopologicalSorter(graph).static_order())


def _stand_together(module: str, other: str | None) -> bool:
    return any(module in row and other in row for row in LAYERS)


@over(MODULES)
def test_only_its_home_imports_a_library(module: str) -> None:
    for imported, line in _imports(MODULES[module]):
        top = imported.partition(".")[0]
        if top in sys.stdlib_module_names or top == "fractions_shop":
            continue
        assert top in OUTSIDERS, f"{MODULES[module]}:{line} imports {top}"
        assert any(_within(module, home) for home in OUTSIDERS[top]), (
            f"{MODULES[module]}:{line} imports {top}"
        )


@over(MODULES)
def test_no_module_is_over_400_lines(module: str) -> None:
    assert len(MODULES[module].read_text(encoding="utf-8").splitlines()) <= 400


# What is loaded for one answer


def _python(code: str, home: Path, *options: str) -> str:
    environment = {**os.environ, "PYTHONPATH": str(ROOT), "XDG_CACHE_HOME": str(home / "cache")}
    done = subprocess.run(
        [sys.executable, *options, "-c", code],
        capture_output=True, text=True, env=environment, cwd=home, timeout=60, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return done.stdout


_ONE_SHOT = """
import sys
from fractions_shop.command.cli import main
status = main([{statement!r}])
print(status, *(name for name in {names!r} if name in sys.modules), file=sys.stderr)
print("LOADED", *(name for name in {names!r} if name in sys.modules))
"""


@pytest.mark.parametrize(
    "statement",
    [
        "2 1/32 in / 5",
        "51.5 mm",
        "divide 2 in into 5 up",
        "snap 10.3 mm",
        "x = 2 in ± 1/64 in",
        "6 BA",
        "18 SWG",
        "2 ft 3",
    ],
)
def test_one_answer_loads_none_of_the_heavy_libraries(statement: str, home: Path) -> None:
    names = (
        "lark",
        "pint",
        "prompt_toolkit",
        "platformdirs",
        "reportlab",
        "importlib.metadata",
        "fractions_shop.layout.share",
    )
    printed = _python(_ONE_SHOT.format(statement=statement, names=names), home)
    assert printed.splitlines()[-1] == "LOADED"


@pytest.mark.parametrize("statement", ["2 1/32 in / 5", "51.5 mm", "1/64 in"])
def test_a_plain_size_loads_no_grammar(statement: str, home: Path) -> None:
    printed = _python(_ONE_SHOT.format(statement=statement, names=("lark",)), home)
    assert printed.splitlines()[-1] == "LOADED"


@pytest.mark.parametrize(
    ("statement", "left_out"),
    [
        (
            "recover 51.5 mm",
            ("tables.drills", "threads.records", "meant.quantogram", "meant.reconcile", "random"),
        ),
        (
            "thread 6 BA",
            ("tables.heads", "tables.gauges", "tables.nearby", "threads.identify", "meant.readings"),
        ),
        (
            "thread M3",
            ("language.advice.bench_words", "language.advice.gate", "tables.gauges", "tables.nearby"),
        ),
        ("identify 2.8 mm, 0.53 mm", ("language.advice.gate", "tables.heads", "threads.substitute")),
        ("divide 2 in into 5 up", ("tables", "threads.records")),
    ],
)
def test_an_answer_loads_no_table_that_it_does_not_look_in(
    statement: str, left_out: tuple[str, ...], home: Path
) -> None:
    names = tuple(name if name in sys.stdlib_module_names else f"fractions_shop.{name}" for name in left_out)
    printed = _python(_ONE_SHOT.format(statement=statement, names=names), home)
    assert printed.splitlines()[-1] == "LOADED"


def test_the_numeric_library_runs_on_python_alone(home: Path) -> None:
    modules = [m for m in MODULES if any(_within(m, h) for layer in NUMERIC for h in layer)]
    code = "\n".join(
        [
            "import sys",
            f"sys.path.insert(0, {str(ROOT)!r})",
            *(f"import fractions_shop.{module}" for module in modules),
            "from fractions_shop import divide, snap, thread, drills, fit",
            "print(divide('2 in', 5, direction='up').space.inch, snap('10.3 mm').size.inch, thread('6 BA').pitch.mm)",
            "print(any('site-packages' in path for path in sys.path))",
        ]
    )
    assert _python(code, home, "-I", "-S") == "13/32 13/32 53/100\nFalse\n"


def test_the_package_itself_loads_nothing_of_ours(home: Path) -> None:
    code = "import sys, fractions_shop; print(*sorted(m for m in sys.modules if m.startswith('fractions_shop.')))"
    assert _python(code, home) == "\n"


def test_every_public_name_is_there() -> None:
    import fractions_shop

    for name in fractions_shop.__all__:
        assert getattr(fractions_shop, name) is not None
    assert set(fractions_shop.__all__) <= set(dir(fractions_shop))
    with pytest.raises(AttributeError, match="no attribute 'nothing'"):
        _ = fractions_shop.nothing
