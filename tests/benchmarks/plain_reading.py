"""The plain loop that indexing is held against: python plain_reading.py < a path a line. Prints its seconds.

Every tag with its details, then the perceptual hash of every pixel, turned upright: what one's own script would do.
"""

import sys
from pathlib import Path
from time import perf_counter

import exifread
import imagehash
from PIL import Image, ImageOps

paths = [Path(line) for line in sys.stdin.read().splitlines()]
started = perf_counter()
for path in paths:
    with path.open("rb") as file:
        exifread.process_file(file)
    with Image.open(path) as picture:
        imagehash.phash(ImageOps.exif_transpose(picture))
print(perf_counter() - started)
