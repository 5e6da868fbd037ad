"""What the trade knows of symptoms: causes, how common they are, what speaks for and against each, what to check.

The weights are judgement. Basis of every row: common practice, no published source, and physics where a row says why.
"""
