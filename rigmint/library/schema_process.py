"""Our end of the process that checks a house's schemas: started when first needed, ended when it takes too long."""

from __future__ import annotations

import json
import os
import subprocess
import sys
import weakref
from queue import Empty, Queue
from threading import Thread
from typing import IO, Any

_START_SECONDS = 60.0
"""For the interpreter and its imports, on a machine that is busy."""
_COMMAND = (sys.executable, "-P", "-m", "rigmint.library.schema_worker")
"""`-P`: the working folder, which may hold anything, is not searched for modules."""


class TookTooLong(Exception):
    """No answer within the time; the process was ended."""


class BrokeOff(Exception):
    """The process ended by itself."""


class SchemaProcess:
    """One process, asked one thing at a time. It ends with this object."""

    def __init__(self, seconds: float) -> None:
        """`seconds`: the time for an answer. Raises BrokeOff where the process does not start."""
        self._seconds = seconds
        try:
            self._process = subprocess.Popen(
                _COMMAND, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True
            )
        except OSError as error:
            raise BrokeOff(str(error)) from error
        self._answers: Queue[str] = Queue()
        Thread(target=_read_lines, args=(self._process.stdout, self._answers), daemon=True).start()
        self._end = weakref.finalize(self, _end_process, self._process, os.getpid())
        self._receive(_START_SECONDS)

    def ask(self, request: dict[str, Any]) -> Any:
        """The answer to a request. Raises TookTooLong or BrokeOff; afterwards the process is gone."""
        try:
            assert self._process.stdin is not None
            self._process.stdin.write(json.dumps(request) + "\n")
            self._process.stdin.flush()
        except OSError as error:
            self._end()
            raise BrokeOff(str(error)) from error
        return self._receive(self._seconds)

    def _receive(self, seconds: float) -> Any:
        try:
            line = self._answers.get(timeout=seconds)
        except Empty:
            self._end()
            raise TookTooLong from None
        if not line:
            self._end()
            raise BrokeOff("it gave no answer")
        return json.loads(line)


def _read_lines(stream: IO[str], answers: Queue[str]) -> None:
    """Every line, and an empty one at the end."""
    with stream:
        for line in stream:
            answers.put(line)
        answers.put("")


def _end_process(process: subprocess.Popen[str], owner: int) -> None:
    if os.getpid() != owner:  # a copy of this object in a forked process must not end it
        return
    process.kill()
    process.wait()
    if process.stdin is not None:
        process.stdin.close()
