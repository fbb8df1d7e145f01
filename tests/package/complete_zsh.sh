#!/usr/bin/env bash
# SPDX-License-Identifier: MIT
# complete_zsh.sh SCRIPT: what zsh offers, in an interactive shell on a terminal of its own.
set -uo pipefail
command -v zsh >/dev/null || { echo "SKIPPED: no zsh here"; exit 77; }
script=$(realpath "$1")
zsh -n "$script" || exit 1
folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
cp "$script" "$folder/_ovendays"
mkdir "$folder/work"
touch "$folder/work/my-yard.toml" "$folder/work/season.h5"
failures=0

cat >"$folder/driver" <<'ZSH'
zmodload zsh/zpty
folder=$1
zpty shell zsh -f -i
zpty -w shell "PROMPT=; stty -echo; fpath=($folder \$fpath); autoload -Uz compinit; compinit -D -u; cd $folder/work"
zpty -w shell "mark() { print -r -- \"<<\$BUFFER>>\" >>$folder/out; BUFFER=; zle accept-line }"
zpty -w shell "zle -N mark; bindkey '^X' mark; print ready >$folder/ready"
for i in {1..200}; do [[ -s $folder/ready ]] && break; sleep 0.05; done
zpty -w -n shell "$2"$'\t'; zpty -w -n shell $'\x18'
for i in {1..200}; do [[ -s $folder/out ]] && break; sleep 0.05; done
zpty -d shell
ZSH

# completed LINE: the line after a press of the tabulator, in brackets.
completed() {
  zsh -f "$folder/driver" "$folder" "$1" </dev/null
  cat "$folder/out" 2>/dev/null
  rm -f "$folder/out" "$folder/ready"
}

# expect LINE WANTED
expect() {
  local got
  got=$(completed "$1")
  [ "$got" = "<<$2>>" ] && return
  echo "$1 [tab]: '$got', wanted '<<$2>>'"
  failures=$((failures + 1))
}

expect 'ovendays sea' 'ovendays season '
expect 'ovendays season --no' 'ovendays season --no-causes '
expect 'ovendays season my' 'ovendays season my-yard.toml '
expect 'ovendays wait my' 'ovendays wait my-yard.toml '
expect 'ovendays report s' 'ovendays report season.h5 '
expect 'ovendays report --svg=cal' 'ovendays report --svg=calendar='
expect 'ovendays weather make --se' 'ovendays weather make --seed='
exit $((failures > 0))
