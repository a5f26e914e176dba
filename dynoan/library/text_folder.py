"""Texts in the folders of a library: listed, read as what they are, written, and a value renamed in all of them."""

from __future__ import annotations

import os
import re
from collections.abc import Callable
from pathlib import Path
from typing import TypeVar

from dynoan.errors import DynoanError
from dynoan.library import copies, files, marker, names
from dynoan.library.folder import Folder
from dynoan.library.index import Fault
from dynoan.library.text_seals import read_held
from dynoan.library.toml_text import read_text

T = TypeVar("T")


class TextFolder(Folder):
    """Folders of texts in a library's folder, a file each."""

    def text_names(self, folder: str) -> tuple[str, ...]:
        """Return the names of what lies in "cars", "shocks", "setups", "trials" or "layouts"."""
        try:
            found = os.listdir(self.path / folder)
        except OSError:
            return ()
        files.sweep_temporary(self.path / folder, found)
        return tuple(sorted(names.name_of(n[:-5]) for n in found if n.endswith(".toml") and not n.startswith(".")))

    def text_file_name(self, folder: str, name: str) -> str:
        """Return where in the library a text file lies, such as "cars/kestrel.toml"."""
        return f"{folder}/{self._text_file(folder, name).name}"

    def write_text_file(self, folder: str, name: str, text: str) -> bool:
        """Write a new text file of "cars" or "shocks"; return False, and change nothing, where there is one."""
        marker.make_folder(self.path, self.path / folder)
        return files.write_new(self._text_file(folder, name), text.encode())

    def renamed_texts(self, folder: str, key: str, old: str, new: str) -> dict[str, str]:
        """Return the texts of a folder, by name, that another value of a key would change, with that value in them."""
        line = re.compile(rf"""(?m)^(\s*(?:[\w.]+\.)?{key}\s*=\s*)(["']){re.escape(old)}\2""")
        quoted = '"' + new.replace("\\", "\\\\").replace('"', '\\"') + '"'
        changed = {}
        for name in self.text_names(folder):
            path = self._text_file(folder, name)
            text = read_text(path, f"{folder}/{path.name}")
            if (found := line.sub(lambda match: match[1] + quoted, text)) != text:
                changed[name] = found
        return changed

    def rename_in_texts(self, folder: str, key: str, old: str, new: str) -> tuple[str, ...]:
        """Write another value for a key wherever it stands in the texts of a folder; return the files that changed."""
        with files.locked(self.path / files.LOCK):
            changed = {self._text_file(folder, n): t for n, t in self.renamed_texts(folder, key, old, new).items()}
            for path, text in changed.items():
                files.replace(path, text.encode())
        return tuple(f"{folder}/{path.name}" for path in changed)

    def _readable(self, folder: str, read: Callable[[str], T]) -> tuple[tuple[T, ...], tuple[Fault, ...]]:
        """Return what can be read of a folder of texts, and what is wrong with the others."""
        found, faults = [], []
        there = self.text_names(folder)
        for name in there:
            try:
                one = read(name)
                copies.hold_single(name, there, read)
                found.append(one)
            except DynoanError as error:
                faults.append(Fault(f"{folder}/{self._text_file(folder, name).name}", error.within))
        return tuple(found), tuple(faults)

    def _text(self, folder: str, name: str, make: Callable[[str, str, str], T]) -> T:
        path = self._text_file(folder, name)
        if not os.path.lexists(path):
            self._be_there()
            known = self.text_names(folder)
            raise names.unknown(folder[:-1], name, known)
        shown = f"{folder}/{path.name}"
        return make(read_held(path, shown, self.path / "cache"), shown, name)

    def _text_file(self, folder: str, name: str) -> Path:
        return names.text_file(self.path / folder, name, folder[:-1])
