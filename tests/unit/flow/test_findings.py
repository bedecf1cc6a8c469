# SPDX-License-Identifier: Apache-2.0
"""Every finding of flow, raised by the mistake that it is for."""

import pytest

from linewright.base.finding import Severity
from linewright.car.read import read_text
from linewright.flow.model import Verdict
from linewright.plan.make import make
from tests.flowing import Change, finding, flows, system_b

PUMP = 'FP  = { kind = "fuel pump" }'


def test_an_oil_pump_that_draws_through_too_small_a_hose_starves() -> None:
    thin = ('"oil-pump.inlet", size = "-16"', '"oil-pump.inlet", size = "-12"')
    found = finding(flows("juniper", thin), "pump-starves")

    assert found.about == ("oil-pump.inlet",)
    assert "in full-power, limit 0.85 bar absolute" in found.reason
    assert "The -12 line O01 takes " in found.reason
    # What is told as a way out is what meets the limit, or the best there is.
    assert found.remedy.startswith("O01 in -16 gives 0.") or "O01 in -20" in found.remedy


@pytest.mark.parametrize(
    ("code", "about", "said", "changes"),
    [
        (
            "oil-pressure-low",
            ("ENG",),
            "in full-power, limit 3.25 bar: below it bearings may run dry.",
            (
                (
                    'ENG = { kind = "engine", name = "four-cylinder engine" }',
                    'ENG = { kind = "engine", relief-opens = "1.2 bar" }',
                ),
            ),
        ),
    ],
)
def test_system_a(
    code: str, about: tuple[str, ...], said: str, changes: tuple[Change, ...]
) -> None:
    found = finding(flows("club-roadster", *changes), code)

    assert found.about == about
    assert said in found.reason


@pytest.mark.parametrize(
    ("code", "about", "said", "changes"),
    [
        (
            "rail-low",
            ("FR",),
            "in full-power, limit 2.85 bar: below it the engine runs lean.",
            ((PUMP, PUMP.replace(" }", ', flow = "150 L/h" }')),),
        ),
        (
            "return-pressure",
            ("RG.return",),
            "in hot-idle, limit 20 kPa: above it the regulator cannot hold its setting.",
            (
                (PUMP, PUMP.replace(" }", ', flow = "500 L/h" }')),
                ('"PTFE full-bore conductive"', '"PTFE tube-bore conductive"'),
            ),
        ),
        (
            "fuel-vapour",
            ("FP.in",),
            "limit 10 kPa: below it the fuel may boil in the suction line.",
            (
                (
                    "[panels.boot-floor]",
                    '[conditions.hot-idle]\nstart = { fuel = "62 °C" }\n\n[panels.boot-floor]',
                ),
            ),
        ),
    ],
)
def test_system_b(
    code: str, about: tuple[str, ...], said: str, changes: tuple[Change, ...]
) -> None:
    found = finding(system_b(*changes), code)

    assert found.about == about
    assert said in found.reason


@pytest.mark.parametrize(
    ("code", "about", "said", "changes"),
    [
        (
            "boils",
            ("header",),
            "in full-power, limit 10 K",
            (('kind      = "radiator"', 'kind = "radiator"\nrated-heat = "90 kW"'),),
        ),
        ("expansion-small", ("header",), "limit", ()),
        ("runs-hot", ("charge-cooler",), "in full-power, limit 70 °C", ()),
        ("velocity-high", ("A01",), "A01 100", ()),
        (
            "catch-can-small",
            ("overflow-can",),
            "the greater of 10 % of the fluid and 0.9 L.",
            (('"100 dia x 160 mm"', '"80 dia x 100 mm"'),),
        ),
        (
            "coupler-thrust",
            ("A01", "A03", "A04"),
            "The pressure in full-power pulls couplers apart: A01",
            (),
        ),
        (
            "pipe-unbeaded",
            ("cold-pipe",),
            "cold-pipe has plain ends, and 1.00 bar push its couplers off; from 0.5 bar on a pipe "
            "needs beads.",
            (('kind     = "charge pipe"', 'kind     = "charge pipe"\nbeaded = false'),),
        ),
        (
            "header-far",
            ("C04",),
            "above it the pump draws its inlet below the header, and air with it.",
            (
                (
                    'from = "header.feed", to = "water-pump.feed"',
                    'from = "header.feed", to = "ENG.heater-in"',
                ),
            ),
        ),
        (
            "scavenge-small",
            ("oil-pump",),
            "limit 1.30: below it oil stays in the sump.",
            (
                (
                    'relief    = "in the pressure stage, back to its inlet"',
                    'relief = "in it"\nscavenge-displacement = "0.012 L"',
                ),
            ),
        ),
        (
            "tank-dwell",
            ("oil-tank",),
            "limit 4.0 s: below it air stays in the oil.",
            (('volume   = "12 L"', 'volume   = "3 L"'),),
        ),
        (
            "turbo-feed-high",
            ("turbo.oil-in",),
            "limit 0.20 bar: above it oil is pushed past its seals.",
            (('limit     = "4 bar"', 'limit     = "0.2 bar"'),),
        ),
        (
            "drain-overfull",
            ("D01",),
            "below it, three times the clear oil, froth backs up into the turbo.",
            (
                (', fit = ["jet 1 mm"] }', " }"),
                ('limit     = "4 bar"', 'limit     = "9 bar"\noil-hole = "4 mm"'),
            ),
        ),
        (
            "charge-loss",
            ("turbo.compressor-out",),
            "limit 20 kPa: above it the compressor works much harder for the same boost.",
            (
                (
                    'kind      = "charge cooler"',
                    'kind      = "charge cooler"\nrated-drop = "0.2 bar"\nrated-flow = "6000 L/min"',
                ),
            ),
        ),
        (
            "pot-empties",
            ("surge",),
            "limit 0.0 L/min: below it the pot empties.",
            (
                (
                    'self-priming = true\nhave      = "yes"',
                    'self-priming = true\nflow = "60 L/h"\nhave      = "yes"',
                ),
            ),
        ),
    ],
)
def test_the_demo_car(
    code: str, about: tuple[str, ...], said: str, changes: tuple[Change, ...]
) -> None:
    found = finding(flows("juniper", *changes), code, *about)

    assert said in found.reason


