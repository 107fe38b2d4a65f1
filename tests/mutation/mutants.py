"""Small changes to C sources: where one can be made, and what it is.

A change is made on one line and leaves the number of lines as it was. Comments, texts in quotes,
preprocessor lines and declarations without a value are left alone, and so are functions that are
marked as unused, which are there for asserts.
"""

import collections
import glob
import os
import re

Mutant = collections.namedtuple("Mutant", "file function line kind old new before after")

COMPARISONS = {"<": ["<="], "<=": ["<"], ">": [">="], ">=": [">"], "==": ["!="], "!=": ["=="]}
ARITHMETIC = {"+": ["-"], "-": ["+"], "*": ["/"], "/": ["*"], "%": ["*"], "<<": [">>"], ">>": ["<<"],
              "&": ["|"], "|": ["&"], "^": ["&"], "+=": ["-="], "-=": ["+="]}
LOGICAL = {"&&": ["||"], "||": ["&&"]}
# The project's formatter puts a space on both sides of every operator of two sides.
BINARY = re.compile(r"(?<= )(<<|>>|<=|>=|==|!=|&&|\|\||\+=|-=|[-+*/%&|^<>])(?= )")
NUMBER = re.compile(r"(?<![\w.])(\d+)(?![\w.])")
WORD = re.compile(r"\b[A-Z][A-Z0-9]*_[A-Z0-9_]+\b")
STATEMENT = re.compile(r"^\s+(?:\w[\w>.\-\[\]]*\(.*\);|[\w>.\-\[\]*]+ [-+|&]?= .*;|[\w>.\-\[\]]+(?:\+\+|--);"
                       r"|continue;|break;)$")
FUNCTION = re.compile(r"^\w[\w \*]*?(\w+)\(")
DECLARATION = re.compile(r"^\s+(?:static |const |struct |enum |unsigned |size_t |bool |double |char |int |"
                         r"u?int\d+_t )")


def blank_out(text):
    """The text with comments and what stands in quotes replaced by blanks of the same length."""
    pattern = re.compile(r"/\*.*?\*/|//[^\n]*|\"(?:\\.|[^\"\\\n])*\"|'(?:\\.|[^'\\\n])*'", re.S)
    return pattern.sub(lambda found: re.sub(r"[^\n]", " ", found[0]), text)


def neighbours(root):
    """Every constant of an enum with the one that follows it there; the last has the one before."""
    found = {}
    for name in sorted(glob.glob(os.path.join(root, "engine/*/*.[ch]"))):
        with open(name, encoding="utf-8") as file:
            text = blank_out(file.read())
        for body in re.findall(r"\benum\s*\w*\s*\{([^}]*)\}", text):
            constants = re.findall(r"\b([A-Z][A-Z0-9_]+)\b(?:\s*=[^,]*)?(?:,|$)", body.strip())
            for i, constant in enumerate(constants):
                if len(constants) > 1:
                    found[constant] = constants[i + 1 if i + 1 < len(constants) else i - 1]
    return found


def replaced(line, start, end, new):
    return line[:start] + new + line[end:]


def on_line(line, code, following):
    """The changes of one line: kind, what is replaced, by what, and the line after it."""
    for table, kind in ((COMPARISONS, "comparison"), (ARITHMETIC, "arithmetic"), (LOGICAL, "logic")):
        for match in BINARY.finditer(code):
            for new in table.get(match[1], ()):
                yield kind, match[1], new, replaced(line, match.start(), match.end(), new)
    for match in re.finditer(r"(?<=[ (!])!(?=[\w(!])", code):
        yield "logic", "!", "", replaced(line, match.start(), match.end(), "")
    for match in re.finditer(r"\b(true|false)\b", code):
        new = "false" if match[1] == "true" else "true"
        yield "constant", match[1], new, replaced(line, match.start(), match.end(), new)
    for match in re.finditer(r"(\+\+|--)", code):
        new = "--" if match[1] == "++" else "++"
        yield "arithmetic", match[1], new, replaced(line, match.start(), match.end(), new)
    for match in NUMBER.finditer(code):
        for new in (int(match[1]) + 1, int(match[1]) - 1):
            yield "constant", match[1], str(new), replaced(line, match.start(), match.end(), str(new))
    if not re.match(r"\s*(case|default)\b", code):
        for match in WORD.finditer(code):
            new = following.get(match[0])
            if new:
                yield "neighbour", match[0], new, replaced(line, match.start(), match.end(), new)
    match = re.match(r"^(\s*(?:\} else )?if \()(.*)(\)(?: \{)?)$", code)
    if match:
        inside = line[match.start(2):match.end(2)]
        yield "condition", inside, "!(%s)" % inside, replaced(line, match.start(2), match.end(2),
                                                              "!(%s)" % inside)
    if STATEMENT.match(code) and not DECLARATION.match(code) and "assert(" not in code:
        indent = re.match(r"\s*", line)[0]
        yield "statement", line.strip(), "nothing", indent + ";"


def mutants_of(root, name, following):
    """Every mutant of a file."""
    with open(os.path.join(root, name), encoding="utf-8") as file:
        text = file.read()
    lines, codes = text.split("\n"), blank_out(text).split("\n")
    within = False                     # a function's body: from { to } in the first column
    asserted = False                   # it is there for asserts
    function = ""
    continued = False
    for i, (line, code) in enumerate(zip(lines, codes)):
        if code.startswith("{"):
            within = True
        elif code.startswith("}"):
            within = asserted = False
        asserted = asserted or code.startswith("__attribute__((unused))")
        begins = FUNCTION.match(code)
        function = begins[1] if begins else function
        directive = code.lstrip().startswith("#")
        alone = not continued and code.rstrip().endswith((";", "{", ")"))
        if (within or " = " in code) and not asserted and not directive and "assert(" not in code:
            for kind, old, new, after in on_line(line, code, following):
                # A statement that began on the line before cannot be taken away from its end alone.
                if kind in ("statement", "condition") and not alone:
                    continue
                yield Mutant(name, function, i + 1, kind, old, new, line, after)
        stripped = code.strip()
        continued = bool(stripped) and not stripped.endswith((";", "{", "}", ":")) \
            and not directive and not re.match(r"(if|for|while|else)\b.*\)$|else$|do$", stripped)


def draw(root, names, chance):
    """All mutants in the order in which they are to be tried: the files take turns, and within a
    file the kinds of change."""
    following = neighbours(root)
    piles = []
    for name in names:
        kinds = collections.defaultdict(list)
        for mutant in mutants_of(root, name, following):
            kinds[mutant.kind].append(mutant)
        for pile in kinds.values():
            chance.shuffle(pile)
        # As many turns as the file has hundreds of mutants, and one.
        turns = 1 + sum(map(len, kinds.values())) // 100
        piles.append((turns, kinds))
    chance.shuffle(piles)
    while any(kinds for _, kinds in piles):
        for turns, kinds in piles:
            for _ in range(turns):
                if not kinds:
                    break
                kind = chance.choice(sorted(kinds))
                yield kinds[kind].pop()
                if not kinds[kind]:
                    del kinds[kind]
