"""divide: totals that fall into equal spaces on the rule, in each of the ways to ask."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from fractions_shop.errors import ShopError
from fractions_shop.figures.plain import Lines
from fractions_shop.figures.table import Cell, Table, in_prose
from fractions_shop.figures.wording import (
    exact_cell,
    in_rule,
    in_rule_cell,
    moved,
    moved_cell,
    rule_word,
)
from fractions_shop.language.advice.offers import Offer, write
from fractions_shop.language.fault import Fault
from fractions_shop.language.nodes import Pieces
from fractions_shop.language.notes import offer
from fractions_shop.layout.room import NoRoom
from fractions_shop.layout.spacing import Layout, Spacing, divide
from fractions_shop.requests.inputs import Inputs
from fractions_shop.requests.rooms import Room
from fractions_shop.requests.spacing_words import (
    about_said,
    any_lines,
    left_said,
    many_lines,
    spaces_said,
)
from fractions_shop.size.quantity import Quantity
from fractions_shop.size.rule import Rule

if TYPE_CHECKING:  # one number of spaces is the usual question, and loads none of them
    from fractions_shop.layout.bodies import AnyBodies
    from fractions_shop.layout.counts import CommonLayout, CommonSpacing
    from fractions_shop.layout.posts import HowMany

    _Result = Spacing | CommonSpacing | AnyBodies | HowMany


def _answer(given: Inputs) -> tuple[Spacing | CommonSpacing | AnyBodies | HowMany, Quantity | None]:
    try:
        result = _worked_out(given)
    except NoRoom as error:
        first = given.subject(0)
        other = _other_form(given, 0 if error.other is None else error.other.body_count)
        advice = write(Offer(other, worked=True)) if error.other is not None and other else ""
        raise Fault(str(error), first.start, first.end, advice) from None
    _offer_other(given, result)
    if isinstance(result, Spacing):
        return result, result.space
    from fractions_shop.layout.posts import HowMany

    return result, result.space if isinstance(result, HowMany) else None


def _worked_out(given: Inputs) -> _Result:
    """The library's answer to what was asked."""
    total, rule, direction = given.length(0), given.rule_after("on"), given.direction
    ends = given.optional_length("leaving")
    inside = given.inside
    width = _width(given, inside)
    least, most = given.optional_length("from"), given.optional_length("to")
    if (least is not None or most is not None) and width != "any":
        option = given.option("from") or given.option("to")
        assert option is not None
        raise Fault(
            f"{option.word} a width goes with bodies of any width", option.start, option.end,
            "write it like this: divide 2 1/32 in into 5 between any from 1/8 in to 1/4 in",
        )  # fmt: skip
    about, widest = given.optional_length("about"), given.optional_length("at most")
    outer = inside is None
    if about is not None or widest is not None or (inside is not None and given.is_any(inside.count)):
        return _how_many(given, inside, about=about, most=widest, bodies=width)
    if inside is not None:
        spaces = given.whole_of(inside.count) + 1
    else:
        counts = given.wholes(1)
        if len(counts) > 1:
            if width == "any":
                node = given.subject(1)
                raise Fault(
                    "bodies of any width go with one number of spaces", node.start, node.end,
                    "ask for each number by itself",
                )  # fmt: skip
            common: _Result = divide(total, counts, rule, direction=direction, ends=ends, bodies=width)
            return common
        spaces = counts[0]
    if width == "any":
        return divide(
            total, spaces, rule, direction=direction, ends=ends, bodies="any", outer=outer, least=least, most=most
        )  # fmt: skip
    made: _Result = divide(total, spaces, rule, direction=direction, ends=ends, bodies=width, outer=outer)
    return made


def _how_many(
    given: Inputs, inside: Pieces | None, *, about: Quantity | None, most: Quantity | None, bodies: Any
) -> HowMany:
    if inside is not None and not given.is_any(inside.count):
        raise Fault(
            "how far apart is asked of any number of bodies, and here their number is given",
            inside.count.start, inside.count.end, write(Offer("any", worked=True)),
        )  # fmt: skip
    if about is None and most is None:
        assert inside is not None
        raise Fault(
            "any number of bodies needs how far they stand apart", inside.start, inside.end,
            "write it like this: divide 72 in for any of 1 1/2 in, at most 4 in apart",
        )  # fmt: skip
    if bodies == "any":
        raise Fault(
            "either how many or how wide is left open, not both", given.request.start, given.request.end,
            "give the width of the bodies, such as 1 1/2 in",
        )  # fmt: skip
    from fractions_shop.layout.posts import how_many

    result = how_many(
        given.length(0), given.rule_after("on"), direction=given.direction,
        ends=given.optional_length("leaving"), bodies=bodies, about=about, most=most, outer=inside is None,
    )  # fmt: skip
    result.chosen  # noqa: B018 - raises now rather than when it is looked at
    return result


