"""The accessibility bus as a tool for those who cannot see uses it: a session, a screen, and a walk over the tree.

AT-SPI 2 over D-Bus: the interfaces org.a11y.atspi.*, with the numbers of states and relations, as at-spi2-core's own
description of them has it.
"""

from __future__ import annotations

import os
import subprocess
import sys
from collections import deque
from contextlib import ExitStack, contextmanager, suppress
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from jeepney import DBusAddress, HeaderFields, MatchRule, new_method_call
from jeepney.io.blocking import open_dbus_connection
from jeepney.wrappers import unwrap_msg

if TYPE_CHECKING:
    from collections.abc import Iterator

ROOT = Path(__file__).parents[2]
ACCESSIBLE = "org.a11y.atspi.Accessible"
REGISTRY = ("org.a11y.atspi.Registry", "/org/a11y/atspi/registry")
DESKTOP = ("org.a11y.atspi.Registry", "/org/a11y/atspi/accessible/root")
KEYS = ("org.a11y.atspi.Registry", "/org/a11y/atspi/registry/deviceeventcontroller")
FOCUSABLE, SHOWING = 11, 25  # states
LABELLED_BY = 2  # a relation
AS_A_STRING = 4  # how the registry types
Ref = tuple[str, str]


class Node(NamedTuple):
    """One element as it stands on the bus."""

    ref: Ref
    role: str
    name: str
    description: str
    states: int

    def has(self, state: int) -> bool:
        return bool(self.states >> state & 1)


class Bus:
    """A client of the accessibility bus."""

    def __init__(self, address: str) -> None:
        self.connection = open_dbus_connection(address)
        self.events: deque[Any] = deque()
        self.call(REGISTRY, "org.a11y.atspi.Registry", "RegisterEvent", "sass", "object:", [], "")
        rule = MatchRule(type="signal", interface="org.a11y.atspi.Event.Object")
        daemon = ("org.freedesktop.DBus", "/org/freedesktop/DBus")
        self.call(daemon, "org.freedesktop.DBus", "AddMatch", "s", rule.serialise())
        self.connection.filter(rule, queue=self.events)

    def call(self, ref: Ref, interface: str, member: str, signature: str = "", *body: Any) -> Any:
        """Return what a method answers; its error is raised."""
        address = DBusAddress(ref[1], bus_name=ref[0], interface=interface)
        message = new_method_call(address, member, signature or None, body)
        answer = unwrap_msg(self.connection.send_and_get_reply(message, timeout=30))
        return answer[0] if answer else None

    def children(self, ref: Ref) -> list[Ref]:
        return self.call(ref, ACCESSIBLE, "GetChildren")

    def node(self, ref: Ref) -> Node:
        told = [
            self.call(ref, "org.freedesktop.DBus.Properties", "Get", "ss", ACCESSIBLE, one)[1]
            for one in ("Name", "Description")
        ]
        low, high = self.call(ref, ACCESSIBLE, "GetState")
        return Node(ref, self.call(ref, ACCESSIBLE, "GetRoleName"), *told, low | high << 32)

    def walk(self, ref: Ref) -> Iterator[Node]:
        """Yield an element that is shown, and all below it."""
        yield self.node(ref)
        for child in self.children(ref):
            yield from self.walk(child)

    def labels(self, ref: Ref) -> list[str]:
        """Return the names of what labels an element."""
        relations = self.call(ref, ACCESSIBLE, "GetRelationSet")
        return [self.node(one).name for kind, refs in relations if kind == LABELLED_BY for one in refs]

    def act(self, node: Node) -> None:
        """Do what an element does first of all."""
        assert self.call(node.ref, "org.a11y.atspi.Action", "DoAction", "i", 0), node

    def types(self, node: Node, text: str) -> None:
        """Bring the keyboard to an element and type."""
        assert self.call(node.ref, "org.a11y.atspi.Component", "GrabFocus"), node
        self.call(KEYS, "org.a11y.atspi.DeviceEventController", "GenerateKeyboardEvent", "isu", 0, text, AS_A_STRING)

    def announced(self) -> list[tuple[str, int]]:
        """Return what was announced so far, each with how urgent it is: 1 polite, 2 over all else."""
        with suppress(TimeoutError):
            self.connection.recv_messages(timeout=0.2)
        said = [one for one in self.events if one.header.fields[HeaderFields.member] == "Announcement"]
        return [(one.body[3][1], one.body[1]) for one in said]


@contextmanager
def desktop(folder: Path) -> Iterator[tuple[Bus, subprocess.Popen[bytes]]]:
    """Run the program on a screen and a session bus of its own; end them all."""
    with ExitStack() as stack:
        screen = _begin(stack, ["Xvfb", "-displayfd", "1", "-screen", "0", "1280x800x24", "-nolisten", "tcp"])
        env = {name: value for name, value in os.environ.items() if not name.startswith(("QT_", "DBUS_", "AT_SPI"))}
        env |= dict.fromkeys(("HOME", "XDG_RUNTIME_DIR", "COUNTER_LOCAL"), str(folder))
        env |= {"DISPLAY": f":{screen}", "QT_QPA_PLATFORM": "xcb", "QT_LINUX_ACCESSIBILITY_ALWAYS_ON": "1"}
        env |= {"PYTHONPATH": str(ROOT), "COUNTER_LANGUAGE": "en"}
        daemon = ["dbus-daemon", "--session", "--nofork", "--print-address=1", f"--address=unix:dir={folder}"]
        env["DBUS_SESSION_BUS_ADDRESS"] = address = _begin(stack, daemon, env)
        with open_dbus_connection(address) as session:
            place = DBusAddress("/org/a11y/bus", bus_name="org.a11y.Bus", interface="org.a11y.Bus")
            found = unwrap_msg(session.send_and_get_reply(new_method_call(place, "GetAddress"), timeout=30))[0]
        bus = Bus(found)
        stack.callback(bus.connection.close)
        command = [sys.executable, "-m", "counter", "--data", str(folder / "data")]
        yield bus, _ending(stack, subprocess.Popen(command, env=env))


def _begin(stack: ExitStack, command: list[str], env: dict[str, str] | None = None) -> str:
    """Start a server and return the first line that it says."""
    server = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, env=env)
    _ending(stack, server)
    assert server.stdout is not None
    stack.callback(server.stdout.close)
    return server.stdout.readline().decode().strip()


def _ending(stack: ExitStack, process: subprocess.Popen[bytes]) -> subprocess.Popen[bytes]:
    stack.callback(process.wait, 20)
    stack.callback(process.terminate)
    return process
