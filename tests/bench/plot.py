#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Draws work-precision.csv: plot.py FILE.csv FILE.svg. Error of all nodes against time of a cook."""
import csv
import math
import sys
from html import escape

WIDTH, HEIGHT, LEFT, TOP, GAP = 430, 400, 70, 86, 80
X_DECADES, Y_DECADES = (-3, 3), (-4, 2)  # ms a cook; K
COLOURS = {"ovendays, one cook alone": "#b5460f", "ovendays, pack of eight": "#e0892b",
           "ovendays, sixteen in single precision": "#a8326e",
           "CVODE BDF, restarted at all bends": "#1f5f8b", "CVODE BDF, restarted at jumps": "#6aaed6",
           "SciPy BDF, restarted at all bends": "#4b6b2f", "SciPy BDF, restarted at jumps": "#93b86b"}


def place(value, decades, length):
    share = (math.log10(value) - decades[0]) / (decades[1] - decades[0])
    return length * min(1.0, max(0.0, share))


def text(x, y, words, anchor="middle", size=13, more=""):
    return f'<text x="{x:.1f}" y="{y:.1f}" text-anchor="{anchor}" font-size="{size}" {more}>{escape(words)}</text>'


def axes(left, sky):
    parts = [text(left + WIDTH / 2, TOP - 12, sky, size=15, more='font-weight="bold"')]
    for decade in range(X_DECADES[0], X_DECADES[1] + 1):
        x = left + place(10.0**decade, X_DECADES, WIDTH)
        parts.append(f'<path d="M{x:.1f} {TOP}v{HEIGHT}" stroke="#ddd"/>')
        parts.append(text(x, TOP + HEIGHT + 18, f"{10.0**decade:g}"))
    for decade in range(Y_DECADES[0], Y_DECADES[1] + 1):
        y = TOP + HEIGHT - place(10.0**decade, Y_DECADES, HEIGHT)
        parts.append(f'<path d="M{left} {y:.1f}h{WIDTH}" stroke="#ddd"/>')
        parts.append(text(left - 8, y + 4, f"{10.0**decade:g}", "end"))
    parts.append(f'<rect x="{left}" y="{TOP}" width="{WIDTH}" height="{HEIGHT}" fill="none" stroke="#888"/>')
    parts.append(text(left + WIDTH / 2, TOP + HEIGHT + 40, "CPU time of one eight-hour cook [ms]"))
    return parts


def line(left, rows, colour):
    points = [(left + place(float(r["ms_per_cook"]), X_DECADES, WIDTH),
               TOP + HEIGHT - place(float(r["all_K"]), Y_DECADES, HEIGHT)) for r in rows
              if float(r["all_K"]) <= 10.0 ** Y_DECADES[1]]
    path = " ".join(f"{x:.1f},{y:.1f}" for x, y in points)
    dots = "".join(f'<circle cx="{x:.1f}" cy="{y:.1f}" r="3.5" fill="{colour}"/>' for x, y in points)
    return [f'<polyline points="{path}" fill="none" stroke="{colour}" stroke-width="1.6"/>', dots]


def legend(methods):
    parts = []
    for i, method in enumerate(methods):
        x, y = LEFT + (i // 3) * 320, 18 + (i % 3) * 18
        parts.append(f'<path d="M{x} {y - 4}h24" stroke="{COLOURS[method]}" stroke-width="3"/>')
        parts.append(text(x + 32, y, method, "start"))
    return parts


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        head = file.readline().lstrip("# ").strip()
        rows = list(csv.DictReader(file))
    skies = list(dict.fromkeys(r["sky"] for r in rows))
    whole = LEFT + len(skies) * (WIDTH + GAP)
    tall = TOP + HEIGHT + 84
    parts = [f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {whole} {tall}" font-family="sans-serif" fill="#222">',
             f'<rect width="{whole}" height="{tall}" fill="white"/>']
    parts += legend([m for m in COLOURS if any(r["method"] == m for r in rows)])
    for i, sky in enumerate(skies):
        left = LEFT + i * (WIDTH + GAP)
        parts += axes(left, sky)
        for method, colour in COLOURS.items():
            parts += line(left, [r for r in rows if r["sky"] == sky and r["method"] == method], colour)
    parts.append(text(20, TOP + HEIGHT / 2, "largest error of any node [K]",
                      more=f'transform="rotate(-90 20 {TOP + HEIGHT / 2:.1f})"'))
    parts.append(text(LEFT, tall - 14, head, "start", size=11))
    with open(sys.argv[2], "w", encoding="utf-8") as out:
        out.write("\n".join(parts + ["</svg>"]) + "\n")


if __name__ == "__main__":
    main()
