"""The findings that leave the room."""

import pickle

from indexer.facts.containers import BrokenContainer, Container, NotAPicture


def test_findings_come_whole_through_a_pickle():
    """Worker processes hand them over pickled."""
    broken = pickle.loads(pickle.dumps(BrokenContainer("no size", exif=b"II*\0", xmp=b"<x/>")))
    assert (str(broken), broken.reason, broken.exif, broken.xmp) == ("no size", "no size", b"II*\0", b"<x/>")
    other = pickle.loads(pickle.dumps(NotAPicture("a video")))
    assert (str(other), other.what) == ("a video", "a video")
    container = Container("PNG", 40, 30, picture_spans=((8, 9),))
    assert pickle.loads(pickle.dumps(container)) == container
