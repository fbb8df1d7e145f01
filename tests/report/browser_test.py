# SPDX-License-Identifier: MIT
"""The demo's report in a real browser, headless Chromium: no errors in its console and nothing
fetched; the answer is there; nothing runs over the edge of a telephone or a screen; every task can
be chosen without a script; the numbers in the table are those in the season's file, read with h5py. The pages of a day and of
an aiming card keep within their edges too, and on one sheet of paper.
Usage: browser_test.py OVENDAYS SEASON.h5. Exit code 77: SKIPPED, with the reason."""
import html
import os
import re
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
import browser  # noqa: E402

WIDTHS = (380, 1200)
bad = []


def check(truth, what):
    if not truth:
        bad.append(what)


def skip(why):
    print("SKIPPED: " + why)
    sys.exit(77)


# Whatever is wider than the page, or reaches beyond its edges, and is not out of sight by intent.
OVERFLOW = """(() => {
  const wide = document.documentElement.clientWidth, out = [];
  if (document.documentElement.scrollWidth > wide) out.push("page " + document.documentElement.scrollWidth);
  for (const e of document.querySelectorAll("body *")) {
    const r = e.getBoundingClientRect(), style = getComputedStyle(e);
    if (r.width === 0 || style.opacity === "0" || style.clipPath !== "none") continue;
    if (e.ownerSVGElement && e.closest("svg").getBoundingClientRect().width === 0) continue;
    if (r.left < -1 || r.right > wide + 1) out.push(e.tagName + "." + e.getAttribute("class") + " " + r.left + ".." + r.right);
  }
  return out.slice(0, 5);
})()"""

# The table as numbers, a row a task: twelve months and the year.
TABLE = """[...document.querySelectorAll("#days tbody tr")].map(row => ({
  name: row.querySelector("th").textContent,
  days: [...row.querySelectorAll("td:not(.range)")].map(cell => Number(cell.textContent)),
  likely: row.querySelector("td.range").textContent}))"""

PANELS = """[...document.querySelectorAll(".panel")].map(
  panel => getComputedStyle(panel).display !== "none")"""


def numbers_of(file):
    """Days cooked by task and month, counted from the outcomes of the file, and the likely range."""
    import h5py
    length = (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)
    with h5py.File(file, "r") as season:
        names = list(season["task"].asstr()[:])
        cooked = season["outcome"][:] == 0
        likely = [f"{low:.0f}-{high:.0f}"
                  for low, high in zip(season["days_p10"][:], season["days_p90"][:])]
    tasks = []
    for name, days, span in zip(names, cooked, likely):
        months, start = [], 0
        for days_in_month in length:
            months.append(int(days[start:start + days_in_month].sum()))
            start += days_in_month
        tasks.append({"name": name, "days": months + [int(days.sum())], "likely": span})
    return tasks


def look(page, answer, expected, width):
    told = html.unescape(page.ask("document.querySelector('h1').innerText"))
    check(told.split() == answer.split(), f"{width}: the answer reads '{told}'")
    check(page.ask("document.querySelector('h1').getBoundingClientRect().top") < 300,
          f"{width}: the answer does not stand at the top")
    check(page.ask(TABLE) == expected, f"{width}: the table differs from the file")
    for task in range(len(expected)):
        page.ask(f"document.querySelector('label[for=pick{task}]').click()")
        shown = page.ask(PANELS)
        check(shown == [i == task for i in range(len(expected))],
              f"{width}: task {task} chosen, panels shown: {shown}")
        over = page.ask(OVERFLOW)
        check(not over, f"{width}, task {task}: over the edge: {over}")


def look_at_day(page, program, folder):
    """The pages of day and aim: nothing over the edge."""
    for words in (["day", "--task", "bread"], ["aim", "--declination", "8E"]):
        file = os.path.join(folder, words[0] + ".html")
        subprocess.run([program, words[0], "--demo", "--date", "04-21", *words[1:], "--html", file],
                       check=True, capture_output=True)
        for width in WIDTHS:
            page.size(width, phone=width < 600)
            page.open(file)
            check("21 April" in page.ask("document.body.innerText"), f"{words[0]}: no date")
            over = page.ask(OVERFLOW)
            check(not over, f"{words[0]}, {width}: over the edge: {over}")
        sheets = page.paper()
        check(sheets == 1, f"{words[0]}: on paper {sheets} sheets")


def main():
    program, season = sys.argv[1], sys.argv[2]
    chromium = browser.find()
    if chromium is None:
        skip("no Chromium")
    try:
        expected = numbers_of(season)
    except ImportError:
        skip("python3 has no h5py")
    with tempfile.TemporaryDirectory() as folder:
        report = os.path.join(folder, "report.html")
        said = subprocess.run([program, "report", season, "--html", report],
                              check=True, capture_output=True, text=True).stdout
        answer = said.split("\n\n")[0]
        check(re.match(r"At this spot .+\.$", answer, re.S), f"no answer: {answer}")
        with browser.Browser(chromium) as page:
            for width in WIDTHS:
                for scheme in ("light", "dark"):
                    page.size(width, phone=width < 600)
                    page.media(scheme)
                    page.open(report)
                    look(page, answer, expected, width)
            page.media(kind="print")
            check(all(page.ask(PANELS)), "on paper every task is shown")
            page.media()
            look_at_day(page, program, folder)
            check(not page.errors, f"console: {page.errors}")
    print("\n".join(bad) or "as it should be")
    sys.exit(1 if bad else 0)


if __name__ == "__main__":
    main()
