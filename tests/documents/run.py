"""Runs what documents show, and compares what is printed with what stands there.

    python3 tests/documents/run.py build/groat README.md grammar/LANGUAGE.md grammar/HOWTO.md
    python3 tests/documents/run.py build/checked/groat tests/command/*.md
    python3 tests/documents/run.py build/groat --rewrite README.md    puts the real output in place

In a document below tests/ a heading `## ` begins a test and is a sentence about what holds. The test
runs block by block in a new folder; what stands before the first heading belongs to every test of the
document. Elsewhere every block that can be run is a test of its own, and the others are only read.

    ```file p.csv       writes this file
    ```copy             copies files that stand beside the document, one name a line
    ```console          runs each command after `$ `, in a shell of its own; `> ` continues a command.
                        What follows is all that it prints: standard output, then standard error with
                        `2> ` before each line, then `[exit 2]` where its exit status is not 0
    ```terminal 80      the same on a terminal of 80 columns, where both streams are one
    ```console at the root   the same in the root of the repository, as a reader sees it: both streams
                        are one, and the exit status is not shown
    ```groat            rules, which check without an error
    ```groat-part       the same, after those of the block ```groat-prelude
    ```groat-wrong      rules that are refused with the text in the block after it

In commands `groat` is the command under test and $ROOT the root of the repository. A character that
steers a terminal is shown as `\\x1b`; `[no newline]` stands where the last line has no end.
"""

import concurrent.futures
import difflib
import fcntl
import os
import pathlib
import pty
import re
import struct
import subprocess
import sys
import tempfile
import termios
import tty

BLOCK = re.compile(r"^```([^\n]*)\n(.*?)^```$", re.M | re.S)
HEADING = re.compile(r"^## (.+)$", re.M)
RUN_ALONE = re.compile(r"console|groat")  # how the kinds begin that are tests of their own
ROOT = pathlib.Path(__file__).resolve().parents[2]
SECONDS = 300


def shown(printed):
    """What a process printed, as it stands in a document."""
    text = printed.decode("utf-8", "backslashreplace")
    text = re.sub(r"[\x00-\x08\x0b-\x1f\x7f]", lambda found: f"\\x{ord(found[0]):02x}", text)
    return text if not text or text.endswith("\n") else text + "[no newline]\n"


def commands_of(body):
    """The commands of a console block, each with the lines after its prompts joined."""
    commands, after_prompt = [], False
    for line in body.splitlines():
        if line.startswith("$ "):
            commands.append(line[2:])
            after_prompt = True
        elif after_prompt and line.startswith("> "):
            commands[-1] += "\n" + line[2:]
        else:
            after_prompt = False
    return commands


