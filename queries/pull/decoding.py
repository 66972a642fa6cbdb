"""Decoding in processes of their own: a picture that hangs or crashes its decoder costs that picture alone."""

import io
from collections.abc import Callable, Generator, Sequence
from functools import partial
from typing import TypeVar

from PIL import Image

from indexer.facts.pictures import PictureError, open_picture
from indexer.facts.workers import Lost, process_count, run_all
from queries.originals import Source, SourceError
from queries.photos import Photo
from queries.pull.content import Content, converted

#: A picture that takes longer is given up. A 200-megapixel HEIC took 12 seconds.
SECONDS_PER_PICTURE = 120.0
#: Below this many pictures a further process costs more to start than it saves.
_PICTURES_PER_PROCESS = 4

_J = TypeVar("_J")
_R = TypeVar("_R")


def conversions(jobs: Sequence[tuple[Photo, Source]]) -> Generator[tuple[int, Content | str]]:
    """The JPEG made from each photo, or the reason why there is none, with the job's place; in no set order."""
    return _decoded(_conversion, jobs)


def small_pictures(paths: Sequence[str], within: int) -> dict[str, Image.Image]:
    """Upright sRGB pictures no side longer than `within` pixels, by path; absent where one cannot be opened."""
    shown: dict[str, Image.Image] = {}
    for place, result in _decoded(partial(_small_picture, within=within), paths):
        if isinstance(result, bytes):
            shown[paths[place]] = Image.open(io.BytesIO(result))
    return shown


def _decoded(task: Callable[[_J], _R], jobs: Sequence[_J]) -> Generator[tuple[int, _R | str]]:
    processes = process_count(len(jobs), _PICTURES_PER_PROCESS)
    for place, result in run_all(task, jobs, seconds_per_job=SECONDS_PER_PICTURE, processes=processes):
        yield place, result.reason if isinstance(result, Lost) else result


def _conversion(job: tuple[Photo, Source]) -> Content | str:
    try:
        return converted(*job)
    except (SourceError, PictureError) as problem:
        return str(problem)


def _small_picture(path: str, within: int) -> bytes | str:
    """As PNG without compression: it is only to cross from one process to the other."""
    try:
        image = open_picture(path, within).image
    except PictureError as problem:
        return str(problem)
    file = io.BytesIO()
    image.save(file, "PNG", compress_level=0)
    return file.getvalue()
