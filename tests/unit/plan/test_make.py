# SPDX-License-Identifier: Apache-2.0
"""Courses in the plan: what is reckoned from them, what goes before them, what they answer."""

import pytest

from linewright.base.finding import Severity
from linewright.car.read import read_text
from linewright.plan.make import make
from linewright.plan.model import Plan
from linewright.routes.model import By, Run
from linewright.routes.shapes import reach

CAR = """linewright = 1
[car]
name = "two blocks"
datum = "anywhere"
placed = "{placed}"
[systems.oil]
fluid = "10W-40"
hose = "{hose}"
size = "-8"
{panels}
[components.A]
kind = "component"
system = "oil"
at = "0, 0, 500 mm"
size = "100 x 100 x 100 mm"
[components.A.ports]
out = {{ end = "-8 ORB female", known = "read", at = "50, 0, 0 mm", points = "rearward" }}
[components.B]
kind = "component"
system = "oil"
at = "1300, 0, 500 mm"
size = "100 x 100 x 100 mm"
[components.B.ports]
in = {{ end = "-8 ORB female", known = "read", at = "{at}", points = "{points}" }}
[lines]
O01 = {{ from = "A.out", to = "B.in"{more} }}
"""


def plan(
    more: str = "",
    *,
    placed: str = "taped",
    hose: str = "PTFE",
    at: str = "-50, 0, 0 mm",
    points: str = "forward",
    panels: str = "",
    in_space: bool = True,
) -> Plan:
    text = CAR.format(more=more, placed=placed, hose=hose, at=at, points=points, panels=panels)
    return make(read_text(text), in_space=in_space)


def run(made: Plan) -> Run:
    (only,) = made.routes.runs
    return only


def codes(made: Plan) -> set[str]:
    return {finding.code for finding in made.findings}


def test_a_line_without_a_string_is_as_long_as_its_course_from_face_to_face() -> None:
    made = plan()
    only = run(made)
    (course,) = made.routes.courses
    legs = [leg for end in only.ends if end.chain for part in end.chain.parts for leg in part.legs]

    assert only.by is By.COURSE
    assert only.string == only.course
    assert only.string is not None
    assert only.string.value == pytest.approx(course.length + sum(legs))
    assert only.string.value == pytest.approx(1.2)
    assert only.string.basis == "course in space between ports that are placed"


def test_it_is_cut_from_the_course_with_slack_and_less_both_take_ups() -> None:
    made = plan()
    only = run(made)
    (course,) = made.routes.courses
    ends = [end.chain.hose_end for end in only.ends if end.chain and end.chain.hose_end]
    taut = course.length + sum(reach(part) for part in ends)

    assert only.assembly is not None
    assert only.cut is not None
    assert only.assembly.value == pytest.approx(taut * 1.06)
    # Straight reusable PTFE end, -8: 1.86 in (MIL-H-25579 ends, a Navy manual's table).
    assert only.cut.value == pytest.approx(taut * 1.06 - 2 * 1.86 * 0.0254)
    assert only.cut_note == "check in place before the second cut"


def test_a_bent_end_counts_to_the_middle_of_its_outlet_and_not_round_its_corner() -> None:
    made = plan(at="0, 0, 50 mm", points="up")
    only = run(made)
    (course,) = made.routes.courses
    bent = next(end.chain.hose_end for end in only.ends if end.angle and end.chain)
    assert bent is not None
    straight = [e.chain.hose_end for e in only.ends if not e.angle and e.chain]

    assert only.assembly is not None
    assert bent.angle == 90
    taut = course.length + bent.legs[1] + sum(sum(p.legs) for p in straight if p)
    assert only.assembly.value == pytest.approx(taut * 1.06)


def test_what_moves_against_the_chassis_has_its_slack() -> None:
    still, moves = run(plan()), run(plan(", crosses = true"))

    assert still.assembly is not None
    assert moves.assembly is not None
    assert moves.assembly.value - still.assembly.value == pytest.approx(0.038)


