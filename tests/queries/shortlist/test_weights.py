"""The weights keep their promise."""

from queries.shortlist.weights import Weights


def test_a_new_day_goes_before_a_new_occasion_before_all_else() -> None:
    """All that a photo adds by the finer terms is less than an occasion, and both together less than a day."""
    by = Weights()
    assert by.finer <= 1 + 1e-9
    assert by.occasion > by.finer
    assert by.day > by.occasion + by.finer
    assert min(by.cover, by.quality, by.shape, by.day_spread, by.occasion_spread) >= 0
