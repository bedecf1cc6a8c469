# SPDX-License-Identifier: Apache-2.0
"""Oil: coolers, turbos, jets, suction; limits are settings or typed, sources beside them."""

import pytest

from linewright.base.evidence import Figure, Grade
from linewright.checks.run import run
from linewright.flow.model import Band, Flows, Margin, SystemState, Verdict
from tests.unit.checks.small_plans import OIL, about, found, line, plan, thing

ENDS = {"in": "-10 ORB female", "out": "-10 ORB female"}


def _cooler(points: str) -> str:
    port = f'{{ end = "-10 ORB female", known = "read", points = "{points}" }}'
    ports = {"in": port, "out": port}
    return thing("cooler", "oil cooler", ports)


def test_a_cooler_whose_ports_point_nowhere_known_is_asked_about() -> None:
    assert about(plan(OIL, thing("cooler", "oil cooler", ENDS)), "cooler-direction") == [
        ("cooler",)
    ]


@pytest.mark.parametrize("points", ["up", "left", "forward, 20° up"])
def test_a_cooler_with_ports_up_or_to_the_side_is_quiet(points: str) -> None:
    small = plan(OIL, _cooler(points))

    assert found(small, "cooler-direction") == ()
    assert found(small, "cooler-ports-down") == ()


def test_a_cooler_with_ports_down_is_warned_of() -> None:
    small = plan(OIL, _cooler("down"))
    (finding,) = found(small, "cooler-ports-down")

    assert finding.reason == (
        "cooler.in and cooler.out point down: air stays in the top of cooler."
    )
    assert found(small, "cooler-direction") == ()


@pytest.mark.parametrize(("facing", "warns"), [("up", 0), ("side", 0), ("down", 1)])
def test_a_cooler_may_say_which_way_it_faces(facing: str, warns: int) -> None:
    small = plan(OIL, thing("cooler", "oil cooler", ENDS, f'facing = "{facing}"'))

    assert len(found(small, "cooler-ports-down")) == warns
    assert found(small, "cooler-direction") == ()


TURBO = thing(
    "turbo",
    "turbo",
    {"oil-in": "M12x1.5 flat face", "oil-out": "-10 flare male"},
    'limit = "4 bar"',
)
BLOCK = thing("block", "engine", {"turbo-feed": "1/8 NPT female"}, "turbo = true")
HOT_OIL = OIL + 'highest = "7 bar"\n'


def _feed(at_block: str, at_turbo: str) -> str:
    return line(
        "O01", "block.turbo-feed", "turbo.oil-in", 'size = "-4"', f"ends = [{at_block}, {at_turbo}]"
    )


SCREEN = "{ angle = 'straight', fit = ['screen'] }"
JET = "{ angle = 'straight', fit = ['jet 1 mm'] }"


def test_a_turbo_that_gets_more_pressure_than_it_takes_is_warned_of() -> None:
    (finding,) = found(plan(HOT_OIL, BLOCK, TURBO, _feed("'straight'", "'straight'")), "turbo-feed")

    assert finding.about == ("turbo.oil-in",)
    assert (finding.value, finding.limit) == ("7.0 bar", "4.0 bar")
    assert finding.measure == pytest.approx(3e5)


def test_what_a_turbo_gets_is_told_by_flow_where_that_was_reckoned() -> None:
    small = plan(HOT_OIL, BLOCK, TURBO, _feed("'straight'", "'straight'"))
    limit = Figure(4e5, "Pa", Grade.STATED)
    band = Band(5e5, 4.5e5, 5.5e5)
    what = "turbo feed pressure"
    held = Margin(what, "turbo.oil-in", band, limit, "Pa", False, Verdict.NOT_MET, "it")
    flows = Flows(states=(SystemState("oil", "full-power", margins=(held,)),))
    told = run(small.car, small.joints, small.routes, small.takeoff, flows).findings

    assert "turbo-feed" not in {f.code for f in told}


def test_a_jet_before_the_turbo_is_enough_and_asks_for_its_screen() -> None:
    bare = plan(HOT_OIL, BLOCK, TURBO, _feed("'straight'", JET))
    screened = plan(HOT_OIL, BLOCK, TURBO, _feed(SCREEN, JET))

    assert found(bare, "turbo-feed") == ()
    assert about(bare, "screen-missing") == [("O01",)]
    assert found(screened, "screen-missing") == ()


def test_oil_that_runs_too_fast_in_a_suction_line_is_warned_of() -> None:
    # 82.5 L/min in the 22.2 mm bore of a -16 hose: 3.55 m/s by hand.
    text = (
        thing("tank", "dry-sump tank", {"feed": "-16 flare male"})
        + thing("pump", "dry-sump pump", {"inlet": "-16 ORB female"}, 'flow = "82.5 L/min"')
        + line("O01", "tank.feed", "pump.inlet", 'size = "-16"', 'service = "suction"')
    )
    (finding,) = found(plan(OIL, text), "suction-size")

    assert finding.about == ("O01", "pump")
    assert finding.value == "3.6 m/s"
    assert finding.limit == "1.2 m/s"


def test_a_take_off_plate_has_its_two_ports_marked() -> None:
    small = plan(
        OIL,
        thing("block", "engine", {"filter": "3/4-16 spin-on male"}),
        thing("plate", "filter take-off plate", None, 'on = "block.filter"'),
    )

    assert ("mark-out-in", ("plate",)) in [(s.code, s.about) for s in small.checked.steps]


def test_a_jet_at_both_ends_is_asked_about() -> None:
    small = plan(HOT_OIL, BLOCK, TURBO, _feed(JET, JET))

    assert about(small, "jet-doubtful") == [("O01",)]


@pytest.mark.parametrize(("bearing", "asks"), [("journal", 1), ("ball", 0)])
def test_a_jet_before_plain_bearings_is_asked_about(bearing: str, asks: int) -> None:
    turbo = TURBO.replace('limit = "4 bar"', f'limit = "4 bar"\nbearing = "{bearing}"')

    assert len(found(plan(HOT_OIL, BLOCK, turbo, _feed(SCREEN, JET)), "jet-doubtful")) == asks


@pytest.mark.parametrize(("dash", "warns"), [("-6", 1), ("-10", 0), ("-12", 0)])
def test_a_turbo_drain_smaller_than_dash_ten_is_warned_of(dash: str, warns: int) -> None:
    sump = thing("sump", "sump", {"turbo-drain": "-10 flare male"})
    drain = line("D01", "turbo.oil-out", "sump.turbo-drain", f'size = "{dash}"')
    findings = found(plan(OIL, TURBO, sump, drain), "drain-small")

    assert [f.about for f in findings] == [("D01",)] * warns
    assert [f.limit for f in findings] == ["-10"] * warns
