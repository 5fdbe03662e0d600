"""Fast columns for all scales of a division, compiled by numba; each proven equal to the definition in `theory`.

A module offers `COLUMNS`, the ids of the facts it computes, and `columns(masks, divisions)`, which gives an array for
each of them. Masks are 64-bit sets with bit 0 set; the arrays have an entry for each mask.
"""
