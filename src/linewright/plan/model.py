# SPDX-License-Identifier: Apache-2.0
"""A plan: the car and what every stage made of it."""

from dataclasses import dataclass

from linewright.base.finding import Finding, Severity
from linewright.car.model import Car
from linewright.checks.model import Checked
from linewright.flow.model import Flows
from linewright.joints.model import Joints
from linewright.routes.model import Routes
from linewright.takeoff.model import Takeoff


@dataclass(frozen=True, slots=True)
class Plan:
    """One car, planned; ``flows`` is None where its flow was not asked for."""

    car: Car
    joints: Joints
    routes: Routes
    takeoff: Takeoff
    checked: Checked
    flows: Flows | None = None

    @property
    def findings(self) -> tuple[Finding, ...]:
        """All findings of all stages, worst first."""
        return self.checked.findings

    @property
    def stops(self) -> tuple[Finding, ...]:
        """The findings that forbid ordering, less those overruled."""
        return tuple(
            f for f in self.findings if f.severity is Severity.STOP and f.overruled is None
        )
