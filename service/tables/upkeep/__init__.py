"""What the trade looks after through the year: checks by season, when each applies, and why.

Basis of a row: common practice without a published source, physics where a row says why, or a clause of a code.
"""
