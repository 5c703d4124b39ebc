"""Forbids the network to every Python that starts with this folder in PYTHONPATH.

A hook of the interpreter's own audit events (PEP 578): no library gets round it, and it cannot be
taken away again. Sockets within the machine's own files (AF_UNIX) stay allowed.
"""

import socket
import sys

ASKING = (
    "socket.getaddrinfo",
    "socket.gethostbyname",
    "socket.gethostbyaddr",
    "socket.getnameinfo",
)
AMONG_FILES = getattr(socket, "AF_UNIX", -1)


class NetworkForbiddenError(Exception):
    """No test and nothing that a test runs may use the network."""


def forbid(event, arguments):
    if event == "socket.__new__" and arguments[1] not in (AMONG_FILES, -1):
        raise NetworkForbiddenError(f"a socket of family {arguments[1]}")
    if event in ASKING:
        raise NetworkForbiddenError(f"{event}{arguments}")
    if event == "socket.connect" and arguments[0].family != AMONG_FILES:
        raise NetworkForbiddenError(f"a connection to {arguments[1]}")


sys.addaudithook(forbid)
