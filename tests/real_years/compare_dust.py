# SPDX-License-Identifier: MIT
"""Holds our dust between washings against pvlib.soiling.kimber with the same rain and washings."""
import subprocess
import sys

import numpy as np
import pandas as pd
import pvlib

rows = subprocess.run([sys.argv[1]], capture_output=True, text=True, check=True).stdout.split()
rain_mm, ours = np.array([[float(x) for x in row.split(",")] for row in rows]).T
days = len(ours)
# pvlib's year is no ring: it gets ours twice, and the second time counts.
index = pd.date_range("2001-01-01", periods=2 * days, freq="D")
washed = [index[d] for d in range(2 * days) if d % days % 73 == 0]
theirs = pvlib.soiling.kimber(
    pd.Series(np.tile(rain_mm, 2), index=index), cleaning_threshold=6, soiling_loss_rate=0.0015, grace_period=14,
    max_soiling=0.3, manual_wash_dates=[day.date() for day in washed]).to_numpy()[days:]
worst = np.abs(ours - theirs).max()
print(f"pvlib {pvlib.__version__}: {np.count_nonzero(rain_mm > 6)} days of cleaning rain, "
      f"most dust {ours.max():.4f}, largest difference {worst:.1e}")
assert ours.max() > 0.02, "the year has too little dust to compare"
sys.exit(0 if worst < 1e-12 else 1)
