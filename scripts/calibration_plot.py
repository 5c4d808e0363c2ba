#!/usr/bin/env python3
"""Draws the reliability table that the calibration test prints (standard input) as an SVG (standard output).

A dot for each class of calls: how likely the program called it, and how often it was so, with the 95 % interval of
Wilson 1927 (J. Am. Stat. Assoc. 22:209-212). On the line, calls are right as often as they say.
"""
import math
import re
import sys

SIZE, MARGIN = 360, 48


def read_rows(lines):
    row = re.compile(r"\s*\d+-\s*\d+ %\s+(\d+)\s+([\d.]+)\s+([\d.]+)")
    return [(int(m[1]), float(m[2]), float(m[3])) for m in map(row.match, lines) if m]


def wilson(share, n, z=1.96):
    middle = (share + z * z / (2 * n)) / (1 + z * z / n)
    half = z / (1 + z * z / n) * math.sqrt(share * (1 - share) / n + z * z / (4 * n * n))
    return max(0.0, middle - half), min(1.0, middle + half)


def x(share):
    return MARGIN + share * SIZE


def y(share):
    return MARGIN + (1 - share) * SIZE


def axes():
    parts = [f'<rect x="{MARGIN}" y="{MARGIN}" width="{SIZE}" height="{SIZE}" fill="none" stroke="#777"/>',
             f'<line x1="{x(0)}" y1="{y(0)}" x2="{x(1)}" y2="{y(1)}" stroke="#777" stroke-dasharray="4 4"/>']
    for tenth in range(0, 11, 2):
        share = tenth / 10
        parts.append(f'<text x="{x(share)}" y="{y(0) + 18}" text-anchor="middle">{10 * tenth} %</text>')
        parts.append(f'<text x="{x(0) - 8}" y="{y(share) + 4}" text-anchor="end">{10 * tenth} %</text>')
    parts.append(f'<text x="{x(0.5)}" y="{y(0) + 38}" text-anchor="middle">called clear</text>')
    parts.append(f'<text x="{x(0)}" y="{y(1) - 14}">clear in truth</text>')
    return parts


def dot(n, called, clear):
    low, high = wilson(clear, n)
    return [f'<line x1="{x(called):.1f}" y1="{y(low):.1f}" x2="{x(called):.1f}" y2="{y(high):.1f}" stroke="#1b6"/>',
            f'<circle cx="{x(called):.1f}" cy="{y(clear):.1f}" r="{2 + math.sqrt(n) / 4:.1f}" fill="#1b6">'
            f'<title>{n} outbreaks: called {called:.0%}, clear {clear:.0%}</title></circle>']


def main():
    rows = read_rows(sys.stdin)
    if not rows:
        sys.exit("calibration_plot.py: no table on standard input; give it what the calibration test prints")
    total = sum(n for n, _, _ in rows)
    width, height = SIZE + 2 * MARGIN, SIZE + 2 * MARGIN
    print(f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {width} {height}" font-family="sans-serif" '
          f'font-size="12" role="img" aria-label="Reliability of {total} calls: dots near the line are right as '
          f'often as they say"><rect width="{width}" height="{height}" fill="#fff"/>')
    print("\n".join(axes() + [part for row in rows for part in dot(*row)]))
    print("</svg>")


main()
