"""Third step of the trial (cases.ts says which): heads on layers and context, learned with each part left out, and how they read that part.

    OMP_NUM_THREADS=1 nice -n 19 ENV/bin/python bench/rust-model/ordinary-layers/heads.py OUT

ENV and OUT are those of layers.py. OUT gets judged.jsonl, a line per case and reading; the table is printed. Needs about 2 GB; some ten
minutes under load, most of it for reading.

Readings: *as it stands*, the present network that did not see the part; *linear*, one weight for each value of context and layers; *mean*, half of
it linear, half three small networks on the present network's inputs and context. Each head adds to the log odds of the present network.

Units    log odds; areas in % of the counted pixels
Source   our own; the way from log odds to places is that of src/core/vision/unknown-surface.ts, grades are those of ASTM D610
Status   a trial; nothing of it is in use
"""
import json
import sys
from collections import defaultdict

import numpy as np
import torch
from scipy.ndimage import binary_dilation, label

from layers import values_at
from pixels import CONTEXT_VALUES, cases, context, inputs_at, learned_pixels

torch.set_num_threads(1)

PARTS = 7
DRAWS = 60_000
BATCH = 512
NETWORKS = 3
SQUARE = np.ones((3, 3))


class Head:
    """Adds a linear layer, or a small network, to the log odds of the present network times a learned number."""

    def __init__(self, values, units=()):
        sizes = [values, *units, 1]
        steps = [step for size in zip(sizes, sizes[1:]) for step in (torch.nn.Linear(*size), torch.nn.ReLU())]
        self.network = torch.nn.Sequential(*steps[:-1])
        self.share_of_present = torch.nn.Parameter(torch.ones(1))

    def begin(self, values, seed, random):
        torch.manual_seed(seed)
        for step in self.network[::2]:
            torch.nn.init.kaiming_normal_(step.weight, nonlinearity="relu")
            torch.nn.init.zeros_(step.bias)
        with torch.no_grad():
            self.network[-1].weight.mul_(0.1)
        some = values[random.choice(len(values), 20_000)]
        self.middle, self.spread = some.mean(0), some.std(0) + 1e-3

    def standard(self, values):
        return torch.from_numpy(np.clip((values - self.middle) / self.spread, -5, 5))

    def log_odds(self, standard, present):
        return self.network(standard)[:, 0] + self.share_of_present * torch.from_numpy(present)

    @torch.no_grad()
    def __call__(self, values, present):
        return self.log_odds(self.standard(values), present).numpy()


def learned(head, pixels, seed, passes, decay, rate, half_dropped_from=None):
    """The head, learned from pixels drawn by weight; the last third of the steps is slower, and its mean is kept."""
    values, present, is_rust, weights = pixels
    random = np.random.default_rng(seed)
    head.begin(values, seed, random)
    parameters = [*head.network.parameters(), head.share_of_present]
    optimiser = torch.optim.AdamW(parameters, lr=rate, weight_decay=decay)
    cumulative = np.cumsum(weights)
    steps = passes * DRAWS // BATCH
    means, averaged = None, 0
    for step in range(steps):
        drawn = np.searchsorted(cumulative, random.random(BATCH) * cumulative[-1]).clip(0, len(cumulative) - 1)
        standard = head.standard(values[drawn])
        if half_dropped_from is not None:
            drop_half(standard[:, half_dropped_from:])
        if step == int(steps * 0.66):
            optimiser.param_groups[0]["lr"] = rate * 0.3
        log_odds = head.log_odds(standard, present[drawn])
        wanted = 0.02 + 0.96 * torch.from_numpy(is_rust[drawn])
        loss = torch.nn.functional.binary_cross_entropy_with_logits(log_odds, wanted)
        optimiser.zero_grad()
        loss.backward()
        optimiser.step()
        if step > steps * 0.66:
            averaged += 1
            now = [one.detach().clone() for one in parameters]
            means = now if means is None else [mean + (one - mean) / averaged for one, mean in zip(now, means)]
    with torch.no_grad():
        for one, mean in zip(parameters, means):
            one.copy_(mean)
    return head