class Test:
    """A sentence, and the blocks that show whether it holds."""

    def __init__(self, document, sentence, offset, blocks):
        self.document, self.sentence, self.blocks = document, sentence, blocks
        self.line = document.text.count("\n", 0, offset) + 1
        self.checks = 0  # of what groat does
        self.refusal = None  # what was said of wrong rules, until it is compared
        self.wrong = []  # differences and what cannot be run, as texts
        self.found = []  # (start, end, text) of blocks: what really stands there

    def run(self, groat):
        with tempfile.TemporaryDirectory(prefix="groat_test_") as self.folder:
            self.environment = {
                "PATH": os.path.dirname(groat) + os.pathsep + os.environ["PATH"],
                "GROAT": groat, "ROOT": str(ROOT), "HOME": self.folder, "PWD": self.folder,
                "LC_ALL": "C.UTF-8", "TZ": "UTC",
            }
            self.environment.update((name, value) for name, value in os.environ.items()
                                    if name.endswith("SAN_OPTIONS"))
            for block in self.blocks:
                self.run_block(block, *block[1].partition(" ")[::2])
        if self.checks == 0:
            self.wrong.append("this test runs no groat, so it checks nothing\n")
        return self

    def run_block(self, block, kind, argument):
        if kind == "file" and argument:
            pathlib.Path(self.folder, argument).write_text(block[2], encoding="utf-8")
        elif kind == "copy":
            for name in block[2].split():
                path = self.document.path.parent / name
                pathlib.Path(self.folder, path.name).write_bytes(path.read_bytes())
        elif kind == "console" and not argument:
            self.run_console(block, self.run_plainly)
        elif kind == "console" and argument == "at the root":
            self.checks += 1  # a command may also show what stands in a file
            self.run_console(block, lambda command: self.run_as_one(command, ROOT)[1])
        elif kind == "terminal" and argument.isdigit():
            self.run_console(block, lambda command: self.run_on_terminal(command, int(argument)))
        elif kind in ("groat", "groat-part", "groat-prelude"):
            self.check_rules((self.document.prelude if kind == "groat-part" else "") + block[2], 0)
        elif kind == "groat-wrong":
            self.refusal = self.check_rules(block[2], 2)
        elif self.refusal is not None:
            self.compare(block, self.refusal)
            self.refusal = None
        else:
            self.wrong.append(f"there is no block of the kind {block[1]!r}\n")

    def check_rules(self, rules, wanted):
        self.checks += 1
        pathlib.Path(self.folder, "shop.rules").write_text(rules, encoding="utf-8")
        status, printed = self.run_as_one("groat check shop.rules", self.folder)
        if status != wanted:
            self.wrong.append(f"these rules end the check with {status}, not {wanted}:\n{printed}")
        return printed

    def run_console(self, block, run):
        commands = commands_of(block[2])
        self.checks += sum(1 for command in commands if re.search(r"groat|GROAT", command))
        self.compare(block, "".join(
            "$ " + command.replace("\n", "\n> ") + "\n" + run(command) for command in commands))

    def compare(self, block, found):
        self.found.append((block.start(2), block.end(2), found))
        if found != block[2]:
            self.wrong.append("".join(difflib.unified_diff(
                block[2].splitlines(True), found.splitlines(True), "expected", "found", n=2)))

    def run_as_one(self, command, folder):
        done = subprocess.run(["/bin/sh", "-c", command], cwd=folder, env=self.environment,
                              timeout=SECONDS, stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                              stderr=subprocess.STDOUT)
        return done.returncode, shown(done.stdout)

    def run_plainly(self, command):
        done = subprocess.run(["/bin/sh", "-c", command], cwd=self.folder, env=self.environment,
                              timeout=SECONDS, stdin=subprocess.DEVNULL, capture_output=True)
        errors = "".join(f"2> {line}\n" for line in shown(done.stderr).splitlines())
        return shown(done.stdout) + errors + self.end(done.returncode)

    def run_on_terminal(self, command, columns):
        ours, theirs = pty.openpty()
        tty.setraw(theirs)
        fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
        process = subprocess.Popen(["/bin/sh", "-c", command], cwd=self.folder,
                                   env=self.environment, stdin=subprocess.DEVNULL, stdout=theirs,
                                   stderr=theirs)
        os.close(theirs)
        printed = b""
        try:
            while piece := os.read(ours, 65536):
                printed += piece
        except OSError:  # how Linux says that nobody writes to the terminal any more
            pass
        os.close(ours)
        return shown(printed) + self.end(process.wait(SECONDS))

    @staticmethod
    def end(status):
        return f"[exit {status}]\n" if status else ""


class Document:
    def __init__(self, path):
        self.path = path
        self.text = path.read_text(encoding="utf-8")
        blocks = list(BLOCK.finditer(self.text))
        self.prelude = "".join(block[2] for block in blocks if block[1] == "groat-prelude")
        below_tests = ROOT / "tests" in path.resolve().parents
        self.tests = list(self.by_heading(blocks) if below_tests else self.by_block(blocks))
        if not self.tests:
            sys.exit(f"{path}: there is no test here")

    def by_heading(self, blocks):
        # A line that begins with ## inside a block is no heading.
        hidden = BLOCK.sub(lambda block: re.sub(r"[^\n]", " ", block[0]), self.text)
        headings = list(HEADING.finditer(hidden))
        starts = [heading.start() for heading in headings] + [len(self.text)]
        for heading, end in zip(headings, starts[1:]):
            yield Test(self, heading[1], heading.start(), [
                block for block in blocks
                if block.start() < starts[0] or heading.start() < block.start() < end])

    def by_block(self, blocks):
        for at, block in enumerate(blocks):
            if RUN_ALONE.match(block[1]):
                after = blocks[at + 1:at + 2] if block[1] == "groat-wrong" else []
                yield Test(self, block[1], block.start(), [block] + after)

    def rewrite(self):
        text = self.text
        for start, end, body in sorted({piece for test in self.tests for piece in test.found},
                                       reverse=True):
            text = text[:start] + body + text[end:]
        self.path.write_text(text, encoding="utf-8")


def main():
    groat, *paths = [word for word in sys.argv[1:] if word != "--rewrite"]
    rewrite = "--rewrite" in sys.argv
    documents = [Document(pathlib.Path(path)) for path in paths]
    tests = [test for document in documents for test in document.tests]
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as hands:
        for test in hands.map(lambda test: test.run(os.path.abspath(groat)), tests):
            if test.wrong and not rewrite:
                print(f"{test.document.path}:{test.line}: {test.sentence}")
                print("\n".join(test.wrong))
    if rewrite:
        for document in documents:
            document.rewrite()
        return 0
    failed = sum(1 for test in tests if test.wrong)
    print(f"{len(tests) - failed} passed, {failed} failed")
    return 1 if failed or not tests else 0


if __name__ == "__main__":
    sys.exit(main())
