# SPDX-License-Identifier: GPL-3.0-or-later
"""The oracle's lenses and cameras (handbook 2 to 4): where a point lands, and how densely."""
import math

import numpy as np


class Unsupported(Exception):
    """The oracle does not answer for what it does not know."""


# ---- lenses (handbook 3) --------------------------------------------------------------------

FAMILIES = {"rectilinear": 1.0, "stereographic": 0.5, "equidistant": 0.0, "equisolid": -0.5,
            "orthographic": -1.0}


def unit_radius(k, theta):
    """r / F at an angle from the axis."""
    if abs(k) < 1e-9:
        return theta
    if k > 0:
        return math.tan(k * theta) / k
    return math.sin(-k * theta) / -k


def fitted_k(half_h, half_v, width, height):
    """k for which both stated fields of view hold, by bisection: tan bends more as k grows."""
    def surplus(k):
        return unit_radius(k, half_h) * height - unit_radius(k, half_v) * width
    low, high = -1.0, 1.0
    if surplus(low) * surplus(high) > 0:
        raise Unsupported("no k gives both fields of view")
    for _ in range(200):
        mid = 0.5 * (low + high)
        if surplus(low) * surplus(mid) <= 0:
            high = mid
        else:
            low = mid
    return 0.5 * (low + high)


def lens_end(lens, end, pixels):
    """(F, k) at one end of the zoom."""
    def value(key):
        values = lens.get(key)
        return None if not values else values[min(end, len(values) - 1)]
    if lens.get("dfov_deg") or lens.get("coefficients"):
        raise Unsupported("lens")
    half_h = math.radians(value("hfov_deg")) / 2
    family = lens.get("family", "rectilinear")
    if family == "fitted":
        k = fitted_k(half_h, math.radians(value("vfov_deg")) / 2, *pixels)
    elif family in FAMILIES:
        if lens.get("vfov_deg"):
            raise Unsupported("a named family with two fields of view")
        k = FAMILIES[family]
    else:
        raise Unsupported(family)
    return pixels[0] / 2 / unit_radius(k, half_h), k


def lens_at(model_imager, aim):
    """(F, k) at the aim's zoom: between the ends both go linearly with focal length."""
    lens, pixels = model_imager["lens"], model_imager["pixels"]
    wide, tele = lens_end(lens, 0, pixels), lens_end(lens, 1, pixels)
    if wide == tele:
        return wide
    def between(s):
        return wide[0] + s * (tele[0] - wide[0]), wide[1] + s * (tele[1] - wide[1])
    if "focal_mm" in aim:
        ends = lens["focal_mm"]
        return between((aim["focal_mm"] - ends[0]) / (ends[1] - ends[0]))
    if "hfov_deg" not in aim:
        return wide
    half = math.radians(aim["hfov_deg"]) / 2
    low, high = 0.0, 1.0  # F grows with s, so the field shrinks
    for _ in range(200):
        mid = 0.5 * (low + high)
        f, k = between(mid)
        if f * unit_radius(k, half) < pixels[0] / 2:
            low = mid
        else:
            high = mid
    return between(0.5 * (low + high))


# ---- cameras --------------------------------------------------------------------------------

