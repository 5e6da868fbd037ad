"""Lets the tests of this folder import what stands beside them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))

collect_ignore = ["main_job.py"]  # needs the generated client
