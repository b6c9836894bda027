"""Where this machine stands on its networks: found by asking the machine itself, nobody else."""

import socket
import struct
import sys
from ipaddress import IPv4Address

_LENGTH = 40  # of what the system is asked with, at least: a name of 16 bytes, then an address
_NAME, _AT = 16, slice(20, 24)  # where the name ends; where the address stands in the answer
_ASK = {"linux": 0x8915, "darwin": 0xC0206921}  # SIOCGIFADDR of <sys/ioctl.h>


def own_addresses() -> tuple[str, ...]:
    """Return the IPv4 addresses of this machine, without those that only it can reach.

    Every interface is asked for its first one. IPv6 addresses are left out.
    """
    found = dict.fromkeys(_by_name() if sys.platform == "win32" else _by_interface())
    kept = [one for one in found if not IPv4Address(one).is_loopback]
    return tuple(sorted(kept, key=lambda one: IPv4Address(one).is_link_local))


def near(address: str) -> bool:
    """Return whether an address can be reached from its own network only, not from the internet.

    Examples
    --------
    >>> [near(one) for one in ("192.168.1.20", "10.0.0.7", "169.254.9.9", "8.8.8.8")]
    [True, True, True, False]
    """
    return not IPv4Address(address).is_global


def _by_interface() -> list[str]:
    """Return the first address of each interface, in the system's order."""
    import fcntl  # noqa: PLC0415  there is none on Windows

    found = []
    with socket.socket(socket.AF_INET, socket.SOCK_DGRAM) as asking:
        for _, name in socket.if_nameindex():
            asked = struct.pack(f"{_LENGTH}s", name.encode()[: _NAME - 1])
            try:
                told = fcntl.ioctl(asking, _ASK.get(sys.platform, _ASK["darwin"]), asked)
            except OSError:  # this interface has none
                continue
            found.append(socket.inet_ntoa(told[_AT]))
    return found


def _by_name() -> list[str]:
    """Return the addresses of this machine's own name; Windows answers that itself."""
    try:
        return socket.gethostbyname_ex(socket.gethostname())[2]
    except OSError:
        return []
