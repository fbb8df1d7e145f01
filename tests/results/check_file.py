# SPDX-License-Identifier: MIT
"""Opens a season with h5py alone and checks that every array can be understood without us."""
import sys

import h5py

bad = []


def check(truth, what):
    if not truth:
        bad.append(what)


def each(name, item):
    if not isinstance(item, h5py.Dataset):
        return
    check(isinstance(item.attrs.get("long_name"), str), f"{name}: no long_name")
    is_text = h5py.check_string_dtype(item.dtype) is not None
    if not is_text and "flag_values" not in item.attrs:
        check(isinstance(item.attrs.get("units"), str), f"{name}: no units")
    if h5py.h5ds.is_scale(item.id):
        return
    for axis, dimension in enumerate(item.dims):
        check(len(dimension) == 1, f"{name}: axis {axis} has no scale")
        if len(dimension) == 1:
            check(dimension[0].shape == (item.shape[axis],), f"{name}: axis {axis} scale is off")
    if not is_text and item.size * item.dtype.itemsize > 64:
        check(item.fletcher32, f"{name}: no checksum")


with h5py.File(sys.argv[1], "r") as season:
    check(season.attrs["Conventions"] == "CF-1.8", "Conventions")
    season.visititems(each)
    names = list(season["task"].asstr()[:])
    check(names[0] == "Rice", f"task names: {names}")
    outcome = season["outcome"]
    check([d[0].name for d in outcome.dims] == ["/task", "/day"], "outcome's dimensions")
    check(len(outcome.attrs["flag_meanings"].split()) == len(outcome.attrs["flag_values"]), "flags")
    check((outcome[4] >= 2).all(), "the last made task is never cooked")
    done = outcome[:] == 0
    load = season["load_s"][:]
    check((load[done] > 0).all(), "a cooked day has a loading time")
    check((load[4] != load[4]).all(), "NaN where there was none")
    check((season["days_cooked"][:].sum(axis=1) == done.sum(axis=1)).all(), "days by month")
    check("Madeville" in season["inputs/case_text"].asstr()[()], "case text")
    check(abs(season["latitude"][()] - 39.25) < 1e-9, "latitude in degrees")

print("\n".join(bad))
sys.exit(1 if bad else 0)
