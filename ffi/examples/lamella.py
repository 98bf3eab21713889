"""Lamella from Python by ctypes: what the examples beside this file need of it, no more.

The library is looked for where LAMELLA_LIBRARY says, else as liblamella where the system looks.
"""
import ctypes
import json
import os
from ctypes import POINTER, byref, c_char_p, c_int, c_size_t, c_ssize_t, c_uint32, c_void_p

_lib = ctypes.CDLL(os.environ.get("LAMELLA_LIBRARY", "liblamella.so"))

SOURCE = ctypes.CFUNCTYPE(c_ssize_t, c_void_p, c_void_p, c_size_t)
SINK = ctypes.CFUNCTYPE(c_int, c_void_p, c_void_p, c_size_t)
OK, STOPPED, PROBLEMS = 0, 107, 200
PLAN, CHECK = 0, 1

_lib.lamella_status_text.argtypes = [c_uint32]
_lib.lamella_status_text.restype = c_char_p
_lib.lamella_abi_version.restype = c_uint32
_lib.lamella_live_handles.restype = c_size_t
_lib.lamella_text_data.argtypes = [c_void_p]
_lib.lamella_text_data.restype = c_void_p
_lib.lamella_text_len.argtypes = [c_void_p]
_lib.lamella_text_len.restype = c_size_t
_lib.lamella_text_free.argtypes = [c_void_p]
_lib.lamella_plan_json.argtypes = [c_char_p, c_size_t, POINTER(c_void_p), POINTER(c_void_p)]
_lib.lamella_lines_answer.argtypes = [c_char_p, c_size_t, c_void_p, c_uint32, c_size_t, POINTER(c_void_p)]
_lib.lamella_lines_stream.argtypes = [SOURCE, SINK, c_void_p, c_void_p, c_uint32, c_size_t]

if _lib.lamella_abi_version() != 1:
    raise ImportError("this file is for version 1 of the interface of Lamella")


class LamellaError(Exception):
    """A call that went wrong; `problems` are those of the document, where there are any."""

    def __init__(self, status, problems=()):
        super().__init__(_lib.lamella_status_text(status).decode())
        self.status = status
        self.problems = problems


def _text(handle):
    """The bytes of a text, which is freed."""
    data = ctypes.string_at(_lib.lamella_text_data(handle), _lib.lamella_text_len(handle))
    _lib.lamella_text_free(handle)
    return data


def plan(recipe):
    """The plan of a recipe: a dict, or the text of its document."""
    document = recipe if isinstance(recipe, bytes) else json.dumps(recipe).encode()
    made, problems = c_void_p(), c_void_p()
    status = _lib.lamella_plan_json(document, len(document), byref(made), byref(problems))
    if status != OK:
        raise LamellaError(status, json.loads(_text(problems))["problems"] if problems else ())
    return json.loads(_text(made))


def answer(lines, kind=CHECK, threads=1):
    """The answers to JSON Lines in memory, as JSON Lines."""
    out = c_void_p()
    status = _lib.lamella_lines_answer(lines, len(lines), None, kind, threads, byref(out))
    if status != OK:
        raise LamellaError(status)
    return _text(out)


def stream(lines, take, kind=CHECK, threads=0):
    """Answers an iterable of lines (bytes with their newline) one by one to `take`, in their order.

    However many lines there are, a few of them are in memory. What the callbacks raise comes out here.
    """
    lines = iter(lines)
    rest = b""
    raised = []

    def source(_context, buffer, capacity):
        nonlocal rest
        try:
            while len(rest) < capacity:
                line = next(lines, None)
                if line is None:
                    break
                rest += line
            now, rest = rest[:capacity], rest[capacity:]
            ctypes.memmove(buffer, now, len(now))
            return len(now)
        except BaseException as error:
            raised.append(error)
            return -1

    def sink(_context, line, length):
        try:
            take(ctypes.string_at(line, length))
            return 0
        except BaseException as error:
            raised.append(error)
            return 1

    status = _lib.lamella_lines_stream(SOURCE(source), SINK(sink), None, None, kind, threads)
    if raised:
        raise raised[0]
    if status != OK:
        raise LamellaError(status)
