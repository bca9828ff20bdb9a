#!/usr/bin/python3
"""Stands where the controller's screen would be: switches it on, runs one program, and keeps samples of its axes meanwhile.

Started by the controller itself; PROGRAM, RAW_SAMPLES and VERDICT in the environment are absolute paths.
"""
import os
import subprocess
import sys
import time

import linuxcnc

LONGEST_RUN = 300  # seconds

command, status, errors = linuxcnc.command(), linuxcnc.stat(), linuxcnc.error_channel()


def end(verdict):
    with open(os.environ["VERDICT"], "w") as file:
        file.write(verdict + "\n")
    sys.exit(verdict != "done")


def await_state(what, reached, seconds=15):
    give_up = time.monotonic() + seconds
    while time.monotonic() < give_up:
        try:
            status.poll()
        except linuxcnc.error:  # not up yet
            time.sleep(0.05)
            continue
        complaint = errors.poll()
        if complaint:
            end("%s: %s" % (what, complaint[1].strip()))
        if reached():
            return
        time.sleep(0.02)
    end("%s: not within %d s" % (what, seconds))


def set_sampling(on):
    subprocess.check_call(["halcmd", "setp", "sampler.0.enable", "1" if on else "0"])


await_state("start", lambda: status.task_state > 0)
command.state(linuxcnc.STATE_ESTOP_RESET)
await_state("emergency stop released", lambda: status.task_state != linuxcnc.STATE_ESTOP)
command.state(linuxcnc.STATE_ON)
await_state("machine on", lambda: status.task_state == linuxcnc.STATE_ON)
command.mode(linuxcnc.MODE_MANUAL)
command.wait_complete()
command.teleop_enable(0)
command.wait_complete()
command.home(-1)
await_state("reference", lambda: all(status.homed[: status.joints]))
command.mode(linuxcnc.MODE_AUTO)
command.wait_complete()
command.program_open(os.environ["PROGRAM"])
command.wait_complete()

sampler = subprocess.Popen(["halsampler", "-t", "-c", "0", os.environ["RAW_SAMPLES"]])
time.sleep(0.2)
set_sampling(True)
command.auto(linuxcnc.AUTO_RUN, 0)
await_state("run", lambda: status.interp_state != linuxcnc.INTERP_IDLE)
await_state(
    "end of the run",
    lambda: status.interp_state == linuxcnc.INTERP_IDLE and status.inpos and status.queue == 0,
    LONGEST_RUN,
)
set_sampling(False)
time.sleep(0.5)
lost = int(subprocess.check_output(["halcmd", "getp", "sampler.0.overruns"]))
sampler.terminate()
sampler.wait()
end("%d samples lost" % lost if lost else "done")
