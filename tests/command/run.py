"""Runs the documents of this folder: what the command prints, and what it ends with.

    python3 tests/command/run.py build/checked/groat                     all of them
    python3 tests/command/run.py build/checked/groat tests/command/earn.md   these
    python3 tests/command/run.py build/checked/groat --rewrite ...       puts the real output in place

A heading `## ` begins a test and is a sentence about what holds. Each test runs in a new folder, block
by block. A block of what stands before the first test belongs to every test of the document.

    ```file p.csv       writes this file
    ```copy             copies files that stand beside the document, one name a line
    ```console          runs each command after `$ `, in a shell of its own; `> ` continues a command.
                        What follows is all that it prints: standard output, then standard error with
                        `2> ` before each line, then `[exit 2]` where its exit status is not 0
    ```terminal 80      the same on a terminal of 80 columns, where both streams are one

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
ROOT = pathlib.Path(__file__).resolve().parents[2]
SECONDS = 300


def shown(printed):
    """What a process printed, as it stands in a document."""
    text = printed.decode("utf-8", "backslashreplace")
    text = re.sub(r"[\x00-\x08\x0b-\x1f\x7f]", lambda found: f"\\x{ord(found[0]):02x}", text)
    return text if not text or text.endswith("\n") else text + "[no newline]\n"


def run_plainly(command, folder, environment):
    done = subprocess.run(["/bin/sh", "-c", command], cwd=folder, env=environment, timeout=SECONDS,
                          stdin=subprocess.DEVNULL, capture_output=True)
    errors = shown(done.stderr).splitlines()
    return done.returncode, shown(done.stdout) + "".join(f"2> {line}\n" for line in errors)


def run_on_terminal(command, folder, environment, columns):
    ours, theirs = pty.openpty()
    tty.setraw(theirs)
    fcntl.ioctl(theirs, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
    process = subprocess.Popen(["/bin/sh", "-c", command], cwd=folder, env=environment,
                               stdin=subprocess.DEVNULL, stdout=theirs, stderr=theirs)
    os.close(theirs)
    printed = b""
    try:
        while piece := os.read(ours, 65536):
            printed += piece
    except OSError:  # how Linux says that nobody writes to the terminal any more
        pass
    os.close(ours)
    return process.wait(SECONDS), shown(printed)


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

    def __init__(self, document, sentence, line, blocks):
        self.document, self.sentence, self.line, self.blocks = document, sentence, line, blocks
        self.wrong = []  # differences and what cannot be run, as texts
        self.found = []  # (start, end, text) of the console blocks: what really stands there

    def run(self, groat):
        with tempfile.TemporaryDirectory(prefix="groat_test_") as folder:
            environment = {
                "PATH": os.path.dirname(groat) + os.pathsep + os.environ["PATH"],
                "GROAT": groat, "ROOT": str(ROOT), "HOME": folder, "PWD": folder,
                "LC_ALL": "C.UTF-8", "TZ": "UTC",
            }
            environment.update((name, value) for name, value in os.environ.items()
                               if name.endswith("SAN_OPTIONS"))
            checks = 0
            for block in self.blocks:
                checks += self.run_block(block, folder, environment)
            if checks == 0:
                self.wrong.append("this test runs no groat, so it checks nothing\n")
        return self

    def run_block(self, block, folder, environment):
        """Returns how many commands of the block run groat."""
        kind, _, argument = block[1].partition(" ")
        if kind == "file" and argument:
            pathlib.Path(folder, argument).write_text(block[2], encoding="utf-8")
        elif kind == "copy":
            for name in block[2].split():
                path = self.document.path.parent / name
                pathlib.Path(folder, path.name).write_bytes(path.read_bytes())
        elif kind == "console" and not argument:
            return self.compare(block, lambda command: run_plainly(command, folder, environment))
        elif kind == "terminal" and argument.isdigit():
            return self.compare(block, lambda command: run_on_terminal(
                command, folder, environment, int(argument)))
        else:
            self.wrong.append(f"there is no block of the kind {block[1]!r}\n")
        return 0

    def compare(self, block, run):
        found, commands = "", commands_of(block[2])
        for command in commands:
            status, printed = run(command)
            found += "$ " + command.replace("\n", "\n> ") + "\n" + printed
            found += f"[exit {status}]\n" if status else ""
        self.found.append((block.start(2), block.end(2), found))
        if found != block[2]:
            self.wrong.append("".join(difflib.unified_diff(
                block[2].splitlines(True), found.splitlines(True), "expected", "found", n=2)))
        return sum(1 for command in commands if re.search(r"groat|GROAT", command))


class Document:
    def __init__(self, path):
        self.path = path
        self.text = path.read_text(encoding="utf-8")
        # A line that begins with ## inside a block is no heading.
        hidden = BLOCK.sub(lambda block: re.sub(r"[^\n]", " ", block[0]), self.text)
        headings = list(HEADING.finditer(hidden))
        if not headings:
            sys.exit(f"{path}: there is no test here: a test begins with a heading ##")
        ends = [heading.start() for heading in headings[1:]] + [len(self.text)]
        shared = list(BLOCK.finditer(self.text, 0, headings[0].start()))
        self.tests = [
            Test(self, heading[1], self.text.count("\n", 0, heading.start()) + 1,
                 shared + list(BLOCK.finditer(self.text, heading.end(), end)))
            for heading, end in zip(headings, ends)]

    def rewrite(self):
        text = self.text
        for start, end, body in sorted({piece for test in self.tests for piece in test.found},
                                       reverse=True):
            text = text[:start] + body + text[end:]
        self.path.write_text(text, encoding="utf-8")


def main():
    words = [word for word in sys.argv[1:] if word != "--rewrite"]
    groat = os.path.abspath(words[0])
    paths = words[1:] or sorted(pathlib.Path(__file__).parent.glob("*.md"))
    documents = [Document(pathlib.Path(path)) for path in paths]
    tests = [test for document in documents for test in document.tests]
    with concurrent.futures.ThreadPoolExecutor(os.cpu_count()) as hands:
        for test in hands.map(lambda test: test.run(groat), tests):
            if test.wrong and "--rewrite" not in sys.argv:
                print(f"{test.document.path}:{test.line}: {test.sentence}")
                print("\n".join(test.wrong))
    if "--rewrite" in sys.argv:
        for document in documents:
            document.rewrite()
        return 0
    failed = sum(1 for test in tests if test.wrong)
    print(f"{len(tests) - failed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
