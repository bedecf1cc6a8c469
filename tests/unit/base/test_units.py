# SPDX-License-Identifier: Apache-2.0
"""Quantities as people type them. Factors are checked against pint, another's definitions."""

import math
from collections.abc import Callable

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from linewright.base import dimensions, shown, units
from linewright.base.errors import UnitError

REGISTRY = pint.UnitRegistry()

TYPED = [
    (units.length, "700 mm", 0.7),
    (units.length, "12.7mm", 0.0127),
    (units.length, "1.2 m", 1.2),
    (units.length, "45 cm", 0.45),
    (units.length, "0 mm", 0.0),
    (units.length, ".5 in", 0.0127),
    (units.length, '1/2"', 0.0127),
    (units.length, "1-1/4 in", 1.25 * 0.0254),
    (units.length, "1 1/4 in", 1.25 * 0.0254),
    (units.length, "3/4 inch", 0.75 * 0.0254),
    (units.length, "16 ft", 16 * 0.3048),
    (units.length, "16 ft 3 in", 16.25 * 0.3048),
    (units.length, "16' 3\"", 16.25 * 0.3048),
    (units.length, "16ft 3-1/2in", (16 * 12 + 3.5) * 0.0254),
    (units.volume, "12 L", 0.012),
    (units.volume, "250 mL", 0.00025),
    (units.volume, "3 US gal", 3 * 0.003785411784),
    (units.volume, "3 imp gal", 3 * 0.00454609),
    (units.flow, "60 L/min", 0.001),
    (units.flow, "10 gpm", 10 * 0.003785411784 / 60),
    (units.flow, "340 L/h", 0.34 / 3600),
    (units.pressure, "5 bar", 501325 + 100000),
    (units.pressure, "5 bar abs", 500000),
    (units.pressure, "0 psi", 101325),
    (units.pressure, "14.7 psia", 14.7 * 6894.757293168),
    (units.gauge_pressure, "5 bar", 500000),
    (units.gauge_pressure, "-0.3 bar", -30000),
    (units.gauge_pressure, "2 bar abs", 98675),
    (units.pressure_difference, "20 kPa", 20000),
    (units.temperature, "90 °C", 363.15),
    (units.temperature, "200 °F", 366.4833333333333),
    (units.temperature, "-40 °F", 233.15),
    (units.temperature, "363 K", 363),
    (units.temperature_difference, "10 K", 10),
    (units.power, "330 kW", 330000),
    (units.power, "100 hp", 74569.98715822702),
    (units.power, "100 PS", 73549.875),
    (units.torque, "27 N m", 27),
    (units.torque, "27 Nm", 27),
    (units.torque, "20 lb-ft", 27.116358966280),
    (units.mass, "2.5 kg", 2.5),
    (units.mass, "6 lb", 6 * 0.45359237),
    (units.angle, "90°", math.pi / 2),
    (units.angle, "-20", -math.pi / 9),
    (units.percent, "6 %", 0.06),
    (units.number, "100", 100),
]


@pytest.mark.parametrize(
    ("read", "text", "value"), TYPED, ids=lambda v: v if type(v) is str else ""
)
def test_what_people_type_is_read(read: Callable[[str], float], text: str, value: float) -> None:
    assert read(text) == pytest.approx(value, rel=1e-9)


