# SPDX-License-Identifier: Apache-2.0
"""Lengths to buy and to cut, tier by tier."""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from linewright.base.evidence import Figure, Grade, Known, Placed
from linewright.base.finding import Severity
from linewright.car.model import (
    Car,
    Component,
    Construction,
    Line,
    Medium,
    Place,
    Port,
    System,
    Tier,
)
from linewright.catalogue.part import Part
from linewright.ends.end import End, Family, Gender
from linewright.joints.model import Chain, Joints, Termination
from linewright.routes.lengths import lay
from linewright.routes.model import Run

CONE = End(Family.FLARE_37, "-10", Gender.MALE)
NUT = End(Family.FLARE_37, "-10", Gender.FEMALE, swivel=True)
BOSS = End(Family.ORB_UNF, "-10", Gender.MALE)
PORT = End(Family.ORB_UNF, "-10", Gender.FEMALE)


def _adaptor(stick_out: float) -> Part:
    return Part("adaptor", "adaptor", "adaptor", (BOSS, CONE), legs=(stick_out, 0.0))


def _hose_end(angle: int, ends: str = "rubber") -> Part:
    grip = End(Family.HOSE, "-10", Gender.MALE, kind=ends)
    return Part(f"end {angle}", "hose end", "hose end", (NUT, grip), angle=angle, legs=(0.03, 0.02))


def _end(hose: str, side: str, angle: int | None = 0, stick_out: float = 0.025) -> Termination:
    parts = (_adaptor(stick_out), _hose_end(angle or 0))
    chain = Chain(PORT, parts, (), None, 1.0, stick_out, ())
    return Termination(hose, hose.rstrip("ab"), side, "", chain, angle=angle)


def _string(mm: float) -> Figure:
    return Figure(mm / 1000, "m", Grade.STATED)


def _line(mm: float | None = 900, **changes: object) -> Line:
    line = Line(
        "O01",
        "TANK.feed",
        "PUMP.in",
        "oil",
        Medium.OIL,
        "-10",
        "rubber braided",
        Construction.HOSE,
        tier=Tier.STRING if mm else Tier.UNKNOWN,
        string=_string(mm) if mm else None,
    )
    return replace(line, **changes)  # type: ignore[arg-type]


def _car(
    *lines: Line,
    tank: tuple[float, float, float] | None = None,
    pump: tuple[float, float, float] | None = None,
    placed: Placed = Placed.TAPED,
) -> Car:
    def component(name: str, port: str, at: tuple[float, float, float] | None) -> Component:
        place = Place(at, port, placed=placed) if at else None
        own = Port(f"{name}.{port}", name, port, PORT, known=Known.READ)
        return Component(name, "tank", system="oil", place=place, ports={port: own})

    return Car(
        "test",
        systems={"oil": System("oil", Medium.OIL, "15W-50")},
        components={
            "TANK": component("TANK", "feed", tank),
            "PUMP": component("PUMP", "in", pump),
        },
        lines={line.id: line for line in lines},
    )


def _joints(*ends: Termination) -> Joints:
    return Joints(ends, ())


def _one(car: Car, *ends: Termination) -> Run:
    (run,) = lay(car, _joints(*(ends or (_end("O01", "A"), _end("O01", "B"))))).runs
    return run


def _value(figure: Figure | None) -> float:
    assert figure is not None
    return figure.value


def test_buying_takes_nothing_off_the_string() -> None:
    # Worked system A: 700 mm to the engine asks for 805 mm.
    run = _one(_car(_line(700, crosses=True)))

    assert _value(run.buy) == pytest.approx(0.805)


def test_buying_adds_no_movement_where_both_ends_ride_together() -> None:
    run = _one(_car(_line(450)))

    assert _value(run.buy) == pytest.approx(0.502)


