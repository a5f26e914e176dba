"""What is wrong with a damaged file, in words: the libraries that read it raise whatever the damaged part provokes."""

from __future__ import annotations

_ENDS = "it ends too soon"
_TORN = "a packed part of it is torn"
#: by the fault's class, with its module where the class alone says too little
_WORDS = {
    "builtins.OSError": _ENDS,
    "builtins.EOFError": _ENDS,
    "builtins.IndexError": _ENDS,
    "struct.error": _ENDS,
    "zlib.error": _TORN,
    "BadZipFile": _TORN,
    "ZipError": _TORN,
    "builtins.MemoryError": "it claims more than the memory holds",
    "builtins.RecursionError": "its parts are nested too deeply",
    "builtins.UnicodeDecodeError": "names in it are no text",
    "builtins.NotImplementedError": "it holds a part of a kind that is not known here",
}


def damage_in_words(fault: Exception | str) -> str:
    """Return what a fault says of a damaged file.

    Parameters
    ----------
    fault
        As it was raised, or the name of its class with its module, as a process that tried the file writes it.

    >>> damage_in_words(EOFError()), damage_in_words("zlib.error"), damage_in_words(ValueError("shape"))
    ('it ends too soon', 'a packed part of it is torn', 'its parts do not fit together')
    """
    kind = type(fault)
    name = fault if isinstance(fault, str) else f"{kind.__module__}.{kind.__qualname__}"
    return _WORDS.get(name) or _WORDS.get(name.rpartition(".")[2], "its parts do not fit together")
