"""The programme of a green in play: month by month from the end of its grow-in, a year ahead of today."""

from growin.agronomy.programme.in_play.draw import is_of_a_year, steps

__all__ = ["is_of_a_year", "steps"]
