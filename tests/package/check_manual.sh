#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# check_manual.sh groff|mandoc FOLDER: no warning on any manual page of the folder.
set -uo pipefail
tool=$1
command -v "$tool" >/dev/null || { echo "SKIPPED: no $tool here"; exit 77; }
complaints=""
pages=0
for page in "$2"/*.1; do
  pages=$((pages + 1))
  case $tool in
    groff) found=$(groff -ww -man -K utf8 -Tutf8 -z "$page" 2>&1) ;;
    # Base system conventions do not matter here: the order of sections and the form of a date.
    mandoc) found=$(mandoc -Tlint -W warning "$page" 2>&1) ;;
  esac
  [ -z "$found" ] || complaints+="$found"$'\n'
done
[ "$pages" -gt 10 ] || complaints+="only $pages pages in $2"$'\n'
[ -z "$complaints" ] || { printf '%s' "$complaints"; exit 1; }
