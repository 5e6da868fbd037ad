"""Measures how many threads a worker needs: ``python tests/load/measure_threads.py``; about two minutes.

For each number of threads one worker is asked for trap checks over eight connections: alone, beside a hundred idle
connections, and beside clients that send a request a byte at a time, each of which holds a thread once it has begun.
"""

import argparse
import socket
import statistics
import threading
from collections.abc import Iterator
from contextlib import contextmanager

from measure_speed import Client, Server, Tally, requests, service
from servers import HOST

IDLE = 100
SLOW = 3
SECONDS = 2.0
ROUNDS = 3
BYTE_SECONDS = 0.2


@contextmanager
def idle_clients(server: Server, count: int) -> Iterator[None]:
    """Connections that send nothing."""
    connections = [socket.create_connection((HOST, server.port)) for _ in range(count)]
    yield
    for connection in connections:
        connection.close()


@contextmanager
def slow_clients(server: Server, count: int) -> Iterator[None]:
    """Clients that send a byte now and then, and begin again when they are shut out."""
    over = threading.Event()

    def dribble() -> None:
        while not over.is_set():
            with socket.create_connection((HOST, server.port)) as connection:
                for byte in b"POST /v1/trap-check HTTP/1.1\r\nHost: slow\r\nContent-Type: application/json\r\n":
                    if over.wait(BYTE_SECONDS):
                        return
                    try:
                        connection.sendall(bytes([byte]))
                    except OSError:
                        break

    threads = [threading.Thread(target=dribble) for _ in range(count)]
    for thread in threads:
        thread.start()
    over.wait(2 * BYTE_SECONDS)
    yield
    over.set()
    for thread in threads:
        thread.join()


def main() -> None:
    """Measure, and print the table."""
    parser = argparse.ArgumentParser(description="Measures one worker with several numbers of threads.")
    parser.add_argument("--threads", type=int, nargs="+", default=[1, 2, 4, 8], help="default: 1 2 4 8")
    numbers = parser.parse_args().threads
    request = next(each for each in requests(every=False) if each.name.startswith("trap-check."))
    print("| threads | alone, 1/s | p99, ms | beside 100 idle, 1/s | p99, ms | beside 3 slow, 1/s | p99, ms |")
    print("| ---: | ---: | ---: | ---: | ---: | ---: | ---: |")
    client = Client()
    for threads in numbers:
        with service(argparse.Namespace(workers=1, threads=threads), {}) as server:
            shown = []
            for clients, count in ((idle_clients, 0), (idle_clients, IDLE), (slow_clients, SLOW)):
                tally = Tally()
                with clients(server, count):
                    for _ in range(ROUNDS):
                        client.ask(server, request.path, request.body, connections=8, seconds=SECONDS, tally=tally)
                shown.append(f"{statistics.median(tally.rates):.0f} | {tally.late * 1e3:.0f}")
            print(f"| {threads} | {' | '.join(shown)} |", flush=True)
    client.close()


if __name__ == "__main__":
    main()