def test_bypasses_that_open_in_the_frost_are_a_note() -> None:
    found = finding(flows("club-roadster"), "bypass-open")

    assert found.severity is Severity.NOTE
    assert found.remedy == "Warm the oil before load, and keep the speed down until it is warm."


def test_a_limit_within_what_is_not_known_asks_for_a_measurement() -> None:
    found = finding(flows("club-roadster"), "flow-unsure")

    assert found.severity is Severity.WARN
    assert found.about == ("ENG",)
    assert found.reason.endswith("limit 0.45 bar: the limit lies within what is not known.")
    assert found.remedy == "Measure the oil pressure, or type the figures that are assumed."


def test_a_pump_curve_that_rises_stops_its_own_system_alone() -> None:
    rising = (PUMP, PUMP.replace(" }", ', curve = "0 L/h at 2 bar, 200 L/h at 4 bar" }'))
    found = system_b(rising)

    assert found.states == ()
    assert finding(found, "flow-unknown").reason == (
        "Flow in fuel is not reckoned (prime): FP: the pump curve rises from 27.3086 m at "
        "0 L/min to 54.6172 m at 3.33333 L/min; it must fall, or the pump has two flows at one head. "
        "Check these points, or leave out those left of the summit."
    )


def test_a_curve_that_cannot_be_read_says_how_to_write_it() -> None:
    found = system_b((PUMP, PUMP.replace(" }", ', curve = "much at little" }')))

    assert finding(found, "flow-unknown").reason == (
        'Flow in fuel is not reckoned (prime): FP: "much at little" is no point of a pump '
        'curve. Write each as a flow at a pressure, as in "0 L/min at 0.6 bar, 60 L/min at 0.4 '
        'bar, 110 L/min at 0 bar".'
    )


_NO_WAY_ROUND = """
linewright = 1
[car]
name = "kit"
use = "circuit"
[systems.coolant]
fluid = "50 % glycol"
hose = "silicone"
size = "32 mm"
[components]
ENG = { kind = "engine", power = "120 kW" }
RAD = { kind = "radiator", fan = true }
WP = { kind = "water pump" }
TH = { kind = "coolant thermostat housing" }
[ports]
"WP.in" = "32 mm bead"
"TH.out" = "32 mm bead"
"RAD.in" = "32 mm bead"
"RAD.out" = "32 mm bead"
[lines]
C01 = { from = "TH.out", to = "RAD.in", string = "500 mm" }
C02 = { from = "RAD.out", to = "WP.in", string = "500 mm" }
"""


def test_coolant_that_has_no_way_through_the_engine_is_told_to_stand_still() -> None:
    plan = make(read_text(_NO_WAY_ROUND), in_space=False, with_flow=True)
    found = next(f for f in plan.findings if f.code == "flow-unknown")

    assert found.about == ("coolant",)
    assert found.reason == (
        "Nothing flows in coolant at full power: no pump has a way round as typed, so that its "
        "temperatures and pressures say nothing."
    )


