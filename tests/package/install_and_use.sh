#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# install_and_use.sh BUILD [CXX CC]: installs a build into a folder of its own, runs the program from there, and builds
# and runs the example against the installed library.
set -euo pipefail
build=$(realpath "$1")
export CXX=${2:-c++} CC=${3:-cc}
place=$(mktemp -d)
trap 'rm -rf "$place"' EXIT
prefix=$place/prefix
cmake --install "$build" --prefix "$prefix" >"$place/log"
share=$prefix/share/ovendays

say() { printf '%s\n' "$*"; }
fail() { say "$*"; exit 1; }

for file in bin/ovendays share/bash-completion/completions/ovendays share/fish/vendor_completions.d/ovendays.fish \
  share/ovendays/weather/high_desert.epw share/ovendays/demo-study/study.toml share/ovendays/example/count_days.cpp; do
  [ -s "$prefix/$file" ] || fail "not installed: $file"
done
ls "$prefix"/share/doc/ovendays/{LICENSE.txt,copyright} >/dev/null 2>&1 || find "$prefix/share/doc" | grep -qE 'LICENSE|copyright' ||
  fail "no licence installed"
find "$prefix/share/man/man1" -name 'ovendays-season.1*' | grep -q . || fail "no manual page installed"
! find "$prefix" -name target_clones.h | grep -q . || fail "a private header is installed"

# The program, from a folder that has nothing of it.
mkdir "$place/anywhere"
cd "$place/anywhere"
"$prefix/bin/ovendays" season --demo --no-causes --quiet
[ -s demo-season.h5 ] || fail "the demo left no season"
"$prefix/bin/ovendays" compare "$share/demo-study/study.toml" --part 1/9 --no-causes --quiet --out part.h5
"$prefix/bin/ovendays" weather "$share/weather/cool_coast.epw" >/dev/null

# The example, and beside it a source with every installed header: none may include what is not installed.
cp -r "$share/example" "$place/example"
(cd "$prefix/include" && find ovendays -name '*.h' | sort -r | sed 's/.*/#include "&"/') >"$place/example/all_headers.cpp"
cat >>"$place/example/CMakeLists.txt" <<'CMAKE'
add_library(all_headers OBJECT all_headers.cpp)
target_link_libraries(all_headers PRIVATE ovendays::study ovendays::report)
CMAKE
cmake -S "$place/example" -B "$place/example/build" -DCMAKE_PREFIX_PATH="$prefix" -DCMAKE_BUILD_TYPE=Release \
  >"$place/log" 2>&1 || { cat "$place/log"; exit 1; }
cmake --build "$place/example/build" >"$place/log" 2>&1 || { tail -n 40 "$place/log"; exit 1; }
"$place/example/build/count_days" | tee "$place/days"
grep -qE '^ *[0-9]+  rice$' "$place/days" || fail "the example tells nothing of rice"
# The demo's year is the installed one, so both must count the same days.
rice=$("$prefix/bin/ovendays" season --demo --no-causes --spread 0 | awk '$1 == "rice" { print $NF; exit }')
grep -qE "^ *$rice  rice\$" "$place/days" || fail "the program counts $rice days of rice, the example otherwise"
