# SPDX-License-Identifier: Apache-2.0
"""The one door to numba: the same source runs uncompiled where it has no wheel.

Import this module late: it loads numba. Kernels keep to IEEE arithmetic (no fastmath) and
``prange`` runs over independent rows only, so that they give the same bits every time.

Machine code is kept between runs. numba looks only at the file of a kernel to tell whether
what it kept is stale, not at the files of the kernels that it calls, and it goes by date and
size, which a wheel may fix. So each kernel's code is kept under a digest of all of them.
"""

import os
from collections.abc import Callable
from hashlib import sha256
from pathlib import Path
from threading import Lock
from types import FunctionType
from typing import Any, TypeVar, overload

Function = TypeVar("Function", bound=Callable[..., Any])

try:
    import numba
except ImportError:
    #: Whether kernels run as machine code; else they run as plain Python, some 100 times slower.
    COMPILED = False
    prange: Any = range
else:
    COMPILED = not numba.config.DISABLE_JIT  # type: ignore[attr-defined]
    prange = numba.prange

# Digest of each kernel, by what stands for it in the module of its caller.
_DIGESTS: dict[int, str] = {}
_SETTING = Lock()


def _digest(kernel: FunctionType) -> str:
    """Digest of a kernel's file, and of all kernels and numbers that the file has from others.

    Not only of those that the kernel names itself: it may call one that stands below it.
    """
    found = sha256(Path(kernel.__code__.co_filename).read_bytes())
    for name, value in sorted(kernel.__globals__.items()):
        if id(value) in _DIGESTS:
            found.update(f"{name} {_DIGESTS[id(value)]}".encode())
        elif isinstance(value, int | float):
            found.update(f"{name} {value!r}".encode())
    return found.hexdigest()[:16]


def _folder(kernel: FunctionType) -> Path:
    """Where code is kept: beside the source, or where the user keeps such things."""
    chosen = os.environ.get("NUMBA_CACHE_DIR")
    if chosen:
        return Path(chosen)
    beside = Path(kernel.__code__.co_filename).parent / "__pycache__"
    if os.access(beside if beside.is_dir() else beside.parent, os.W_OK):
        return beside
    kept = os.environ.get("LOCALAPPDATA") or os.environ.get("XDG_CACHE_HOME")
    return Path(kept or Path.home() / ".cache") / "linewright"


def _compiled(kernel: Any, parallel: bool) -> Any:
    # What is typed at a prompt has no file, and cannot be kept.
    if not Path(kernel.__code__.co_filename).is_file():
        return numba.njit(parallel=parallel)(kernel)
    digest = _digest(kernel)
    config: Any = numba.config
    with _SETTING:
        before = config.CACHE_DIR
        config.CACHE_DIR = str(_folder(kernel) / f"kernels-{digest}")
        try:
            found = numba.njit(cache=True, parallel=parallel)(kernel)
        finally:
            config.CACHE_DIR = before
    _DIGESTS[id(found)] = digest
    return found


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
        function's name, so one function is compiled either way, never both. Two threads must
        not call such kernels at once: the plainest thread pool of numba ends the process.

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

    def compiled(kernel: Function) -> Any:
        return _compiled(kernel, parallel) if COMPILED else kernel

    return compiled if function is None else compiled(function)
