"""What programs may read of a club, as plain values that describe themselves."""
