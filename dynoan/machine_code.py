"""Compiled functions from their kept translation: made into code of this machine in milliseconds, without a compiler.

What is kept is LLVM's intermediate code, which belongs to no machine, of a function that numba compiled once
(`fixtures/make_machine_code.py`). LLVM turns it into code of this machine far sooner than numba, whose import alone
takes longer, would compile the source. A seal in its first line says of which source it is.
"""

from __future__ import annotations

import contextlib
import ctypes
import struct
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple, TypeAlias

import numpy as np

#: of a function's parameters, in order: kind of number (a key of `DTYPES`), and how many dimensions (0: a number)
Parameters: TypeAlias = tuple[tuple[str, int], ...]
DTYPES = {"f": np.dtype(np.float64), "i": np.dtype(np.int64), "b": np.dtype(np.uint8)}
_POINTER_BITS = 64


class KeptCode(NamedTuple):
    """A function's kept translation."""

    path: Path
    seal: str  #: of its source as it stands
    entry: str  #: the function's name
    parameters: Parameters
    calls: tuple[str, ...] = ()  #: functions of the C library that it calls, which LLVM must find in this process


def made_here(kept: KeptCode) -> Callable[..., None] | None:
    """Return the function as code of this machine; None where the translation is of another source or of no use here.

    The function takes numbers and whole arrays, as `KeptCode.parameters` says, and returns nothing: what it finds it
    writes into arrays. The interpreter is free while it runs. An array of another kind is a `TypeError`.
    """
    if struct.calcsize("P") * 8 != _POINTER_BITS:
        return None
    try:
        text = kept.path.read_text(encoding="utf-8")
        if not text.startswith(f"; {kept.seal}\n"):
            return None
        engine, address = _engine(text, kept)
    except (ImportError, AttributeError, OSError, RuntimeError):
        return None  # an older or other LLVM, or an installation without sources
    return _callable(engine, address, kept) if address else None


def _engine(text: str, kept: KeptCode) -> tuple[Any, int]:
    """Return the engine that holds the machine's code, and where it begins; 0 where a function it calls is missing."""
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
    if not all(binding.address_of_symbol(name) for name in kept.calls):
        return engine, 0  # code that called them would end the process
    engine.finalize_object()
    return engine, int(engine.get_function_address(kept.entry))


def _callable(engine: Any, address: int, kept: KeptCode) -> Callable[..., None]:
    """Return a function of arrays and numbers: each array goes in as its address, shape and strides."""
    size, pointer = ctypes.c_int64, ctypes.c_void_p
    kinds: list[Any] = [pointer, pointer]
    for kind, dimensions in kept.parameters:
        number = ctypes.c_double if kind == "f" else size
        kinds += [number] if dimensions == 0 else [pointer, pointer, size, size, pointer, *[size] * 2 * dimensions]
    function = ctypes.CFUNCTYPE(ctypes.c_int32, *kinds)(address)

    def run(*given: Any) -> None:
        values: list[Any] = []
        for value, (kind, dimensions) in zip(given, kept.parameters, strict=True):
            values += [value] if dimensions == 0 else array_parts(value, kind, dimensions)
        result, fault = pointer(), pointer()
        status = function(ctypes.byref(result), ctypes.byref(fault), *values)
        if status != 0 or engine is None:
            raise RuntimeError(f"the compiled function {kept.entry} ended with status {status}")

    return run


def array_parts(array: Any, kind: str, dimensions: int) -> list[Any]:
    """Return what stands for an array among a compiled function's arguments: address, shape and strides.

    Raises
    ------
    TypeError
        If it is not a whole array of that kind and of so many dimensions.
    """
    if array.dtype != DTYPES[kind] or array.ndim != dimensions or not array.flags.c_contiguous:
        raise TypeError(f"wanted a whole array of {DTYPES[kind]} in {dimensions} dimensions, not {array.dtype}")
    return [None, None, array.size, array.itemsize, array.ctypes.data, *array.shape, *array.strides]
