"""Run the small networks that look at a page; none is loaded before it is asked for."""

from __future__ import annotations

import os
from collections.abc import Callable
from functools import lru_cache
from importlib.resources import files

import numpy as np
import numpy.typing as npt

Numbers = npt.NDArray[np.float32]
Bytes = npt.NDArray[np.uint8]


def in_blocks(picture: Bytes, side: int) -> Bytes:
    """Cut a picture into blocks, for a network whose first layer takes them.

    Parameters
    ----------
    picture : ndarray, shape (height, width, channels), uint8
        Its sides are multiples of ``side``.
    side : int
        Of a block, in pixels.

    Returns
    -------
    ndarray, shape (1, channels * side**2, height / side, width / side), uint8
        For each channel the pixels of a block one behind the other, row by row.
    """
    high, wide, channels = picture.shape
    cut = picture.reshape(high // side, side, wide // side, side, channels).transpose(4, 1, 3, 0, 2)
    return cut.reshape(1, channels * side**2, high // side, wide // side)


def said_by(name: str, seen: Numbers | Bytes) -> Numbers:
    """Give what a network says of what it is shown.

    Parameters
    ----------
    name : str
        Its file in this folder without the ending, as ``marks/closely``.
    seen : ndarray
        What it takes, whole numbers or fractions; how many of them and how large may differ from call to call.

    Returns
    -------
    ndarray, float32
        What it gives.
    """
    import cv2

    return _network(name, max(cv2.getNumThreads(), 1))(seen)


@lru_cache(maxsize=16)
def _network(name: str, threads: int) -> Callable[[Numbers | Bytes], Numbers]:
    runtime = _runtime()
    options = runtime.SessionOptions()
    options.intra_op_num_threads, options.inter_op_num_threads = threads, 1
    options.add_session_config_entry("session.intra_op.allow_spinning", "0")  # the cores have other work in between
    options.add_session_config_entry("session.use_env_allocators", "1")
    options.enable_mem_pattern = False  # a plan for every size of picture would be kept
    options.log_severity_level = 4
    data = files("octavo.extract.eyes").joinpath(f"{name}.onnx").read_bytes()
    session = runtime.InferenceSession(data, options, providers=["CPUExecutionProvider"])
    takes = session.get_inputs()[0].name
    return lambda seen: np.asarray(session.run(None, {takes: np.ascontiguousarray(seen)})[0], np.float32)


@lru_cache(maxsize=1)
def _runtime():
    """Load ONNX Runtime: telling nobody anything, and with one store of memory for all networks, not one for each."""
    # Releases from 1.29 on report their use to their maker, and leave a number of the machine in the user's folder,
    # unless this is set before they are loaded. pyproject.toml excludes them; an environment may hold one all the same.
    os.environ["ORT_DISABLE_TELEMETRY"] = "1"
    import onnxruntime as runtime

    runtime.disable_telemetry_events()  # those of Windows, in every release
    runtime.set_default_logger_severity(4)
    place = runtime.OrtMemoryInfo("Cpu", runtime.OrtAllocatorType.ORT_ARENA_ALLOCATOR, 0, runtime.OrtMemType.DEFAULT)
    runtime.create_and_register_allocator(place, None)
    return runtime
