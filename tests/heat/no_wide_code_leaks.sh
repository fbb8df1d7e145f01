#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# Usage: no_wide_code_leaks.sh ARCHIVE.a...
# Fails where an object file defines a weak symbol (an inline function or a template, of which the linker
# keeps any one copy) whose code uses AVX registers, unless the name says which instruction set it is for.
# Such a copy may be the one that the whole program calls, and crashes on machines without AVX.
set -euo pipefail
[ $# -gt 0 ] || { echo "usage: $0 ARCHIVE.a..." >&2; exit 2; }
own='x86_v[34]'
checked=0
for archive in "$@"; do
  checked=$((checked + $(ar t "$archive" | wc -l)))
  # nm: W and V are weak, u unique; lower-case letters other than these are local to their object.
  weak=$(nm -A --defined-only "$archive" 2>/dev/null | awk '$2 ~ /^[WVu]$/ || $3 ~ /^[WVu]$/ { print $NF }' | sort -u)
  leaks=$(objdump -d --no-show-raw-insn "$archive" | awk -v own="$own" '
    NR == FNR { weak[$1] = 1; next }
    /^[0-9a-f]+ <.*>:$/ { name = $2; gsub(/^<|>:$/, "", name); next }
    /%[yz]mm[0-9]|\tv[a-z0-9]+ .*%xmm/ { if (name in weak && name !~ own) leak[name] = 1 }
    END { for (name in leak) print name }' <(printf '%s\n' "$weak") -)
  if [ -n "$leaks" ]; then
    echo "$archive: weak symbols with AVX code:"
    printf '%s\n' "$leaks" | c++filt
    exit 1
  fi
done
[ "$checked" -gt 0 ] || { echo "no object files in: $*"; exit 1; }
echo "no AVX code in weak symbols: $checked object files"
