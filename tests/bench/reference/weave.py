"""The obvious script for the same sheet: what the studio's speed is measured against.

Opens the frames, enlarges each to the sheet, takes every column from the frame it belongs to, and
saves a PNG with its density. One thread, Pillow's own settings, no blending and no streaming.

usage: weave.py OUT.png COLUMNS ROWS DPI VIEWING_PITCH_MM FRAME...
"""

import sys
import time

import numpy as np
from PIL import Image

Image.MAX_IMAGE_PIXELS = None

out, columns, rows, dpi, pitch = sys.argv[1], int(sys.argv[2]), int(sys.argv[3]), float(sys.argv[4]), float(sys.argv[5])
names = sys.argv[6:]
views = len(names)

start = time.perf_counter()
x = (np.arange(columns) + 0.5 - columns / 2) * 25.4 / dpi
place = (x / pitch + 0.5) % 1.0
view = np.minimum(views - 1, ((1 - place) * views).astype(int))
sheet = np.empty((rows, columns, 3), np.uint8)
for number, name in enumerate(names):
    frame = Image.open(name).convert("RGB").resize((columns, rows), Image.BICUBIC)
    mine = view == number
    sheet[:, mine] = np.asarray(frame)[:, mine]
woven = time.perf_counter()
Image.fromarray(sheet).save(out, dpi=(dpi, dpi))
print(f"{time.perf_counter() - start:.3f} {woven - start:.3f}")
