"""Runs what the documents show: every example of grammar/LANGUAGE.md, every command of README.md.

    python3 tests/documents/run.py build/groat            compares
    python3 tests/documents/run.py build/groat --rewrite  puts the real output in place instead

LANGUAGE.md: a block marked `groat` is a whole rules file that must check without an error; one marked
`groat-part` is added to the block marked `groat-prelude`; one marked `groat-wrong` must be refused
with the text in the block after it. README.md: a block marked `console` shows commands after `$ `,
run from the repository's root with build/ on the path, each followed by all that it prints.
"""

import os
import re
import subprocess
import sys
import tempfile

BLOCK = re.compile(r"^```([a-z-]*)\n(.*?)^```$", re.M | re.S)


def run(command, folder, path=None):
    environment = dict(os.environ, NO_COLOR="1", LC_ALL="C.UTF-8")
    if path:
        environment["PATH"] = path + os.pathsep + environment["PATH"]
    done = subprocess.run(command, cwd=folder, env=environment, shell=isinstance(command, str),
                          stdout=subprocess.PIPE, stderr=subprocess.STDOUT, timeout=120)
    return done.returncode, done.stdout.decode("utf-8", "replace")


class Document:
    def __init__(self, name, rewrite):
        self.name = name
        self.rewrite = rewrite
        self.passed = self.failed = 0
        with open(name, encoding="utf-8") as file:
            self.text = file.read()

    def line(self, offset):
        return self.text.count("\n", 0, offset) + 1

    def judge(self, good, offset, why):
        if good:
            self.passed += 1
        else:
            self.failed += 1
            print(f"{self.name}:{self.line(offset)}: {why}")

    def blocks(self):
        return list(BLOCK.finditer(self.text))

    def replace(self, pieces):
        """Puts new bodies in place: (start, end, body), in any order."""
        for start, end, body in sorted(pieces, reverse=True):
            self.text = self.text[:start] + body + self.text[end:]
        with open(self.name, "w", encoding="utf-8") as file:
            file.write(self.text)


def check_rules(groat, rules):
    with tempfile.TemporaryDirectory() as folder:
        with open(os.path.join(folder, "shop.rules"), "w", encoding="utf-8") as file:
            file.write(rules)
        return run([groat, "check", "shop.rules"], folder)


def language(document, groat):
    blocks = document.blocks()
    prelude = next((b.group(2) for b in blocks if b.group(1) == "groat-prelude"), "")
    pieces = []
    for at, block in enumerate(blocks):
        kind, body = block.group(1), block.group(2)
        if kind in ("groat", "groat-part", "groat-prelude"):
            status, output = check_rules(groat, (prelude if kind == "groat-part" else "") + body)
            document.judge(status == 0, block.start(), "this example is refused:\n" + output)
        elif kind == "groat-wrong":
            status, output = check_rules(groat, body)
            shown = blocks[at + 1] if at + 1 < len(blocks) else None
            if document.rewrite and shown:
                pieces.append((shown.start(2), shown.end(2), output))
            else:
                good = shown is not None and status == 2 and output == shown.group(2)
                document.judge(good, block.start(), "this example prints instead:\n" + output)
    if document.rewrite:
        document.replace(pieces)


def console(document, groat):
    pieces = []
    for block in document.blocks():
        if block.group(1) != "console":
            continue
        commands = [line[2:] for line in block.group(2).splitlines() if line.startswith("$ ")]
        shown = ""
        for command in commands:
            _, output = run(command, ".", os.path.dirname(groat))
            shown += f"$ {command}\n{output}"
        if document.rewrite:
            pieces.append((block.start(2), block.end(2), shown))
        else:
            document.judge(shown == block.group(2), block.start(), "this prints instead:\n" + shown)
    if document.rewrite:
        document.replace(pieces)


def main():
    groat = os.path.abspath(sys.argv[1])
    rewrite = "--rewrite" in sys.argv
    documents = [Document("grammar/LANGUAGE.md", rewrite), Document("README.md", rewrite)]
    language(documents[0], groat)
    console(documents[1], groat)
    if rewrite:
        return 0
    passed = sum(d.passed for d in documents)
    failed = sum(d.failed for d in documents)
    if documents[0].passed == 0 or documents[1].passed == 0:
        print("a document without a single example that passes: is it marked as this test reads it?")
        failed += 1
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
