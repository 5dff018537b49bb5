"""Thread forms: the printed constants, and the geometry that they stand for."""

from __future__ import annotations

from fractions import Fraction
from math import radians, sin, sqrt, tan

import pytest

from fractions_shop.errors import ShopError
from fractions_shop.size.quantity import Quantity
from fractions_shop.threads import forms
from fractions_shop.threads.forms import Form, bases, basis_named, pitch_of, to_step

PRINTED = [
    # form, included angle, depth and what the effective diameter lies under the major, in pitches
    pytest.param(forms.BA, "47.5", "0.6", "0.6", id="BS 93 (Machinery's Handbook 31st ed. p.2115)"),
    pytest.param(forms.BA_BEYOND, "47.5", "0.6", "0.6", id="BS 93 carried on"),
    pytest.param(
        forms.WHITWORTH, "55", "0.640327", "0.640327", id="BS 84 (Machinery's Handbook 31st ed. p.2087)"
    ),
    pytest.param(forms.PIPE, "55", "0.640327", "0.640327", id="ISO 228-1"),
    pytest.param(forms.PIPE_TAPER, "55", "0.640327", "0.640327", id="ISO 7-1"),
    pytest.param(forms.UNIFIED, "60", "0.541266", "0.649519", id="ASME B1.1 (MH 31st ed. p.1978)"),
    pytest.param(forms.METRIC, "60", "0.541266", "0.649519", id="ISO 68-1 and ISO 724"),
    pytest.param(forms.CYCLE, "60", "0.5327", "0.5327", id="BS 811:1950 (copies of its tables)"),
    pytest.param(forms.NPT, "60", "0.8", "0.8", id="ASME B1.20.1"),
]


@pytest.mark.parametrize(("form", "angle", "depth", "effective"), PRINTED)
def test_constants_are_the_printed_ones(form: Form, angle: str, depth: str, effective: str) -> None:
    assert form.angle.degrees == Fraction(angle)
    assert (form.depth, form.effective) == (Fraction(depth), Fraction(effective))


@pytest.mark.parametrize(
    ("form", "pitches", "step"),
    [
        # The sharp triangle of height H = 1 / (2 tan a/2) less what each standard cuts or rounds off.
        (forms.WHITWORTH, 2 / 3 / (2 * tan(radians(27.5))), 1e-6),
        (forms.PIPE, 2 / 3 / (2 * tan(radians(27.5))), 1e-6),
        (forms.PIPE_TAPER, 2 / 3 / (2 * tan(radians(27.5))), 1e-6),
        (forms.UNIFIED, 5 / 8 * sqrt(3) / 2, 1e-6),
        (forms.METRIC, 5 / 8 * sqrt(3) / 2, 1e-6),
        (forms.CYCLE, sqrt(3) / 2 - 1 / 3, 1e-4),
    ],
    ids=lambda v: v.name if isinstance(v, Form) else "",
)
def test_depths_are_the_geometry(form: Form, pitches: float, step: float) -> None:
    assert abs(float(form.depth) - pitches) <= step / 2 * 1.1


@pytest.mark.parametrize(
    ("form", "radius"),
    [
        # Crest radius in pitches: the flank begins r (1 - sin a/2) below the crest.
        (forms.BA, 0.1808346),
        (forms.BA_BEYOND, 0.1808346),
        (forms.WHITWORTH, 0.137329),
        (forms.PIPE, 0.137329),
        (forms.PIPE_TAPER, 0.137329),
        (forms.CYCLE, 1 / 6),
        (forms.UNIFIED, 0),
        (forms.METRIC, 0),
        (forms.NPT, 0),
    ],
    ids=lambda v: v.name if isinstance(v, Form) else "",
)
def test_the_straight_flank_begins_below_the_rounding(form: Form, radius: float) -> None:
    """BS 93 and BS 84 radii as Machinery's Handbook 31st ed. prints them, BS 811 r = p/6."""
    half = radians(float(form.angle.degrees) / 2)
    assert float(form.rounding) == pytest.approx(
        radius * (1 - sin(half)), abs=1e-4 if "BA" in form.name else 1e-5
    )


@pytest.mark.parametrize("form", [forms.WHITWORTH, forms.PIPE, forms.PIPE_TAPER], ids=lambda f: f.name)
def test_whitworth_depth_of_rounding_is_the_printed_one(form: Form) -> None:
    """BS 84 (Machinery's Handbook 31st ed. p.2087): 0.0739176p."""
    assert form.rounding == Fraction("0.0739176")


