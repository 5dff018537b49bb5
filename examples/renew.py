"""Write every output beside the examples anew: `python examples/renew.py`.

A test compares what lies in `written/` with what is made now.
"""

from __future__ import annotations

import ast
import contextlib
import io
import json
import runpy
import sys
from pathlib import Path

from fractions_shop.errors import ShopError
from fractions_shop.show.sheet import Sheet

HERE = Path(__file__).parent
WRITTEN = HERE / "written"
SHEETS = ("trays-and-runners", "label-frames", "tube-rack")
#: Those that have something for a machine to cut.
MACHINED = ("label-frames", "tube-rack")
#: The part whose drawing stands alone beside its sheet.
DRAWN = {"label-frames": "label frame"}
SCRIPTS = (
    "worn_side",
    "other_radius",
    "frame_column",
    "marks_plot",
    "own_property_test",
    "pint_both_ways",
    "threaded_answers",
)
NOTEBOOKS = ("drawer_front",)


def outputs(name: str) -> dict[str, str]:
    """Every output of a sheet that is text, by the name of its file."""
    sheet = Sheet.read(HERE / f"{name}.shop")
    coordinates = {f"{name}.xy": sheet.to_coordinates()} if name in MACHINED else {}
    drawing = (
        {f"{DRAWN[name].replace(' ', '-')}.svg": sheet.to_svg(part=DRAWN[name])} if name in DRAWN else {}
    )
    return {
        f"{name}.txt": sheet.to_text(),
        f"{name}.md": sheet.to_markdown(),
        f"{name}.csv": sheet.to_csv(),
        f"{name}.json": sheet.to_json(),
        f"{name}.html": sheet.to_html(),
        f"{name}.svg": sheet.to_svg(),
        **coordinates,
        **drawing,
    }


def script_output(name: str) -> str:
    """What a script prints."""
    path, printed = str(HERE / f"{name}.py"), io.StringIO()
    asked, sys.argv = sys.argv, [path]
    try:
        with contextlib.redirect_stdout(printed):
            runpy.run_path(path, run_name="__main__")
    finally:
        sys.argv = asked
    return printed.getvalue()


def notebook_text(name: str) -> str:
    """A notebook with its cells run one after another, and what each last line comes to beside it."""
    notebook = json.loads((HERE / f"{name}.ipynb").read_text(encoding="utf-8"))
    names: dict[str, object] = {}
    codes = [cell for cell in notebook["cells"] if cell["cell_type"] == "code"]
    for number, cell in enumerate(codes, 1):
        *before, last = ast.parse("".join(cell["source"])).body
        assert isinstance(last, ast.Expr), "a cell of an example ends with what it shows"
        exec(compile(ast.Module(before, []), name, "exec"), names)
        shown = eval(compile(ast.Expression(last.value), name, "eval"), names)
        data = {"text/html": lines(shown._repr_html_()), "text/plain": lines(repr(shown))}
        cell["execution_count"] = number
        cell["outputs"] = [
            {"data": data, "execution_count": number, "metadata": {}, "output_type": "execute_result"}
        ]
    return json.dumps(notebook, indent=1, ensure_ascii=False) + "\n"


def lines(text: str) -> list[str]:
    """A text as notebooks keep it."""
    return text.splitlines(keepends=True)


def main() -> None:
    """Write everything; PDF and DXF are written too, though the libraries that write them differ in their bytes."""
    WRITTEN.mkdir(exist_ok=True)
    for name in SHEETS:
        for file, text in outputs(name).items():
            (WRITTEN / file).write_text(text, encoding="utf-8", newline="")
        try:
            Sheet.read(HERE / f"{name}.shop").to_pdf(WRITTEN / f"{name}.pdf")
            if name in MACHINED:
                Sheet.read(HERE / f"{name}.shop").to_dxf(WRITTEN / f"{name}.dxf")
        except ShopError as error:
            print(f"a print or a machine file of {name} is left as it was: {error}")
    for name in SCRIPTS:
        (WRITTEN / f"{name}.txt").write_text(script_output(name), encoding="utf-8", newline="")
    for name in NOTEBOOKS:
        (HERE / f"{name}.ipynb").write_text(notebook_text(name), encoding="utf-8", newline="")


if __name__ == "__main__":
    main()
