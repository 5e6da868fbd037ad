"""HTTP: one short view per operation, and the kit they share.

Law of this floor: it may import everything below. Views have no arithmetic and no
branches; the kit (``reading``, ``blueprint``, ``problems``, ``document``) knows HTTP and no
physics.
"""
