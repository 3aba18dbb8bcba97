"""Memory that became free is kept for what comes next."""

import platform
import subprocess
import sys

import pytest

TAKEN = """
import resource, sys
from PIL import Image
from daterun.photos.heap import give_back, keep_freed_memory
if sys.argv[1] == "kept":
    keep_freed_memory()
held = [Image.new("RGB", (1600, 1600), "white") for _ in range(4)]
del held
before = resource.getrusage(resource.RUSAGE_SELF).ru_minflt
for _ in range(10):
    held = [Image.new("RGB", (1600, 1600), "white") for _ in range(4)]
    del held
print(resource.getrusage(resource.RUSAGE_SELF).ru_minflt - before)
give_back()
"""


def pages_taken(how):
    ran = subprocess.run([sys.executable, "-c", TAKEN, how], check=True, capture_output=True, text=True)
    return int(ran.stdout)


@pytest.mark.skipif(platform.libc_ver()[0] != "glibc", reason="another C library is left as it is")
def test_pages_that_became_free_are_not_asked_for_again():
    of_one_image = 1600 * 1600 * 4 // 4096
    assert pages_taken("kept") < of_one_image < pages_taken("given back")