class Imager:
    """One imager as it hangs, on the stream that a requirement is judged on."""

    def __init__(self, housing, written, model, mount_model, stream):
        slot = written.get("slot", 1)
        self.name = f"{housing['id']}.{slot}"
        self.housing = housing["id"]
        part = next(m for m in model["imagers"] if m.get("slot", 1) == slot)
        aims = written.get("aims", [{}])
        if len(aims) != 1:
            raise Unsupported("several aims")
        aim = aims[0]
        self.pixels = part["pixels"]
        self.f, self.k = lens_at(part, aim)
        lens = part["lens"]
        self.centre = (lens.get("centre_x_px", self.pixels[0] / 2),
                       lens.get("centre_y_px", self.pixels[1] / 2))
        if part.get("delivered", {"centre": 1, "corner": 1}) != {"centre": 1, "corner": 1}:
            raise Unsupported("delivered")
        # Handbook 2: pan clockwise from +y, tilt down, roll clockwise seen from behind.
        pan = math.radians(aim.get("pan_deg", 0))
        tilt = math.radians(aim.get("tilt_deg", 0))
        roll = math.radians(aim.get("roll_deg", 0))
        forward = np.array([math.sin(pan) * math.cos(tilt), math.cos(pan) * math.cos(tilt),
                            -math.sin(tilt)])
        right = np.array([math.cos(pan), -math.sin(pan), 0.0])
        down = np.cross(forward, right)
        self.right = math.cos(roll) * right + math.sin(roll) * down
        self.down = math.cos(roll) * down - math.sin(roll) * right
        self.forward = forward
        mount = housing["mount"]
        if mount.get("base_tilt_deg", 0):
            raise Unsupported("tilted base")
        lens_point = np.array(mount.get("fixing_m", [0, 0, 0]), float)
        if mount_model:
            base = math.radians(mount.get("base_bearing_deg", 0))
            reach = mount_model.get("reach_m", 0)
            lens_point += [reach * math.sin(base), reach * math.cos(base),
                           -mount_model.get("drop_m", 0)]
        outward, rightward, up = part.get("offset_m", [0, 0, 0])
        lens_point += (outward * np.array([math.sin(pan), math.cos(pan), 0]) +
                       rightward * np.array([math.cos(pan), -math.sin(pan), 0]) +
                       np.array([0, 0, up]))
        self.lens_point = lens_point
        w, h = self.pixels
        margin = written.get("margin_px", 0)
        self.low, self.high = np.array([0.0, 0.0]), np.array([float(w), float(h)])
        self.scale = np.array([1.0, 1.0])
        if stream:
            if stream.get("view", "whole") == "crop":
                x0, y0, x1, y1 = stream["region"]
                self.low, self.high = np.array([x0 * w, y0 * h]), np.array([x1 * w, y1 * h])
                if margin:
                    raise Unsupported("a margin on a crop")
            elif stream.get("view", "whole") != "whole":
                raise Unsupported(stream["view"])
            # An enlarged picture holds no more than the sensor captured.
            self.scale = np.minimum(1, np.array(stream["size_px"], float) / (self.high - self.low))
        self.low = self.low + margin
        self.high = self.high - margin
        self.masks = [np.array(mask, float) * [w, h] for mask in written.get("masks", [])]

    def project(self, points):
        """Captured pixels of points (n, 3); NaN where the lens maps nothing."""
        d = points - self.lens_point
        x, y, z = d @ self.right, d @ self.down, d @ self.forward
        across = np.hypot(x, y)
        theta = np.arctan2(across, z)
        with np.errstate(invalid="ignore", divide="ignore"):
            if abs(self.k) < 1e-9:
                r = self.f * theta
            elif self.k > 0:
                a = self.k * theta
                r = np.where(a < math.pi / 2, self.f / self.k * np.tan(a), np.nan)
            else:
                a = -self.k * theta
                r = np.where(a <= math.pi / 2, self.f / -self.k * np.sin(a), np.nan)
            u = self.centre[0] + np.where(across > 0, r * x / across, 0)
            v = self.centre[1] + np.where(across > 0, r * y / across, 0)
        return np.stack([np.where(np.isnan(r), np.nan, u), np.where(np.isnan(r), np.nan, v)], -1)

    def density(self, points):
        """Pixels of the judged stream per metre along the horizontal tangent (handbook 4)."""
        d = points - self.lens_point
        flat = np.hypot(d[:, 0], d[:, 1])
        safe = np.where(flat > 0, flat, 1)
        tangent = np.stack([-d[:, 1] / safe, d[:, 0] / safe, np.zeros_like(flat)], -1)
        # Straight below, where the tangent is undefined: the picture's right or down, whichever is
        # nearer to level, laid level (handbook 19).
        level = min((self.right, self.down), key=lambda axis: abs(axis[2])) * [1, 1, 0]
        tangent[flat == 0] = level / np.linalg.norm(level)
        step = 1e-4 * np.maximum(1.0, np.linalg.norm(d, axis=1))[:, None]
        change = (self.project(points + step * tangent) - self.project(points - step * tangent))
        return np.hypot(*(change * self.scale / (2 * step)).T)
