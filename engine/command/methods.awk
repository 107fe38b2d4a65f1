# Writes the ready-made methods as C, so that an installed command needs no files:
#
#     awk -f quoted.awk -f methods.awk rules/ladders.rules rules/methods/recipe.rules rules/methods/recipe.csv ...
#
# Rules with a sheet of the same name beside them are a method. Their first line says what it is for:
# `# Recipe: made in batches from a recipe`. A method's channels are told with it. The other files
# are those that methods use, wherever they are: the texts are written into one folder, so a `use`
# names a file beside its own. A file that cannot be read, or a method that does not say what it is
# for, is named on standard error, and ends the run with status 1.

# A `use` without the folder; the comment after it stays in its column.
function used_beside(line) {
    if (match(line, /^use "[^"]*\//)) {
        line = "use \"" substr(line, RLENGTH + 1)
        sub(/ #/, sprintf("%" (RLENGTH - 4) "s", "") "#", line)
    }
    return line
}

function read_text(path,   text, line, status) {
    while ((status = (getline line <path)) > 0) {
        if (!(path in first))
            first[path] = line
        if (match(line, /^channel [a-z_]+/))
            channels[path] = channels[path] ", " substr(line, 9, RLENGTH - 8)
        text = text quoted(used_beside(line))
    }
    if (status < 0 || text == "")
        fail(path, "cannot be read, or is empty")
    return text
}

BEGIN {
    print "#include \"command/ready.h\"\n\nconst struct ready_file ready_files[] = {"
    for (at = 1; at < ARGC; at++) {
        path = name = ARGV[at]
        sub(/^.*\//, "", name)
        printf "    {\"%s\",%s},\n", name, read_text(path)
        given[path] = 1
    }
    print "};\nconst size_t ready_files_count = sizeof ready_files / sizeof *ready_files;"
    print "\nconst struct ready_method ready_methods[] = {"
    for (at = 1; at < ARGC; at++) {
        path = ARGV[at]
        if (!sub(/\.rules$/, "", path) || !((path ".csv") in given))
            continue
        sold = substr(channels[path ".rules"], 3)
        line = first[path ".rules"]
        if (!sub(/^# [^:]*: /, "", line))
            fail(path ".rules", "the first line of a method says what it is for: # Name: what for")
        sub(/^.*\//, "", path)
        line = substr(quoted(line), 1, length(quoted(line)) - 3)
        printf "    {\"%s\",%s\", \"%s\"},\n", path, line, sold
    }
    print "};\nconst size_t ready_methods_count = sizeof ready_methods / sizeof *ready_methods;"
    exit failed
}
