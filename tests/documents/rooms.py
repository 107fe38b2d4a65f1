"""Holds the includes of the sources against the table of rooms in DEVELOPERS.md.

    python3 tests/documents/rooms.py

A room may include the rooms above it in the table, and no others. What is built on the library, the
rooms below `library` and `explain`, may include of the core only include/groat.h and the ground floor.
"""

import os
import re
import sys

GROUND_FLOOR = ["memory", "number", "text"]
CORE_ENDS_WITH = "explain"
INCLUDE = re.compile(r'^#include "([^"]+)"', re.M)


def rooms_of(table):
    """The rooms in their order: `engine/memory` is memory, `grammar` is grammar."""
    rows = re.findall(r"^\| `((?:engine/)?[a-z]+)` \|", table, re.M)
    return [row.replace("engine/", "") for row in rows]


def room_of_include(name, grammar_headers):
    if name == "groat.h":
        return "groat.h"
    if "/" in name:
        return name.split("/")[0]
    return "grammar" if name in grammar_headers else None


def complaints(rooms, includes, grammar_headers):
    """What is wrong; `includes` has a pair (room, header) for each include, with its file."""
    wrong = []
    core = rooms[: rooms.index(CORE_ENDS_WITH) + 1]
    for room, header, file in includes:
        other = room_of_include(header, grammar_headers)
        if room not in rooms:
            wrong.append(f"{file}: the room {room} is not in the table of DEVELOPERS.md")
        elif other is None or (other != "groat.h" and other not in rooms):
            wrong.append(f"{file}: includes {header}, which is in no room of the table")
        elif other == "groat.h" and room not in ("library", "explain") and room in core:
            wrong.append(f"{file}: a room before the library includes {header}")
        elif other in (room, "groat.h"):
            continue
        elif rooms.index(other) > rooms.index(room):
            wrong.append(f"{file}: includes {header}, from a room below its own")
        elif room not in core and other in core and other not in GROUND_FLOOR:
            wrong.append(f"{file}: is built on the library and includes {header} of the core")
    return wrong


def includes_of_tree():
    for folder in sorted(["grammar"] + ["engine/" + name for name in os.listdir("engine")]):
        for name in sorted(os.listdir(folder)):
            if not name.endswith((".c", ".h", ".re", ".y")):
                continue
            file = os.path.join(folder, name)
            with open(file, encoding="utf-8") as text:
                for header in INCLUDE.findall(text.read()):
                    yield folder.replace("engine/", ""), header, file


def judge(what, found, wanted):
    good = len(found) == wanted
    if not good:
        print(f"{what}:", *(found or ["no complaint"]), sep="\n  ")
    return good


def main():
    with open("DEVELOPERS.md", encoding="utf-8") as file:
        rooms = rooms_of(file.read())
    grammar = [name for name in os.listdir("grammar") if name.endswith(".h")] + ["grammar.h"]
    made_up = ["memory", "number", "text", "solve", "library", "explain", "report"]
    tries = [
        ("an include of a room below is told of", ("solve", "library/library.h"), 1),
        ("an include of a room above is fine", ("solve", "number/number.h"), 0),
        ("what is built on the library keeps off the core", ("report", "solve/line.h"), 1),
        ("what is built on the library may use the ground floor", ("report", "number/number.h"), 0),
        ("the core does not know the public interface", ("solve", "groat.h"), 1),
        ("a header of no room is told of", ("solve", "elsewhere/thing.h"), 1),
    ]
    results = [judge(what, complaints(made_up, [(*pair, "a file")], []), wanted)
               for what, pair, wanted in tries]
    results.append(judge("the rooms include only those above them",
                         complaints(rooms, list(includes_of_tree()), grammar), 0))
    print(f"{results.count(True)} passed, {results.count(False)} failed")
    return 0 if all(results) else 1


if __name__ == "__main__":
    sys.exit(main())
