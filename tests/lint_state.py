#!/usr/bin/env python3
"""Prints, for every source of src/, a hash of all of the project that its lint depends on (.clang-tidy, itself, and the project's
headers that it includes, directly or through others) and its path."""
import hashlib
import pathlib
import re

root = pathlib.Path(__file__).resolve().parent.parent
include = re.compile(rb'^\s*#\s*include\s+"([^"]+)"', re.MULTILINE)
contents = {}


def content(path):
    if path not in contents:
        contents[path] = path.read_bytes()
    return contents[path]


def closure(source):
    seen, waiting = set(), [source]
    while waiting:
        path = waiting.pop()
        if path in seen or not path.is_file():
            continue
        seen.add(path)
        waiting += [root / "src" / name.decode() for name in include.findall(content(path))]
    return sorted(seen)


for source in sorted((root / "src").rglob("*.cpp")):
    state = hashlib.sha256((root / ".clang-tidy").read_bytes())
    for path in closure(source):
        state.update(content(path))
    print(state.hexdigest()[:20], source.relative_to(root))
