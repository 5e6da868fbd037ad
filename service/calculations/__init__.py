"""Physics and rules of condensate drainage.

Law of this floor: SI floats in, frozen keyword-only results out. No HTTP, no JSON, no pint.
It may import ``calculations`` (no circles), ``tables`` and ``errors``.
"""
