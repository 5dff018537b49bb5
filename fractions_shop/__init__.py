"""Exact workshop sizes: fractions, millimetres, spacings that come out on a rule.

The names below are the library's face. Each is loaded when it is first touched, so
that a plain size costs no parser and no table. This page itself imports nothing: the
command is to take over Ctrl-C before anything that takes time.
"""

TYPE_CHECKING = False

__version__ = "0.1.0"

_HOMES = {
    "size.quantity": (
        "Quantity",
        "Angle",
    ),
    "size.limits": ("Limits",),
    "size.rule": (
        "Rule",
        "Snap",
        "snap",
    ),
    "layout.spacing": (
        "Spacing",
        "divide",
    ),
    "layout.counts": ("CommonSpacing",),
    "layout.bodies": ("AnyBodies",),
    "layout.marks": (
        "Marks",
        "mark",
    ),
    "layout.posts": (
        "HowMany",
        "divide_for",
        "how_many",
    ),
    "layout.share": (
        "Share",
        "share",
    ),
    "layout.places": (
        "Places",
        "places",
    ),
    "layout.features": (
        "Face",
        "Hole",
        "Slot",
        "face",
        "hole",
        "slot",
    ),
    "layout.notches": (
        "Notch",
        "notch",
    ),
    "layout.walls": (
        "Wall",
        "Walls",
        "walls",
    ),
    "layout.room": ("NoRoom",),
    "layout.curve": (
        "Crown",
        "crown",
    ),
    "layout.circle": (
        "BoltCircle",
        "pi",
        "girth",
        "arc",
        "chord",
        "bolt_circle",
        "per_foot",
        "set_over",
    ),
    "layout.packing": (
        "Pack",
        "pack",
    ),
    "layout.cutting": (
        "Cutting",
        "cut_from",
    ),
    "layout.fits": (
        "Fit",
        "fit",
    ),
    "layout.zones": ("Zone",),
    "meant.found": ("Recovered",),
    "meant.recover": ("recover",),
    "meant.reconcile": (
        "Reconciled",
        "reconcile",
    ),
    "meant.relations": ("Relation",),
    "meant.readings": (
        "Reading",
        "reading",
    ),
    "meant.scale": (
        "KnownScale",
        "scale_from",
    ),
    "threads.clearance": ("ClearanceHole",),
    "threads.holes": ("TappingDrill",),
    "threads.thread": ("Thread",),
    "threads.lookup": ("thread",),
    "threads.identify": (
        "Identified",
        "identify",
    ),
    "threads.spanners": (
        "Spanners",
        "spanner",
    ),
    "threads.substitute": (
        "Substitutes",
        "substitute",
    ),
    "tables.blocks": (
        "BlockSet",
        "blocks",
    ),
    "tables.drills": ("drills",),
    "tables.gauges": ("gauges",),
    "tables.nearby": ("Nearby",),
    "tables.tapers": (
        "Taper",
        "taper",
    ),
    "errors": (
        "ShopError",
        "InputError",
        "NoAnswer",
        "ArgumentError",
        "DimensionError",
        "FloatRefused",
        "DoubtfulReading",
    ),
    "language.written": (
        "Item",
        "FoundSizes",
        "Written",
        "written",
        "find_sizes",
    ),
    "sheet.session": ("Session",),
    "sheet.answer": ("Answer",),
    "sheet.read": (
        "read",
        "read_limits",
        "read_size",
    ),
    "sheet.read_column": (
        "ColumnSizes",
        "read_column",
    ),
    "show.sheet": ("Sheet",),
    "size.pint_bridge": (
        "to_pint",
        "from_pint",
    ),
}
_LATER = {name: home for home, names in _HOMES.items() for name in names}

