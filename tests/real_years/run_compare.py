#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Runs compare.py under the Python that has pvlib; exit 77 (skipped) where there is none."""
import os
import subprocess
import sys

python = sys.argv[1]
if not os.path.exists(python):
    print("SKIPPED: no pvlib here (pip could not reach its registry, or tests/run.sh did not make the environment)")
    sys.exit(77)
if subprocess.run([python, "-c", "import pvlib"], capture_output=True).returncode != 0:
    print("SKIPPED: pvlib cannot be imported")
    sys.exit(77)
sys.exit(subprocess.run([python] + sys.argv[2:]).returncode)
