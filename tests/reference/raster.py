"""Two ways to a picture of numbered faces: painting polygons in order, and a depth buffer of triangles.

Pixels are looked at in their middles; 0 is the ground, faces count from 1.
"""

import numpy as np


def box(points, size):
    """The pixels whose middles lie in the box around the points: columns and rows from, to."""
    low = np.ceil(points.min(axis=0) - 0.5).astype(int)
    high = np.floor(points.max(axis=0) - 0.5).astype(int) + 1
    low, high = np.maximum(low, 0), np.minimum(high, size)
    return (low[0], high[0], low[1], high[1]) if (low < high).all() else None


def paint(image, rings, number):
    """Fills rings after the even-odd rule."""
    span = box(np.concatenate(rings), image.shape[1])
    if span is None:
        return
    left, right, top, bottom = span
    starts = np.concatenate(rings)
    ends = np.concatenate([np.roll(ring, -1, axis=0) for ring in rings])
    rows = np.arange(top, bottom) + 0.5
    columns = np.arange(left, right) + 0.5
    crosses = (starts[:, 1:] <= rows) != (ends[:, 1:] <= rows)
    with np.errstate(divide="ignore", invalid="ignore"):
        share = (rows - starts[:, 1:]) / (ends[:, 1:] - starts[:, 1:])
        at = starts[:, :1] + share * (ends[:, :1] - starts[:, :1])
    passed = crosses[:, :, None] & (at[:, :, None] > columns)
    inside = passed.sum(axis=0) % 2 == 1
    image[top:bottom, left:right][inside] = number


class DepthBuffer:
    """Keeps at each pixel the face nearest to the eye."""

    def __init__(self, size):
        self.image = np.zeros((size, size), int)
        self.nearness = np.full((size, size), -np.inf)

    def triangle(self, corners, nearness, number):
        """Draws one triangle: corners in pixels, and how near each is to the eye."""
        a, b, c = corners
        area = cross(b - a, c - a)
        span = box(corners, self.image.shape[0])
        if span is None or abs(area) < 1e-12:
            return
        left, right, top, bottom = span
        x, y = np.meshgrid(np.arange(left, right) + 0.5, np.arange(top, bottom) + 0.5)
        p = np.stack([x, y], axis=-1)
        of_b, of_c = cross(p - a, c - a) / area, cross(b - a, p - a) / area
        inside = (of_b >= 0) & (of_c >= 0) & (of_b + of_c <= 1)
        near = nearness[0] + of_b * (nearness[1] - nearness[0]) + of_c * (nearness[2] - nearness[0])
        best = self.nearness[top:bottom, left:right]
        wins = inside & (near > best)
        best[wins] = near[wins]
        self.image[top:bottom, left:right][wins] = number


def cross(u, v):
    return u[..., 0] * v[..., 1] - u[..., 1] * v[..., 0]


def away_from_edges(image):
    """Pixels all of whose eight neighbours show the same face."""
    calm = np.ones(image.shape, bool)
    calm[0, :] = calm[-1, :] = calm[:, 0] = calm[:, -1] = False
    middle = image[1:-1, 1:-1]
    rows, columns = image.shape
    for down in range(3):
        for along in range(3):
            other = image[down : rows - 2 + down, along : columns - 2 + along]
            calm[1:-1, 1:-1] &= other == middle
    return calm
