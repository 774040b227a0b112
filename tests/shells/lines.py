"""Where mesh lines go along one direction."""

import numpy as np

SAME_M = 1e-7


def unique(values):
    """Sorted, without those that are the same."""
    out = []
    for value in sorted(values):
        if not out or value - out[-1] > SAME_M:
            out.append(float(value))
    return out


def lines(breaks, size):
    """Corner positions through all `breaks`; `size` is a length or a function giving it anywhere."""
    breaks = unique(breaks)
    out = [breaks[0]]
    for a, b in zip(breaks, breaks[1:]):
        x = np.linspace(a, b, 201)
        s = np.full(201, size) if np.isscalar(size) else size(x)
        density = np.concatenate([[0], np.cumsum((1 / s[1:] + 1 / s[:-1]) / 2 * np.diff(x))])
        count = max(1, int(np.ceil(density[-1] - 0.05)))
        out += list(np.interp(np.arange(1, count) / count * density[-1], density, x)) + [b]
    return np.array(out)


def graded(features, largest, growth=0.25):
    """A size that is `size` at each feature (position, size) and grows away from it up to `largest`."""
    places, sizes = (np.array(v, float) for v in zip(*features))

    def size(x):
        return np.minimum(largest, (sizes[None] + growth * abs(np.asarray(x)[:, None] - places[None])).min(axis=1))

    return size


def with_middles(corners):
    """Corners and the points midway between them."""
    out = np.empty(2 * len(corners) - 1)
    out[::2] = corners
    out[1::2] = (corners[1:] + corners[:-1]) / 2
    return out


def index_of(corners, value):
    """Index of the line at a value."""
    k = int(np.argmin(abs(np.asarray(corners) - value)))
    if abs(corners[k] - value) > SAME_M:
        raise ValueError(f"no mesh line at {value}")
    return k
