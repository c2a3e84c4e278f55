"""What programs of WebAssembly are made of: bytes of code by where each function comes from.

The functions must have their names: add -g to both data-wasm-opt-params of index.html, run `make dist`, then

    python3 tests/bench/sizes.py dist/*.wasm

A function that was made part of another counts as part of that one.
"""

import collections
import re
import sys
from pathlib import Path

# The first that fits decides.
ORIGINS = [
    ("reading and writing jobs (serde)", r"serde|Deserialize|Serialize|job4file|store6record"),
    ("sorting", r"sort|merge"),
    ("views of the page", r"pourwright4page|pourwright::page"),
    ("Leptos", r"tachys|reactive_graph|leptos|any_spawner|throw_error|or_poisoned"),
    ("rooms that calculate", r"pourwright"),
    ("the standard library", r"core|alloc|std|dlmalloc|__rustc"),
    ("other libraries", r""),
]


def number(data, at):
    """An unsigned LEB128 number and where it ends (WebAssembly Core Specification 2.0, section 5.2.2)."""
    value = shift = 0
    while True:
        byte = data[at]
        at += 1
        value |= (byte & 127) << shift
        shift += 7
        if byte < 128:
            return value, at


def sections(data):
    at = 8
    while at < len(data):
        kind = data[at]
        length, at = number(data, at + 1)
        yield kind, at, at + length
        at += length


def imported(data, at):
    """How many functions are imported: they come first in the count (section 5.5.5)."""
    count, at = number(data, at)
    functions = 0
    for _ in range(count):
        for _ in range(2):
            length, at = number(data, at)
            at += length
        kind, at = data[at], at + 1
        if kind == 0:
            functions += 1
            _, at = number(data, at)
        elif kind in (1, 2):
            flags, at = number(data, at + (kind == 1))
            for _ in range(1 + (flags & 1)):
                _, at = number(data, at)
        elif kind == 3:
            at += 2
        else:
            _, at = number(data, at + 1)
    return functions


def parts(data):
    """Name and bytes of every function, and the bytes of all data."""
    first, bodies, names, texts = 0, [], {}, 0
    for kind, at, end in sections(data):
        if kind == 2:
            first = imported(data, at)
        elif kind == 10:
            count, at = number(data, at)
            for _ in range(count):
                length, at = number(data, at)
                bodies.append(length)
                at += length
        elif kind == 11:
            texts += end - at
        elif kind == 0:
            length, at = number(data, at)
            is_names, at = data[at:at + length] == b"name", at + length
            while is_names and at < end:
                what = data[at]
                length, at = number(data, at + 1)
                if what == 1:
                    count, place = number(data, at)
                    for _ in range(count):
                        index, place = number(data, place)
                        size, place = number(data, place)
                        names[index] = data[place:place + size].decode("utf-8", "replace")
                        place += size
                at += length
    if not names:
        sys.exit("The functions have no names: see the first lines of this script.")
    return [(names.get(first + index, ""), length) for index, length in enumerate(bodies)], texts


def main():
    found, texts = collections.Counter(), 0
    for path in sys.argv[1:]:
        functions, data = parts(Path(path).read_bytes())
        texts += data
        for name, length in functions:
            found[next(origin for origin, fits in ORIGINS if re.search(fits, name))] += length
    found["texts and tables"] = texts
    print("| part | kB |\n| --- | --- |")
    for origin, length in found.most_common():
        print(f"| {origin} | {length / 1000:.0f} |")


main()