# Written out, since a type checker reads no other; a test holds it to the homes above.
__all__ = [
    "Angle",
    "Answer",
    "AnyBodies",
    "ArgumentError",
    "BlockSet",
    "BoltCircle",
    "ClearanceHole",
    "ColumnSizes",
    "CommonSpacing",
    "Crown",
    "Cutting",
    "DimensionError",
    "DoubtfulReading",
    "Face",
    "Fit",
    "FloatRefused",
    "FoundSizes",
    "Hole",
    "HowMany",
    "Identified",
    "InputError",
    "Item",
    "KnownScale",
    "Limits",
    "Marks",
    "Nearby",
    "NoAnswer",
    "NoRoom",
    "Notch",
    "Pack",
    "Places",
    "Quantity",
    "Reading",
    "Reconciled",
    "Recovered",
    "Relation",
    "Rule",
    "Session",
    "Share",
    "Sheet",
    "ShopError",
    "Slot",
    "Snap",
    "Spacing",
    "Spanners",
    "Substitutes",
    "Taper",
    "TappingDrill",
    "Thread",
    "Wall",
    "Walls",
    "Written",
    "Zone",
    "arc",
    "blocks",
    "bolt_circle",
    "chord",
    "crown",
    "cut_from",
    "divide",
    "divide_for",
    "drills",
    "face",
    "find_sizes",
    "fit",
    "from_pint",
    "gauges",
    "girth",
    "hole",
    "how_many",
    "identify",
    "mark",
    "notch",
    "pack",
    "per_foot",
    "pi",
    "places",
    "read",
    "read_column",
    "read_limits",
    "read_size",
    "reading",
    "reconcile",
    "recover",
    "scale_from",
    "set_over",
    "share",
    "slot",
    "snap",
    "spanner",
    "substitute",
    "taper",
    "thread",
    "to_pint",
    "walls",
    "written",
]

if TYPE_CHECKING:
    from typing import Any

    from fractions_shop.errors import (
        ArgumentError,
        DimensionError,
        DoubtfulReading,
        FloatRefused,
        InputError,
        NoAnswer,
        ShopError,
    )
    from fractions_shop.language.written import FoundSizes, Item, Written, find_sizes, written
    from fractions_shop.layout.bodies import AnyBodies
    from fractions_shop.layout.circle import (
        BoltCircle,
        arc,
        bolt_circle,
        chord,
        girth,
        per_foot,
        pi,
        set_over,
    )
    from fractions_shop.layout.counts import CommonSpacing
    from fractions_shop.layout.curve import Crown, crown
    from fractions_shop.layout.cutting import Cutting, cut_from
    from fractions_shop.layout.features import Face, Hole, Slot, face, hole, slot
    from fractions_shop.layout.fits import Fit, fit
    from fractions_shop.layout.marks import Marks, mark
    from fractions_shop.layout.notches import Notch, notch
    from fractions_shop.layout.packing import Pack, pack
    from fractions_shop.layout.places import Places, places
    from fractions_shop.layout.posts import HowMany, divide_for, how_many
    from fractions_shop.layout.room import NoRoom
    from fractions_shop.layout.share import Share, share
    from fractions_shop.layout.spacing import Spacing, divide
    from fractions_shop.layout.walls import Wall, Walls, walls
    from fractions_shop.layout.zones import Zone
    from fractions_shop.meant.found import Recovered
    from fractions_shop.meant.readings import Reading, reading
    from fractions_shop.meant.reconcile import Reconciled, reconcile
    from fractions_shop.meant.recover import recover
    from fractions_shop.meant.relations import Relation
    from fractions_shop.meant.scale import KnownScale, scale_from
    from fractions_shop.sheet.answer import Answer
    from fractions_shop.sheet.read import read, read_limits, read_size
    from fractions_shop.sheet.read_column import ColumnSizes, read_column
    from fractions_shop.sheet.session import Session
    from fractions_shop.show.sheet import Sheet
    from fractions_shop.size.limits import Limits
    from fractions_shop.size.pint_bridge import from_pint, to_pint
    from fractions_shop.size.quantity import Angle, Quantity
    from fractions_shop.size.rule import Rule, Snap, snap
    from fractions_shop.tables.blocks import BlockSet, blocks
    from fractions_shop.tables.drills import drills
    from fractions_shop.tables.gauges import gauges
    from fractions_shop.tables.nearby import Nearby
    from fractions_shop.tables.tapers import Taper, taper
    from fractions_shop.threads.clearance import ClearanceHole
    from fractions_shop.threads.holes import TappingDrill
    from fractions_shop.threads.identify import Identified, identify
    from fractions_shop.threads.lookup import thread
    from fractions_shop.threads.spanners import Spanners, spanner
    from fractions_shop.threads.substitute import Substitutes, substitute
    from fractions_shop.threads.thread import Thread


def __getattr__(name: str) -> "Any":
    if name not in _LATER:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib import import_module

    value = getattr(import_module(f"{__name__}.{_LATER[name]}"), name)
    globals()[name] = value
    return value


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
