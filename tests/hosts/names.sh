#!/bin/sh
# The names that the libraries show to whoever links them:
#
#     tests/hosts/names.sh BUILD
#
# Both show the same names, and all of them begin with groat_. The functions of own_names.c are held
# against those inside the library, for that host proves nothing about names that are not there too.
set -eu
build=$1
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
passed=0 failed=0

judge() { # STATUS WHAT
    if [ "$1" = 0 ]; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "$2"
    fi
}

shown() { nm -g --defined-only "$@" | awk 'NF == 3 { print $3 }' | sort; }

# True when the library shows names, and every one of them begins with groat_.
shows_ours_alone() {
    shown "$@" >"$work/shown"
    [ -s "$work/shown" ] && ! grep -v '^groat_' "$work/shown"
}

shows_ours_alone "$build/libgroat.a" && status=0 || status=1
judge $status "libgroat.a shows the names above, which do not begin with groat_, or none at all"
shows_ours_alone -D "$build/libgroat.so" && status=0 || status=1
judge $status "libgroat.so shows the names above, which do not begin with groat_, or none at all"

shown "$build/libgroat.a" >"$work/static"
shown -D "$build/libgroat.so" >"$work/dynamic"
diff "$work/static" "$work/dynamic" && status=0 || status=1
judge $status "libgroat.a and libgroat.so do not show the same names"

# One more name in the archive has to be found.
echo 'int settle(void); int settle(void) { return 1; }' >"$work/other.c"
${CC:-cc} -c -o "$work/other.o" "$work/other.c"
cp "$build/libgroat.a" "$work/libgroat.a"
ar rcs "$work/libgroat.a" "$work/other.o"
[ "$(shows_ours_alone "$work/libgroat.a")" = settle ] && status=0 || status=1
judge $status "a name that does not begin with groat_ is not found"

nm "$build/libgroat.a" | awk '$2 == "t" { print $3 }' | sort -u >"$work/inside"
shown "$build/hosts/own_names.o" | grep -vx main >"$work/own"
[ "$(wc -l <"$work/own")" -ge 5 ] && ! comm -23 "$work/own" "$work/inside" | grep . &&
    status=0 || status=1
judge $status "the functions of own_names.c named above are not inside the library; take others"

echo "$passed passed, $failed failed"
[ $failed = 0 ]
