"""Which photos are pulled, and what is said of the others."""

from collections.abc import Callable

from queries.membership import Alike
from queries.photos import Photo
from queries.pull.selection import Selection, keepers_elsewhere, select

MakePhoto = Callable[..., Photo]


def of_set(make_photo: MakePhoto, name: str, keeper: Photo | None, *, kind: str = "burst", **facts: object) -> Photo:
    """A photo left out of a set, whose keeper is that one."""
    told = (keeper.key, keeper.code, keeper.path) if keeper else (None, None, None)
    return make_photo(f"/library/{name}.jpg", keeper=False, alike=Alike(kind, 3, False, *told, False, ""), **facts)


def behind(selection: Selection) -> dict[str, tuple[str | None, tuple[str, ...]]]:
    return {item.photo.key: (item.behind, item.note) for item in selection.left_out}


def test_a_left_out_photo_stands_behind_its_keeper(make_photo: MakePhoto) -> None:
    """Photos with a keeper in the week stand behind it and need no note, those left out by hand too."""
    keeper = make_photo()
    others = [of_set(make_photo, "a", keeper), of_set(make_photo, "b", keeper, choice="leave")]
    found = select([keeper, *others], {keeper.key})
    assert found.taken == (keeper,)
    assert behind(found) == {other.key: (keeper.key, ()) for other in others}


def test_the_copy_of_a_photo_in_a_burst_stands_behind_the_bursts_keeper(make_photo: MakePhoto) -> None:
    """Where the keeper of copies is left out in its turn, the photo that is taken stands for both."""
    keeper = make_photo()
    middle = of_set(make_photo, "middle", keeper)
    copy = of_set(make_photo, "copy", middle, kind="copy")
    assert behind(select([keeper, middle, copy], {keeper.key})) == {
        middle.key: (keeper.key, ()),
        copy.key: (keeper.key, ()),
    }


def test_a_copy_of_a_photo_of_another_week_says_so(make_photo: MakePhoto) -> None:
    """It stands behind none, and its note names the keeper's code and week, as far as the week is known."""
    keeper = make_photo("/library/elsewhere.jpg")
    copy, second = (of_set(make_photo, name, keeper, kind="copy") for name in ("a", "b"))
    assert keepers_elsewhere([copy, second]) == {keeper.key}
    assert keepers_elsewhere([copy, second, keeper]) == set()
    found = select([copy], set(), weeks_elsewhere={keeper.key: "2025-W52"})
    assert behind(found) == {copy.key: (None, (f"copy of {keeper.code}", "2025-W52"))}
    assert behind(select([copy], set())) == {copy.key: (None, (f"copy of {keeper.code}",))}


def test_what_the_person_left_out_says_so(make_photo: MakePhoto) -> None:
    """A photo alike to none, or of a set that is left out whole, was left out by the person."""
    alone = make_photo("/library/alone.jpg", keeper=False, choice="leave")
    whole = of_set(make_photo, "whole", None, choice="leave")
    assert behind(select([alone, whole], set())) == {
        alone.key: (None, ("left out by you",)),
        whole.key: (None, ("left out by you",)),
    }


def test_a_keeper_that_is_not_chosen_has_the_note_that_is_given(make_photo: MakePhoto) -> None:
    """What a shortlist does not take stands apart; what is alike to such a photo tells so."""
    chosen, unchosen = make_photo("/library/a.jpg"), make_photo("/library/b.jpg")
    burst = of_set(make_photo, "c", unchosen)
    found = select([chosen, unchosen, burst], {chosen.key}, notes={unchosen.key: "not chosen"})
    assert behind(found) == {
        unchosen.key: (None, ("not chosen",)),
        burst.key: (None, (f"alike to {unchosen.code}",)),
    }


def test_sets_that_point_at_each_other_end(make_photo: MakePhoto) -> None:
    """Two photos that each call the other the keeper, which should not be, stand behind none."""
    one = of_set(make_photo, "one", make_photo("/library/two.jpg"))
    two = of_set(make_photo, "two", one)
    assert {key: item[0] for key, item in behind(select([one, two], set())).items()} == {one.key: None, two.key: None}
