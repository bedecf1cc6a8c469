# SPDX-License-Identifier: Apache-2.0
"""Nuts beside nuts, studs in short holes, weight on small threads (cases R4 and J14)."""

import pytest

from tests.unit.checks.small_plans import OIL, about, found, line, plan, thing

FAR = thing("far", "component", {"a": "-10 flare male", "b": "-10 flare male"})


def _pair(apart: int) -> str:
    ports = {
        name: f'{{ end = "-10 ORB female", known = "read", at = "0, {y}, 0 mm", points = "up" }}'
        for name, y in (("a", 0), ("b", apart))
    }
    return (
        thing("tank", "component", ports)
        + FAR
        + line("O01", "tank.a", "far.a")
        + line("O02", "tank.b", "far.b")
    )


def test_two_ports_nearer_than_their_nuts_allow_are_warned_of() -> None:
    # Flats 25.4 mm are read from a machine manual; corners 25.4 / cos 30° = 29.3, and 3 mm.
    (finding,) = found(plan(OIL, _pair(32)), "ports-too-near")

    assert finding.about == ("tank.a", "tank.b")
    assert (finding.value, finding.limit) == ("32.0 mm", "32.3 mm")
    assert finding.measure == pytest.approx(0.00033, abs=1e-5)
    assert finding.remedy == (
        "Take a longer adaptor at one of them, or a 45° end, so that the nuts stand at different "
        "heights."
    )


def test_ports_that_stand_apart_are_quiet() -> None:
    assert found(plan(OIL, _pair(40)), "ports-too-near") == ()


def _hole(depth: str) -> str:
    return thing(
        "tank",
        "component",
        {"a": f'{{ end = "-10 ORB female", known = "read", depth = "{depth}" }}'},
    )


def test_a_plug_longer_than_its_hole_is_a_stop() -> None:
    small = plan(OIL, _hole("10 mm"), '[closed]\n"tank.a" = "plug"\n')
    (finding,) = found(small, "plug-too-deep")

    assert finding.about == ("tank.a",)
    assert (finding.value, finding.limit) == ("12.7 mm", "10.0 mm")


def test_a_plug_in_a_deep_hole_is_quiet() -> None:
    assert found(plan(OIL, _hole("15 mm"), '[closed]\n"tank.a" = "plug"\n'), "plug-too-deep") == ()


def _sender(end: str, *more: str, on: str = "engine") -> str:
    return thing("block", on, {"oil-pressure": "1/8 NPT female"}) + thing(
        "sender", "pressure sensor", None, 'on = "block.oil-pressure"', f'end = "{end}"', *more
    )


def test_a_sender_at_the_end_of_an_adaptor_on_the_engine_is_warned_of() -> None:
    small = plan(OIL, _sender("M10x1 flat face male"))

    assert about(small, "heavy-on-small-thread") == [("sender", "block.oil-pressure")]


def test_a_heavy_sender_is_warned_of_by_its_mass() -> None:
    (finding,) = found(
        plan(OIL, _sender("1/8 NPT male", 'mass = "250 g"')), "heavy-on-small-thread"
    )

    assert "and weighs 250 g" in finding.reason


def test_a_light_sender_straight_in_the_block_is_quiet() -> None:
    assert found(plan(OIL, _sender("1/8 NPT male")), "heavy-on-small-thread") == ()


def test_a_sender_on_the_chassis_does_not_shake_with_the_engine() -> None:
    small = plan(
        OIL,
        thing("post", "manifold block", {"gauge": "1/8 NPT female"}),
        thing(
            "sender", "pressure sensor", None, 'on = "post.gauge"', 'end = "M10x1 flat face male"'
        ),
    )

    assert found(small, "heavy-on-small-thread") == ()
