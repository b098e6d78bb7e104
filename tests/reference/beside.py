"""Runs the files of reference tests beside each other, as many as there are processors, each in a process of its own.

    tests/.venv/bin/python tests/reference/beside.py [PROCESSES]

What a file prints comes when it has ended, so that nothing is mixed. Largest files first: they tend to take longest.
"""

import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor, as_completed
from pathlib import Path
from time import monotonic

HERE = Path(__file__).parent


def run(file: Path) -> tuple[Path, int, str, float]:
    """The file's outcome: exit code, what it printed, and seconds."""
    began = monotonic()
    command = [sys.executable, "-m", "unittest", "discover", "--start-directory", str(HERE), "--pattern", file.name]
    done = subprocess.run(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, encoding="utf-8", check=False)
    return file, done.returncode, done.stdout, monotonic() - began


def main() -> int:
    """Runs all files; the exit code is 1 if any of them failed."""
    processes = int(sys.argv[1]) if len(sys.argv) > 1 else os.cpu_count() or 1
    files = sorted(HERE.glob("test_*.py"), key=lambda file: file.stat().st_size, reverse=True)
    failed = []
    with ThreadPoolExecutor(processes) as pool:
        for done in as_completed(pool.submit(run, file) for file in files):
            file, code, said, seconds = done.result()
            print(f"{file.name}, {seconds:.0f} s\n{said}", flush=True)
            if code != 0:
                failed.append(file.name)
    if failed:
        print("Failed:", *failed)
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
