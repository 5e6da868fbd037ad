"""Published data and the service's texts, each row with its standard, clause or basis.

Law of this floor: it imports nothing of ours but other tables.
"""
