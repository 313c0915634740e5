"""The cases of cases.ts in Python: which pixels are learned from, and what a head is told of a pixel beside the network's layers.

Read by layers.py and heads.py; it is not run by itself.

Units    CIELAB; log odds of rust; radii in px
Source   our own; the 33 inputs are those of src/core/vision/rust-model.ts
Status   a trial; nothing of it is in use
"""
import json
from dataclasses import dataclass

import numpy as np

CELL_PX = 4
CELL_VALUES = 18


@dataclass
class Case:
    n: int
    kind: str
    id: str
    start: int
    own: dict
    rgb: np.ndarray
    rust: np.ndarray
    counted: np.ndarray
    by_colour: np.ndarray
    lightness: np.ndarray
    a: np.ndarray
    b: np.ndarray
    cells: np.ndarray
    # The part that a head leaves out -> log odds of the present network for it.
    log_odds_by_part: dict


def cases(folder):
    """The cases of a folder, in the order in which they were made."""
    for line in open(f"{folder}/index.jsonl"):
        yield read(folder, json.loads(line))


def read(folder, row):
    data = open(f"{folder}/{row['n']}.bin", "rb").read()
    size = row["heightPx"], row["widthPx"]
    taken = 0

    def take(kind, *shape):
        nonlocal taken
        values = np.frombuffer(data, kind, int(np.prod(shape)), taken).reshape(shape)
        taken += values.nbytes
        return values

    rgb = take(np.uint8, *size, 3)
    rust, counted, by_colour = (take(np.uint8, *size) for _ in range(3))
    lightness, a, b = (take(np.float32, *size) for _ in range(3))
    cells = take(np.float32, row["cellRows"], row["cellColumns"], CELL_VALUES)
    log_odds_by_part = {part: take(np.float32, *size) for part in row["parts"]}
    assert taken == len(data)
    told = (row[name] for name in ("n", "kind", "id", "start", "own"))
    return Case(*told, rgb, rust > 0, counted > 0, by_colour, lightness, a, b, cells, log_odds_by_part)


LEAST_COUNTED_PX = 50
WHOLE_PICTURES = ("as it is", "equalised", "strong light", "paint", "light")
WEIGHTS = {
    "as it is": 1,
    "equalised": 0.5,
    "strong light": 0.4,
    "paint": 0.4,
    "light": 0.5,
    "all rust": 0.3,
    "all rust, equalised": 0.2,
    "all rust, strong light": 0.2,
    "clean window": 0.25,
    "clean window, equalised": 0.2,
    "clean window, dark metal": 0.1,
    "clean window, dark metal in warm light": 0.1,
    "clean window, JPEG 50": 0.1,
    "clean window, orange paint": 0.15,
    "clean window, paint": 0.15,
    "clean mill scale, neutral": 0.1,
    "clean mill scale, warm": 0.1,
    "rendered: clean face, neutral": 0.2,
    "rendered: clean face, warm": 0.2,
    "rendered: spots on a face": 0.2,
}