REFUSED = [
    (units.length, "1200,5 mm", '"1200,5 mm" has a decimal comma; write "1200.5 mm".'),
    (
        units.length,
        "1,200 mm",
        '"1,200 mm" has a comma between digits, which can be read in two ways; write "1200 mm" '
        'or "1.200 mm".',
    ),
    (
        units.length,
        "700",
        '"700" has no unit; allowed: mm, cm, m, in, ft, "16 ft 3 in". Write for example "700 mm".',
    ),
    (
        units.length,
        "700 MM",
        '"700 MM": "MM" is no unit of length here; allowed: mm, cm, m, in, ft, "16 ft 3 in". '
        'Did you mean "mm"?',
    ),
    (
        units.length,
        "5 bar",
        '"5 bar": "bar" is no unit of length here; allowed: mm, cm, m, in, ft, "16 ft 3 in".',
    ),
    (units.length, "", '"" is no length; write for example "700 mm".'),
    (units.length, "long", '"long" is no length; write for example "700 mm".'),
    (units.length, "inf mm", '"inf mm" is not finite; write a number that can be measured.'),
    (units.length, "nan", '"nan" is not finite; write a number that can be measured.'),
    (units.length, "1e999 mm", '"1e999 mm" is not finite; write a number that can be measured.'),
    (units.length, "-5 mm", '"-5 mm" is negative; the least length here is 0.'),
    (units.length, "1e6 m", '"1e6 m" is absurdly large; the greatest length here is 100 m.'),
    (units.length, "1/0 in", '"1/0 in" divides by nothing; write for example "1-1/4 in".'),
    (
        units.length,
        "1-5/4 in",
        '"1-5/4 in" is no proper fraction: 5/4 is one or more; write for example "1-1/4 in".',
    ),
    (
        units.length,
        "16 ft 13 in",
        '"16 ft 13 in" is no length; after the feet come less than 12 inches, as in '
        '"16 ft 3-1/2 in".',
    ),
    (
        units.volume,
        "3 gal",
        '"3 gal": a bare gal is either the US one (3.785 L) or the imperial one (4.546 L); '
        'write "US gal" or "imp gal".',
    ),
    (
        units.flow,
        "3 gal/min",
        '"3 gal/min": a bare gal is either the US one (3.785 L) or the imperial one (4.546 L); '
        'write "US gal" or "imp gal".',
    ),
    (units.volume, "12 oz", '"12 oz": oz is a mass and two volumes; write "g", "mL" or "L".'),
    (units.mass, "12 oz", '"12 oz": oz is a mass and two volumes; write "g", "mL" or "L".'),
    (
        units.pressure,
        "-2 bar",
        '"-2 bar" is less than a vacuum; the least is -1.013 bar gauge, 0 bar abs.',
    ),
    (
        units.pressure_difference,
        "2 bar abs",
        '"2 bar abs": "bar abs" is no unit of pressure difference here; allowed: bar, mbar, kPa, '
        'psi. Did you mean "bar"?',
    ),
    (units.temperature, "-300 °C", '"-300 °C" is colder than absolute zero (-273.15 °C).'),
    (
        units.temperature,
        "90",
        '"90" has no unit; allowed: °C, °F, K. Write for example "90 °C".',
    ),
    (
        units.temperature_difference,
        "10 °C",
        '"10 °C": "°C" is no unit of temperature difference here; allowed: K.',
    ),
    (units.angle, "400°", '"400°" is absurdly large; the greatest angle here is 360°.'),
    (
        units.number,
        "5 mm",
        '"5 mm": "mm" is no unit of number here; allowed: a number without a unit.',
    ),
]


@pytest.mark.parametrize(
    ("read", "text", "message"), REFUSED, ids=lambda v: v if type(v) is str else ""
)
def test_what_cannot_be_meant_is_refused_with_the_way_out(
    read: Callable[[str], float], text: str, message: str
) -> None:
    with pytest.raises(UnitError) as caught:
        read(text)

    assert str(caught.value) == message


