"""What a window manager does when its close button is pressed: ask the window, politely, to go.

There is no window manager on the tests' display, and xdotool can only destroy; so the message is sent through Xlib.
"""

import ctypes


class _ClientMessage(ctypes.Structure):
    _fields_ = (
        ("type", ctypes.c_int),
        ("serial", ctypes.c_ulong),
        ("send_event", ctypes.c_int),
        ("display", ctypes.c_void_p),
        ("window", ctypes.c_ulong),
        ("message_type", ctypes.c_ulong),
        ("format", ctypes.c_int),
        ("data", ctypes.c_long * 5),
    )


class _Event(ctypes.Union):
    _fields_ = (("client", _ClientMessage), ("room", ctypes.c_long * 24))


CLIENT_MESSAGE = 33


def ask_to_close(display_name: str, window: int) -> None:
    """Send WM_DELETE_WINDOW to a window of the display."""
    library = ctypes.CDLL("libX11.so.6")
    library.XOpenDisplay.restype = ctypes.c_void_p
    library.XInternAtom.restype = ctypes.c_ulong
    library.XInternAtom.argtypes = (ctypes.c_void_p, ctypes.c_char_p, ctypes.c_int)
    library.XSendEvent.argtypes = (
        ctypes.c_void_p, ctypes.c_ulong, ctypes.c_int, ctypes.c_long, ctypes.POINTER(_Event),
    )  # fmt: skip
    library.XCloseDisplay.argtypes = (ctypes.c_void_p,)
    display = library.XOpenDisplay(display_name.encode())
    assert display, f"no display {display_name}"
    event = _Event()
    event.client.type = CLIENT_MESSAGE
    event.client.window = window
    event.client.message_type = library.XInternAtom(display, b"WM_PROTOCOLS", 0)
    event.client.format = 32
    event.client.data[0] = library.XInternAtom(display, b"WM_DELETE_WINDOW", 0)
    library.XSendEvent(display, window, 0, 0, ctypes.byref(event))
    library.XCloseDisplay(display)
