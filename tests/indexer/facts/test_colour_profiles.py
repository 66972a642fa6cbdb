"""The profile of the pictures we make."""

import io

import numpy as np
from PIL import Image, ImageCms

from indexer.facts.colour_profiles import srgb_profile


def test_it_is_srgb_to_other_readers() -> None:
    """Colours that go from it into another maker's sRGB stay what they are."""
    codes = np.random.default_rng(1).integers(0, 256, (40, 40, 3), np.uint8)
    ours, theirs = ImageCms.ImageCmsProfile(io.BytesIO(srgb_profile())), ImageCms.createProfile("sRGB")
    converted = ImageCms.profileToProfile(Image.fromarray(codes), ours, theirs)
    assert converted is not None
    assert np.abs(np.asarray(converted).astype(int) - codes).max() <= 1


def test_nothing_of_the_day_or_the_machine_is_in_it() -> None:
    """Its date is fixed and its platform is none (ICC.1, bytes 24 to 35 and 40 to 43)."""
    assert srgb_profile()[24:36] == bytes.fromhex("07d000010001000000000000")
    assert srgb_profile()[40:44] == bytes(4)
