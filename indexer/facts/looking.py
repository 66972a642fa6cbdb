"""Pictures looked at in worker processes, as files are read in them."""

from collections.abc import Generator, Sequence
from functools import partial

from indexer.facts.pixels import NoPixels, PixelFacts, look_at
from indexer.facts.workers import Lost, process_count, run_all

#: A picture that takes longer to decode is given up. Three hundred million pixels take a few seconds.
SECONDS_PER_PICTURE = 60.0
#: Below so many pictures a further process costs more to start than it saves: at thumbnails, and at decoding.
_PER_PROCESS = {True: 100, False: 25}


def look_at_all(paths: Sequence[str], *, may_trust_thumbnails: bool) -> Generator[tuple[int, PixelFacts | NoPixels]]:
    """Look at every path; yields (its place in `paths`, what it shows) as they come, in no set order.

    Closing the iterator, or an exception in the loop over it, ends the processes at once.
    """
    task = partial(look_at, may_trust_thumbnail=may_trust_thumbnails)
    processes = process_count(len(paths), _PER_PROCESS[may_trust_thumbnails])
    for place, result in run_all(task, paths, seconds_per_job=SECONDS_PER_PICTURE, processes=processes):
        yield place, NoPixels(result.reason) if isinstance(result, Lost) else result