def _width(given: Inputs, inside: Pieces | None) -> Any:
    """The width of the bodies: a length, `any`, or None without bodies."""
    option = given.option("between")
    if inside is not None and option is not None:
        raise Fault(
            "the width of the bodies is given here twice", option.start, option.end,
            "it is said behind 'of': leave 'between' out",
        )  # fmt: skip
    node = inside.size if inside is not None else None if option is None else option.value
    if node is None:
        return None
    return "any" if given.is_any(node) else given.length_of(node)


# The other form


def _other_form(given: Inputs, bodies: int) -> str:
    """The statement for as many spaces of the other form, with the words that were typed; or nothing."""
    inside = given.inside
    total = given.written_part(given.subject(0))
    rest = "".join(
        f" {given.written_part(option)}"
        for option in given.request.options
        if option.word in ("on", "up", "down", "leaving", "from", "to")
    )
    if inside is not None:
        return f"divide {total} into {bodies - 1} between {given.written_part(inside.size)}{rest}"
    between = given.option("between")
    if between is None or between.value is None:
        return ""
    return f"divide {total} for {bodies} of {given.written_part(between.value)}{rest}"


def _offer_other(given: Inputs, result: _Result) -> None:
    """What to write for the same spaces with the bodies inside only, or one at each end too."""
    if isinstance(result, Spacing):
        other = result.other
        many = 0 if other is None else other.body_count
    else:
        from fractions_shop.layout.bodies import AnyBodies

        if not isinstance(result, AnyBodies):
            return
        many = _others_of_any(result)
    if many:
        where = "inside only" if result.outer else "with one at each end too"
        given.evaluator.note(offer(f"for {many} {where}, write {_other_form(given, many)}"))


def _others_of_any(result: AnyBodies) -> int:
    """How many bodies the other form has, where there is a way to choose them; else zero."""
    try:
        other: AnyBodies = divide(
            result.asked, result.count, result.rule, direction=result.direction, ends=result.ends, bodies="any",
            outer=not result.outer, least=result.least, most=result.most,
        )  # fmt: skip
        return other.bodies if other.chosen else 0
    except ShopError:
        return 0


# Sentences


def _lines(result: Spacing | CommonSpacing | AnyBodies | HowMany) -> Lines:
    """The total that divides, what it moves by, the other totals, and the ends moved instead."""
    if isinstance(result, Spacing):
        return _spacing_lines(result)
    from fractions_shop.layout.bodies import AnyBodies
    from fractions_shop.layout.counts import CommonSpacing

    if isinstance(result, CommonSpacing):
        return _common_lines(result)
    if isinstance(result, AnyBodies):
        return any_lines(result)
    return many_lines(result)


def _spacing_lines(result: Spacing) -> Lines:
    chosen, rule = result.chosen, result.rule
    lines: Lines = [
        f"{in_rule(chosen.total, rule)} falls into {spaces_said(result.count)} of {in_rule(chosen.space, rule)} "
        f"on the {rule_word(rule)}{about_said(result.body_count, result.bodies, result.outer, rule)}"
    ]
    lines += left_said(result.ends, rule)
    lines += _changed(result.asked, chosen.change, rule, (result.exact,))
    lines += _other_totals([
        (name, layout, _each(layout.space, rule)) for name, layout in _others(result)
    ], rule)  # fmt: skip
    if result.kept_total is not None:
        kept = result.kept_total
        lines.append(
            f"or keep {in_rule(kept.total, rule)}: spaces of {in_rule(kept.space, rule)} "
            f"and {in_rule(kept.ends, rule)} left at each end"
        )
    return lines


def _common_lines(result: CommonSpacing) -> Lines:
    chosen, rule = result.chosen, result.rule
    bodies = (
        ""
        if result.bodies is None
        else f", with bodies of {in_rule(result.bodies, rule)} between, one at each end too"
    )
    lines: Lines = [
        f"{in_rule(chosen.total, rule)} falls into {_each_count(result.counts, chosen.spaces, rule)} "
        f"on the {rule_word(rule)}{bodies}"
    ]
    lines += left_said(result.ends, rule)
    lines += _changed(result.asked, chosen.change, rule, result.exact)
    lines += _other_totals(
        [(name, layout, _each_count(result.counts, layout.spaces, rule)) for name, layout in _others(result)],
        rule,
    )
    if result.kept_total is not None:
        kept = result.kept_total
        lines.append(
            f"or keep {in_rule(kept.total, rule)}: {_each_count(result.counts, kept.spaces, rule)}, "
            f"and {in_rule(kept.ends, rule)} left at each end"
        )
    return lines


