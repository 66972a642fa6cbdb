"""Make the sample library: the photos of an invented household by a harbour, and what else lies in such folders.

    python sample_library/make.py [--out FOLDER]

Everything is painted here from fixed seeds; with the same versions of Pillow, numpy and pillow_heif on the same
machine the bytes are the same. `truth.csv` says for every photo what the household knows: when it was really taken
(local wall clock, to the precision that is known), with what, which occasion it shows (`scene`: equal for photos of one
occasion), which burst it belongs to, and which file it is a copy of.
"""

import argparse
import sys
from io import BytesIO
from pathlib import Path

sys.dont_write_bytecode = True

from PIL import Image  # noqa: E402
from rendering.library import Library  # noqa: E402
from rendering.parts import everything  # noqa: E402


def heif(image: Image.Image, exif: bytes) -> bytes:
    """A HEIC file; the picture is stored as given, and an Exif orientation becomes a rotation of the container."""
    import pillow_heif

    target = BytesIO()
    source = pillow_heif.from_pillow(image)
    source.save(target, quality=46, exif=exif, enc_params={"x265:pools": "none", "x265:frame-threads": "1"})
    return target.getvalue()


def main() -> None:
    parser = argparse.ArgumentParser(description="Make the sample library.")
    parser.add_argument("--out", type=Path, default=Path(__file__).parent, help="where to write (default: here)")
    library = Library(parser.parse_args().out)
    everything(library, heif)
    library.write_truth()
    print(f"{len(library.rows)} photos, {library.written / 1e6:.2f} MB")


if __name__ == "__main__":
    main()
