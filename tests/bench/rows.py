"""From sheet to price list: groat beside the same method written by hand in C, with printf and
doubles, in one run. Prints the time, the memory and the time to the first row of each, and compares
every cell that both write. `rows.py GROAT ROWS RULES [COUNT]`; RULES get a field for the name."""

import csv
import itertools
import os
import subprocess
import sys
import tempfile
import threading
import time

ROUNDS = 3


def run(command, source, target):
    """Seconds in all, seconds of the processor, and the most memory in MB."""
    begin = time.monotonic()
    with open(source, "rb") as sheet, open(target, "wb") as prices:
        process = subprocess.Popen(command, stdin=sheet, stdout=prices, stderr=subprocess.DEVNULL)
        _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode != 0:
        sys.exit(f"{' '.join(command)}: exit status {process.returncode}")
    return (time.monotonic() - begin, used.ru_utime + used.ru_stime, used.ru_maxrss / 1024)


def first_row(command, source):
    """Seconds until the first row after the headings can be read, while most of the sheet has not
    yet been handed over."""
    process = subprocess.Popen(command, stdin=subprocess.PIPE, stdout=subprocess.PIPE,
                               stderr=subprocess.DEVNULL)
    with open(source, "rb") as sheet:
        rows = b"".join(itertools.islice(sheet, 20001))

    def feed():
        try:
            process.stdin.write(rows)
            process.stdin.flush()
        except BrokenPipeError:
            pass

    begin = time.monotonic()
    feeder = threading.Thread(target=feed)
    feeder.start()
    process.stdout.readline()
    seconds = time.monotonic() - begin if process.stdout.readline() else None
    process.kill()
    process.wait()
    feeder.join()
    return seconds


def differences(left, right):
    with open(left, newline="") as one, open(right, newline="") as two:
        readers = csv.DictReader(one), csv.DictReader(two)
        rows = wrong = 0
        for a, b in itertools.zip_longest(*readers):
            rows += 1
            if a is None or b is None:
                sys.exit("one list is longer than the other")
            wrong += any(a[key] != b[key] for key in ("product", "quantity", "list", "price", "keep"))
    return rows, wrong


def main():
    groat, rows, rules = sys.argv[1:4]
    count = sys.argv[4] if len(sys.argv) > 4 else "1000000"
    with tempfile.TemporaryDirectory() as folder:
        sheet = os.path.join(folder, "sheet.csv")
        with open(rules) as method, open(os.path.join(folder, "named.rules"), "w") as named:
            named.write(method.read().replace("product {", "product {\n    name text", 1))
        with open(sheet, "wb") as out:
            subprocess.run([rows, "make", count], stdout=out, check=True)
        priced = [groat, "price", os.path.join(folder, "named.rules"), "-", "--from", "csv",
                  "--format", "csv"]
        peers = {"C by hand": [rows, "price"], "groat, one core": priced + ["--jobs", "1"],
                 "groat": priced}
        lists = {name: os.path.join(folder, f"{at}.csv") for at, name in enumerate(peers)}
        best = {}
        for _ in range(ROUNDS):
            for name, command in peers.items():
                used = run(command, sheet, lists[name])
                best[name] = min(best.get(name, used), used)
        hand = best["C by hand"][0]
        print(f"{count} rows from CSV to CSV, best of {ROUNDS} rounds")
        for name, (seconds, processor, memory) in best.items():
            first = first_row(peers[name], sheet)
            print(f"{name:16} {seconds:7.2f} s  {processor:7.2f} s of processors  {memory:6.1f} MB"
                  f"  first row after {first * 1000 if first is not None else float('nan'):6.1f} ms"
                  f"  ratio {seconds / hand:5.2f}")
        for name in list(peers)[1:]:
            compared, wrong = differences(lists["C by hand"], lists[name])
            print(f"{name}: {compared} rows compared, {wrong} differ")
            if wrong:
                sys.exit(1)


main()
