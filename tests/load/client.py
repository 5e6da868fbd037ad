"""The asking side, in a process of its own: an order of JSON a line comes in, its figures go out the same way.

Plain sockets and one selector, so that it takes a small part of what a request costs the server.
"""

import json
import selectors
import socket
import sys
import time
from dataclasses import dataclass, field

HOST = "127.0.0.1"
PIECE = 1 << 18
SILENCE_SECONDS = 120.0


@dataclass(slots=True)
class Exchange:
    """A connection and what has come of the answer it waits for."""

    connection: socket.socket
    began: float = 0.0
    received: bytearray = field(default_factory=bytearray)
    expected: int = 0

    def ask(self, request: bytes) -> None:
        """Send the next request."""
        self.received.clear()
        self.expected = 0
        self.began = time.perf_counter()
        self.connection.sendall(request)

    def is_answered(self) -> bool:
        """Take what has arrived; whether the answer is whole."""
        piece = self.connection.recv(PIECE)
        self.received += piece
        if not self.expected:
            head, found, _ = bytes(self.received).partition(b"\r\n\r\n")
            if not piece or (found and not head.startswith(b"HTTP/1.1 200 ")):
                sys.exit(f"A request was answered with {head[:100]!r}; figures of refusals would mislead.")
            if found:
                length = head.lower().partition(b"\r\ncontent-length:")[2].partition(b"\r\n")[0]
                self.expected = len(head) + 4 + int(length)
        return 0 < self.expected <= len(self.received)


def ask_for(seconds: float, *, port: int, request: bytes, connections: int) -> list[float]:
    """Ask over and over for some time; how long each whole answer took [s]."""
    times: list[float] = []
    with selectors.DefaultSelector() as selector:
        for _ in range(connections):
            connection = socket.create_connection((HOST, port))
            connection.setsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY, 1)
            selector.register(connection, selectors.EVENT_READ, Exchange(connection))
        until = time.perf_counter() + seconds
        for key in list(selector.get_map().values()):
            key.data.ask(request)
        while selector.get_map():
            ready = selector.select(SILENCE_SECONDS)
            if not ready:
                sys.exit("No answer came for two minutes.")
            for key, _ in ready:
                exchange: Exchange = key.data
                if exchange.is_answered():
                    now = time.perf_counter()
                    times.append(now - exchange.began)
                    if now < until:
                        exchange.ask(request)
                    else:
                        selector.unregister(exchange.connection)
                        exchange.connection.close()
    return times


def main() -> None:
    """Carry out orders until there are no more."""
    for line in sys.stdin:
        order = json.loads(line)
        body = order["body"].encode()
        head = (
            f"POST {order['path']} HTTP/1.1\r\nHost: {HOST}:{order['port']}\r\nContent-Type: application/json\r\n"
            f"Accept: */*\r\nContent-Length: {len(body)}\r\n\r\n"
        )
        began = time.perf_counter()
        times = ask_for(
            order["seconds"], port=order["port"], request=head.encode() + body, connections=order["connections"]
        )
        print(json.dumps({"times": times, "seconds": time.perf_counter() - began}), flush=True)


if __name__ == "__main__":
    main()
