# SPDX-License-Identifier: MIT
"""Headless Chromium spoken to over its DevTools pipe: JSON messages ended by a zero byte on file
descriptors 3 and 4. Nothing but Python's own library."""
import base64
import json
import os
import re
import select
import shutil
import subprocess
import tempfile
import time


def find():
    """The browser's path, or None."""
    for name in ("chromium", "chromium-browser", "google-chrome"):
        if shutil.which(name):
            return shutil.which(name)
    return None


class Browser:
    """One page in one browser, ended with `with`."""

    def __init__(self, program, seconds=40):
        self.until = time.monotonic() + seconds
        self.profile = tempfile.mkdtemp(prefix="ovendays_browser_")
        to_us, self.theirs_out = os.pipe()
        theirs_in, self.to_them = os.pipe()
        # The child wants 3 for reading and 4 for writing; lifted out of the way first.
        read_end, write_end = os.dup(theirs_in), os.dup(self.theirs_out)

        def place():
            high_in, high_out = os.dup(read_end), os.dup(write_end)
            os.dup2(high_in, 3)
            os.dup2(high_out, 4)
            os.set_inheritable(3, True)
            os.set_inheritable(4, True)

        self.process = subprocess.Popen(
            [program, "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
             "--remote-debugging-pipe", f"--user-data-dir={self.profile}", "about:blank"],
            preexec_fn=place, close_fds=False,
            stdin=subprocess.DEVNULL, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
        for end in (theirs_in, self.theirs_out, read_end, write_end):
            os.close(end)
        self.from_them = to_us
        self.rest = b""
        self.count = 0
        self.errors = []
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        self.session = self.call("Target.attachToTarget", targetId=target, flatten=True)["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.call(domain + ".enable")

    def __enter__(self):
        return self

    def __exit__(self, *ignored):
        self.process.terminate()
        try:
            self.process.wait(5)
        except subprocess.TimeoutExpired:
            self.process.kill()
            self.process.wait()
        os.close(self.to_them)
        os.close(self.from_them)
        shutil.rmtree(self.profile, ignore_errors=True)

    def message(self):
        while b"\0" not in self.rest:
            left = self.until - time.monotonic()
            if left <= 0 or not select.select([self.from_them], [], [], left)[0]:
                raise TimeoutError("the browser does not answer")
            block = os.read(self.from_them, 1 << 20)
            if not block:
                raise RuntimeError("the browser is gone")
            self.rest += block
        first, self.rest = self.rest.split(b"\0", 1)
        told = json.loads(first)
        self.note(told)
        return told

    def note(self, told):
        """Keeps what a page says in its console that it should not, and what it fetches."""
        method, given = told.get("method"), told.get("params", {})
        if method == "Runtime.exceptionThrown":
            self.errors.append(given["exceptionDetails"]["text"])
        if method == "Runtime.consoleAPICalled" and given["type"] in ("error", "warning"):
            self.errors.append(str(given["args"]))
        if method == "Log.entryAdded" and given["entry"]["level"] in ("error", "warning"):
            self.errors.append(given["entry"]["text"])
        if method == "Network.requestWillBeSent":
            url = given["request"]["url"]
            if not url.startswith(("file:", "data:", "about:")):
                self.errors.append("fetches " + url)

    def call(self, method, **given):
        self.count += 1
        whole = {"id": self.count, "method": method, "params": given}
        if getattr(self, "session", None):
            whole["sessionId"] = self.session
        data = json.dumps(whole).encode() + b"\0"
        while data:
            data = data[os.write(self.to_them, data):]
        while True:
            told = self.message()
            if told.get("id") == self.count:
                if "error" in told:
                    raise RuntimeError(f"{method}: {told['error']['message']}")
                return told["result"]

    def size(self, width, height=900, phone=False):
        self.call("Emulation.setDeviceMetricsOverride", width=width, height=height,
                  deviceScaleFactor=1, mobile=phone)

    def media(self, scheme="light", kind=""):
        self.call("Emulation.setEmulatedMedia", media=kind,
                  features=[{"name": "prefers-color-scheme", "value": scheme}])

    def open(self, file):
        self.call("Page.navigate", url="file://" + os.path.abspath(file))
        while self.message().get("method") != "Page.loadEventFired":
            pass

    def ask(self, expression):
        """The value of a JavaScript expression in the page."""
        told = self.call("Runtime.evaluate", expression=expression, returnByValue=True)
        if "exceptionDetails" in told:
            raise RuntimeError(str(told["exceptionDetails"]))
        return told["result"].get("value")

    def picture(self, file, clip=None):
        """A PNG of the whole page, or of [x, y, width, height]."""
        if clip is None:
            clip = [0, 0, self.ask("document.documentElement.clientWidth"),
                    self.ask("document.documentElement.scrollHeight")]
        area = dict(zip(("x", "y", "width", "height"), clip), scale=1)
        told = self.call("Page.captureScreenshot", clip=area, captureBeyondViewport=True)
        with open(file, "wb") as out:
            out.write(base64.b64decode(told["data"]))

    def paper(self, file=None):
        """The page as PDF on A4, kept in a file where one is named. Returns the number of sheets."""
        told = self.call("Page.printToPDF", preferCSSPageSize=True, printBackground=False,
                         paperWidth=8.27, paperHeight=11.69)
        data = base64.b64decode(told["data"])
        if file:
            with open(file, "wb") as out:
                out.write(data)
        return len(re.findall(rb"/Type\s*/Page\b", data))