def test_cutting_takes_off_stick_outs_first_and_take_ups_last() -> None:
    # Case R6; take-up of 25.4 mm is MS24587 -10, NAVEDTRA 14018 table 5-2.
    run = _one(_car(_line(900)))

    assert _value(run.assembly) == pytest.approx(0.901)
    assert _value(run.cut) == pytest.approx(0.8502, abs=1e-6)


def test_a_line_to_the_engine_is_cut_with_its_movement() -> None:
    still, moving = _one(_car(_line(900))), _one(_car(_line(900, crosses=True)))

    assert _value(moving.cut) - _value(still.cut) == pytest.approx(0.038)


def test_an_angled_rubber_end_is_cut_in_place() -> None:
    run = _one(_car(_line(900)), _end("O01", "A", 90), _end("O01", "B"))

    assert run.cut is None
    assert run.assembly is not None
    assert run.cut_note == "cut in place: take-up of a 90° rubber end is not in the data"


def test_an_open_angle_is_cut_in_place() -> None:
    run = _one(_car(_line(900)), _end("O01", "A", None), _end("O01", "B"))

    assert run.cut is None
    assert run.cut_note == "cut in place: the angle at end A is open"


def test_an_end_that_nobody_chose_is_cut_in_place() -> None:
    run = _one(_car(_line(900)), Termination("O01", "O01", "A", "", None), _end("O01", "B"))

    assert run.cut is None
    assert run.cut_note == "cut in place: nothing chosen at end A"
    assert _value(run.buy) == pytest.approx(0.979)


def test_adaptors_longer_than_the_string_are_said() -> None:
    run = _one(_car(_line(40)))

    assert run.cut is None
    assert run.cut_note == ("cut in place: the adaptors alone stand out 10 mm more than the string")


def test_a_string_from_collar_to_collar_is_bought_with_its_sockets_and_cut_in_place() -> None:
    run = _one(_car(_line(900, string_from="collar")))
    plain = _one(_car(_line(900)))

    assert run.cut is None
    assert "add what goes into each socket" in run.cut_note
    assert _value(run.buy) > _value(plain.buy)


@pytest.mark.parametrize(
    ("tier", "sigma"), [(Tier.GUESS, 0.20), (Tier.STRING, 0.03), (Tier.MOCKED_UP, 0.01)]
)
def test_each_tier_has_its_own_error(tier: Tier, sigma: float) -> None:
    # Spreads: settings.csv, estimates; limits are the central 95 %.
    run = _one(_car(_line(1000, tier=tier)))

    assert run.tier is tier
    assert run.string is not None
    assert run.string.high == pytest.approx(1 + 1.959964 * sigma)
    assert run.string.low == pytest.approx(1 - 1.959964 * sigma)


def test_placed_ports_give_the_straight_distance() -> None:
    run = _one(_car(_line(None), tank=(3.120, -0.410, 0.150), pump=(0.250, 0.250, 0.300)))

    assert run.tier is Tier.PLACED
    assert _value(run.string) == pytest.approx(2.949, abs=5e-4)
    assert run.string is not None
    assert run.string.high is not None
    assert run.string.high - run.string.value > 1.96 * 0.04 * 2.949 - 1e-3


def test_guessed_ports_give_a_guessed_length() -> None:
    car = _car(_line(None), tank=(3.0, 0, 0), pump=(1.0, 0, 0), placed=Placed.GUESS)
    run = _one(car)

    assert run.tier is Tier.GUESS
    assert run.string is not None
    assert run.string.high is not None
    assert run.string.high > 2.0 * (1 + 1.9 * 0.20)


def test_a_string_beats_positions() -> None:
    run = _one(_car(_line(3300), tank=(3.0, 0, 0), pump=(0.0, 0, 0)))

    assert run.tier is Tier.STRING
    assert _value(run.string) == pytest.approx(3.3)
    assert _value(run.straight) == pytest.approx(3.0)


