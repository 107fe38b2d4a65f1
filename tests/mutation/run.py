#!/usr/bin/env python3
"""Changes the engine in one small place at a time, and sees whether the tests notice.

    python3 tests/mutation/run.py COUNT SEED [PART ...]
    python3 tests/mutation/run.py again LIST    those that survived an earlier run, which wrote LIST

Tries COUNT changes, drawn by SEED from the files of ROOMS whose names contain one of the PARTs, in a
copy of the tree. For each it compiles the one file that is changed, links, and runs the tests below
until one fails, dies or runs out of time: then the change is killed. Prints those that survive, with
their place. A change that does not compile, or compiles to the same code, is none.
When it is interrupted it draws no more, and tells what came of those that were tried.

Changes that cannot be noticed, because the program means the same with them, are listed with the
reason in equivalent.txt and reported apart. Of the others more survive than should, and among them
are some that nobody has yet found to mean the same: the exit status is 1 if less than LEAST percent
are killed.
"""

import os
import queue
import random
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time

HERE = os.path.dirname(os.path.abspath(__file__))
ROOT = os.path.dirname(os.path.dirname(HERE))
sys.path.insert(0, HERE)
sys.dont_write_bytecode = True

import mutants  # noqa: E402

LEAST = 85
ROOMS = ["number", "evaluate", "solve", "compile", "cell"]
COMPILE = ("cc -std=c11 -w -O1 -fPIC -fno-semantic-interposition -Iinclude -Iengine -Igrammar "
           "-Ibuild/generated")
LIBRARIES = "-lcsv -lyajl -lunistring -lgmp -pthread -lm".split()
# Room that is too small by a limb is noticed by nothing else, so the number room's own tests are run
# once more against a library of it and of the memory room, made with these.
SANITIZED = ("engine/number/", "engine/memory/")
SANITIZERS = "-fsanitize=address,undefined -fno-sanitize-recover=undefined".split()
# Whether a compiled program is sound is asked by asserts alone, and none of them fails.
LEFT_OUT = ["engine/compile/sound.c"]
JOBS = max(1, os.cpu_count() or 1)

# What is run for a change in any room, and for one in some files alone: quick tests, each with its
# arguments. The order is found while running: what killed most in a room goes first there.
EVERYWHERE = ["unit/question", "unit/unrounded", "unit/pricing", "unit/lines", "unit/explain",
              "unit/ranges", "unit/explain_expression", "unit/rates", "unit/value", "language/cell",
              "language/literal", "language/local_cell", "language/wrong", "published/trade",
              "published/break_even", "property/used_scratch", "fault/limits", "unit/estimate",
              "unit/steps", "unit/trouble", "unit/reason_kind", "unit/written_unit"]
SOMEWHERE = {
    "engine/number": ["unit/number", "unit/number_text", "unit/amount", "published/decimal",
                      "property/number_gmp_text", "property/number_bounds", "property/number_gmp",
                      "sanitized unit/number", "sanitized unit/number_text",
                      "sanitized unit/amount", "sanitized property/number_gmp_text"],
    "engine/evaluate/ladder.c": ["property/ladder"],
    "engine/evaluate": ["property/aims 1 80", "property/search", "property/interleaved",
                        "fault/effort"],
    "engine/solve/stretch.c": ["unit/stretch"],
    "engine/solve": ["property/aims 1 200", "property/search", "property/cliff"],
    "engine/compile": ["property/aims 1 80", "property/search", "fault/allocation"],
    "engine/cell": ["sheets/wrong", "fault/allocation"],
}
DOCUMENTS = ["tests/command/%s.md" % name for name in ("explain", "reason", "goals")]
PROGRAMS = {"documents": [sys.executable, "tests/documents/run.py", "build/groat"] + DOCUMENTS,
            "oracle": [sys.executable, "tests/mutation/lists.py", "build/groat"],
            "random shops": [sys.executable, "tests/oracle/random_shops.py", "build/groat", "120", "1"]}


def tests_of(place):
    """The tests that a change in a file, or in any file of a room, is held against."""
    named = EVERYWHERE + [test for part, tests in SOMEWHERE.items() for test in tests
                          if place.startswith(part) or part.startswith(place)]
    there = [name for name in dict.fromkeys(named) if os.path.exists(os.path.join(ROOT, source_of(name)))]
    return there + list(PROGRAMS)