def drop_half(values):
    """Half of them nought, the others twice as large, so that no single value is leant on."""
    values *= (torch.rand(values.shape) > 0.5).float() * 2


def heads_without(part, learning, start):
    """The linear head and the three small networks that have not seen this part."""
    some = [one for one in learning if part in one["context"]]
    around = np.concatenate([one["context"][part] for one in some])
    inputs = np.concatenate([one["inputs"] for one in some])
    layers = np.concatenate([one["layers"] for one in some])
    told = [np.concatenate([one[name] for one in some]) for name in ("is_rust", "weights")]
    present = around[:, 0].copy()
    values = np.concatenate([inputs, around], 1)
    networks = []
    for n in range(1, NETWORKS + 1):
        head = Head(values.shape[1], (32, 16))
        networks.append(learned(head, (values, present, *told), 1000 * n + start, passes=10, decay=0.05, rate=2e-3))
    values = np.concatenate([around, layers.astype(np.float32)], 1)
    linear = learned(
        Head(values.shape[1]),
        (values, present, *told),
        1000 + start,
        passes=4,
        decay=1.0,
        rate=1e-3,
        half_dropped_from=CONTEXT_VALUES,
    )
    return linear, networks


def pixels_to_learn(folder, case):
    """What a case gives to learn from; None where too few pixels are counted."""
    pixels = learned_pixels(case)
    if pixels is None:
        return None
    rows, columns, is_rust, weights = pixels
    return {
        "inputs": inputs_at(case, rows, columns),
        "context": {part: context(case, part, case.counted)[:, rows, columns].T for part in case.log_odds_by_part},
        "layers": np.load(f"{folder}/{case.n}-layers.npy"),
        "is_rust": is_rust,
        "weights": weights,
    }


def readings(folder, case, heads_by_part):
    """Log odds of every pixel by each reading; heads are asked at every second pixel both ways, as far as it matters."""
    height, width = case.rust.shape
    [(part, present_everywhere)] = case.log_odds_by_part.items()
    linear, networks = heads_by_part[part]
    near = binary_dilation(case.counted, SQUARE)
    asked = near[::2, ::2]
    rows, columns = (2 * at for at in np.nonzero(asked))
    around = context(case, part, near)[:, rows, columns].T
    present = around[:, 0].copy()
    inputs = np.concatenate([inputs_at(case, rows, columns), around], 1)
    stored = np.load(f"{folder}/{case.n}-layers.npz")
    layers = [stored[name].astype(np.float32) for name in stored.files]
    by_linear = linear(np.concatenate([around, values_at(layers, rows, columns)], 1), present)
    by_networks = np.mean([network(inputs, present) for network in networks], 0)
    found = {"as it stands": present_everywhere}
    for name, log_odds in (("linear", by_linear), ("mean", (by_linear + by_networks) / 2)):
        coarse = np.full(asked.shape, -8, np.float32)
        coarse[asked] = log_odds
        found[name] = drawn_out(coarse, height, width)
    return found


def drawn_out(coarse, height, width):
    """From every second pixel to all."""
    top, bottom, down = halves(height, coarse.shape[0])
    left, right, along = halves(width, coarse.shape[1])
    between_rows = coarse[top] * (1 - down)[:, None] + coarse[bottom] * down[:, None]
    return between_rows[:, left] * (1 - along) + between_rows[:, right] * along


def halves(length, size):
    place = np.minimum(np.arange(length) / 2, size - 1)
    before = place.astype(int)
    return before, np.minimum(before + 1, size - 1), (place - before).astype(np.float32)


# As src/core/vision/unknown-surface.ts: how far a place reaches, how sure its surest pixel is, and its least size.
REACHES_TO = 0.25
SURE_FROM = 3
LEAST_PX = 9


