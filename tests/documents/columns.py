#!/usr/bin/env python3
"""Holds grammar/COLUMNS.md and grammar/columns.schema.json to what the command prints.

    python3 tests/documents/columns.py GROAT

The columns of each verb, in CSV, must be those of the page, in its order. The JSON of each verb must
fit the schema, and its rows must be those of NDJSON. The words of the page and of the schema must be
the same. The validator here knows the few keywords that the schema uses and refuses any other; where
the module jsonschema is installed, it must come to the same result.
"""

import csv
import io
import json
import pathlib
import re
import subprocess
import sys
import tempfile

ROOT = pathlib.Path(__file__).resolve().parents[2]
PAGE = (ROOT / "grammar/COLUMNS.md").read_text(encoding="utf-8")
SCHEMA = json.loads((ROOT / "grammar/columns.schema.json").read_text(encoding="utf-8"))
SHOP = ["rules/fernhollow/fernhollow.rules", "rules/fernhollow/products.csv"]
SHOWS = ["earned_per_hour"]  # of that shop
TIMEOUT = 120

# A shop with an order of every outcome, an explanation that fails, and texts that show odd things.
RULES = """currency EUR €
product {
    name  text
    wood  money
    post  mass as g optional
    ready flag optional
}
rate hourly = €20 per h
cost wood_cost = wood
price { set wood * 2 }
channel stall { refuse "too dear" when price > €90 }
channel post { only when (post otherwise 0 g) > 0 g }
show is_ready = ready
show third = wood / €3
"""
SHEET = "name,wood,post,ready\n=Tray,5,10,yes\nDoor,50,10,no\nBad,oops,,\nPeg,1,,\n\x1bRim\u202e,2,,\n"


# ---- the validator ----

TYPES = {"object": dict, "array": list, "string": str, "integer": int, "boolean": bool,
         "null": type(None)}
KEYWORDS = {"$schema", "title", "description", "$defs", "$ref", "anyOf", "type", "properties",
            "required", "additionalProperties", "items", "enum", "pattern", "minimum"}


def has_type(value, names):
    names = [names] if isinstance(names, str) else names
    return any(isinstance(value, TYPES[name]) and (name == "boolean") == isinstance(value, bool)
               for name in names)


def faults(schema, value, where="answer"):
    """Everything in a value that the schema does not allow, in words."""
    unknown = set(schema) - KEYWORDS
    assert not unknown, "the validator does not know %s" % unknown
    found = []
    if "$ref" in schema:
        found += faults(SCHEMA["$defs"][schema["$ref"].removeprefix("#/$defs/")], value, where)
    if "anyOf" in schema and all(faults(one, value, where) for one in schema["anyOf"]):
        found.append("%s: fits none of the alternatives" % where)
    if "type" in schema and not has_type(value, schema["type"]):
        found.append("%s: %r is not of the type %s" % (where, value, schema["type"]))
    if "enum" in schema and value not in schema["enum"]:
        found.append("%s: %r is not among %s" % (where, value, schema["enum"]))
    if "pattern" in schema and isinstance(value, str) and not re.search(schema["pattern"], value):
        found.append("%s: %r is not as it should be written" % (where, value))
    if "minimum" in schema and isinstance(value, int) and value < schema["minimum"]:
        found.append("%s: %r is too small" % (where, value))
    if isinstance(value, list) and "items" in schema:
        for number, item in enumerate(value):
            found += faults(schema["items"], item, "%s[%d]" % (where, number))
    if isinstance(value, dict):
        properties = schema.get("properties", {})
        found += ["%s: %s is not there" % (where, name) for name in schema.get("required", ())
                  if name not in value]
        for name, item in value.items():
            more = schema.get("additionalProperties", {})
            if name in properties:
                found += faults(properties[name], item, where + "." + name)
            elif more is False:
                found.append("%s: %s is not known" % (where, name))
            else:
                found += faults(more, item, where + "." + name)
    return found


def check_validator():
    """The validator must refuse what is wrong, not only accept what is right."""
    row = dict.fromkeys("before after change percent".split(), "1.00")
    row.update(product="A", channel="b", quantity=1, rate="c", notes=[])
    each = SCHEMA["$defs"]["each_row"]
    assert not faults(each, row)
    for name, wrong in (("quantity", 0), ("quantity", True), ("quantity", "1"), ("before", "$1.00"),
                        ("before", 1.0), ("notes", "x"), ("notes", [1]), ("more", "x")):
        assert faults(each, dict(row, **{name: wrong})), (name, wrong)
    del row["rate"]
    assert faults(each, row)


def agrees(name, answer, found):
    """Whether an independent validator, where there is one, finds the same."""
    try:
        import jsonschema
    except ImportError:
        return True
    schema = dict(SCHEMA["$defs"][name], **{"$defs": SCHEMA["$defs"]})
    validator = jsonschema.Draft202012Validator(schema)
    return bool(found) == any(True for _ in validator.iter_errors(answer))


# ---- the page ----

def sections():
    parts = re.split(r"^## (.+)$", PAGE, flags=re.M)
    return dict(zip(parts[1::2], parts[2::2]))


def tables(text):
    """The names in the first cells of each table, a list a table."""
    found = []
    for block in re.findall(r"(?:^\|.*\n)+", text, re.M):
        rows = [line.split("|")[1].strip() for line in block.splitlines()]
        found.append([name for row in rows[2:] for name in row.split(", ")])
    return found