def test_a_string_shorter_than_the_straight_distance_is_a_stop() -> None:
    # Case R5.
    car = _car(_line(1450), tank=(3.120, -0.410, 0.150), pump=(0.250, 0.250, 0.300))
    (finding,) = lay(car, _joints()).findings

    assert finding.code == "string-too-short"
    assert finding.severity is Severity.STOP
    assert finding.reason == (
        "O01: the string of 1450 mm is shorter than the straight distance of 2949 mm between "
        "TANK.feed and PUMP.in."
    )
    assert (finding.value, finding.limit) == ("1450 mm", "2949 mm")
    assert finding.measure == pytest.approx(1.499, abs=1e-3)


def test_a_string_longer_than_a_car_is_asked_about() -> None:
    (finding,) = lay(_car(_line(70_000)), _joints()).findings

    assert finding.code == "string-long"
    assert finding.severity is Severity.ASK
    assert finding.reason == ("O01: a string of 70 m is long for a car; lines stay under 8 m.")
    assert finding.remedy == (
        "Read the tape again, and the unit. Where the line really is that long, set "
        'string-longest = "70 m" under [settings].'
    )


def test_a_string_of_eight_metres_is_not_asked_about() -> None:
    assert lay(_car(_line(8000)), _joints()).findings == ()


def test_a_string_a_little_short_between_guessed_ports_is_asked() -> None:
    car = _car(_line(1950), tank=(3.0, 0, 0), pump=(1.0, 0, 0), placed=Placed.GUESS)
    (finding,) = lay(car, _joints()).findings

    assert finding.code == "string-too-short"
    assert finding.severity is Severity.ASK
    assert finding.reason.endswith("One of the ports is only guessed, so this may be the guess.")


def test_the_same_string_on_all_lines_of_a_system_is_asked() -> None:
    lines = [_line(800, id=name) for name in ("O01", "O02", "O10")]
    (finding,) = lay(_car(*lines), _joints()).findings

    assert finding.code == "string-copied"
    assert finding.severity is Severity.ASK
    assert finding.about == ("O01", "O02", "O10")
    assert finding.reason == "All 3 lines of oil have the same string of 800 mm."


def test_two_equal_strings_are_no_copy() -> None:
    assert lay(_car(_line(800), _line(800, id="O02")), _joints()).findings == ()


def test_a_line_without_any_length_is_asked_for_one() -> None:
    car = _car(_line(None))
    routes = lay(car, _joints())

    assert routes.runs[0].buy is None
    assert routes.runs[0].clips == 0
    assert [f.code for f in routes.findings] == ["length-unknown"]
    assert routes.findings[0].remedy == (
        'Lay a string along the path and type it: string = "… mm" at O01.'
    )


def _passed(**changes: object) -> tuple[Run, ...]:
    line = _line(1000, passes=("firewall",), **changes)
    ends = [_end(hose, side) for hose in ("O01a", "O01b") for side in "AB"]
    return lay(_car(line), _joints(*ends)).runs


def test_a_line_through_a_panel_is_two_pieces_of_half_the_length_each() -> None:
    runs = _passed()

    assert [run.id for run in runs] == ["O01a", "O01b"]
    assert [_value(run.string) for run in runs] == [0.5, 0.5]
    assert {run.tier for run in runs} == {Tier.GUESS}
    assert {run.cut_note for run in runs} == {
        "cut in place: where the panel is along the line is not known"
    }


def test_the_typed_place_of_the_panel_shares_the_string_out() -> None:
    runs = _passed(passes_at=(_string(300), _string(700)))

    assert [_value(run.string) for run in runs] == pytest.approx([0.3, 0.7])
    assert {run.tier for run in runs} == {Tier.STRING}


def test_pieces_measured_apart_need_no_whole_string() -> None:
    line = _line(None, passes=("firewall",), passes_at=(_string(300), _string(700)))
    ends = [_end(hose, side) for hose in ("O01a", "O01b") for side in "AB"]
    routes = lay(_car(line), _joints(*ends))

    assert [_value(run.string) for run in routes.runs] == pytest.approx([0.3, 0.7])
    assert {run.tier for run in routes.runs} == {Tier.STRING}
    assert routes.findings == ()


