# Writes the manuals of the verbs as C:
#
#     awk -f quoted.awk -f manual.awk manual/check.txt manual/price.txt ...
#
# A text begins with the verb's line in the list of verbs. What its help says comes after an empty
# line, and commands that can be run come after a line `For example:`. A text that cannot be read, or
# lacks one of these parts, is named on standard error, and ends the run with status 1.

function write_manual(path,   verb, part, parts, filled, number, line, status) {
    while ((status = (getline line <path)) > 0) {
        if (line == "For example:") {
            part = 3
            continue
        }
        part = ++number == 1 ? 1 : number == 2 ? 2 : part
        if (line ~ /[^ ]/)
            filled[part] = 1
        if (number != 2 || line != "")
            parts[part] = parts[part] quoted(line)
    }
    if (status < 0)
        fail(path, "cannot be read")
    else if (!filled[1] || !filled[2] || !filled[3])
        fail(path, "a manual is a line, a text, and examples after a line `For example:`")
    verb = path
    gsub(/^.*\/|\.txt$/, "", verb)
    printf "\nconst struct manual manual_%s = {%s,%s,%s};\n", verb, parts[1], parts[2], parts[3]
}

BEGIN {
    print "#include \"command/verb.h\""
    for (at = 1; at < ARGC; at++)
        write_manual(ARGV[at])
    exit failed
}