def page_columns():
    """The columns of each verb as the page has them, without those that the rules show."""
    text = sections()
    columns = {"price": tables(text["price"])[0] + ["notes"],
               "estimates": sum(tables(text["price"]), []) + ["notes"],
               "sweep": tables(text["sweep"])[0] + ["notes"],
               "earn": tables(text["earn"])[0] + ["notes"]}
    columns["drivers"], columns["each"] = (names + ["notes"] for names in tables(text["drivers"]))
    for verb in ("rank", "effect", "goals"):
        order = re.search(r"The order of the columns is ([^.]*)\.", text[verb])[1]
        columns[verb] = re.split(r",\s+", order)
        assert set(tables(text[verb])[0]) == set(columns[verb]) - {"notes"}, verb
    return columns


def words_of(table):
    return [name for name in tables(sections()["Words"])[table]]


# ---- asking ----

class Checks:
    def __init__(self, groat):
        self.groat, self.passed, self.failed = groat, 0, 0

    def hold(self, what, wrong):
        if not wrong:
            self.passed += 1
            return
        self.failed += 1
        print("%s:\n    %s" % (what, "\n    ".join(map(str, wrong[:12]))))

    def ask(self, *arguments):
        run = subprocess.run([self.groat, *arguments], capture_output=True, cwd=ROOT,
                             timeout=TIMEOUT)
        if run.returncode > 1:
            sys.exit(run.stderr.decode())
        return run.stdout.decode("utf-8")

    def verb(self, name, columns, arguments, shop=SHOP, shows=SHOWS):
        """Holds one command to the page and the schema. name: of its definition."""
        command = [arguments[0], *shop, *arguments[1:]]
        what = " ".join(arguments)
        answer = json.loads(self.ask(*command, "--format", "json"))
        found = faults(SCHEMA["$defs"][name], answer)
        self.hold(what + ", the schema", found)
        self.hold(what + ", the other validator", [] if agrees(name, answer, found) else ["differs"])
        exact = json.loads(self.ask(*command, "--format", "json", "--exact"))
        self.hold(what + " --exact", faults(SCHEMA["$defs"][name], exact))
        if columns is None:
            return answer
        heading = next(csv.reader(io.StringIO(self.ask(*command, "--format", "csv"))))
        self.hold(what + ", the page", [] if [x for x in heading if x not in shows] == columns
                  else [heading, columns])
        rows = [json.loads(line)
                for line in self.ask(*command, "--format", "ndjson").splitlines()]
        self.hold(what + ", NDJSON", [] if rows == answer["rows"] else ["its rows are others"])
        keys = [list(row) for row in rows if list(row) != heading]
        self.hold(what + ", keys", keys)
        return answer


def main():
    if len(sys.argv) != 2:
        sys.exit(__doc__)
    check_validator()
    checks, columns = Checks(str(pathlib.Path(sys.argv[1]).resolve())), page_columns()
    checks.verb("price", columns["price"], ["price", "--quantity", "1,5", "--as-of", "2026-11-28"])
    checks.verb("price", columns["estimates"],
                ["price", "--estimates", "--set", "hourly=$24 to $30 per h"])
    checks.verb("rank", columns["rank"], ["rank"])
    checks.verb("rank", columns["rank"], ["rank", "--by", "earned_per_hour"])
    checks.verb("earn", columns["earn"], ["earn", "--at", "$40"])
    checks.verb("effect", columns["effect"], ["effect", "--set", "hourly=+40%", "--hold", "3%"])
    checks.verb("goals", columns["goals"], ["goals", "--pace", "3"])
    checks.verb("sweep", columns["sweep"], ["sweep", "--over", "offcuts=10%..20%", "--steps", "3"])
    checks.verb("drivers", columns["drivers"], ["drivers"])
    checks.verb("each", columns["each"], ["drivers", "--each", "--product", "Nest box"])
    checks.verb("explain", None, ["explain", "--product", "Nest box"])
    checks.verb("explain", None, ["explain", "--product", "Nest box", "--name", "timber_price"])
    with tempfile.TemporaryDirectory() as folder:
        shop = [folder + "/s.rules", folder + "/p.csv"]
        pathlib.Path(shop[0]).write_text(RULES, encoding="utf-8")
        pathlib.Path(shop[1]).write_text(SHEET, encoding="utf-8")
        own = ["is_ready", "third"]
        answer = checks.verb("price", columns["price"], ["price", "--all"], shop, own)
        outcomes = {row["outcome"] for row in answer["rows"]}
        checks.hold("every outcome comes", sorted(outcomes ^ set(words_of(0))))
        checks.verb("earn", columns["earn"], ["earn", "--at", "95"], shop, own)
        checks.verb("rank", columns["rank"], ["rank"], shop, own)
        checks.verb("effect", columns["effect"], ["effect", "--set", "hourly=+1%"], shop, own)
        checks.verb("explain", None, ["explain", "--product", "Door"], shop, own)
    outcome, row = SCHEMA["$defs"]["outcome"]["enum"], SCHEMA["$defs"]["explain_row"]
    checks.hold("the words of outcome", [] if outcome == words_of(0) else [outcome, words_of(0)])
    rests = row["properties"]["rests_on"]["enum"]
    checks.hold("the words of rests_on", [] if rests == words_of(1) else [rests, words_of(1)])
    print("%d passed, %d failed" % (checks.passed, checks.failed))
    return 1 if checks.failed else 0


if __name__ == "__main__":
    sys.exit(main())
