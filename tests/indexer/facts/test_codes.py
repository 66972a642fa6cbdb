"""The short names of photos."""

from hypothesis import given
from hypothesis import strategies as st

from indexer.facts.codes import LEAST, shortest_codes

#: Two letters only, so that many keys begin alike.
KEYS = st.sets(st.text("0f", min_size=9, max_size=9), max_size=40)


def by_trying(key: str, keys: set[str]) -> str:
    """The shortest beginning of at least LEAST letters that no other key has."""
    lengths = range(LEAST, len(key) + 1)
    return next(key[:n] for n in lengths if not any(other.startswith(key[:n]) for other in keys - {key}))


@given(KEYS)
def test_codes_are_the_shortest_that_tell_photos_apart(keys: set[str]) -> None:
    """Every code is the one that trying all lengths finds, so it is unique and no letter too long."""
    codes = shortest_codes(keys)
    assert codes == {key: by_trying(key, keys) for key in keys}
    assert len(set(codes.values())) == len(keys)


@given(KEYS)
def test_photos_that_begin_otherwise_do_not_matter(keys: set[str]) -> None:
    """The codes of a group with one beginning are the same alone as among all others."""
    codes = shortest_codes(keys)
    for beginning in {key[:LEAST] for key in keys}:
        group = [key for key in keys if key.startswith(beginning)]
        assert shortest_codes(group) == {key: codes[key] for key in group}


def test_a_key_given_twice_is_one_photo() -> None:
    """A key does not lengthen its own code."""
    assert shortest_codes(["0123456789"] * 2) == {"0123456789": "01234"}


def test_keys_that_differ_in_the_last_letter_only_need_it() -> None:
    """Two keys that share all but one letter have their whole length as code."""
    assert shortest_codes(["aaaaaaa0", "aaaaaaa1"]) == {"aaaaaaa0": "aaaaaaa0", "aaaaaaa1": "aaaaaaa1"}
