# SPDX-License-Identifier: Apache-2.0
"""The one door to numba: the same source runs uncompiled where it has no wheel.

Import this module late: it loads numba. Kernels keep to IEEE arithmetic (no fastmath) and
``prange`` runs over independent rows only, so that they give the same bits every time.
"""

from collections.abc import Callable
from typing import Any, TypeVar, overload

Function = TypeVar("Function", bound=Callable[..., Any])

try:
    import numba
except ImportError:
    #: Whether kernels run as machine code; else they run as plain Python, some 100 times slower.
    COMPILED = False
    prange: Any = range
else:
    COMPILED = not numba.config.DISABLE_JIT
    prange = numba.prange


@overload
def njit(function: Function) -> Function: ...
@overload
def njit(*, parallel: bool) -> Callable[[Function], Function]: ...
def njit(function: Function | None = None, *, parallel: bool = False) -> Any:
    """Compile a kernel at its first call, and keep the code between runs.

    Parameters
    ----------
    function : callable, optional
        The kernel; left out where the decorator is given options.
    parallel : bool
        Share the rows of ``prange`` among the cores. The code that is kept is found by the
        function's name, so one function is compiled either way, never both.

    Returns
    -------
    callable
        The compiled kernel, or the function itself where numba cannot be had.

    Examples
    --------
    >>> @njit
    ... def doubled(x: float) -> float:
    ...     return 2.0 * x
    >>> doubled(1.5)
    3.0
    """

    def compiled(kernel: Function) -> Function:
        if not COMPILED:
            return kernel
        # What is typed at a prompt has no file beside which its code could be kept.
        is_kept = not kernel.__code__.co_filename.startswith("<")
        found: Function = numba.njit(cache=is_kept, parallel=parallel)(kernel)
        return found

    return compiled if function is None else compiled(function)
