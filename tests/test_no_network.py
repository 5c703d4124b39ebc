"""The ban on the network bites: in the tests' own process and in those that they start."""

import socket
import subprocess
import sys
import urllib.request

import pytest

NOWHERE = ("192.0.2.1", 80)  # RFC 5737: an address for examples, which leads nowhere


def test_no_socket(no_network):
    with pytest.raises(no_network):
        socket.socket(socket.AF_INET, socket.SOCK_STREAM)


def test_no_connection(no_network):
    with pytest.raises(no_network):
        socket.create_connection(NOWHERE, timeout=1)


def test_no_name_is_looked_up(no_network):
    with pytest.raises(no_network):
        socket.getaddrinfo("example.org", 80)


def test_no_address_is_fetched(no_network):
    with pytest.raises(no_network):
        urllib.request.urlopen(f"http://{NOWHERE[0]}/", timeout=1)


def test_a_process_that_a_test_starts_has_none_either():
    script = "import socket; socket.socket()"
    done = subprocess.run([sys.executable, "-c", script], capture_output=True, text=True)
    assert done.returncode == 1
    assert "NetworkForbiddenError" in done.stderr


@pytest.mark.skipif(not hasattr(socket, "AF_UNIX"), reason="no sockets among files")
def test_sockets_among_files_stay_allowed():
    one, other = socket.socketpair()
    one.close()
    other.close()