@pytest.mark.parametrize(
    ("form", "factors"),
    [
        (forms.BA, ["1.2"]),
        (forms.BA_BEYOND, ["1.2"]),
        (forms.WHITWORTH, ["1.280654"]),
        (forms.PIPE, ["1.280654"]),
        (forms.PIPE_TAPER, ["1.280654"]),
        (forms.UNIFIED, ["1.082532", "1.190785", "1.226869", "1.299038"]),
        (forms.METRIC, ["1.082532", "1.226869"]),
        (forms.CYCLE, ["1.0654"]),
        (forms.NPT, ["0.8"]),
    ],
    ids=lambda v: v.name if isinstance(v, Form) else "",
)
def test_minors_are_those_in_print_and_the_first_goes_with_the_depth(form: Form, factors: list[str]) -> None:
    """BS 93, BS 84, ISO 228-1, ISO 7-1, ASME B1.1 (MH 31st ed. p.1978), ISO 68-1, BS 811, ASME B1.20.1."""
    assert [str(c.factor) for c in form.minors] == [str(Fraction(f)) for f in factors]
    # NPT counts from the effective diameter, one depth below it.
    sides = 1 if form == forms.NPT else 2
    assert abs(form.minors[0].factor - sides * form.depth) <= Fraction(1, 10**6)


@pytest.mark.parametrize(
    ("form", "step"),
    [(forms.BA, "0.005"), (forms.PIPE, "0.001"), (forms.PIPE_TAPER, "0.001"), (forms.WHITWORTH, None)],
    ids=lambda v: v.name if isinstance(v, Form) else str(v),
)
def test_a_rounded_depth_is_exact_and_another_is_not(form: Form, step: str | None) -> None:
    assert form.step == (step and Fraction(step))
    for found in (form.depth_of(pitch_of(Fraction(19))), form.effective_of(pitch_of(Fraction(19)))):
        assert found.approximate == (step is None)
        assert step is None or (found.mm / Fraction(step)).denominator == 1


def test_depths_rounded_as_printed_tables_round_them() -> None:
    # 0 BA 0.6 mm, 6 BA 0.6 x 0.53 = 0.318 to 0.320, 14 BA 0.6 x 0.23 = 0.138 to 0.140 (BS 93);
    # G 1/4: 0.640327 x 25.4 / 19 = 0.85602 to 0.856 (ISO 228-1).
    cases = (("1", "0.6"), ("0.53", "0.32"), ("0.23", "0.14"))
    assert [forms.BA.depth_of(Quantity(Fraction(p))).mm for p, _ in cases] == [Fraction(d) for _, d in cases]
    assert forms.PIPE.depth_of(pitch_of(Fraction(19))).mm == Fraction("0.856")


@pytest.mark.parametrize(
    ("value", "to"), [("0.0024", "0"), ("0.0025", "0.005"), ("0.0074", "0.005"), ("0.0075", "0.01")]
)
def test_a_half_goes_up(value: str, to: str) -> None:
    assert to_step(Fraction(value), Fraction("0.005")) == Fraction(to)


# What a percentage of thread is counted on


@pytest.mark.parametrize("form", [forms.UNIFIED, forms.METRIC], ids=lambda f: f.name)
def test_sixty_degree_bases(form: Form) -> None:
    """3H/4 a side is 1.299038p, 5H/8 a side 1.082532p (ISO 68-1); forming taps 0.68p, read with its formula."""
    found = [(b.name, b.factor) for b in bases(form)]
    assert found == [
        ("3H/4", Fraction("1.299038")),
        ("basic", Fraction("1.082532")),
        ("forming", Fraction("0.68")),
    ]
    assert basis_named(form, None).name == "3H/4"
    assert basis_named(form, "full").name == basis_named(form, "BASIC").name == "basic"
    assert basis_named(form, "3h/4").name == "3H/4"


@pytest.mark.parametrize(
    ("form", "factor"),
    [(forms.BA, "1.2"), (forms.WHITWORTH, "1.280654"), (forms.CYCLE, "1.0654"), (forms.PIPE, "1.280654")],
    ids=lambda v: v.name if isinstance(v, Form) else str(v),
)
def test_other_forms_count_on_their_whole_depth(form: Form, factor: str) -> None:
    (only,) = bases(form)
    assert (only.name, only.factor) == ("full", Fraction(factor))
    assert only.meaning == f"the whole depth of the form: {factor}p"
    for name in (None, "full", "basic", "Full"):
        assert basis_named(form, name) == only
    with pytest.raises(ShopError) as refused:
        basis_named(form, "forming")
    assert str(refused.value) == (
        f"'forming' is not a basis for {form.name} threads: full (the whole depth of the form: {factor}p)"
    )
