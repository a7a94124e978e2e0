"""An invented club whose story is told backwards from a day."""