@pytest.mark.parametrize(
    ("key", "by"), [("mocked-up", By.MOCKED_UP), ("string", By.STRING), ("guess", By.COURSE)]
)
def test_what_is_known_best_counts(key: str, by: By) -> None:
    only = run(plan(f', {key} = "1230 mm"'))

    assert only.by is by
    assert only.course is not None
    assert only.course.value == pytest.approx(1.2)


def test_a_guess_goes_before_a_course_between_guessed_ports() -> None:
    assert run(plan(', guess = "1230 mm"', placed="guess")).by is By.GUESS
    assert run(plan(placed="guess")).by is By.COURSE


def test_placed_ports_give_4_percent_and_guessed_ones_20() -> None:
    placed, guessed = run(plan()).course, run(plan(placed="guess")).course

    assert placed is not None
    assert placed.high is not None
    assert guessed is not None
    assert guessed.high is not None
    # Both with what the ports' own places add: 8 mm each as taped, 150 mm each as guessed.
    assert placed.high - 1.2 == pytest.approx(1.96 * (0.048**2 + 2 * 0.008**2) ** 0.5, rel=1e-3)
    assert guessed.high - 1.2 == pytest.approx(1.96 * (0.24**2 + 2 * 0.15**2) ** 0.5, rel=1e-3)


def test_a_string_that_the_course_does_not_bear_out_is_asked_about() -> None:
    made = plan(', string = "1650 mm"')
    (finding,) = [f for f in made.findings if f.code == "length-differs"]

    assert finding.severity is Severity.ASK
    assert finding.about == ("O01",)
    assert finding.reason == (
        "O01: the string of 1,650 mm and the course in space of 1,200 mm are 450 mm apart; "
        "137 mm is what both can be out by."
    )
    assert finding.remedy == (
        "Lay the string again along the way the hose will go, and tape both ports again: a port "
        "is out of place, or the hose goes another way: say which by a guide."
    )
    assert run(made).by is By.STRING
    # What is said of clips goes by the string that counts: one a started 450 mm.
    assert run(made).clips == 4


def test_where_string_and_course_contradict_each_other_the_longer_is_bought() -> None:
    short, long = plan(', string = "800 mm"'), plan(', string = "1650 mm"')
    (finding,) = [f for f in short.findings if f.code == "length-differs"]
    bought = [run(made).buy for made in (short, long)]

    assert finding.remedy.endswith("Until then the course is bought.")
    assert all(figure is not None for figure in bought)
    # 6 % slack and 25 mm for two clean cuts.
    assert [round(b.value, 4) for b in bought if b] == [
        pytest.approx(1.2 * 1.06 + 0.025),
        pytest.approx(1.65 * 1.06 + 0.025),
    ]


def test_a_length_that_was_mocked_up_is_bought_whatever_the_course() -> None:
    made = plan(', mocked-up = "800 mm"')
    buy = run(made).buy

    assert buy is not None
    assert buy.value == pytest.approx(0.8 * 1.06 + 0.025)


def test_a_string_within_what_both_can_be_out_by_is_not() -> None:
    assert "length-differs" not in codes(plan(', string = "1280 mm"'))


def test_an_open_angle_gets_the_end_that_the_course_has() -> None:
    made = plan(at="0, 0, 50 mm", points="up")
    end = run(made).ends[1]
    told = next(row for row in made.takeoff.rows if row.code.startswith("hose-end-8-ptfe-90"))

    assert "open-angle" not in codes(made)
    assert (end.angle, end.is_routed) == (90, True)
    assert end.chain is not None
    assert end.chain.hose_end is not None
    assert end.chain.hose_end.angle == 90
    assert told.because == ("O01.B.2",)
    assert told.note == "angles as laid in space"
    assert "angle open" not in {risk.kind for risk in made.checked.risks}


