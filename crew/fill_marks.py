"""Who can't come on which line of a call, as the form that fills it says behind each name."""

from collections.abc import Mapping

from crew.candidates import Offers, asked_of, people_for
from crew.line_needs import Seat
from crew.models import Call, CallLine
from crew.wording.candidates import bar_words


class FillMarks:
    """By seat and the person's key: the first thing that keeps them off. As many queries however many of both."""

    def __init__(self, call: Call) -> None:
        self._asked = asked_of(call)
        people = people_for(self._asked, to_rank=False)
        self._offers = Offers(self._asked, people)
        self._said: dict[Seat, dict[int, str]] = {}

    def at(self, seat: Seat) -> Mapping[int, str]:
        """What keeps people off the seat; a seat that is none yet is told at the spot talk."""
        if seat not in self._said:
            self._said[seat] = self._first_stops(seat)
        return self._said[seat]

    def _first_stops(self, seat: Seat) -> dict[int, str]:
        asked = self._asked
        wanted = asked.wanted.get(seat) or asked.wanted_anew(CallLine(call=asked.call), ("", 0))
        stops = ((who.key, next((bar for bar in bars if bar.is_stop), None)) for who, bars in self._offers.bars(wanted))
        return {key: bar_words(stop, asked.kinds, asked.call.zone) for key, stop in stops if stop is not None}
