#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Whole typical years: our reader and our sky against pvlib's.

Usage: compare.py PLANE_DUMP MONTHLY_CSV
Files: the TMY3 years in pvlib's own wheel (NREL, public data). Checks, per file:
- all 8,760 hours of GHI, DNI, DHI, dry bulb and wind are pvlib's;
- monthly sums equal the reference table to its printed digits;
- plane-of-array irradiance (Perez 1990, albedo 0.2) on three planes: annual sum within 0.5 %, 1 W/m2 rms.
pvlib's sun is NREL's SPA at the middle of the hour; ours is our own.
"""
import csv
import io
import pathlib
import subprocess
import sys

import numpy as np
import pandas as pd
import pvlib

PLANES = [(30.0, 180.0), (60.0, 135.0), (90.0, 270.0)]


def ours(dump, path):
    text = subprocess.run([dump, str(path)] + [f"{t:g}:{a:g}" for t, a in PLANES],
                          check=True, capture_output=True, text=True).stdout
    names = ["year", "month", "day", "hour", "ghi", "dni", "dhi", "temp", "wind", "zenith", "azimuth", "p0", "p1", "p2"]
    return pd.read_csv(io.StringIO(text), header=None, names=names)


def theirs(path):
    raw = pd.read_csv(path, skiprows=1)
    with open(path) as stream:
        site = next(csv.reader(stream))
    zone, latitude, longitude, elevation = float(site[3]), float(site[4]), float(site[5]), float(site[6])
    dates = pd.to_datetime(raw["Date (MM/DD/YYYY)"], format="%m/%d/%Y")
    hours = raw["Time (HH:MM)"].str[:2].astype(int)
    middle = dates + pd.to_timedelta(hours - 0.5, unit="h") - pd.to_timedelta(zone, unit="h")
    index = pd.DatetimeIndex(middle).tz_localize("UTC")
    pressure = raw["Pressure (mbar)"].to_numpy() * 100.0
    sun = pvlib.solarposition.spa_python(index, latitude, longitude, elevation, pressure=pressure,
                                         temperature=raw["Dry-bulb (C)"].to_numpy())
    return raw, dates, index, sun


def planes(raw, index, sun):
    extra = pvlib.irradiance.get_extra_radiation(index, method="nrel", solar_constant=1366.1).to_numpy()
    zenith = sun["apparent_zenith"].to_numpy()
    air_mass = pvlib.atmosphere.get_relative_airmass(zenith)
    out = []
    for tilt, azimuth in PLANES:
        total = pvlib.irradiance.get_total_irradiance(
            tilt, azimuth, zenith, sun["azimuth"].to_numpy(), raw["DNI (W/m^2)"].to_numpy(float),
            raw["GHI (W/m^2)"].to_numpy(float), raw["DHI (W/m^2)"].to_numpy(float), dni_extra=extra,
            airmass=air_mass, albedo=0.2, model="perez")
        out.append(np.nan_to_num(np.asarray(total["poa_global"], float)))
    return out


def check_months(name, mine, table):
    worst = 0.0
    for row in table:
        if row["file"] != name or row["month"] == "year":
            continue
        part = mine[mine["month"] == int(row["month"])]
        for column, key in (("ghi_kwh_m2", "ghi"), ("dni_kwh_m2", "dni"), ("dhi_kwh_m2", "dhi")):
            worst = max(worst, abs(part[key].sum() / 1000.0 - float(row[column])))
        worst = max(worst, abs(part["temp"].mean() - float(row["dry_bulb_mean_c"])))
    return worst


def main():
    dump, monthly = sys.argv[1], sys.argv[2]
    with open(monthly) as stream:
        table = list(csv.DictReader(line for line in stream if not line.startswith("#")))
    failed = False

    def judge(text, value, limit):
        nonlocal failed
        good = value <= limit
        failed = failed or not good
        print(f"{'ok  ' if good else 'FAIL'} {text}: {value:.5g} (limit {limit:g})")

    folder = pathlib.Path(pvlib.__file__).parent / "data"
    for name in ("703165TY.csv", "723170TYA.CSV"):
        if not (folder / name).exists():
            print(f"SKIPPED: {name} is not in this pvlib")
            continue
        mine = ours(dump, folder / name)
        raw, _, index, sun = theirs(folder / name)
        for key, column in (("ghi", "GHI (W/m^2)"), ("dni", "DNI (W/m^2)"), ("dhi", "DHI (W/m^2)"),
                            ("temp", "Dry-bulb (C)"), ("wind", "Wspd (m/s)")):
            judge(f"{name} {key}, largest difference over {len(mine)} hours",
                  float(np.max(np.abs(mine[key].to_numpy() - raw[column].to_numpy(float)))), 1e-3)
        judge(f"{name} monthly sums and means, largest difference", check_months(name, mine, table), 6e-4)
        up = sun["apparent_zenith"].to_numpy() < 89.0
        judge(f"{name} sun above 1 deg, largest zenith difference [deg]",
              float(np.max(np.abs(mine["zenith"].to_numpy() - sun["apparent_zenith"].to_numpy())[up])), 0.01)
        for i, reference in enumerate(planes(raw, index, sun)):
            own = mine[f"p{i}"].to_numpy()
            judge(f"{name} plane {PLANES[i]} annual sum, relative difference",
                  abs(own.sum() / reference.sum() - 1.0), 0.005)
            judge(f"{name} plane {PLANES[i]} rms [W/m2]", float(np.sqrt(np.mean((own - reference) ** 2))), 1.0)
    sys.exit(1 if failed else 0)


main()
