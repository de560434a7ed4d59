"""How soon the board shows what happened: `python -m tests.bench.board_latency`.

A typed session runs as a process of its own; fifty viewers listen to its stream on loopback. Measured is the
time from the line that the user ends to the notice with the next step, at each viewer.
"""

from __future__ import annotations

import asyncio
import json
import socket
import subprocess
import sys
from statistics import quantiles
from tempfile import TemporaryDirectory
from time import perf_counter

import httpx

from tests.dialogues import ORDER

VIEWERS = 50


async def watched(url: str, code_of: asyncio.Queue[str], shown: asyncio.Queue[tuple[str, float]]) -> None:
    async with httpx.AsyncClient(base_url=url, timeout=600, follow_redirects=True) as client:
        (await client.get("/", params={"code": await code_of.get()})).raise_for_status()
        async with client.stream("GET", "/seen") as answer:
            async for line in answer.aiter_lines():
                if line.startswith("data: {"):
                    step = json.loads(line.removeprefix("data: "))["glance"]["do"]
                    await shown.put((step, perf_counter()))


async def measured(process: subprocess.Popen[str], url: str) -> list[float]:
    assert process.stdin is not None
    assert process.stderr is not None
    codes: asyncio.Queue[str] = asyncio.Queue()
    shown: asyncio.Queue[tuple[str, float]] = asyncio.Queue()
    viewers = [asyncio.create_task(watched(url, codes, shown)) for _ in range(VIEWERS)]
    for _ in viewers:
        line = await asyncio.to_thread(process.stderr.readline)
        await codes.put(line.split()[-1])
    steps = {(await shown.get())[0] for _ in viewers}
    took_s = []
    for line in ORDER:
        began = perf_counter()
        process.stdin.write(f"{line}\n")
        process.stdin.flush()
        new = 0
        while new < VIEWERS:
            step, at = await shown.get()
            if step not in steps:
                took_s.append(at - began)
                new += 1
        steps = {step}
    for viewer in viewers:
        viewer.cancel()
    return took_s


def main() -> None:
    with socket.socket() as free:
        free.bind(("127.0.0.1", 0))
        at = f"127.0.0.1:{free.getsockname()[1]}"
    with TemporaryDirectory() as folder:
        command = [sys.executable, "-m", "handsfree", "guide", "--ear", "typed", "--board-at", at]
        with subprocess.Popen(
            [*command, "--sessions", folder],
            stdin=subprocess.PIPE,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.PIPE,
            text=True,
        ) as process:
            assert process.stderr is not None
            url = process.stderr.readline().split()[-1]
            process.stderr.readline()
            took_ms = [1000 * one for one in asyncio.run(measured(process, url))]
            process.kill()
    cuts = quantiles(took_ms, n=10)
    print(
        f"{len(ORDER)} steps, {VIEWERS} viewers: median {cuts[4]:.0f} ms, 90 % {cuts[8]:.0f} ms, "
        f"longest {max(took_ms):.0f} ms"
    )


if __name__ == "__main__":
    main()
