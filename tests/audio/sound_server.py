"""A sound server of the tests' own, so that what reaches the card can be recorded."""

from __future__ import annotations

import os
import shutil
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path

SINK = "gym"
PROGRAMS = ("pulseaudio", "parec", "pactl")
READY_WITHIN_S = 10.0

# The whole of ALSA's configuration, in place of the system's.
ALSA_CONFIG = "pcm.!default { type pulse }\nctl.!default { type pulse }\n"


@dataclass(frozen=True)
class SoundServer:
    """A running server."""

    env: dict[str, str]
    """Environment for programs that are to play on it or record from it, with an empty home."""


def missing_programs() -> list[str]:
    """Name what the server and the recorder need and this machine lacks."""
    return [program for program in PROGRAMS if shutil.which(program) is None]


def path_of(program: str) -> str:
    """Return where a program is; its bare name if it is nowhere, so that starting it says so."""
    return shutil.which(program) or program


@contextmanager
def private_sound_server(folder: Path) -> Iterator[SoundServer]:
    """Run a server whose socket and files are all in a folder, until the block is left."""
    runtime, home = folder / "run", folder / "home"
    runtime.mkdir(mode=0o700)
    home.mkdir()
    alsa_config = folder / "alsa.conf"
    alsa_config.write_text(ALSA_CONFIG)
    # Nothing of the user's: neither their server nor their folders.
    inherited = {k: v for k, v in os.environ.items() if not k.startswith(("PULSE_", "XDG_"))}
    env = inherited | {
        "XDG_RUNTIME_DIR": str(runtime),
        "HOME": str(home),
        "ALSA_CONFIG_PATH": str(alsa_config),
        # Named outright, since a client that finds no server would otherwise start one.
        "PULSE_SERVER": f"unix:{runtime}/pulse/native",
    }
    log = folder / "pulseaudio.log"
    with (
        log.open("wb") as output,
        subprocess.Popen(
            [
                path_of("pulseaudio"),
                "-n",
                "--daemonize=no",
                "--exit-idle-time=-1",
                "-L",
                "module-native-protocol-unix",
                "-L",
                # Without norewinds the first 1.5 s of what is played go missing.
                f"module-null-sink sink_name={SINK} rate=48000 norewinds=1",
            ],
            env=env,
            stdout=output,
            stderr=subprocess.STDOUT,
        ) as daemon,
    ):
        try:
            _wait_until_ready(daemon, env=env, log=log)
            yield SoundServer(env=env)
        finally:
            daemon.terminate()


def _wait_until_ready(daemon: subprocess.Popen[bytes], *, env: dict[str, str], log: Path) -> None:
    deadline = time.monotonic() + READY_WITHIN_S
    while time.monotonic() < deadline and daemon.poll() is None:
        answer = subprocess.run(
            [path_of("pactl"), "list", "short", "sinks"],
            env=env,
            capture_output=True,
            check=False,
        )
        if SINK.encode() in answer.stdout:
            return
        time.sleep(0.05)
    raise RuntimeError(f"the sound server did not start:\n{log.read_text(errors='replace')}")
