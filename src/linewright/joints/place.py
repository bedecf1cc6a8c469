# SPDX-License-Identifier: Apache-2.0
"""Where a chain stands: the ids and words that its findings are about."""

from dataclasses import dataclass

from linewright.base.evidence import Figure
from linewright.car.model import Car, Line, Port
from linewright.ends.words import show


@dataclass(frozen=True, slots=True)
class Place:
    """Where a chain stands: the ids that its findings are about."""

    car: Car
    id: str  # of the end of the piece of hose, ``O01.A``, or of the port
    port: Port | None
    line: Line | None = None
    hose_bore: Figure | None = None
    size: str = ""

    @property
    def about(self) -> tuple[str, ...]:
        """Ids for a finding: the port and the line, or the end where there is no port."""
        ids = (self.port.id if self.port else self.id, self.line.id if self.line else "")
        return tuple(i for i in ids if i)

    @property
    def system(self) -> str | None:
        """Id of the line's system, or of the component's."""
        if self.line is not None:
            return self.line.system
        owner = self.car.components.get(self.port.component) if self.port else None
        return owner.system if owner else None

    @property
    def where(self) -> str:
        """The port in words."""
        return f"{self.port.id} ({show(self.port.end)})" if self.port else self.id