#: Our spelling, pint's, for every factor that both know.
PINT = {
    "in": "inch",
    "ft": "foot",
    "L": "liter",
    "mL": "milliliter",
    "US gal": "gallon",
    "imp gal": "imperial_gallon",
    "L/min": "liter / minute",
    "L/h": "liter / hour",
    "gpm": "gallon / minute",
    "gph": "gallon / hour",
    "imp gal/min": "imperial_gallon / minute",
    "bar": "bar",
    "kPa": "kilopascal",
    "psi": "psi",
    "mbar": "millibar",
    "kW": "kilowatt",
    "hp": "horsepower",
    "PS": "metric_horsepower",
    "N m": "newton * meter",
    "lb-ft": "force_pound * foot",
    "lb-in": "force_pound * inch",
    "kg": "kilogram",
    "lb": "pound",
    "°": "degree",
}
TABLES = [
    dimensions.LENGTH,
    dimensions.VOLUME,
    dimensions.FLOW,
    dimensions.DIFFERENCE,
    dimensions.POWER,
    dimensions.TORQUE,
    dimensions.MASS,
    dimensions.ANGLE,
]


@pytest.mark.parametrize("unit", PINT)
def test_factors_are_those_of_another_library(unit: str) -> None:
    ours = [table.units[unit] for table in TABLES if unit in table.units]
    theirs = REGISTRY.Quantity(1, PINT[unit]).to_base_units()
    # pint keeps volumes and masses in its own base: cubic metres and kilograms, as we do.

    assert len(ours) == 1
    assert ours[0] == pytest.approx(theirs.magnitude, rel=1e-9)


def test_temperatures_are_those_of_another_library() -> None:
    for degrees in (-40.0, 0.0, 100.0, 250.5):
        theirs = REGISTRY.Quantity(degrees, "degF").to("kelvin").magnitude

        assert units.temperature(f"{degrees} °F") == pytest.approx(theirs, rel=1e-9)


MISREAD = ["16 ft 3 in", "1200,5 mm", "27 Nm", "3/4-16", "1-1/16 in", "50 lpm"]


@pytest.mark.parametrize("text", MISREAD)
def test_the_usual_library_would_misread_or_refuse(text: str) -> None:
    """Why there is a reader of our own: none of these comes out of pint as it was meant."""
    meant = {
        "16 ft 3 in": ("meter", 4.953),
        "27 Nm": ("newton * meter", 27.0),
        "1-1/16 in": ("meter", 17 / 16 * 0.0254),
        "50 lpm": ("meter ** 3 / second", 50e-3 / 60),
    }
    try:
        got = REGISTRY.Quantity(text)
        unit, value = meant.get(text, ("meter", math.nan))
        is_right = math.isclose(got.to(unit).magnitude, value, rel_tol=1e-9)
    except (pint.PintError, AttributeError, TypeError, ValueError):
        is_right = False

    assert not is_right


@given(st.floats(min_value=1e-4, max_value=90), st.sampled_from(["metric", "inch"]))
def test_a_length_that_is_shown_can_be_typed_back(metres: float, show: str) -> None:
    back = units.length(shown.show_length(metres, show))

    assert back == pytest.approx(metres, rel=6e-3)


@pytest.mark.parametrize(
    ("show", "read", "value"),
    [
        (shown.show_volume, units.volume, 0.0123),
        (shown.show_flow, units.flow, 0.00067),
        (shown.show_gauge_pressure, units.gauge_pressure, 4.2e5),
        (shown.show_temperature, units.temperature, 380.0),
        (shown.show_power, units.power, 330e3),
        (shown.show_torque, units.torque, 27.0),
        (shown.show_mass, units.mass, 2.5),
    ],
)
@pytest.mark.parametrize("style", ["metric", "inch"])
def test_every_quantity_that_is_shown_can_be_typed_back(
    show: Callable[[float, str], str], read: Callable[[str], float], value: float, style: str
) -> None:
    assert read(show(value, style)) == pytest.approx(value, rel=6e-3)


def test_angles_and_shares_are_shown_as_typed() -> None:
    assert shown.show_angle(units.angle("20°")) == "20°"
    assert shown.show_share(units.percent("6 %")) == "6 %"


@given(st.text(max_size=40))
def test_any_text_gives_a_finite_value_or_a_plain_refusal(text: str) -> None:
    for read in units.READERS.values():
        try:
            value = read(text)
        except UnitError:
            continue

        assert math.isfinite(value)