def source_of(name):
    return "tests/%s_test.c" % name.replace("sanitized ", "").split()[0]


ALL_TESTS = sorted({test for room in ROOMS for test in tests_of("engine/" + room)})


def limit(sanitized):
    """A mutant may ask for all the memory there is, or write without end."""
    os.setpgrp()
    if not sanitized:                               # the sanitizer's own map takes far more
        resource.setrlimit(resource.RLIMIT_AS, (2 << 30, 2 << 30))
    resource.setrlimit(resource.RLIMIT_FSIZE, (64 << 20, 64 << 20))
    resource.setrlimit(resource.RLIMIT_CORE, (0, 0))


def must(command, where):
    done = subprocess.run(command, cwd=where, capture_output=True, text=True, errors="replace")
    if done.returncode:
        sys.exit("%s failed in the copy:\n%s" % (" ".join(command), done.stderr[-2000:]))


class Tree:
    """A copy of the tree with everything linked against one shared object of all rooms."""

    def __init__(self, folder):
        self.folder = folder

    def path(self, *parts):
        return os.path.join(self.folder, *parts)

    @staticmethod
    def object_of(name):
        """Objects lie beside each other, so each is named by its whole path."""
        return os.path.join("build", "mutated", name[:-2].replace(os.sep, "_") + ".o")

    def build(self):
        shutil.copytree(ROOT, self.folder, ignore=shutil.ignore_patterns(".git", "build"))
        published = os.path.join(ROOT, "build", "published")
        if os.path.isdir(published):
            shutil.copytree(published, self.path("build", "published"))
        # Whatever is generated was generated as the Makefile says.
        shutil.copytree(os.path.join(ROOT, "build", "generated"), self.path("build", "generated"))
        os.makedirs(self.path("build", "mutated"))
        os.makedirs(self.path("build", "sanitized"))
        sources = sorted(self.sources())
        with_queue(sources, lambda name: must(
            COMPILE.split() + ["-c", "-o", self.object_of(name), name], self.folder))
        self.objects = [self.object_of(n) for n in sources if n != "engine/command/main.c"]
        self.link(self.objects)
        must(["cc", "-o", "build/groat", self.object_of("engine/command/main.c")] + self.against(),
             self.folder)
        numbers = [name for name in sources if name.startswith(SANITIZED)]
        with_queue(numbers, lambda name: must(
            COMPILE.split() + SANITIZERS + ["-c", "-o", self.sanitized(name), name], self.folder))
        self.numbers = [self.sanitized(name) for name in numbers]
        self.link_numbers(self.numbers)
        with_queue([test for test in ALL_TESTS if test not in PROGRAMS], self.build_test)

    def build_test(self, name):
        sanitizers = SANITIZERS if name.startswith("sanitized ") else []
        against = ["-Lbuild", "-lnumbers", "-Wl,-rpath,$ORIGIN", "-lgmp", "-lm"] if sanitizers \
            else self.against()
        program = self.command(name)[0]
        must(COMPILE.split() + sanitizers + ["-Itests", "-c", "-o", program + ".o", source_of(name)],
             self.folder)
        must(["cc", "-o", program, program + ".o"] + sanitizers + against + ["-lcmocka"], self.folder)

    @staticmethod
    def sanitized(name):
        return os.path.join("build", "sanitized", name[:-2].replace(os.sep, "_") + ".o")

    def link_numbers(self, objects):
        must(["cc", "-shared", "-o", "build/libnumbers.so"] + SANITIZERS + objects, self.folder)

    def sources(self):
        for room in ("engine", "grammar", "build/generated"):
            for where, _, files in os.walk(self.path(room)):
                for name in files:
                    if name.endswith(".c"):
                        yield os.path.relpath(os.path.join(where, name), self.folder)

    @staticmethod
    def against():
        return ["-Lbuild", "-lrooms", "-Wl,-rpath,$ORIGIN"] + LIBRARIES

    def link(self, objects):
        must(["cc", "-shared", "-Wl,-Bsymbolic", "-o", "build/librooms.so"] + objects + LIBRARIES,
             self.folder)

    def link_changed_numbers(self, changed):
        target = self.sanitized(changed)
        must(COMPILE.split() + SANITIZERS + ["-c", "-o", target + ".changed.o", changed], self.folder)
        self.link_numbers([target + ".changed.o" if name == target else name
                           for name in self.numbers])

    def command(self, name):
        if name in PROGRAMS:
            return PROGRAMS[name]
        sanitized = "sanitized_" if name.startswith("sanitized ") else ""
        program, *arguments = name.replace("sanitized ", "").split()
        return ["build/" + sanitized + program.replace("/", "_")] + arguments

    def passes(self, name, seconds):
        """Whether a test passes within a time, and how long that took."""
        began = time.monotonic()
        run = subprocess.Popen(self.command(name), cwd=self.folder, stdout=subprocess.DEVNULL,
                               stderr=subprocess.DEVNULL, stdin=subprocess.DEVNULL,
                               env=dict(os.environ, GROAT="build/groat"),
                               preexec_fn=lambda: limit(name.startswith("sanitized ")))
        try:
            status = run.wait(seconds)
        except subprocess.TimeoutExpired:
            status = -1
        try:
            os.killpg(run.pid, signal.SIGKILL)      # also what it started
        except ProcessLookupError:
            pass
        run.wait()
        return status == 0, time.monotonic() - began


