#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Integrates a cook with SciPy's solve_ivp(method="BDF"), its equations compiled.

scipy_cook.py LIBRARY SCENE OUT stop|through REPETITIONS TOLERANCE...

For each tolerance a line on stdout: tolerance, median CPU seconds a cook, accepted steps, calls of
the equations. Temperatures at every whole minute go to OUT, one tolerance after the other, as
doubles. relative = tolerance, absolute = tolerance in kelvin, as CVODE gets them.
"""
import ctypes
import statistics
import sys
import time

import numpy
from scipy.integrate import solve_ivp

DOUBLES = ctypes.POINTER(ctypes.c_double)
SAME_TIME_S = 1e-7


def load(file):
    library = ctypes.CDLL(file)
    library.scene_open.restype = ctypes.c_void_p
    library.scene_open.argtypes = [ctypes.c_char_p, ctypes.c_int]
    library.scene_size.argtypes = [ctypes.c_void_p]
    library.scene_start.argtypes = [ctypes.c_void_p, DOUBLES]
    library.scene_enter.restype = ctypes.c_double
    library.scene_enter.argtypes = [ctypes.c_void_p, ctypes.c_double]
    for name in ("scene_start_s", "scene_end_s"):
        getattr(library, name).restype = ctypes.c_double
        getattr(library, name).argtypes = [ctypes.c_void_p]
    library.scene_slope.restype = None
    library.scene_slope.argtypes = [ctypes.c_void_p, ctypes.c_double, ctypes.c_void_p, ctypes.c_void_p]
    return library


class Cook:
    def __init__(self, library, scene, through):
        self.library = library
        self.handle = library.scene_open(scene.encode(), int(through))
        if not self.handle:
            sys.exit(scene + ": cannot be read")
        self.start_s = library.scene_start_s(self.handle)
        self.end_s = library.scene_end_s(self.handle)
        self.y0 = numpy.zeros(library.scene_size(self.handle))
        library.scene_start(self.handle, self.y0.ctypes.data_as(DOUBLES))
        self.calls = 0

    def slope(self, time_s, y):
        self.calls += 1
        state = numpy.ascontiguousarray(y)
        rate = numpy.empty_like(state)
        self.library.scene_slope(self.handle, time_s, state.ctypes.data, rate.ctypes.data)
        return rate

    def run(self, tolerance, dense):
        """Stretch by stretch; returns the solutions and the number of steps."""
        time_s, y, steps, pieces = self.start_s, self.y0, 0, []
        while time_s < self.end_s - SAME_TIME_S:
            cut_s = self.library.scene_enter(self.handle, time_s)
            solution = solve_ivp(self.slope, (time_s, cut_s), y, method="BDF", rtol=tolerance,
                                 atol=tolerance, dense_output=dense)
            if not solution.success:
                sys.exit("BDF gave up: " + solution.message)
            pieces.append(solution)
            time_s, y, steps = cut_s, solution.y[:, -1], steps + len(solution.t) - 1
        return pieces, steps


def minutes(cook, pieces):
    rows, piece = [cook.y0], 0
    count = round((cook.end_s - cook.start_s) / 60.0)
    for minute in range(1, count + 1):
        time_s = cook.start_s + 60.0 * minute
        while piece + 1 < len(pieces) and pieces[piece].t[-1] < time_s - SAME_TIME_S:
            piece += 1
        rows.append(pieces[piece].sol(min(time_s, pieces[piece].t[-1])))
    return numpy.array(rows)


def main():
    library_file, scene, out, joins, repetitions = sys.argv[1:6]
    library = load(library_file)
    with open(out, "wb") as states:
        for tolerance in map(float, sys.argv[6:]):
            cook = Cook(library, scene, joins == "through")
            pieces, steps = cook.run(tolerance, dense=True)
            states.write(minutes(cook, pieces).tobytes())
            calls, spent_s = cook.calls, []
            for _ in range(int(repetitions)):
                cook = Cook(library, scene, joins == "through")
                before_s = time.process_time()
                cook.run(tolerance, dense=False)
                spent_s.append(time.process_time() - before_s)
            print(tolerance, statistics.median(spent_s), steps, calls, flush=True)


if __name__ == "__main__":
    main()
