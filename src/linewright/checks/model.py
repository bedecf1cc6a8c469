# SPDX-License-Identifier: Apache-2.0
"""What the checks hand on: the proof of completeness, the risks, all findings."""

from dataclasses import dataclass

from linewright.base.finding import Finding, WorkStep


@dataclass(frozen=True, slots=True)
class PortProof:
    """How one port, or one function that a kind brings, is answered.

    ``state`` is mated, plugged, capped, open (on purpose), none (with its reason),
    unknown (its end is not measured, so its mate is not chosen) or missing.
    """

    id: str
    system: str | None
    state: str
    by: str = ""
    reason: str = ""
    is_function: bool = False


@dataclass(frozen=True, slots=True)
class Risk:
    """Something the order still carries; ``parts`` counts the rows that hang on it."""

    kind: str
    about: tuple[str, ...]
    what: str
    remedy: str
    parts: int = 0


@dataclass(frozen=True, slots=True)
class Checked:
    """Findings of all stages (overruled ones marked), the proof and the risks."""

    findings: tuple[Finding, ...]
    proof: tuple[PortProof, ...]
    risks: tuple[Risk, ...]
    steps: tuple[WorkStep, ...] = ()
