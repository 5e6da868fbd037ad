"""The text of every finding, one file a subject, merged by ``catalogue``."""
