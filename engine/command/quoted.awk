# What the programs that write texts as C have in common: a line as a string, and how a text that is
# wrong is named on standard error, so that the run ends with status 1.

function quoted(line) {
    gsub(/\\/, "&&", line)
    gsub(/"/, "\\\\&", line)
    return "\n    \"" line "\\n\""
}

function fail(path, why) {
    print path ": " why >"/dev/stderr"
    failed = 1
}
