# SPDX-License-Identifier: Apache-2.0
"""From a heap of boxes to a car that is ready to start.

The public names are loaded when they are first asked for, so that the command line answers
at once. No module inside the package imports this one.
"""

from importlib import import_module
from typing import Any

_HOMES = {
    "Car": "linewright.car.model",
    "LinewrightError": "linewright.base.errors",
    "Plan": "linewright.plan.model",
    "identify": "linewright.ends.identify",
    "make": "linewright.plan.make",
    "mates": "linewright.ends.mates",
    "read": "linewright.car.read",
    "read_text": "linewright.car.read",
    "record": "linewright.plan.record",
}

__all__ = [
    "Car",
    "LinewrightError",
    "Plan",
    "identify",
    "make",
    "mates",
    "read",
    "read_text",
    "record",
]


def __getattr__(name: str) -> Any:
    """Load a public name from its home."""
    try:
        home = _HOMES[name]
    except KeyError:
        raise AttributeError(f"module 'linewright' has no attribute {name!r}") from None
    return getattr(import_module(home), name)