# A loop that is whole, with the feed of its header at a port that the builder named.
_ROUND = """
linewright = 1
[car]
name = "kit"
use = "circuit"
[systems.coolant]
fluid = "50 % glycol"
hose = "silicone"
size = "32 mm"
[components]
ENG = { kind = "engine", power = "120 kW" }
RAD = { kind = "radiator", fan = true }
WP = { kind = "water pump" }
HDR = { kind = "header tank", cap = "1.1 bar" }
[ports]
"ENG.coolant-in" = "32 mm bead"
"ENG.coolant-out" = "32 mm bead"
"WP.in" = "32 mm bead"
"WP.out" = "32 mm bead"
"WP.spare" = "16 mm barb"
"RAD.in" = "32 mm bead"
"RAD.out" = "32 mm bead"
"HDR.feed" = "16 mm barb"
"RAD.bleed" = "5 mm barb"
"HDR.bleed" = "5 mm barb"
[lines]
C01 = { from = "ENG.coolant-out", to = "RAD.in", string = "500 mm" }
C02 = { from = "RAD.out", to = "WP.in", string = "500 mm" }
C03 = { from = "WP.out", to = "ENG.coolant-in", string = "100 mm" }
C05 = { from = "RAD.bleed", to = "HDR.bleed", string = "900 mm", size = "5 mm" }
C06 = { from = "HDR.feed", to = "WP.spare", string = "900 mm", size = "16 mm" }
"""
_AS_IN = ('"WP.spare" = "16 mm barb"', '"WP.spare" = { end = "16 mm barb", role = "in" }')


def test_a_port_that_its_kind_does_not_know_is_named_and_nothing_of_its_system_is_met() -> None:
    plan = make(read_text(_ROUND), in_space=False, with_flow=True)
    found = next(f for f in plan.findings if f.code == "flow-unknown")
    assert plan.flows is not None
    margins = [m for s in plan.flows.states for m in s.margins if s.system == "coolant"]

    assert found.about == ("WP.spare",)
    assert found.reason == (
        'What "spare" is on a water pump is not known, so that nothing flows through it: C06 '
        "carries nothing, and flow in coolant is not known."
    )
    assert found.remedy == (
        "Call the port as a water pump does (in, out, feed; a second one as in-2), or give it the "
        'role that it has (role = "in" or role = "out").'
    )
    assert margins
    assert Verdict.MET not in {m.verdict for m in margins}
    assert "flow in coolant is not known: see flow-unknown" in {m.doubt for m in margins}


def test_a_port_that_nobody_knows_is_named_in_place_of_all_that_hangs_loose_by_it() -> None:
    text = "\n".join(line for line in _ROUND.splitlines() if not line.startswith("C05"))
    plan = make(read_text(text), in_space=False, with_flow=True)

    assert [f.about for f in plan.findings if f.code == "flow-unknown"] == [("WP.spare",)]


def test_a_port_that_its_kind_does_not_know_is_connected_by_its_role() -> None:
    plan = make(read_text(_ROUND.replace(*_AS_IN)), in_space=False, with_flow=True)
    named = make(read_text(_ROUND.replace("WP.spare", "WP.feed")), in_space=False, with_flow=True)
    assert plan.flows is not None
    assert named.flows is not None
    pair = [f.state("coolant", "full-power") for f in (plan.flows, named.flows)]
    held = [next(m for m in s.margins if m.what == "header feed") for s in pair if s is not None]

    assert [f for f in plan.findings if f.code == "flow-unknown"] == []
    assert held[0].verdict is held[1].verdict is Verdict.MET
    assert held[0].value.value == pytest.approx(held[1].value.value)


def test_a_header_tank_whose_volume_nobody_typed_is_asked_for_and_not_too_small() -> None:
    plan = make(read_text(_ROUND.replace(*_AS_IN)), in_space=False, with_flow=True)
    found = next(f for f in plan.findings if f.code == "flow-unsure" and f.about == ("HDR",))
    small = _ROUND.replace(*_AS_IN).replace('"header tank", ', '"header tank", volume = "0.3 L", ')
    typed = make(read_text(small), in_space=False, with_flow=True)

    assert found.reason == (
        "The volume of HDR is not typed: 2.00 L is assumed. With it the air in the header tank "
        "when cold would be 0.23 L to 1.69 L, and 1.04 L is needed in full-power: whether the tank "
        "is large enough is not known."
    )
    assert found.remedy == 'Measure the volume of HDR and type it on it, as volume = "2 L".'
    assert "expansion-small" not in {f.code for f in plan.findings}
    assert "expansion-small" in {f.code for f in typed.findings}


def test_where_it_flows_nothing_is_told_to_stand_still() -> None:
    assert [f for f in flows("juniper").findings if f.code == "flow-unknown"] == []


def test_the_air_in_a_header_tank_is_as_unsure_as_what_is_assumed_of_it() -> None:
    def air(*changes: Change) -> tuple[float, float, float]:
        margins = flows("juniper", *changes).state("coolant", "full-power").margins
        value = next(m.value for m in margins if m.what == "air in the header tank")
        return value.low, value.value, value.high

    typed = air()
    assumed = air(('volume    = "2 L"\ncap       = "1.3 bar"', 'cap       = "1.3 bar"'))

    # Two fifths of 2 L, one to three fifths; without its volume half to twice as large as well.
    assert typed == pytest.approx((0.4e-3, 0.8e-3, 1.2e-3))
    assert assumed == pytest.approx((0.8e-3 * (1 - 0.5**0.5), 0.8e-3, 0.8e-3 * (1 + 1.25**0.5)))
