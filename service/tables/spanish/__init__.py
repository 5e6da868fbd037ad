"""Spanish as technicians speak it in the United States and Mexico, by the English text; `words` has the list of terms.

Law of this floor: a module is a list of texts, ``TEXTS``, and imports nothing. What another module has is left out.
"""