def learned_pixels(case):
    """Rows, columns, whether rust, and weights of the pixels learned from, the same at each call; None where too few are counted.

    Half of them are rust where there is enough; weights lie between fair by area and fair by kind, as in samples.ts.
    """
    if case.counted.sum() < LEAST_COUNTED_PX:
        return None
    random = np.random.default_rng(case.n)
    clean, rusty = np.flatnonzero(case.counted & ~case.rust), np.flatnonzero(case.counted & case.rust)
    pixels = 2400 if case.kind == "as it is" else 1200 if case.kind in WHOLE_PICTURES else 400
    rusty_pixels = min(len(rusty), pixels // 2) if len(clean) else pixels
    at, is_rust, weights = [], [], []
    for rust, places, count in ((0, clean, pixels - rusty_pixels), (1, rusty, rusty_pixels)):
        if count == 0 or len(places) == 0:
            continue
        at.append(random.choice(places, count))
        is_rust.append(np.full(count, rust, np.float32))
        share = len(places) / (len(clean) + len(rusty))
        weights.append(np.full(count, np.sqrt(share / (count / pixels))))
    weights = np.concatenate(weights)
    rows, columns = np.divmod(np.concatenate(at), case.rust.shape[1])
    scaled = (weights / weights.sum() * WEIGHTS[case.kind]).astype(np.float32)
    return rows, columns, np.concatenate(is_rust), scaled


def inputs_at(case, rows, columns):
    """The present network's 33 inputs, one row a pixel: those of inputsAt in src/core/vision/rust-model.ts, in its order."""
    own = case.own
    lightness, a, b = (plane[rows, columns] for plane in (case.lightness, case.a, case.b))
    chroma = np.hypot(a, b)
    of_pixel = [
        lightness,
        a,
        b,
        chroma,
        a / (8 + chroma),
        b / (8 + chroma),
        a / (12 + lightness),
        b / (12 + lightness),
        case.by_colour[rows, columns].astype(np.float32),
        (lightness - own["medianLightness"]) / own["spreadLightness"],
        lightness / (5 + own["brightLightness"]),
        lightness - own["medianLightness"],
        a - own["medianA"],
        b - own["medianB"],
        chroma - own["greyChroma"],
    ]
    of_cell = case.cells[rows // CELL_PX, columns // CELL_PX]
    return np.concatenate([np.stack(of_pixel, -1), of_cell], -1).astype(np.float32)


CONTEXT_VALUES = 18


def context(case, part, within):
    """18 planes about log odds and colours around each pixel; nought outside the rectangle round `within`."""
    rows, columns = np.flatnonzero(within.any(1)), np.flatnonzero(within.any(0))
    cut = np.s_[rows[0] : rows[-1] + 1, columns[0] : columns[-1] + 1]
    planes = np.zeros((CONTEXT_VALUES, *within.shape), np.float32)
    planes[(slice(None), *cut)] = context_of(
        np.clip(case.log_odds_by_part[part][cut], -8, 8).astype(np.float64),
        case.counted[cut],
        case.lightness[cut],
        case.a[cut] + case.b[cut],
        case.own,
    )
    return planes


def context_of(log_odds, counted, lightness, warmth, own):
    means = {radius: mean_over(log_odds, counted, radius) for radius in (4, 16, 64)}
    square = mean_over(log_odds * log_odds, counted, 16)
    planes = [
        log_odds,
        means[4],
        means[16],
        np.sqrt(np.maximum(square - means[16] ** 2, 0)),
        means[64],
        rank(log_odds, counted),
        rank(warmth, counted),
        rank(lightness, counted),
        lightness - mean_over(lightness.astype(np.float64), counted, 64),
        warmth - mean_over(warmth.astype(np.float64), counted, 64),
    ]
    of_picture = [log_odds[counted].mean(), (log_odds[counted] > 0.75).mean(), np.quantile(log_odds[counted], 0.9)]
    of_picture += [own[name] for name in ("medianLightness", "spreadLightness", "medianA", "medianB", "greyChroma")]
    return np.stack(planes + [np.full(log_odds.shape, value) for value in of_picture])


def mean_over(plane, counted, radius_px):
    """Mean over the counted pixels of a square; where there is none, the pixel's own value."""
    pixels = sum_over(counted.astype(np.float64), radius_px)
    return np.where(pixels > 0, sum_over(plane * counted, radius_px) / np.maximum(pixels, 1), plane)


def sum_over(plane, radius_px):
    """Sum over a square, cut at the picture's edges, by summed areas."""
    height, width = plane.shape
    sums = np.zeros((height + 1, width + 1))
    sums[1:, 1:] = plane.cumsum(0).cumsum(1)
    top, bottom = ends(height, radius_px)
    left, right = ends(width, radius_px)
    return sums[bottom][:, right] - sums[top][:, right] - sums[bottom][:, left] + sums[top][:, left]


def ends(length, radius_px):
    at = np.arange(length)
    return np.maximum(at - radius_px, 0), np.minimum(at + radius_px + 1, length)


def rank(plane, counted):
    """Share of the counted pixels that are below, 0 to 1."""
    some = np.sort(plane[counted])[:: max(1, counted.sum() // 5000)]
    return np.searchsorted(some, plane) / len(some)
