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
  pen turned           its other end, the eraser, is from now on the one that comes near
  pen upright          its tip is

The messages are those that the manual page inputtestdrv(4) and the server's header for them describe, protocol 1.1; numbers of touch events are XInput 2's. Which
end of a pen it is, drivers of pens tell in two properties of the device, which GTK reads.
"""
import ctypes
import socket
import struct
import sys

CLIENT_VERSION, WAIT_FOR_SYNC, MOTION, PROXIMITY, BUTTON, TOUCH = 0, 1, 2, 3, 4, 6
TOUCH_BEGIN, TOUCH_UPDATE, TOUCH_END = 18, 19, 20
MAX_VALUATORS = 64
AXIS_MAX = 65535  # the driver's axes reach from 0 to here over the whole screen
PEN_PRESSURE_AXIS, PEN_PRESSURE = 4, 600
TIP_BUTTON = 1
PEN_NAME = b"test pen"
# What such drivers give: a pen has a serial number and a kind; of the five numbers GTK takes the last two.
TIP_SERIALS, ERASER_SERIALS = (1, 0, 0, 7, 2), (1, 0, 0, 8, 10)
ALL_DEVICES, INTEGER, ATOM, REPLACE = 0, 19, 4, 0  # of X's protocol


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


class DeviceInfo(ctypes.Structure):
    _fields_ = [("id", ctypes.c_int), ("name", ctypes.c_char_p), ("use", ctypes.c_int), ("attachment", ctypes.c_int), ("enabled", ctypes.c_int),
                ("n_classes", ctypes.c_int), ("classes", ctypes.c_void_p)]


class PenEnds:
    """Tells the server's clients which end of the pen is the one in use."""

    def __init__(self):
        self.x, self.xi = ctypes.CDLL("libX11.so.6"), ctypes.CDLL("libXi.so.6")
        self.x.XOpenDisplay.restype = ctypes.c_void_p
        self.x.XInternAtom.restype = ctypes.c_ulong
        self.xi.XIQueryDevice.restype = ctypes.POINTER(DeviceInfo)
        self.display = ctypes.c_void_p(self.x.XOpenDisplay(None))
        count = ctypes.c_int()
        infos = self.xi.XIQueryDevice(self.display, ALL_DEVICES, ctypes.byref(count))
        self.pen = next(infos[i].id for i in range(count.value) if infos[i].name == PEN_NAME)

    def atom(self, name):
        return self.x.XInternAtom(self.display, name, 0)

    def set(self, name, kind, values):
        numbers = (ctypes.c_uint32 * len(values))(*values)
        self.xi.XIChangeProperty(self.display, self.pen, ctypes.c_ulong(self.atom(name)), ctypes.c_ulong(kind), 32, REPLACE, numbers, len(values))
        self.x.XSync(self.display, 0)

    def show(self, kind, serials):
        self.set(b"Wacom Tool Type", ATOM, [self.atom(kind)])
        self.set(b"Wacom Serial IDs", INTEGER, serials)


def main():
    sockets, width, height = sys.argv[1], float(sys.argv[2]), float(sys.argv[3])
    touch, pen = Device(sockets + "/touch"), Device(sockets + "/pen")

    ends = PenEnds()

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
            case ["pen", "turned"]:
                ends.show(b"ERASER", ERASER_SERIALS)
            case ["pen", "upright"]:
                ends.show(b"STYLUS", TIP_SERIALS)
            case ["pen", "far"]:
                pen_to(PROXIMITY, struct.pack("=I4x", 0))
            case _:
                sys.exit("unknown command: " + line)
        print("done", flush=True)


if __name__ == "__main__":
    main()
