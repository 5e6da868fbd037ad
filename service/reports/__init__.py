"""What a customer is handed and a technician keeps: pages from an assessment, for the screen and for paper.

Law of this floor: it imports ``drawings``, ``calculations``, ``tables`` and ``units``, and is itself imported only when
a report is asked for. What is said is put together once, in ``content``; ``page`` and ``paper`` only set it.
"""