def with_queue(items, work):
    """Does the work for every item, by as many threads as there are processors."""
    waiting, failed = queue.Queue(), []
    for item in items:
        waiting.put(item)

    def worker():
        while not failed:
            try:
                item = waiting.get_nowait()
            except queue.Empty:
                return
            try:
                work(item)
            except BaseException as error:          # tell it in the main thread
                failed.append(error)

    threads = [threading.Thread(target=worker) for _ in range(JOBS)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    if failed:
        raise failed[0]


def known_equivalents():
    """(file or file and function, line's text, old, new) of every entry of equivalent.txt, with its
    reason."""
    known = {}
    with open(os.path.join(HERE, "equivalent.txt"), encoding="utf-8") as file:
        blocks = file.read().split("\n\n")
    for block in blocks:
        lines = [line for line in block.split("\n") if line and not line.startswith("#")]
        if not lines:
            continue
        place, text, change = lines[:3]
        old, new = change.split(" -> ")
        known[place.strip(), text.strip(), old.strip(), new.strip()] = " ".join(lines[3:])
    return known


class Trial:
    """A run over many mutants."""

    def __init__(self, count, drawn):
        self.count, self.drawn = count, drawn
        self.lock = threading.Lock()
        self.made = self.killed = self.unusable = 0
        self.survivors, self.equivalent = [], []
        self.known = known_equivalents()
        self.kills = {}                             # by room and test
        self.seconds = {}                           # of each test when nothing is changed

    def measure(self, tree):
        """Every test must pass before anything is changed."""
        for name in ALL_TESTS:
            passed, self.seconds[name] = tree.passes(name, 120)
            if not passed:
                sys.exit("%s fails without any change" % name)

    def order(self, mutant):
        """What killed most in this room for the time it takes goes first."""
        room = mutant.file.split("/")[1]
        return sorted(tests_of(mutant.file),
                      key=lambda name: (-self.kills.get((room, name), 0) / self.seconds[name],
                                        self.seconds[name]))

    def next(self):
        with self.lock:
            if self.made >= self.count:
                return None
            self.made += 1
            return next(self.drawn, None)

    def stop(self):
        """No more are drawn; those at work are judged."""
        self.count = 0

    def give_back(self):
        """The change was none: another one is drawn for it, if there is one."""
        with self.lock:
            self.made -= 1 if self.count else 0
            self.unusable += 1

    def judge(self, tree, mutant):
        """Compiles the mutant and runs the tests; says by whom it is killed."""
        place, target = tree.path(mutant.file), tree.object_of(mutant.file)
        changed = target + ".changed.o"
        with open(place, encoding="utf-8") as file:
            text = file.read()
        lines = text.split("\n")
        lines[mutant.line - 1] = mutant.after
        try:
            with open(place, "w", encoding="utf-8") as file:
                file.write("\n".join(lines))
            compiled = subprocess.run(COMPILE.split() + ["-c", "-o", changed, mutant.file],
                                      cwd=tree.folder, capture_output=True).returncode == 0
            if not compiled or same_bytes(tree.path(changed), tree.path(target)):
                return "nobody: it is no mutant"
            tree.link([changed if name == target else name for name in tree.objects])
            if mutant.file.startswith(SANITIZED):
                tree.link_changed_numbers(mutant.file)
            room = mutant.file.split("/")[1]
            for name in self.order(mutant):
                if not tree.passes(name, 5 + 6 * self.seconds[name])[0]:
                    with self.lock:
                        self.kills[room, name] = self.kills.get((room, name), 0) + 1
                    return name
            return None
        finally:
            with open(place, "w", encoding="utf-8") as file:
                file.write(text)

    def work(self, tree):
        while True:
            mutant = self.next()
            if mutant is None:
                return
            reason = self.known.get(key_of(mutant)) or self.known.get(key_of(mutant, True))
            if reason is not None:
                with self.lock:
                    self.equivalent.append((mutant, reason))
                continue
            killer = self.judge(tree, mutant)
            if killer and killer.startswith("nobody"):
                self.give_back()
                continue
            with self.lock:
                if killer:
                    self.killed += 1
                else:
                    self.survivors.append(mutant)
                    print("survives  " + described(mutant), flush=True)
                if (self.killed + len(self.survivors)) % 50 == 0:
                    print("%d of %d tried" % (self.killed + len(self.survivors), self.count),
                          flush=True)


def same_bytes(one, other):
    with open(one, "rb") as a, open(other, "rb") as b:
        return a.read() == b.read()


def key_of(mutant, with_function=False):
    """What a mutant is known by where the lines above it change."""
    place = "%s, %s" % (mutant.file, mutant.function) if with_function else mutant.file
    return place, mutant.before.strip(), mutant.old, mutant.new or "nothing"


def described(mutant):
    file, text, old, new = key_of(mutant)
    return "%s:%d: %s -> %s\n          %s" % (file, mutant.line, old, new, text)


def survivors_of(name):
    """The keys of those that an earlier run printed as survivors."""
    with open(name, encoding="utf-8") as file:
        lines = file.read().split("\n")
    for line, text in zip(lines, lines[1:]):
        if line.startswith("survives  "):
            place, change = line[len("survives  "):].split(": ", 1)
            yield (place.rsplit(":", 1)[0], text.strip()) + tuple(change.split(" -> "))


def files(parts):
    found = []
    for room in ROOMS:
        folder = os.path.join(ROOT, "engine", room)
        for name in sorted(os.listdir(folder)):
            path = "/".join(("engine", room, name))
            if name.endswith(".c") and path not in LEFT_OUT and (not parts or any(part in path for part in parts)):
                found.append(path)
    return found


def main(arguments):
    if len(arguments) < 2:
        sys.exit(__doc__)
    if arguments[0] == "again":
        seed, wanted = 0, set(survivors_of(arguments[1]))
        chosen = [m for m in mutants.draw(ROOT, files([]), random.Random(seed))
                  if key_of(m) in wanted]
        count, drawn = len(chosen), iter(chosen)
    else:
        count, seed = int(arguments[0]), int(arguments[1])
        drawn = mutants.draw(ROOT, files(arguments[2:]), random.Random(seed))
    began = time.monotonic()
    with tempfile.TemporaryDirectory(prefix="groat-mutants-") as folder:
        first = Tree(os.path.join(folder, "0"))
        first.build()
        trees = [first]
        for i in range(1, JOBS):
            trees.append(Tree(os.path.join(folder, str(i))))
            shutil.copytree(first.folder, trees[i].folder)
            trees[i].objects, trees[i].numbers = first.objects, first.numbers
        trial = Trial(count, drawn)
        trial.measure(first)
        print("ready after %d s; the tests take %.1f s" % (time.monotonic() - began,
                                                          sum(trial.seconds.values())), flush=True)
        signal.signal(signal.SIGINT, lambda number, frame: trial.stop())
        threads = [threading.Thread(target=trial.work, args=(tree,)) for tree in trees]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
    for mutant, reason in trial.equivalent:
        print("the same  " + described(mutant) + "\n          " + reason)
    for (room, name), kills in sorted(trial.kills.items()):
        print("%4d killed in %s by %s" % (kills, room, name))
    judged = trial.killed + len(trial.survivors)
    share = 100 * trial.killed / max(judged, 1)
    print("%d mutants (seed %d), %d known to mean the same; of the %d others %d are killed (%.1f%%) and "
          "%d survive; %d changes were none; %d s"
          % (judged + len(trial.equivalent), seed, len(trial.equivalent), judged, trial.killed,
             share, len(trial.survivors), trial.unusable, time.monotonic() - began))
    return 1 if share < LEAST else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
