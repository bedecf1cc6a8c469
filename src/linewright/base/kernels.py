# SPDX-License-Identifier: Apache-2.0
"""The one door to numba: the same source runs uncompiled where it has no wheel."""

from collections.abc import Callable
from typing import Any, TypeVar

Function = TypeVar("Function", bound=Callable[..., Any])

try:
    import numba
except ImportError:  # pragma: no cover - only where numba has no wheel yet
    COMPILED = False
    prange: Any = range

    def njit(function: Function) -> Function:
        """Leave a kernel as it is."""
        return function
else:
    COMPILED = True
    prange = numba.prange

    def njit(function: Function) -> Function:
        """Compile a kernel, kept between runs."""
        compiled: Any = numba.njit(cache=True)(function)
        return compiled  # type: ignore[no-any-return]
