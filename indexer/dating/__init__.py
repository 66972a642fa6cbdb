"""When photos were taken: from claims, words and likenesses to one verdict a photo. Pure."""
