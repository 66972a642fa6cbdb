"""The dozen or so photos that tell a week, proposed with the reason for each."""

from queries.shortlist.choosing import shortlist
from queries.shortlist.gathering import candidates_of
from queries.shortlist.values import Candidate, Chosen, SetAside, Shortlist

__all__ = ["Candidate", "Chosen", "SetAside", "Shortlist", "candidates_of", "shortlist"]
