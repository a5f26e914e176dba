"""The compiled step made from its kept translation: no launch waits for its compiling, the first as little as any.

`compiled.ll` holds `compiled.run_rows` in LLVM's intermediate code, which belongs to no machine; LLVM turns it into
code of this machine in a tenth of a second, without numba, whose import alone takes longer. A seal says of which source
it is. Where it is of another, or cannot be used here, numba compiles the source, some four seconds long, and keeps what
it made beside it or in the user's cache.
"""

from __future__ import annotations

import contextlib
import ctypes
import struct
from collections.abc import Callable
from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np

from dynoan.analysis.launch.large.layout import WORK_ROOM
from dynoan.analysis.launch.large.sealed import PARAMETERS, seal

#: where the translation lies
KEPT = Path(__file__).with_name("compiled.ll")
_DTYPES = {"f": np.dtype(np.float64), "i": np.dtype(np.int64)}
#: functions of the C library that the step calls, which LLVM must find in this process
_CALLED = ("sin", "cos", "atan", "tanh", "exp", "log", "memset")
_POINTER_BITS = 64

#: fills figures, and where asked states and what is kept, of rows; parameters as of `compiled.run_rows`, the room aside
Step = Callable[..., None]


@lru_cache(maxsize=1)
def step() -> Step:
    """Return the step ready to run."""
    return from_translation() or from_source()


def from_source() -> Step:
    """Return the step compiled by numba, or what it kept of an earlier time."""
    from dynoan.analysis.launch.large.compiled import run_rows

    kernel: Callable[..., None] = run_rows

    def run(*given: Any) -> None:
        kernel(*given, np.zeros(WORK_ROOM))

    return run


def from_translation() -> Step | None:
    """Return the step made from its translation; None where that is of another source or of no use here."""
    if struct.calcsize("P") * 8 != _POINTER_BITS:
        return None
    try:
        text = KEPT.read_text(encoding="utf-8")
        if not text.startswith(f"; {seal()}\n"):
            return None
        engine, address = _made(text)
    except (ImportError, AttributeError, OSError, RuntimeError):
        return None  # an older or other LLVM, or an installation without sources
    return _called(engine, address) if address else None


def _made(text: str) -> tuple[Any, int]:
    """Return the engine that holds the machine's code, and where the step begins; 0 where a function is missing."""
    from llvmlite import binding

    with contextlib.suppress(RuntimeError):  # newer ones do it themselves, and say so
        binding.initialize()
    binding.initialize_native_target()
    binding.initialize_native_asmprinter()
    host = binding.Target.from_default_triple().create_target_machine(
        cpu=binding.get_host_cpu_name(), features=binding.get_host_cpu_features().flatten(), opt=3, jit=True
    )
    module = binding.parse_assembly(text)
    module.triple, module.data_layout = host.triple, str(host.target_data)
    module.verify()
    engine = binding.create_mcjit_compiler(module, host)
    if not all(binding.address_of_symbol(name) for name in _CALLED):
        return engine, 0  # code that called them would end the process
    engine.finalize_object()
    return engine, int(engine.get_function_address("run_rows"))


def _called(engine: Any, address: int) -> Step:
    """Return the step as a function of arrays and numbers: each array goes in as its address, shape and strides."""
    size, pointer = ctypes.c_int64, ctypes.c_void_p
    kinds: list[Any] = [pointer, pointer]
    for kind, dimensions in PARAMETERS:
        number = ctypes.c_double if kind == "f" else size
        kinds += [number] if dimensions == 0 else [pointer, pointer, size, size, pointer, *[size] * 2 * dimensions]
    function = ctypes.CFUNCTYPE(ctypes.c_int32, *kinds)(address)

    def run(*given: Any) -> None:
        with_room = (*given, np.zeros(WORK_ROOM))
        values: list[Any] = []
        for value, (kind, dimensions) in zip(with_room, PARAMETERS, strict=True):
            values += [value] if dimensions == 0 else _parts(value, kind, dimensions)
        result, fault = pointer(), pointer()
        status = function(ctypes.byref(result), ctypes.byref(fault), *values)
        if status != 0 or engine is None:
            raise RuntimeError(f"the compiled step of the launch ended with status {status}")

    return run


def _parts(array: Any, kind: str, dimensions: int) -> list[Any]:
    if array.dtype != _DTYPES[kind] or array.ndim != dimensions or not array.flags.c_contiguous:
        raise TypeError(f"wanted a whole array of {_DTYPES[kind]} in {dimensions} dimensions, not {array.dtype}")
    return [None, None, array.size, array.itemsize, array.ctypes.data, *array.shape, *array.strides]