def test_only_the_piece_on_the_engine_side_has_its_movement() -> None:
    line = _line(1000, passes=("firewall",), crosses=True)
    car = _car(line)
    engine = replace(car.components["PUMP"], rides="engine")
    car = replace(car, components={**car.components, "PUMP": engine})
    ends = [_end(hose, side) for hose in ("O01a", "O01b") for side in "AB"]
    runs = lay(car, _joints(*ends)).runs

    assert [run.crosses for run in runs] == [False, True]


@pytest.mark.parametrize("construction", [Construction.TUBE, Construction.PIPE])
def test_what_is_bent_has_no_slack_and_no_computed_cut(construction: Construction) -> None:
    run = _one(_car(_line(1000, construction=construction)))

    assert run.slack == 0.0
    assert run.cut is None
    assert _value(run.buy) == pytest.approx(1.125)  # a tenth more, and the cuts


def test_a_clamped_hose_is_bought_with_what_goes_over_its_spigots() -> None:
    run = _one(_car(_line(400, construction=Construction.CLAMPED, size="38", hose="silicone")))

    assert run.cut is None
    assert _value(run.buy) > 0.4 * 1.06 + 0.025


def test_a_reference_hose_has_its_slack_and_cuts_like_others() -> None:
    run = _one(
        _car(
            _line(
                600,
                service="reference",
                size="5",
                hose="reference",
                construction=Construction.CLAMPED,
            )
        )
    )

    assert _value(run.buy) == pytest.approx(0.6 * 1.06 + 0.025)
    assert run.clips == 0


@pytest.mark.parametrize(("millimetres", "clips"), [(190, 0), (210, 1), (900, 2)])
def test_a_piece_too_short_to_clip_has_no_clip(millimetres: int, clips: int) -> None:
    # Two adaptors of 25 mm leave 140 mm and 160 mm free; the setting is 150 mm.
    run = _one(_car(_line(millimetres)), _end("O01", "A"), _end("O01", "B"))

    assert run.clips == clips


def test_the_builder_may_set_another_slack() -> None:
    car = replace(
        _car(_line(1000)), settings={"slack": Figure(0.10, "-", Grade.STATED, "as typed")}
    )

    assert _value(_one(car).buy) == pytest.approx(1.125)


@settings(max_examples=100, deadline=None)
@given(
    mm=st.floats(150, 9000),
    crosses=st.booleans(),
    out=st.floats(0, 60),
)
def test_what_is_bought_always_covers_what_is_cut(mm: float, crosses: bool, out: float) -> None:
    ends = _end("O01", "A", 0, out / 1000), _end("O01", "B", 0, out / 1000)
    run = _one(_car(_line(mm, crosses=crosses)), *ends)

    assert run.cut is not None
    assert run.assembly is not None
    assert _value(run.cut) < run.assembly.value < _value(run.buy)
    assert _value(run.buy) > mm / 1000
    # Free between its adaptors, less than 150 mm gets no clip: its ends hold it.
    started = max(1, -(-round(mm * 1e6) // 450_000_000))
    assert run.clips == (started if mm - 2 * out >= 150 else 0)


@settings(max_examples=100, deadline=None)
@given(st.lists(st.floats(150, 9000), min_size=1, max_size=6))
def test_laying_twice_gives_the_same(lengths: list[float]) -> None:
    car = _car(*(_line(mm, id=f"O{n:02}") for n, mm in enumerate(lengths)))

    assert lay(car, _joints()) == lay(car, _joints())


def test_a_share_of_a_line_says_that_its_panel_is_not_placed() -> None:
    figures = [run.string for run in _passed()]

    assert {figure.basis for figure in figures if figure} == {
        "an even share of the line: where the panel is along it is not known"
    }
    assert all(
        figure.high == pytest.approx(0.5 * (1 + 1.959964 * 0.2)) for figure in figures if figure
    )
