"""An installation examined: what it is, what is wrong with it, and what would be right.

An examination is a function that answers one :class:`Finding`; the table of all is in ``rounds``.
"""
