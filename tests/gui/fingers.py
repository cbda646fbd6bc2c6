#!/usr/bin/python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Puts fingers and a pen on the screen of an X server with the inputtest driver: fingers.py SOCKETS WIDTH HEIGHT

Reads one command a line, in px of the screen, and answers "done" when the server has dealt with it:

  down FINGER X Y      a finger, 1 to 5, touches the screen
  move FINGER X Y      it moves there
  up FINGER            it leaves
  pen near X Y         the pen comes near the screen
  pen press            its tip touches
  pen move X Y         it moves, touching or not
  pen lift             its tip leaves the screen
  pen far              it is taken away

The messages are those that the manual page inputtestdrv(4) and the server's header for them describe, protocol 1.1; numbers of touch events are XInput 2's.
"""
import socket
import struct
import sys

CLIENT_VERSION, WAIT_FOR_SYNC, MOTION, PROXIMITY, BUTTON, TOUCH = 0, 1, 2, 3, 4, 6
TOUCH_BEGIN, TOUCH_UPDATE, TOUCH_END = 18, 19, 20
MAX_VALUATORS = 64
AXIS_MAX = 65535  # the driver's axes reach from 0 to here over the whole screen
PEN_PRESSURE_AXIS, PEN_PRESSURE = 4, 600
TIP_BUTTON = 1


def valuators(values):
    """Axis values as the driver takes them: which are set, then all of them, then as many unaccelerated ones, which are not."""
    mask, numbers = bytearray(MAX_VALUATORS // 8), [0.0] * MAX_VALUATORS
    for axis, value in values.items():
        mask[axis // 8] |= 1 << axis % 8
        numbers[axis] = value
    return struct.pack(f"=I8s4x{MAX_VALUATORS}d{MAX_VALUATORS}d", 0, bytes(mask), *numbers, *[0.0] * MAX_VALUATORS)


class Device:
    def __init__(self, path):
        self.link = socket.socket(socket.AF_UNIX, socket.SOCK_STREAM)
        self.link.settimeout(10)
        self.link.connect(path)
        self.send(CLIENT_VERSION, struct.pack("=HH", 1, 1))
        self.receive()
        self.at = {}

    def send(self, kind, body=b""):
        self.link.sendall(struct.pack("=II", 8 + len(body), kind) + body)

    def receive(self):
        """Reads one answer; each begins with its length."""
        answer = b""
        while len(answer) < 4 or len(answer) < struct.unpack_from("=I", answer)[0]:
            more = self.link.recv(64)
            if not more:
                sys.exit("the server closed the device")
            answer += more

    def sync(self):
        self.send(WAIT_FOR_SYNC)
        self.receive()


def main():
    sockets, width, height = sys.argv[1], float(sys.argv[2]), float(sys.argv[3])
    touch, pen = Device(sockets + "/touch"), Device(sockets + "/pen")

    def place(x, y):
        # the middle of the pixel
        return {0: (float(x) + 0.5) * AXIS_MAX / width, 1: (float(y) + 0.5) * AXIS_MAX / height}

    def finger(number, kind):
        touch.send(TOUCH, struct.pack("=II", int(number), kind) + valuators(touch.at[number]))
        touch.sync()

    def pen_to(kind, head):
        pen.send(kind, head + valuators({**pen.at, PEN_PRESSURE_AXIS: PEN_PRESSURE}))
        pen.sync()

    for line in sys.stdin:
        match line.split():
            case ["down", number, x, y]:
                touch.at[number] = place(x, y)
                finger(number, TOUCH_BEGIN)
            case ["move", number, x, y]:
                touch.at[number] = place(x, y)
                finger(number, TOUCH_UPDATE)
            case ["up", number]:
                finger(number, TOUCH_END)
            case ["pen", "near", x, y]:
                pen.at = place(x, y)
                pen_to(PROXIMITY, struct.pack("=I4x", 1))
                pen_to(MOTION, struct.pack("=I4x", 1))
            case ["pen", "move", x, y]:
                pen.at = place(x, y)
                pen_to(MOTION, struct.pack("=I4x", 1))
            case ["pen", "press" | "lift" as what]:
                pen_to(BUTTON, struct.pack("=iiI4x", 1, TIP_BUTTON, what == "press"))
            case ["pen", "far"]:
                pen_to(PROXIMITY, struct.pack("=I4x", 0))
            case _:
                sys.exit("unknown command: " + line)
        print("done", flush=True)


if __name__ == "__main__":
    main()
