"""The steps of the photo measurement in OpenCV and NumPy (Debian), for bench/photo-speed.ts: prints milliseconds per step as JSON.

Arguments: photo, width and height of the rectified coupon in px, four corners x,y in px, a JSON file with the model's layers.
The features and layers are those of core/vision/rust-features.ts and rust-model.ts; the colour rule is left out, which favours this side.
"""
import json
import sys
import time

import cv2
import numpy as np

photo, width, height = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
corners = np.array(sys.argv[4:12], dtype=np.float32).reshape(4, 2)
model = json.load(open(sys.argv[12]))
cv2.setNumThreads(2)


def once():
    took, started = {}, time.perf_counter()

    def step(name):
        nonlocal started
        took[name] = 1000 * (time.perf_counter() - started)
        started = time.perf_counter()

    image = cv2.cvtColor(cv2.imread(photo), cv2.COLOR_BGR2RGB)
    step("decode")
    to = np.float32([[0, 0], [width, 0], [width, height], [0, height]])
    flat = cv2.warpPerspective(image, cv2.getPerspectiveTransform(corners, to), (width, height), flags=cv2.INTER_AREA)
    step("rectify")
    lab = cv2.split(cv2.cvtColor(flat.astype(np.float32) / 255, cv2.COLOR_RGB2LAB))
    step("lab")
    light, a, b = (cv2.blur(plane, (3, 3)) for plane in lab)
    cells = []
    for radius in (4, 12, 28):
        for plane in lab:
            mean = cv2.blur(plane, (radius, radius))
            square = cv2.blur(plane * plane, (radius, radius))
            cells += [mean, np.log1p(np.sqrt(np.maximum(0, square - mean * mean)))]
    chroma = np.sqrt(a * a + b * b)
    planes = [light, a, b, chroma, a / (8 + chroma), b / (8 + chroma), a / (12 + light), b / (12 + light)]
    planes += [plane - np.median(plane) for plane in (light, a, b, chroma)] + cells
    step("features")
    inputs = np.stack(planes, -1).reshape(-1, len(planes)).astype(np.float32)
    first = np.array(model["first"], dtype=np.float32)[:, 1 : 1 + len(planes)]
    second = np.array(model["second"], dtype=np.float32)
    last = np.array(model["last"], dtype=np.float32)
    hidden = np.maximum(inputs @ first.T, 0)
    hidden = np.maximum(hidden @ second[:, 1:].T + second[:, 0], 0)
    odds = (hidden @ last[1:] + last[0]).reshape(height, width)
    step("model")
    mask = (odds > 0).astype(np.uint8)
    cv2.connectedComponentsWithStats(mask)
    mask.mean()
    step("count")
    return took


runs = [once() for _ in range(6)][1:]
print(json.dumps({name: float(np.median([run[name] for run in runs])) for name in runs[0]}))
