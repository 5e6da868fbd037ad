"""Pages for people: guide, curl book, mistakes, findings, problems, and the frame of the API reference.

Law of this floor: it imports ``pages`` and ``tables``. The texts are Markdown; a test runs every command in them.
"""