def _changed(asked: Quantity, change: Quantity, rule: Rule, exact: tuple[Quantity, ...]) -> Lines:
    """What the total moves by, and the exact space that it has as it stands."""
    if change.value == 0:
        return [f"it divides as it stands{', approximate' if asked.approximate else ''}"]
    each = " and ".join(in_prose(exact_cell(space, rule)) for space in exact)
    return [
        f"the total is {moved(change, rule)} than {in_rule(asked, rule)}",
        f"{in_rule(asked, rule)} itself has an exact space of {each}",
    ]


def _each_count(counts: tuple[int, ...], spaces: tuple[Quantity, ...], rule: Rule) -> str:
    """`5 spaces of 7/16 in (11.1125 mm) and 7 of 5/16 in (7.9375 mm)`."""
    many = [spaces_said(counts[0]), *map(str, counts[1:])]
    return " and ".join(f"{n} of {in_rule(space, rule)}" for n, space in zip(many, spaces, strict=True))


def _each(space: Quantity, rule: Rule) -> Cell:
    cell = in_rule_cell(space, rule)
    return Cell("size", (*cell.pieces, " (", *cell.beside, ") each"))


def _others(result: Spacing | CommonSpacing) -> list[tuple[str, Any]]:
    """The totals on either side that are not the one chosen, each once."""
    layouts: list[tuple[str, Layout | CommonLayout | None]] = [
        ("or nearest", result.nearest), ("or above", result.above), ("or below", result.below),
    ]  # fmt: skip
    kept: list[tuple[str, Any]] = []
    for name, layout in layouts:
        if layout is not None and layout != result.chosen and all(layout != other for _, other in kept):
            kept.append((name, layout))
    return kept


def _other_totals(others: list[tuple[str, Any, Cell | str]], rule: Rule) -> Lines:
    rows = tuple(
        (name, in_rule_cell(layout.total, rule), each, moved_cell(layout.change, rule))
        for name, layout, each in others
    )
    return [Table(rows)] if rows else []


def _one(result: _Result) -> Spacing | CommonSpacing | AnyBodies:
    """Of how many, the spacing that was chosen."""
    if isinstance(result, Spacing):
        return result
    from fractions_shop.layout.posts import HowMany

    return result.chosen if isinstance(result, HowMany) else result


def _on_a_rule(result: _Result) -> tuple[list[Quantity], Rule] | None:
    """The ends of the spaces; bodies between them would need two lines each."""
    spacing = _one(result)
    if not isinstance(spacing, Spacing) or spacing.bodies is not None:
        return None
    return [spacing.chosen.ends + spacing.space * n for n in range(spacing.count + 1)], spacing.rule


def _total_moved(result: _Result) -> tuple[Quantity, Quantity] | None:
    spacing = _one(result)
    return (result.asked, spacing.change) if spacing.change.value else None


ROOM = Room(
    word="divide",
    forms=(
        "divide SIZE into N [and M ...] [on RULE] [up | down]",
        "divide SIZE into N leaving SIZE each end",
        "divide SIZE into N between WIDTH (of equal bars, one more than the spaces)",
        "divide SIZE into N between any [from SIZE to SIZE] (body and space both chosen)",
        "divide SIZE for N of WIDTH (bars inside two posts, a space at each end)",
        "divide SIZE for any of WIDTH, at most SIZE apart",
        "divide SIZE into spaces of about SIZE, or of at most SIZE",
    ),
    example="divide 2 in into 5 up",
    answer=_answer,
    lines=_lines,
    on_a_rule=_on_a_rule,
    moved=_total_moved,
    further=(
        (r"\bfor +any\b", "divide 72 in for any of 1 1/2 in, at most 4 in apart"),
        (r"\bfor\b", "divide 72 in for 13 of 1 1/2 in"),
        (r"\bspaces\b", "divide 109 in into spaces of about 7 in"),
        (r"\binto\b.*\band\b", "divide 2 in into 5 and 7"),
        (r"\bany\b", "divide 2 1/32 in into 5 between any from 1/8 in to 1/4 in"),
    ),
)
