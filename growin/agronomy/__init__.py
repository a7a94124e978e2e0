"""The trade in numbers: no Django, no clock, no files. The day is an argument."""