def test_a_typed_angle_stays() -> None:
    made = plan(', ends = ["45", "90"]', at="0, 0, 50 mm", points="up")
    ends = run(made).ends

    assert [(end.angle, end.is_routed) for end in ends] == [(45, False), (90, False)]
    assert [made.routes.courses[0].a.shape.angle, made.routes.courses[0].b.shape.angle] == [45, 90]


def test_an_angle_that_is_not_sure_is_a_risk_and_its_row_is_not_certain() -> None:
    # So near that 8 mm and 5° are much.
    made = plan(at="-900, 0, 0 mm")
    told = [row for row in made.takeoff.rows if row.group == "hose ends"]
    unsure = [risk for risk in made.checked.risks if risk.kind == "angle unsure"]
    end = run(made).ends[1]
    word = f"{end.angle}°" if end.angle else "straight"

    assert not any(row.is_certain for row in told)
    assert [risk.about for risk in unsure] == [("O01.A",), ("O01.B",)]
    assert end.sureness is not None
    assert end.sureness < 0.9
    assert unsure[1].what == (
        f"The hose end O01.B at B.in is {word} as its course has it; it works for "
        f"{round(100 * end.sureness)} % of the places that the ports may have."
    )


def test_an_angle_that_is_sure_is_ordered() -> None:
    made = plan(at="0, 0, 50 mm", points="up")
    told = [row for row in made.takeoff.rows if row.group == "hose ends"]

    assert all(end.is_sure and end.sureness == 1.0 for end in run(made).ends)
    assert all(row.is_certain for row in told)
    assert "angle unsure" not in {risk.kind for risk in made.checked.risks}


def test_a_quick_look_lays_nothing_and_leaves_the_angles_open() -> None:
    made = plan(in_space=False)

    assert made.routes.courses == ()
    assert run(made).by is By.STRAIGHT
    assert "open-angle" in codes(made)


PANEL = """
[panels.wall]
thickness = "1.5 mm"
material = "steel"
at = "400, 0, 500 mm"
points = "rearward"
size = "2000 x 2000 mm"
{holes}
"""


def test_the_string_of_a_line_through_a_panel_is_shared_out_by_its_courses() -> None:
    made = plan(', string = "1240 mm", passes = ["wall"]', panels=PANEL.format(holes=""))
    a, b = made.routes.runs

    assert (a.by, b.by) == (By.STRING, By.STRING)
    assert a.string is not None
    assert b.string is not None
    assert a.string.value + b.string.value == pytest.approx(1.24)
    assert a.course is not None
    assert b.course is not None
    assert a.string.value / b.string.value == pytest.approx(a.course.value / b.course.value)


def test_the_hole_of_a_bulkhead_is_where_the_course_goes_through() -> None:
    made = plan(', passes = ["wall"]', panels=PANEL.format(holes=""))
    (hole,) = made.takeoff.holes

    assert hole.where == "wall, steel 1.5 mm, at (400, 0, 500) mm as laid in space"
    assert "pass-straight" not in {step.code for step in made.checked.steps}


def test_a_course_through_a_hole_that_is_there_takes_a_grommet() -> None:
    holes = 'holes = [{ at = "400, 0, 500 mm", bore = "60 mm" }]'
    made = plan(panels=PANEL.format(holes=holes))
    grommets = [row for row in made.takeoff.rows if "grommet" in row.name]

    assert [(row.need, row.because) for row in grommets] == [(1, ("O01.wall",))]


def test_clips_are_those_of_the_course() -> None:
    made = plan(at="0, 0, 50 mm", points="up")

    assert run(made).clips == len(made.routes.courses[0].clips) > 0


def test_lines_laid_in_space_are_judged() -> None:
    # Both ports look at each other from so near that the hose cannot be drawn back.
    made = plan(', ends = ["straight", "straight"]', at="-1000, 0, 0 mm")

    assert "no-travel" in codes(made)
