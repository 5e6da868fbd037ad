"""SVG from results: a picture where people would rather look.

Law of this floor: it imports ``calculations``, ``tables`` and ``units``, and is itself imported only when a drawing is
asked for.
Lengths are SI until they are scaled; numbers are rounded here and nowhere else.
"""
