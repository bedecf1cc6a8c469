# SPDX-License-Identifier: Apache-2.0
"""Notes on threads that are mistaken for others (cases J05, J11)."""

from linewright.base.finding import Severity
from tests.unit.checks.small_plans import OIL, about, found, line, plan, thing

FAR = thing("far", "component", {"a": "-10 flare male"})


def test_a_filter_thread_that_is_also_a_dash_eight_is_noted() -> None:
    small = plan(
        OIL,
        thing("block", "engine", {"filter": "3/4-16 spin-on male"}),
        thing("plate", "filter take-off plate", None, 'on = "block.filter"'),
    )
    (finding,) = found(small, "look-alike")

    assert finding.severity is Severity.NOTE
    assert finding.about == ("block.filter", "plate.mount")
    assert finding.reason.startswith("3/4-16 spin-on also runs into -8 flare, -8 ORB,")


def test_a_bsp_port_is_noted_for_npt() -> None:
    small = plan(
        OIL, thing("tank", "component", {"a": "G 1/2 female"}), FAR, line("O01", "tank.a", "far.a")
    )

    assert "1/2 NPT" in found(small, "look-alike")[0].reason


def test_a_flat_face_that_was_read_is_settled_and_one_that_looks_so_is_noted() -> None:
    def tank(known: str) -> str:
        port = f'{{ end = "M18x1.5 flat face female", known = "{known}" }}'
        return thing("tank", "component", {"a": port}) + FAR + line("O01", "tank.a", "far.a")

    assert found(plan(OIL, tank("read")), "look-alike") == ()
    assert about(plan(OIL, tank("looks")), "look-alike") == [("tank.a",)]
