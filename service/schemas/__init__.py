"""Names, bounds, descriptions and examples of every payload.

Law of this floor: it may import ``calculations`` (limits, result types), ``tables``,
``errors`` and ``units``. It knows marshmallow, not Flask.
"""