def counts(log_odds, case):
    """Pixels counted, outlined as rust, marked by this reading, and both."""
    places, found = label((log_odds >= REACHES_TO) & case.counted, SQUARE)
    pixels = np.bincount(places.ravel(), minlength=found + 1)
    sure_pixels = np.bincount(places[(log_odds >= SURE_FROM) & case.counted], minlength=found + 1)
    is_marked = (sure_pixels > 0) & (pixels >= LEAST_PX)
    is_marked[0] = False
    marked = is_marked[places]
    planes = case.counted, case.counted & case.rust, marked, marked & case.rust
    return dict(zip(("pixels", "outlined", "marked", "both"), (int(plane.sum()) for plane in planes)))


D610_LIMITS_PERCENT = (0.01, 0.03, 0.1, 0.3, 1, 3, 10, 16, 33, 50)
LINES_OF_TABLE = (
    "as it is",
    "equalised",
    "strong light",
    "clean window",
    "clean mill scale",
    "rendered: clean face, neutral",
    "rendered: clean face, warm",
    "all rust",
    "rendered: spots on a face",
)


def grade(percent):
    return 10 - int(np.searchsorted(D610_LIMITS_PERCENT, percent))


def iou(row):
    return row["both"] / (row["outlined"] + row["marked"] - row["both"])


def figures(rows):
    percents = [(100 * row["marked"] / row["pixels"], 100 * row["outlined"] / row["pixels"]) for row in rows]
    read_none = sum(percent == 0 for percent, _ in percents)
    if not any(row["outlined"] for row in rows):
        return f"read none {read_none}"
    off = sorted(abs(percent - true) for percent, true in percents)
    median, at_90 = (off[int(share * (len(off) - 1))] for share in (0.5, 0.9))
    near = np.mean([abs(grade(percent) - grade(true)) <= 1 for percent, true in percents])
    mean_iou = np.mean([iou(row) for row in rows if row["outlined"]])
    unseen = sum(percent == 0 and true > 0 for percent, true in percents)
    return f"IoU {mean_iou:.3f}, off {median:.1f}, 90 % {at_90:.0f}, grade {100 * near:.0f} %, rust read none {unseen}"


def gain(rows, present_rows):
    """Mean gain in IoU, and its 95 % by drawing the pictures again."""
    each = np.array([iou(one) - iou(present) for one, present in zip(rows, present_rows) if one["outlined"]])
    random = np.random.default_rng(0)
    drawn = [random.choice(each, len(each)).mean() for _ in range(4000)]
    return f"gain {each.mean():+.3f} ({np.quantile(drawn, 0.025):+.3f} to {np.quantile(drawn, 0.975):+.3f})"


def print_table(judged):
    rows = defaultdict(list)
    for row in judged:
        line = max((line for line in LINES_OF_TABLE if row["kind"].startswith(line)), key=len)
        rows[line, row["reading"]].append(row)
    for line, reading in sorted(rows, key=lambda key: LINES_OF_TABLE.index(key[0])):
        told = [f"{line}, {len(rows[line, reading])}", reading, figures(rows[line, reading])]
        if line == "as it is" and reading != "as it stands":
            told.append(gain(rows[line, reading], rows[line, "as it stands"]))
        print("; ".join(told))


def judged_cases(out, heads_by_part):
    folder = f"{out}/judge"
    for case in cases(folder):
        for reading, log_odds in readings(folder, case, heads_by_part).items():
            yield {"n": case.n, "kind": case.kind, "id": case.id, "reading": reading, **counts(log_odds, case)}


def main(out):
    folder = f"{out}/learn"
    learning, start = [], None
    for case in cases(folder):
        start = case.start
        pixels = pixels_to_learn(folder, case)
        if pixels is not None:
            learning.append(pixels)
    heads_by_part = {part: heads_without(part, learning, start) for part in range(PARTS)}
    judged = []
    with open(f"{out}/judged.jsonl", "w") as kept:
        for row in judged_cases(out, heads_by_part):
            judged.append(row)
            kept.write(json.dumps(row) + "\n")
    print_table(judged)


if __name__ == "__main__":
    main(sys.argv[1])
