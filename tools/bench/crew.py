"""Work in processes of its own: one that dies or hangs costs its own task only, and memory can be told apart."""

from __future__ import annotations

import multiprocessing
import os
import traceback
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from dataclasses import dataclass
from multiprocessing.connection import Connection, wait
from multiprocessing.process import BaseProcess
from time import monotonic
from typing import Any, Generic, TypeVar

from ...interpret.errors import InternalFault

Task = TypeVar("Task")
Result = TypeVar("Result")


@dataclass(frozen=True, slots=True)
class Lost:
    """A task without a result, and why: an exception's text, a death, or the time limit."""

    why: str


@dataclass(slots=True)
class _Worker(Generic[Task]):
    process: BaseProcess
    pipe: Connection
    number: int = -1
    deadline: float = 0.0


def run_all(
    job: Callable[[Task], Result], tasks: Sequence[Task], *, workers: int, limit_s: float, threads: int = 1
) -> Iterator[tuple[int, Result | Lost]]:
    """Do every task, each in one of a few fresh processes.

    Parameters
    ----------
    job : callable
        A function of a module (it is sent by name).
    tasks : sequence
        What to do; tasks and results are pickled.
    workers : int
        How many processes work at once.
    limit_s : float
        Seconds after which a task is given up and its process replaced.
    threads : int
        How many threads OpenCV and the networks may use in each process.

    Yields
    ------
    tuple of int and result
        The task's number and its result, in the order in which they end.
    """
    context = multiprocessing.get_context("spawn")
    waiting = iter(range(len(tasks)))
    crew: list[_Worker[Task]] = []

    def hire() -> None:
        number = next(waiting, None)
        if number is None:
            return
        ours, theirs = context.Pipe()
        process = context.Process(target=_work, args=(theirs, job, threads))
        process.start()
        theirs.close()
        _await_start(process, ours)
        worker = _Worker[Task](process, ours)
        crew.append(worker)
        _give(worker, number, tasks[number], limit_s)

    try:
        for _ in range(min(workers, len(tasks))):
            hire()
        while crew:
            for worker in _ready(crew):
                number = worker.number
                result = _take(worker, limit_s)
                if isinstance(result, _Gone):
                    crew.remove(worker)
                    hire()
                    yield number, Lost(result.why)
                    continue
                following = next(waiting, None)
                if following is None:
                    crew.remove(worker)
                    _dismiss(worker)
                else:
                    _give(worker, following, tasks[following], limit_s)
                yield number, result
    finally:
        for worker in crew:
            _kill(worker)


def _await_start(process: BaseProcess, pipe: Connection) -> None:
    """Wait until a process has loaded what it needs, so that the time limit is the task's alone."""
    try:
        pipe.recv()
    except EOFError as fault:
        process.join()
        raise InternalFault(f"a process does not start (exit {process.exitcode})", "Report this") from fault


@dataclass(frozen=True, slots=True)
class _Gone:
    why: str


def _ready(crew: Sequence[_Worker[Task]]) -> list[_Worker[Task]]:
    """Wait for results, and name the workers that have one or have run out of time."""
    left = min(worker.deadline for worker in crew) - monotonic()
    spoken = wait([worker.pipe for worker in crew], timeout=max(left, 0.0))
    now = monotonic()
    return [worker for worker in crew if worker.pipe in spoken or worker.deadline <= now]


def _take(worker: _Worker[Task], limit_s: float) -> Any:  # what a process sends has no type
    if not worker.pipe.poll():
        _kill(worker)
        return _Gone(f"no answer in {limit_s:g} s")
    try:
        return worker.pipe.recv()
    except EOFError:
        worker.process.join()
        _kill(worker)
        return _Gone(f"the process died (exit {worker.process.exitcode})")


def _give(worker: _Worker[Task], number: int, task: Task, limit_s: float) -> None:
    worker.number, worker.deadline = number, monotonic() + limit_s
    with suppress(BrokenPipeError):  # a dead process is met when its answer is taken
        worker.pipe.send(task)


def _dismiss(worker: _Worker[Task]) -> None:
    worker.pipe.close()
    worker.process.join()


def _kill(worker: _Worker[Task]) -> None:
    worker.process.kill()
    worker.process.join()
    worker.pipe.close()


def _work(pipe: Connection, job: Callable[[Task], Result], threads: int) -> None:
    # Workers side by side must not take each other's cores, and times must be comparable; Tesseract has one thread.
    os.environ["OMP_THREAD_LIMIT"] = "1"
    os.environ["OPENBLAS_NUM_THREADS"] = "1"
    import cv2

    cv2.setNumThreads(threads)
    pipe.send("ready")
    while True:
        try:
            task = pipe.recv()
        except EOFError:
            return
        try:
            result: object = job(task)
        except Exception:  # noqa: BLE001 - whatever a task raises is its result, and the next task is done all the same
            result = Lost(traceback.format_exc())
        pipe.send(result)
